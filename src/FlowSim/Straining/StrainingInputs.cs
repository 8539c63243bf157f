using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Straining;

/// <summary>The numbers of a straining setup that can be varied, one line each.</summary>
public static class StrainingInputs
{
    /// <summary>Least difference of a pond that is ridden from minimum head and rim, m, as in <see cref="RiddenGate.PondDepth"/>.</summary>
    private const double RideMarginM = 0.001;

    /// <summary>Moisture of the honey, share of mass.</summary>
    public static StrainingInput Moisture { get; } = new(
        "honey.moisture", "moisture", "", (ref n) => ref n.MoisturePercent, MoistureRange,
        (s, v) => s with { Honey = s.Honey with { Moisture = Ratio.FromPercent(100 * v) } }, perSi: 100);

    /// <summary>Temperature of the honey at the start, K.</summary>
    public static StrainingInput HoneyTemperature { get; } = new(
        "honey.temperature", "honey temperature", "K", (ref n) => ref n.StartTankK,
        s => Kelvins((s.Honey.Viscosity ?? ViscosityCorrelations.Default).TemperatureRange),
        (s, v) => s with { HoneyTemperature = Temperature.FromKelvins(v) });

    /// <summary>Lot factor: this honey's viscosity over the correlation's.</summary>
    public static StrainingInput LotFactor { get; } = new(
        "honey.lot_factor", "lot factor of viscosity", "", (ref n) => ref n.LotFactor, _ => (LotFactorSpread.Range.Low, LotFactorSpread.Range.High),
        (s, v) => s with { Honey = s.Honey with { LotFactor = v } });

    /// <summary>Temperature of the room, K.</summary>
    public static StrainingInput RoomTemperature { get; } = new(
        "room.temperature", "room temperature", "K", (ref n) => ref n.RoomK, _ => (263.15, 333.15),
        (s, v) => s with { RoomTemperature = Temperature.FromKelvins(v) });

    /// <summary>Level of the honey in the tank at the start, m.</summary>
    public static StrainingInput TankLevel { get; } = new(
        "tank.level", "level in the tank", "m", (ref n) => ref n.StartLevelM,
        s => (StrainingParameters.HeelLevel(s) + TankHeel.LeastHeadM, s.Tank.Shape.HeightM),
        (s, v) => s with { Tank = s.Tank with { Level = Length.FromMeters(v) } });

    /// <summary>Height of the gate's axis, m.</summary>
    public static StrainingInput GateHeight { get; } = new(
        "tank.gate_height", "height of the gate", "m", (ref n) => ref n.GateHeightM,
        s => (0, Math.Max(s.Tank.GateHeight.Meters, s.Tank.Level.Meters - (StrainingParameters.HeelLevel(s) - s.Tank.GateHeight.Meters) - TankHeel.LeastHeadM)),
        (s, v) => s with { Tank = s.Tank with { GateHeight = Length.FromMeters(v) } });

    /// <summary>Coefficient of the heat that tank and strainer lose, W/(m²·K).</summary>
    public static StrainingInput TankHeatLoss { get; } = new(
        "tank.heat_loss", "heat loss of the tank", "W/(m²·K)", (ref n) => ref n.TankHeatLossWPerM2K, _ => (0, 100),
        (s, v) => s with { Tank = s.Tank with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(v) } });

    /// <summary>Bore of the gate, m.</summary>
    public static StrainingInput Bore { get; } = new(
        "gate.bore", "bore of the gate", "m", (ref n) => ref n.BoreM, _ => (0.003, 0.2),
        (s, v) => s with { Gate = s.Gate with { Bore = Length.FromMeters(v) } });

    /// <summary>Length of the gate's tube, m.</summary>
    public static StrainingInput TubeLength { get; } = new(
        "gate.tube_length", "length of the gate's tube", "m", (ref n) => ref n.TubeLengthM, _ => (0, 2),
        (s, v) => s with { Gate = s.Gate with { TubeLength = Length.FromMeters(v) } });

    /// <summary>Factor on the resistance of the gate.</summary>
    public static StrainingInput GateFactor { get; } = new(
        "gate.factor", "resistance of the gate", "", (ref n) => ref n.GateFactor, _ => (GateCheck.LeastFactor, GateCheck.MostFactor),
        (s, v) => s with { Gate = s.Gate with { Factor = v } });

    /// <summary>Opening of the gate, share of the bore; of a schedule or a ridden gate the widest, the others in proportion.</summary>
    public static StrainingInput Opening { get; } = new(
        "gate.opening", "opening of the gate", "", (ref n) => ref n.WidestOpening, _ => (0, 1), WithOpening);

    /// <summary>Depth of pond that somebody holds, m.</summary>
    public static StrainingInput RideDepth { get; } = new(
        "gate.ride_pond", "depth of pond that is held", "m", (ref n) => ref n.RideDepthM,
        s => (s.Strainer.MinimumHead.Meters + RideMarginM, s.Strainer.Shape.RimHeight.Meters - RideMarginM),
        (s, v) => s.Control is RiddenGate ridden ? s with { Control = ridden with { PondDepth = Length.FromMeters(v) } } : s,
        s => s.Control is RiddenGate);

    /// <summary>Height of a submerged outlet above the cloth, m.</summary>
    public static StrainingInput OutletAboveScreen { get; } = new(
        "gate.outlet_above_screen", "height of the outlet", "m", (ref n) => ref n.OutletAboveScreenM, _ => (0, 5),
        (s, v) => s with { Gate = s.Gate with { OutletAboveScreen = Length.FromMeters(v) } },
        s => s.Gate.Outlet == GateOutlet.Submerged);

    /// <summary>Opening of the first cloth, m.</summary>
    public static StrainingInput ClothOpening { get; } = new(
        "screen.opening", "opening of the cloth", "m", (ref n) => ref n.ClothOpeningM,
        s => (Math.Max(20e-6, 0.5 * s.Strainer.Cloths[0].Opening.Meters), Math.Min(0.01, 2 * s.Strainer.Cloths[0].Opening.Meters)),
        (s, v) => WithCloth(s, cloth => cloth with { Opening = Length.FromMeters(v) }));

    /// <summary>Wire diameter of the first cloth, m.</summary>
    public static StrainingInput Wire { get; } = new(
        "screen.wire", "wire of the cloth", "m", (ref n) => ref n.WireM,
        s => (Math.Max(10e-6, 0.5 * s.Strainer.Cloths[0].WireDiameter.Meters), Math.Min(0.005, 1.5 * s.Strainer.Cloths[0].WireDiameter.Meters)),
        (s, v) => WithCloth(s, cloth => cloth with { WireDiameter = Length.FromMeters(v) }));

    /// <summary>Height of the strainer's rim, m. A cone keeps its slope.</summary>
    public static StrainingInput RimHeight { get; } = new(
        "screen.rim_height", "height of the rim", "m", (ref n) => ref n.RimHeightM, RimRange,
        (s, v) => s with { Strainer = s.Strainer with { Shape = s.Strainer.Shape.WithRimM(v) ?? s.Strainer.Shape } },
        s => s.Strainer.Shape.WithRimM(s.Strainer.Shape.RimHeightM) is not null);

    /// <summary>Factor on the published resistance of clean cloth.</summary>
    public static StrainingInput ScreenFactor { get; } = new(
        "screen.factor", "resistance of the cloth", "", (ref n) => ref n.ScreenFactor, _ => (ScreenCheck.LeastScreenFactor, ScreenCheck.MostScreenFactor),
        (s, v) => s with { Strainer = s.Strainer with { ScreenFactor = v } });

    /// <summary>Head that the wet cloth holds back, m.</summary>
    public static StrainingInput MinimumHead { get; } = new(
        "screen.minimum_head", "head that the wet cloth holds back", "m", (ref n) => ref n.MinimumHeadM, _ => (0, 0.05),
        (s, v) => s with { Strainer = s.Strainer with { MinimumHead = Length.FromMeters(v) } });

    /// <summary>Debris, share of the honey's mass.</summary>
    public static StrainingInput DebrisLoad { get; } = new(
        "debris.load", "debris", "", (ref n) => ref n.Debris.Load, _ => (0, ScreenCheck.MostDebrisPercent / 100),
        (s, v) => s with { Debris = s.Debris with { Load = Ratio.FromDecimalFractions(v) } });

    /// <summary>Median size of the debris by mass, m.</summary>
    public static StrainingInput DebrisSize { get; } = new(
        "debris.median_size", "size of the debris", "m", (ref n) => ref n.Debris.MedianM, _ => (1e-6, 0.02),
        (s, v) => s with { Debris = s.Debris with { MedianSize = Length.FromMeters(v) } });

    /// <summary>Standard deviation of ln size of the debris.</summary>
    public static StrainingInput DebrisSizeSpread { get; } = new(
        "debris.size_spread", "spread of the debris' sizes", "", (ref n) => ref n.Debris.SizeSpread, _ => (LogNormalMoments.SpreadRange.OuterLow, LogNormalMoments.SpreadRange.OuterHigh),
        (s, v) => s with { Debris = s.Debris with { SizeSpread = v } });

    /// <summary>Share of the oversize bits that a cloth catches.</summary>
    public static StrainingInput DebrisCapture { get; } = new(
        "debris.capture", "share of the bits that is caught", "", (ref n) => ref n.Debris.Capture, _ => (0, 1),
        (s, v) => s with { Debris = s.Debris with { CaptureEfficiency = v } });

    /// <summary>Density of the bits, kg/m³.</summary>
    public static StrainingInput DebrisDensity { get; } = new(
        "debris.density", "density of the bits", "kg/m³", (ref n) => ref n.Debris.DensityKgPerM3, _ => (500, 3000),
        (s, v) => s with { Debris = s.Debris with { Density = Density.FromKilogramsPerCubicMeter(v) } });

    /// <summary>Share of the blinded cloth that a scrape clears.</summary>
    public static StrainingInput ScrapeRecovery { get; } = new(
        "scraping.recovery", "what a scrape clears", "", (ref n) => ref n.ScrapeRecovery, _ => (0, 1),
        (s, v) => s with { Scraping = s.Scraping with { Recovery = v } },
        s => s.Scraping.Times.Count > 0 || s.Scraping.AtPondDepth is not null);

    /// <summary>Pond depth at which somebody scrapes, m.</summary>
    public static StrainingInput ScrapeDepth { get; } = new(
        "scraping.at_pond_depth", "depth at which the cloth is scraped", "m", (ref n) => ref n.ScrapeDepthM, _ => (0.001, 10),
        (s, v) => s with { Scraping = s.Scraping with { AtPondDepth = Length.FromMeters(v) } },
        s => s.Scraping.AtPondDepth is not null);

    /// <summary>Shortest time between two scrapes by depth, s.</summary>
    public static StrainingInput ScrapePause { get; } = new(
        "scraping.pause", "pause between scrapes", "s", (ref n) => ref n.ScrapePauseS, _ => (1, 30 * 86400),
        (s, v) => s with { Scraping = s.Scraping with { Pause = Duration.FromSeconds(v) } },
        s => s.Scraping.AtPondDepth is not null);

    /// <summary>Honey in the receiver at the start, m³.</summary>
    public static StrainingInput AlreadyIn { get; } = new(
        "receiver.already_in", "honey already in the receiver", "m³", (ref n) => ref n.StartReceiverM3, s => (0, s.Receiver.Shape.CapacityM3),
        (s, v) => s with { Receiver = s.Receiver with { AlreadyIn = Volume.FromCubicMeters(v) } });

    /// <summary>Temperature of the receiver at the start, K.</summary>
    public static StrainingInput ReceiverTemperature { get; } = new(
        "receiver.temperature", "temperature of the receiver", "K", (ref n) => ref n.StartReceiverK, _ => (243.15, 373.15),
        (s, v) => s with { Receiver = s.Receiver with { StartTemperature = Temperature.FromKelvins(v) } },
        s => s.Receiver.StartTemperature is not null);

    /// <summary>Height of the strainer above the receiver's brim, m.</summary>
    public static StrainingInput Spacer { get; } = new(
        "receiver.spacer", "spacer", "m", (ref n) => ref n.SpacerM, s => (-s.Receiver.Shape.HeightM, 5),
        (s, v) => s with { Receiver = s.Receiver with { Spacer = Length.FromMeters(v) } });

    /// <summary>Coefficient of the heat that the receiver loses, W/(m²·K).</summary>
    public static StrainingInput ReceiverHeatLoss { get; } = new(
        "receiver.heat_loss", "heat loss of the receiver", "W/(m²·K)", (ref n) => ref n.ReceiverHeatLossWPerM2K, _ => (0, 100),
        (s, v) => s with { Receiver = s.Receiver with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(v) } });

    /// <summary>All of them.</summary>
    public static IReadOnlyList<StrainingInput> All { get; } =
    [
        Moisture, HoneyTemperature, LotFactor, RoomTemperature, TankLevel, GateHeight, TankHeatLoss, Bore, TubeLength, GateFactor, Opening, RideDepth,
        OutletAboveScreen, ClothOpening, Wire, RimHeight, ScreenFactor, MinimumHead, DebrisLoad, DebrisSize, DebrisSizeSpread, DebrisCapture,
        DebrisDensity, ScrapeRecovery, ScrapeDepth, ScrapePause, AlreadyIn, ReceiverTemperature, Spacer, ReceiverHeatLoss,
    ];

    /// <summary>The input of a name.</summary>
    /// <param name="name">Name, as <c>honey.moisture</c>; case does not matter.</param>
    /// <exception cref="ArgumentException">No input has that name; the message gives the nearest.</exception>
    public static StrainingInput ByName(string name) => NamedChoice.ByName(All, input => input.Name, name, "input that can be varied");

    private static (double Low, double High) MoistureRange(StrainingSetup setup)
    {
        (double low, double high) = HoneyProperties.MoistureLimits(setup.Honey);
        return (low / 100, high / 100);
    }

    /// <summary>Half the rim to twice, and above what is ridden.</summary>
    private static (double Low, double High) RimRange(StrainingSetup setup)
    {
        double rim = setup.Strainer.Shape.RimHeightM;
        double ridden = setup.Control is RiddenGate gate ? gate.PondDepth.Meters : setup.Strainer.MinimumHead.Meters;
        return (Math.Min(rim, Math.Max(0.5 * rim, ridden + RideMarginM)), Math.Min(2 * rim, 3));
    }

    private static (double Low, double High) Kelvins(ValidityRange celsius) =>
        (celsius.OuterLow + Physical.ZeroCelsiusK, celsius.OuterHigh + Physical.ZeroCelsiusK);

    private static StrainingSetup WithOpening(StrainingSetup setup, double widest)
    {
        switch (setup.Control)
        {
            case FixedOpening:
                return setup with { Control = GateControl.LeaveAt(Ratio.FromDecimalFractions(widest)) };
            case RiddenGate ridden:
                return setup with { Control = ridden with { Widest = Ratio.FromDecimalFractions(widest) } };
            case OpeningSchedule schedule:
                double now = schedule.Steps.Max(step => step.Opening.DecimalFractions);
                return setup with
                {
                    Control = GateControl.Follow([.. schedule.Steps.Select(step => step with
                    {
                        Opening = Ratio.FromDecimalFractions(now > 0 ? Math.Min(1, step.Opening.DecimalFractions / now * widest) : widest),
                    })]),
                };
            default:
                return setup;
        }
    }

    private static StrainingSetup WithCloth(StrainingSetup setup, Func<Cloth, Cloth> change) => setup with
    {
        Strainer = setup.Strainer with { Cloths = [change(setup.Strainer.Cloths[0]), .. setup.Strainer.Cloths.Skip(1)] },
    };
}
