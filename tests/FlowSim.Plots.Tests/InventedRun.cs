using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Plots.Tests;

/// <summary>
/// Invented runs to draw: a crude explicit march with round numbers, made to look like straining. No figure in it means anything
/// and none is checked; it spares the tests of drawing a dependence on the physics.
/// </summary>
internal sealed record InventedRun
{
    public double StartLevelM { get; init; } = 0.30;

    public double TankAreaM2 { get; init; } = 0.064;

    public double GateKgPerSPerM { get; init; } = 1.2;

    public double ClothKgPerSPerM { get; init; } = 6;

    public double BlindingPerKg { get; init; } = 0.02;

    public double RimM { get; init; } = 0.10;

    public double ReceiverHeightM { get; init; } = 0.35;

    public double ReceiverAreaM2 { get; init; } = 0.064;

    public double EndS { get; init; } = 600;

    public int Points { get; init; } = 241;

    public double[] OpeningsMm { get; init; } = [0.4];

    public double[] ScrapesS { get; init; } = [];

    public double? RideAtM { get; init; }

    public static StrainingResult PlainDrain() => new InventedRun().Result();

    public static StrainingResult Overflowing() => new InventedRun { GateKgPerSPerM = 0.9, ClothKgPerSPerM = 1.5, BlindingPerKg = 0.005, RimM = 0.09, EndS = 900 }.Result();

    public static StrainingResult Scraped() => new InventedRun { BlindingPerKg = 0.08, EndS = 900, ScrapesS = [120, 250, 420], OpeningsMm = [0.4] }.Result();

    public static StrainingResult ThreeCloths() => new InventedRun { OpeningsMm = [0.6, 0.4, 0.2], EndS = 1200, GateKgPerSPerM = 0.5 }.Result();

    public static StrainingResult Ridden() => new InventedRun { RideAtM = 0.06, GateKgPerSPerM = 4, ClothKgPerSPerM = 1, EndS = 1500 }.Result();

    public static StrainingResult EightHours() => new InventedRun
    {
        StartLevelM = 0.9, TankAreaM2 = 0.3, GateKgPerSPerM = 0.05, ClothKgPerSPerM = 0.4, BlindingPerKg = 0.007, ReceiverHeightM = 0.7,
        ReceiverAreaM2 = 0.4, EndS = 8 * 3600, OpeningsMm = [0.6, 0.2], Points = 2000,
    }.Result();

    public StrainingResult Result()
    {
        const double Density = 1400;
        double tank = StartLevelM * TankAreaM2 * Density;
        double start = tank;
        double pond = 0;
        double strained = 0;
        double over = 0;
        const double PondArea = 0.05;
        double[] open = [.. OpeningsMm.Select(_ => 1.0)];
        double dt = EndS / (Math.Max(Points, 1) * 40.0);
        var columns = Enumerable.Range(0, 11).Select(_ => new List<double>()).ToArray();
        List<double>[] shares = [.. OpeningsMm.Select(_ => new List<double>())];
        List<Overflow> spells = [];
        double? overFrom = null;
        double overMass = 0;
        double? drained95 = null;
        double? strained95 = null;
        double? heel = null;
        double peak = 0;
        double peakAt = 0;
        int next = 0;
        for (int step = 0; step <= Points * 40; step++)
        {
            double t = step * dt;
            double level = tank / (TankAreaM2 * Density);
            double depth = pond / (PondArea * Density);
            double resistance = open.Sum(o => 1 / o);
            double cloth = ClothKgPerSPerM * Math.Max(0, depth - 0.002) / resistance;
            double gate = level > 0.002 ? GateKgPerSPerM * level : 0;
            if (RideAtM is { } hold && depth >= hold)
                gate = Math.Min(gate, cloth);
            double rim = depth >= RimM && gate > cloth ? gate - cloth : 0;
            if (depth > peak)
                (peak, peakAt) = (depth, t);
            if (rim > 0)
            {
                overFrom ??= t;
                overMass += rim * dt;
            }
            else if (overFrom is { } from)
            {
                spells.Add(new(Duration.FromSeconds(from), Duration.FromSeconds(t), Mass.FromKilograms(overMass)));
                overFrom = null;
                overMass = 0;
            }

            if (tank <= 0.05 * start)
                drained95 ??= t;
            if (strained >= 0.95 * start)
                strained95 ??= t;
            if (gate == 0)
                heel ??= t;
            if (step % 40 == 0)
            {
                double received = (strained + over) / (ReceiverAreaM2 * Density);
                double[] row = [t, level, depth, received, 1, gate, cloth, rim, tank, pond, strained];
                for (int i = 0; i < row.Length; i++)
                    columns[i].Add(row[i]);
                for (int j = 0; j < open.Length; j++)
                    shares[j].Add(open[j]);
            }

            if (next < ScrapesS.Length && t >= ScrapesS[next])
            {
                for (int j = 0; j < open.Length; j++)
                    open[j] += 0.7 * (1 - open[j]);
                next++;
            }

            tank -= gate * dt;
            pond += (gate - cloth - rim) * dt;
            strained += cloth * dt;
            over += rim * dt;
            for (int j = 0; j < open.Length; j++)
                open[j] -= BlindingPerKg * (0.5 + 0.5 * j) * open[j] * cloth * dt;
        }

        if (overFrom is { } still)
            spells.Add(new(Duration.FromSeconds(still), Duration.FromSeconds(EndS), Mass.FromKilograms(overMass)));

        Duration? At(double? s) => s is { } value ? Duration.FromSeconds(value) : null;
        IReadOnlyList<double> zeros = [.. columns[0].Select(_ => 0.0)];
        IReadOnlyList<double> kelvins = [.. columns[0].Select(_ => 308.15)];
        return new StrainingResult
        {
            Setup = Setup(),
            Status = spells.Count > 0 ? StrainingStatus.Overflowed : heel is null ? StrainingStatus.TimeLimit : StrainingStatus.Drained,
            Ending = heel is null ? StrainingStatus.TimeLimit : StrainingStatus.Drained,
            Elapsed = Duration.FromSeconds(EndS),
            Drain = new(null, null, At(drained95), null),
            Strain = new(null, null, At(strained95), null),
            DrainToHeel = At(heel),
            PeakPond = Length.FromMeters(peak),
            PeakPondAt = Duration.FromSeconds(peakAt),
            Overflows = spells,
            ReceiverFullAt = null,
            Scrapes = [.. ScrapesS.Select(s => Duration.FromSeconds(s))],
            Masses = new()
            {
                Start = Mass.FromKilograms(start), CanDrain = Mass.FromKilograms(start), Strained = Mass.FromKilograms(strained), Bypassed = Mass.FromKilograms(over),
                SpilledAtStrainer = Mass.Zero, SpilledAtReceiver = Mass.Zero, HeldOnCloth = Mass.FromKilograms(pond), HeldInFilm = Mass.Zero,
                HeldInTank = Mass.FromKilograms(tank), BalanceRelative = 0,
            },
            Blinded = [.. open.Select(o => Ratio.FromDecimalFractions(1 - o))],
            StartViscosity = DynamicViscosity.FromPascalSeconds(3),
            EndTemperatures = new(Temperature.FromDegreesCelsius(35), Temperature.FromDegreesCelsius(35), Temperature.FromDegreesCelsius(35)),
            Series = new()
            {
                TimeS = columns[0], TankLevelM = columns[1], PondDepthM = columns[2], ReceiverLevelM = columns[3], Opening = columns[4],
                GateFlowKgPerS = columns[5], ClothFlowKgPerS = columns[6], OverRimFlowKgPerS = columns[7], TankMassKg = columns[8], PondMassKg = columns[9],
                StrainedKg = columns[10], OverRimKg = zeros, TankTemperatureK = kelvins, PondTemperatureK = kelvins, ReceiverTemperatureK = kelvins, OpenShare = shares,
            },
            Notices = [],
            Cautions = [],
            Solver = new(0, 0, 0, 0),
        };
    }

    private StrainingSetup Setup() => new()
    {
        Honey = new() { Moisture = Ratio.FromPercent(17) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new() { Shape = new Box(StartLevelM, TankAreaM2), Level = Length.FromMeters(StartLevelM) },
        Gate = new() { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = RideAtM is { } depth ? GateControl.RideAt(Length.FromMeters(depth), Ratio.FromPercent(100)) : GateControl.LeaveAt(Ratio.FromPercent(100)),
        Strainer = new()
        {
            Shape = new Pan(RimM),
            Cloths = [.. OpeningsMm.Select(o => new Cloth { Opening = Length.FromMillimeters(o), WireDiameter = Length.FromMillimeters(o / 2) })],
        },
        Receiver = new() { Shape = new Box(ReceiverHeightM, ReceiverAreaM2) },
    };

    /// <summary>An upright prism.</summary>
    private sealed class Box(double heightM, double areaM2) : VesselShape
    {
        protected override double HeightM => heightM;

        protected override double VolumeM3(double levelM) => areaM2 * levelM;

        protected override double LevelM(double volumeM3) => volumeM3 / areaM2;

        protected override double SurfaceAreaM2(double levelM) => areaM2;

        protected override double WettedAreaM2(double levelM) => areaM2;
    }

    /// <summary>A flat cloth with an upright wall.</summary>
    private sealed class Pan(double rimM) : ScreenShape
    {
        private const double AreaM2 = 0.05;

        protected override double RimHeightM => rimM;

        protected override double PondVolumeM3(double depthM) => AreaM2 * depthM;

        protected override double PondDepthM(double volumeM3) => volumeM3 / AreaM2;

        protected override double SurfaceAreaM2(double depthM) => AreaM2;

        protected override double WettedClothAreaM2(double depthM) => AreaM2;

        protected override double HeadIntegralM3(double depthM) => AreaM2 * depthM;
    }
}
