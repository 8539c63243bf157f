using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Plots.Tests;

/// <summary>Invented answers about timed runs to draw, with round numbers: no figure in them means anything and none is checked.</summary>
internal sealed record InventedCalibration
{
    public CalibrationStatus Status { get; init; } = CalibrationStatus.Fitted;

    public string[] Runs { get; init; } = ["first pail"];

    public StrainingObservable[] Quantities { get; init; } = [StrainingObservable.PondDepth];

    public int Readings { get; init; } = 41;

    public double Minutes { get; init; } = 60;

    /// <summary>In the unit of the readings.</summary>
    public double Noise { get; init; } = 0.001;

    /// <summary>Every how many readings one lies off.</summary>
    public int OutlierEvery { get; init; } = 17;

    /// <summary>By how many scatters.</summary>
    public double OutlierBy { get; init; } = 6;

    /// <summary>How far the readings wave about the fit, scatters.</summary>
    public double Wave { get; init; }

    public bool Constant { get; init; }

    public double[] ScrapesMinutes { get; init; } = [];

    public double[] OpeningsMinutes { get; init; } = [];

    /// <summary>Of honey and kit.</summary>
    public int Shared { get; init; } = 6;

    /// <summary>Of each run.</summary>
    public int OfRun { get; init; } = 2;

    /// <summary>Standard deviation left of the most learnt one; the others keep more and more.</summary>
    public double Left { get; init; } = 0.15;

    /// <summary>How far the medians move, standard deviations before.</summary>
    public double Moved { get; init; } = 0.4;

    public double Correlation { get; init; } = -0.85;

    public int Indistinct { get; init; } = 1;

    public int Next { get; init; } = 5;

    public double BestLeft { get; init; } = 0.34;

    public bool OverflowKnown { get; init; }

    public bool HasCheck { get; init; } = true;

    public string Column { get; init; } = "";

    private static readonly StrainingInput[] s_shared =
    [
        StrainingInputs.LotFactor, StrainingInputs.ScreenFactor, StrainingInputs.DebrisLoad, StrainingInputs.Moisture, StrainingInputs.DebrisSize, StrainingInputs.DebrisCapture,
        StrainingInputs.TankHeatLoss, StrainingInputs.MinimumHead, StrainingInputs.ClothOpening, StrainingInputs.Bore, StrainingInputs.DebrisDensity, StrainingInputs.RimHeight,
    ];

    private static readonly StrainingInput[] s_ofRun = [StrainingInputs.HoneyTemperature, StrainingInputs.Opening, StrainingInputs.TankLevel, StrainingInputs.AlreadyIn, StrainingInputs.ScrapeRecovery];

    public CalibrationAnswer Answer()
    {
        StrainingSetup setup = InventedRun.PlainDrain().Setup with
        {
            Scraping = new() { Times = [.. ScrapesMinutes.Select(m => Duration.FromMinutes(m))] },
            Control = OpeningsMinutes.Length == 0
                ? GateControl.LeaveAt(Ratio.FromPercent(40))
                : GateControl.Follow([new(Duration.Zero, Ratio.FromPercent(25)), .. OpeningsMinutes.Select((m, i) => new OpeningStep(Duration.FromMinutes(m), Ratio.FromPercent(25 + 12.5 * (i % 7))))]),
        };
        SeriesFit[] series = [.. Runs.SelectMany((run, r) => Quantities.Select((q, i) => Series(run, q, 7 * r + i)))];
        FittedInput[] inputs =
        [
            .. s_shared.Take(Shared).Select((input, i) => Input(input, null, i)),
            .. Runs.SelectMany(run => s_ofRun.Take(OfRun).Select((input, i) => Input(input, run, i + 2))),
        ];
        FittedInput[] shared = [.. inputs.Where(i => i.Run is null)];
        return new()
        {
            Question = new()
            {
                Setup = setup,
                Runs = [.. Runs.Select((run, r) => new TimedRun { Name = run, Date = r == 0 ? new(2026, 5, 3) : null, Setup = setup, Series = [.. series.Where(s => s.Run == run).Select(s => s.Series)] })],
            },
            Status = Status,
            Inputs = inputs,
            Correlations = [.. shared.Select((_, i) => shared.Select((_, j) => i == j ? 1 : Correlation * Math.Pow(-0.6, Math.Abs(i - j) + Math.Min(i, j) - 1)).ToArray())],
            Calibrated = new() { Inputs = [.. shared.Select(i => i.Prior with { Spread = i.Posterior })], Correlations = [], Runs = [] },
            Series = series,
            Indistinct = [.. Enumerable.Range(0, Math.Clamp(shared.Length - 1, 0, Indistinct)).Select(i => new IndistinctInputs([shared[i].Input, shared[Math.Min(i + 2, shared.Length - 1)].Input], "only their product shows; a ball through a tall jar of this honey would tell them apart"))],
            Check = HasCheck ? new(8000, 1200, 1.004, 0.08, 1.06, Used: false) : null,
            Next = [.. Enumerable.Range(0, Next).Select(i => Measurement(i))],
            Prediction = new(Times(55, 1.8), Times(48, 1.15), 0.31, 0.042),
            ModelRuns = 4321,
            Notices = [],
        };
    }

    private static TimeSpread Times(double minutes, double factor) =>
        new(Duration.FromMinutes(minutes / factor), Duration.FromMinutes(minutes), Duration.FromMinutes(minutes * factor), 0);

    private SeriesFit Series(string run, StrainingObservable quantity, int shift)
    {
        double scale = quantity switch
        {
            StrainingObservable.TankMass or StrainingObservable.ReceiverMass => 25,
            StrainingObservable.TankVolume or StrainingObservable.ReceiverVolume => 0.018,
            _ => 0.1,
        };
        double noise = Constant ? 0 : Noise / 0.1 * scale;
        double Course(double share) => Constant ? scale : quantity switch
        {
            StrainingObservable.PondDepth => scale * 2.2 * (1 - Math.Exp(-9 * share)) * Math.Exp(-2.4 * share),
            StrainingObservable.ReceiverLevel or StrainingObservable.ReceiverMass or StrainingObservable.ReceiverVolume => scale * (1 - Math.Exp(-3 * share)),
            _ => scale * Math.Exp(-3 * share),
        };
        FittedReading[] readings = [.. Enumerable.Range(0, Readings).Select(i =>
        {
            double share = Readings == 1 ? 1 : i / (Readings - 1.0);

            // The golden ratio spreads evenly what looks like chance.
            double residual = new NormalDistribution(0, 1).Quantile((0.5 + 0.6180339887498949 * (i + 1 + shift)) % 1 * 0.98 + 0.01);
            residual += Wave * Math.Sin(9 * share);
            bool outlier = OutlierEvery > 0 && i % OutlierEvery == OutlierEvery - 1;
            if (outlier)
                residual = (i / OutlierEvery % 2 == 0 ? 1 : -1) * OutlierBy;
            double fitted = Course(share);
            return new FittedReading(Duration.FromMinutes(share * Minutes), fitted + (Constant ? 0 : residual * noise), fitted, Constant ? 0 : residual, outlier && !Constant);
        })];
        return new()
        {
            Run = run,
            Series = new() { Quantity = quantity, Readings = [.. readings.Select(r => new TimedReading(r.At, r.Read))], Name = Column },
            Noise = noise,
            Clock = (Duration.FromSeconds(4.2), Duration.FromSeconds(1.3)),
            Zero = (0.2 * noise, 0.1 * noise),
            Readings = readings,
            Course = [.. Enumerable.Range(0, 121).Select(i => new PredictedReading(Duration.FromMinutes(i * Minutes / 120), Course(i / 120.0), Course(i / 120.0) - 2.1 * noise, Course(i / 120.0) + 2.1 * noise))],
            Autocorrelation = Wave > 0 ? 0.71 : 0.02,
            Inflation = Wave > 0 ? 5.9 : 1,
            Explained = Constant ? 0 : 0.994,
        };
    }

    private FittedInput Input(StrainingInput input, string? run, int place)
    {
        double left = Math.Min(1, Left + 0.22 * place);
        double moved = left > 0.95 ? 0 : (place % 2 == 0 ? 1 : -1) * Moved;
        Distribution prior = input.Name switch
        {
            "screen.factor" => new UniformDistribution(0.62, 1),
            "debris.capture" or "scraping.recovery" => new UniformDistribution(0.5, 0.9),
            "honey.moisture" => new NormalDistribution(0.178, 0.002),
            "honey.temperature" => new NormalDistribution(307.15, 1),
            "gate.opening" => new NormalDistribution(0.4, 0.02),
            "tank.level" => new NormalDistribution(0.3, 0.005),
            "receiver.already_in" => new NormalDistribution(0.004, 0.0005),
            "debris.load" => new LogNormalDistribution(0.0004, 0.86),
            "debris.median_size" => new LogNormalDistribution(0.0003, 0.26),
            "screen.opening" => new LogNormalDistribution(0.0004, 0.05),
            "tank.heat_loss" => new LogNormalDistribution(8, 0.41),
            "debris.density" => new NormalDistribution(960, 30),
            "screen.minimum_head" or "gate.bore" or "screen.rim_height" => new LogNormalDistribution(0.04, 0.2),
            _ => new LogNormalDistribution(1, 0.3),
        };
        Distribution posterior = left >= 1 ? prior : prior switch
        {
            LogNormalDistribution factor => new LogNormalDistribution(factor.Median * Math.Exp(moved * factor.LogStandardDeviation), left * factor.LogStandardDeviation),
            UniformDistribution uniform => new NormalDistribution(uniform.Mean + moved * uniform.StandardDeviation, left * uniform.StandardDeviation).Within(uniform.Lowest, uniform.Highest),
            _ => new NormalDistribution(prior.Mean + moved * prior.StandardDeviation, left * prior.StandardDeviation),
        };
        return new() { Input = input, Run = run, Prior = new(input, prior, new Source("Invented", Standing.EngineeringChoice)), Posterior = posterior, Left = left };
    }

    private NextMeasurement Measurement(int place)
    {
        (string What, string How)[] words =
        [
            ("viscosity of this honey", "time a 10 mm steel ball through a tall jar at its temperature, to 5 %"),
            ("weight of the debris", "rinse the strainer's cloth, dry and weigh what it caught, to 10 %"),
            ("flow through the clean cloth", "time the first 2 kg with the pond held at 5 cm, once more than before"),
            ("moisture", "a refractometer, ± 0.2 % of mass"),
            ("temperature of the honey", "a thermometer in the stirred tank, ± 0.2 K"),
            ("another run like these", "weigh the receiver every minute"),
            ("what a scrape clears", "depth of the pond before and after one"),
            ("a measurement with a name that is far too long to stand in one row of the sheet beside anything else that there may be", "with words that are long as well, so that they have to be broken into rows, two of them at the very least, before they come to their end"),
        ];
        double left = Math.Min(1, BestLeft + 0.13 * place);
        (string what, string how) = words[place % words.Length];
        return new(what, how, left, OverflowKnown ? null : Math.Min(1, 0.15 + left));
    }
}
