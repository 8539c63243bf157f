using FlowSim.Heating;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>A warming setup as numbers, SI.</summary>
internal sealed record WarmingParameters
{
    /// <summary>Coefficient of the air gap under a closed lid, W/(m²·K): radiation between dark surfaces and some convection (engineering choice).</summary>
    public const double LidGapWPerM2K = 6;

    public required IHeatProperties Honey { get; init; }

    public required CylinderGrid Grid { get; init; }

    public required InsideHeat Inside { get; init; }

    public required KitContacts Contacts { get; init; }

    public double StartK { get; init; }

    public double RoomK { get; init; }

    public double Vessels { get; init; } = 1;

    /// <summary>Resistance of the side's wall per area of its inside, m²·K/W.</summary>
    public double SideWallM2KPerW { get; init; }

    /// <summary>Outside over inside radius.</summary>
    public double SideRadiusRatio { get; init; } = 1;

    /// <summary>Resistance of the floor, m²·K/W.</summary>
    public double FloorWallM2KPerW { get; init; }

    /// <summary>Resistance of the lid with its air, m²·K/W.</summary>
    public double TopWallM2KPerW { get; init; }

    public double Emissivity { get; init; } = 0.9;

    /// <summary>Factor on every film, 1 as published.</summary>
    public double FilmFactor { get; init; } = 1;

    /// <summary>Most that the heater gives, W; infinite for as much as is needed.</summary>
    public double HeaterW { get; init; } = double.PositiveInfinity;

    public double BodyJPerK { get; init; } = 1;

    public double BodyStartK { get; init; }

    /// <summary>Loss of the body to the room, W/K.</summary>
    public double BodyLossWPerK { get; init; }

    public required SetpointCurve Setpoint { get; init; }

    public double HysteresisK { get; init; }

    public SensorPlace Sensor { get; init; }

    /// <summary>Cell of the sensor; for one on the wall that of the outermost column.</summary>
    public int SensorCell { get; init; }

    public double LagS { get; init; }

    /// <summary>Cut-out, K; infinite for none.</summary>
    public double CutOutK { get; init; } = double.PositiveInfinity;

    public bool Unlimited => double.IsPositiveInfinity(HeaterW);

    /// <summary>Numbers of a setup, checked.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="options">Options.</param>
    /// <param name="factors">Factors on films and heat capacity.</param>
    public static WarmingParameters Of(WarmingSetup setup, WarmingOptions options, HeatFactors factors)
    {
        HoneyProperties honey = WarmingSetupCheck.Require(setup, options);
        WarmedVessel vessel = setup.Vessel;
        HeatingKit kit = setup.Heating;
        Thermostat thermostat = kit.Thermostat;
        bool mixed = options.Inside == InsideHeat.WellMixed;
        double radiusM = VesselCylinder.RadiusM(vessel), heightM = vessel.Level.Meters;
        var grid = new CylinderGrid(radiusM, heightM, mixed ? 1 : options.RadialCells, mixed ? 1 : options.AxialCells);
        (double sideWall, double outerM) = WallResistance.CylinderM2KPerW(radiusM, vessel.Wall);
        KitContacts contacts = kit.Contacts(vessel);
        return new WarmingParameters
        {
            Honey = new HoneyHeat(honey, setup.Crystals, factors.HeatCapacity),
            Grid = grid,
            Inside = options.Inside,
            Contacts = vessel.Lid == VesselLid.Insulated ? contacts with { Top = Film.None } : contacts,
            StartK = setup.StartTemperature.Kelvins,
            RoomK = setup.RoomTemperature.Kelvins,
            Vessels = setup.Vessels,
            SideWallM2KPerW = sideWall,
            SideRadiusRatio = outerM / radiusM,
            FloorWallM2KPerW = WallResistance.PlaneM2KPerW(vessel.Wall),
            TopWallM2KPerW = vessel.Lid == VesselLid.Closed ? 1 / LidGapWPerM2K : 0,
            Emissivity = vessel.Emissivity,
            FilmFactor = factors.Film,
            HeaterW = kit.HeaterPower is { } power ? (double)power.Watts : double.PositiveInfinity,
            BodyJPerK = kit.BodyHeatCapacity.JoulesPerKelvin,
            BodyStartK = (kit.BodyStart ?? setup.RoomTemperature).Kelvins,
            BodyLossWPerK = kit.LossArea.SquareMeters * kit.LossCoefficient.WattsPerSquareMeterKelvin,
            Setpoint = new SetpointCurve(thermostat.Schedule),
            HysteresisK = thermostat.Hysteresis.Kelvins,
            Sensor = thermostat.Sensor,
            SensorCell = SensorCellOf(thermostat, grid),
            LagS = thermostat.Lag.Seconds,
            CutOutK = thermostat.CutOut?.Kelvins ?? double.PositiveInfinity,
        };
    }

    private static int SensorCellOf(Thermostat thermostat, CylinderGrid grid)
    {
        int k = Cell(thermostat.SensorHeight, grid.AxialCells);
        int i = thermostat.Sensor == SensorPlace.Wall ? grid.RadialCells - 1 : Cell(thermostat.SensorRadius, grid.RadialCells);
        return i * grid.AxialCells + k;
    }

    private static int Cell(Ratio share, int cells) => Math.Min(cells - 1, (int)(share.DecimalFractions * cells));
}
