using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Straining;

/// <summary>A setup as SI doubles: the one place where a run's quantities become numbers.</summary>
internal sealed class StrainingParameters
{
    /// <summary>Checks a setup and converts it.</summary>
    /// <param name="setup">Setup to run.</param>
    /// <exception cref="ArgumentException">Something is out of its range.</exception>
    public StrainingParameters(StrainingSetup setup)
    {
        StrainingSetupCheck.Require(setup);
        Setup = setup;
        Honey = HoneyProperties.Of(setup.Honey);
        StartTankK = setup.HoneyTemperature.Kelvins;
        RoomK = setup.RoomTemperature.Kelvins;
        StartReceiverK = (setup.Receiver.StartTemperature ?? setup.RoomTemperature).Kelvins;

        Tank = setup.Tank.Shape;
        StartLevelM = setup.Tank.Level.Meters;
        GateHeightM = setup.Tank.GateHeight.Meters;
        WallFilm = setup.Tank.WallFilm;
        TankLossWPerM2K = setup.Tank.HeldAtTemperature ? 0 : setup.Tank.HeatLoss.WattsPerSquareMeterKelvin;
        PondLossWPerM2K = setup.Tank.HeatLoss.WattsPerSquareMeterKelvin;
        double startDensity = Honey.DensityKgPerM3(StartTankK);
        StartDensityKgPerM3 = startDensity;
        StartTankKg = startDensity * Tank.VolumeM3(StartLevelM);
        HeelLevelM = HeelLevel(setup);
        CanDrainKg = StartTankKg - (startDensity * Tank.VolumeM3(HeelLevelM));
        TankThermalKg = 0.001 * StartTankKg;

        SubmergedOutlet = setup.Gate.Outlet == GateOutlet.Submerged;
        OutletAboveScreenM = setup.Gate.OutletAboveScreen.Meters;
        (Openings, OpeningTimesS) = setup.Control switch
        {
            FixedOpening f => ([f.Opening.DecimalFractions], [0.0]),
            RiddenGate r => ([r.Widest.DecimalFractions], [0.0]),
            OpeningSchedule s => (
                s.Steps.Select(step => step.Opening.DecimalFractions).ToArray(),
                s.Steps.Select(step => step.At.Seconds).ToArray()),
            _ => throw new ArgumentException($"Unknown gate control {setup.Control.GetType().Name}.", nameof(setup)),
        };
        OpeningGeometries = Array.ConvertAll(Openings, s => GateFlow.GeometryOf(setup.Gate, s));
        RideDepthM = setup.Control is RiddenGate ridden ? ridden.PondDepth.Meters : double.PositiveInfinity;

        Form = setup.Strainer.Shape;
        RimVolumeM3 = Form.PondVolumeM3(Form.RimHeightM);
        MinimumHeadM = setup.Strainer.MinimumHead.Meters;
        Bypass = setup.Strainer.Overflow == OverflowPath.Bypass;
        SealedOn = setup.Strainer.Venting == Venting.Sealed;
        ScreenFactor = setup.Strainer.ScreenFactor;
        double[] clothOpenings = setup.Strainer.Cloths.Select(c => c.Opening.Meters).ToArray();
        ClothResistancesPerM = setup.Strainer.Cloths
            .Select(c => SquareCloth.ResistancePerMArmourCannon1968(c.Opening.Meters, c.WireDiameter.Meters))
            .ToArray();
        BlindingPerM = new double[clothOpenings.Length];
        Clogging.BlindedAreaPerVolumePerM(setup.Debris, startDensity, clothOpenings, BlindingPerM);
        Law = setup.Debris.Law;
        PondThermalKg = startDensity * Math.Max(MinimumHeadM, 0.001) * Form.WettedClothAreaM2(Form.RimHeightM);

        ScrapeTimesS = setup.Scraping.Times.Select(d => d.Seconds).ToArray();
        ScrapeDepthM = setup.Scraping.AtPondDepth?.Meters ?? double.PositiveInfinity;
        ScrapeRecovery = setup.Scraping.Recovery;
        ScrapePauseS = setup.Scraping.Pause.Seconds;

        Receiver = setup.Receiver.Shape;
        ReceiverCapacityM3 = Receiver.CapacityM3;
        SpacerM = setup.Receiver.Spacer.Meters;
        StartReceiverM3 = setup.Receiver.AlreadyIn.CubicMeters;
        StartReceiverKg = Honey.DensityKgPerM3(StartReceiverK) * StartReceiverM3;
        ShutWhenFull = setup.Receiver.ShutWhenFull;
        ReceiverLossWPerM2K = setup.Receiver.HeatLoss.WattsPerSquareMeterKelvin;
        ReceiverThermalKg = 0.001 * startDensity * ReceiverCapacityM3;

        LongestS = setup.Longest.Seconds;
        StallKgPerS = CanDrainKg / StallHorizonS;
    }

    /// <summary>Least head over the gate at which a tank still drains, m (engineering choice).</summary>
    public const double HeelHeadM = 0.002;

    /// <summary>Driving head on the cloth at which the strainer counts as run through, m (engineering choice).</summary>
    public const double RunThroughHeadM = 0.001;

    /// <summary>Share of what can drain that may stay on the strainer when it counts as run through (engineering choice).</summary>
    public const double RunThroughShare = 0.001;

    /// <summary>Blinded share of some cloth below which nobody scrapes by depth (engineering choice).</summary>
    public const double WorthScraping = 0.01;

    /// <summary>Most scrapes by depth in a run (engineering choice): an attendant who achieves nothing gives up.</summary>
    public const int MostScrapesByDepth = 1000;

    /// <summary>A flow that would take longer than this to move what can drain counts as stalled, s: 7 days (engineering choice).</summary>
    public const double StallHorizonS = 7 * 86400.0;

    /// <summary>
    /// Level at which the tank counts as drained: 2 mm over the gate's axis, or where the surface has narrowed to the bore if
    /// that is higher, as in a cone that ends in the gate.
    /// </summary>
    public static double HeelLevel(StrainingSetup setup)
    {
        VesselShape shape = setup.Tank.Shape;
        double bore = setup.Gate.Bore.Meters;
        double boreArea = Math.PI * bore * bore / 4;
        double low = setup.Tank.GateHeight.Meters + HeelHeadM;
        double high = shape.HeightM;
        if (shape.SurfaceAreaM2(low) >= boreArea)
            return low;

        while (high - low > 1e-9 * shape.HeightM)
        {
            double middle = 0.5 * (low + high);
            if (shape.SurfaceAreaM2(middle) >= boreArea)
                high = middle;
            else
                low = middle;
        }

        return high;
    }

    public StrainingSetup Setup { get; }
    public HoneyProperties Honey { get; }
    public double StartTankK { get; }
    public double RoomK { get; }
    public double StartReceiverK { get; }
    public VesselShape Tank { get; }
    public double StartLevelM { get; }
    public double GateHeightM { get; }
    public bool WallFilm { get; }
    public double TankLossWPerM2K { get; }
    public double PondLossWPerM2K { get; }
    public double StartDensityKgPerM3 { get; }
    public double StartTankKg { get; }
    public double HeelLevelM { get; }
    public double CanDrainKg { get; }
    public double TankThermalKg { get; }
    public bool SubmergedOutlet { get; }
    public double OutletAboveScreenM { get; }
    public double[] Openings { get; }
    public double[] OpeningTimesS { get; }
    public GateGeometry[] OpeningGeometries { get; }
    public double RideDepthM { get; }
    public ScreenShape Form { get; }
    public double RimVolumeM3 { get; }
    public double MinimumHeadM { get; }
    public bool Bypass { get; }
    public bool SealedOn { get; }
    public double ScreenFactor { get; }
    public double[] ClothResistancesPerM { get; }
    public double[] BlindingPerM { get; }
    public BlockingLaw Law { get; }
    public double PondThermalKg { get; }
    public double[] ScrapeTimesS { get; }
    public double ScrapeDepthM { get; }
    public double ScrapeRecovery { get; }
    public double ScrapePauseS { get; }
    public VesselShape Receiver { get; }
    public double ReceiverCapacityM3 { get; }
    public double SpacerM { get; }
    public double StartReceiverM3 { get; }
    public double StartReceiverKg { get; }
    public bool ShutWhenFull { get; }
    public double ReceiverLossWPerM2K { get; }
    public double ReceiverThermalKg { get; }
    public double LongestS { get; }
    public double StallKgPerS { get; }
}
