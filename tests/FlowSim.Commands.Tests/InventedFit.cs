using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>Answers to a calibration, invented for the purpose: figures here stand for nothing.</summary>
internal static class InventedFit
{
    /// <summary>An answer of a status, as the command asks for it.</summary>
    /// <param name="status">How the fit ended.</param>
    public static Func<CalibrationQuestion, CancellationToken, CalibrationAnswer> Of(CalibrationStatus status = CalibrationStatus.Fitted) => (question, _) => Answer(question, status);

    public static CalibratedInputs Calibrated(IReadOnlyList<RunOnRecord>? runs = null) => new()
    {
        Inputs =
        [
            Known(StrainingInputs.LotFactor, new LogNormalDistribution(1.1234567, 0.0487)),
            Known(StrainingInputs.Moisture, new NormalDistribution(0.17823456, 0.00187)),
            Known(StrainingInputs.ScreenFactor, new UniformDistribution(0.62, 1)),
            Known(StrainingInputs.DebrisLoad, new LogNormalDistribution(0.00031, 0.8)),
            Known(StrainingInputs.DebrisSize, new LogNormalDistribution(0.000512, 0.26)),
            Known(StrainingInputs.Spacer, new NormalDistribution(0.0301, 0.0017)),
            Known(StrainingInputs.TankHeatLoss, new TriangularDistribution(2, 6, 9)),
            Known(StrainingInputs.DebrisCapture, new NormalDistribution(0.5, 0.2).Within(0.1, 1)),
        ],
        Correlations =
        [
            new("honey.lot_factor", "screen.factor", -0.82345678), new("honey.moisture", "honey.lot_factor", 0.3111), new("debris.load", "screen.factor", 0.25),
        ],
        Runs = runs ?? [new RunOnRecord("pail, \"first\".csv", new DateOnly(2026, 11, 20), "0123456789abcdef"), new RunOnRecord("b.csv", null, "fedcba9876543210")],
    };

    private static CalibrationAnswer Answer(CalibrationQuestion question, CalibrationStatus status)
    {
        CalibratedInputs calibrated = Calibrated([.. question.Earlier?.Runs ?? [], .. question.Runs.Select(run => new RunOnRecord(run.Name, run.Date, run.Fingerprint))]);
        return new CalibrationAnswer
        {
            Question = question,
            Status = status,
            Inputs =
            [
                Fitted(StrainingInputs.LotFactor, null, new LogNormalDistribution(1, 0.3), new LogNormalDistribution(1.1234567, 0.0487), 0.16),
                Fitted(StrainingInputs.Moisture, null, new NormalDistribution(0.178, 0.002), new NormalDistribution(0.17823456, 0.0012), 0.6),
                Fitted(StrainingInputs.DebrisLoad, null, new LogNormalDistribution(0.0003, 0.86), new LogNormalDistribution(0.00031, 0.8), 0.93),
                .. question.Runs.Select(run => Fitted(StrainingInputs.TankLevel, run.Name, new NormalDistribution(0.298, 0.005), new NormalDistribution(0.2975, 0.002), 0.4)),
            ],
            Correlations = [[1, 0.31, 0], [0.31, 1, -0.2], [0, -0.2, 1]],
            Calibrated = calibrated,
            Series = [.. question.Runs.SelectMany(run => run.Series.Select(series => Met(run, series)))],
            Indistinct = [new IndistinctInputs([StrainingInputs.LotFactor, StrainingInputs.ScreenFactor], "only their product shows; a viscosity measured at 35 °C would tell them apart")],
            Check = question.Sample ? new SamplerCheck(4000, 412.4, 1.0123, 0.05, 1.04, Used: false) : null,
            Next =
            [
                new NextMeasurement("Another run at 40 °C", "the same pail, half as wide open", 0.42, 0.61),
                new NextMeasurement("A viscosity", "a ball timed at 35 °C", 0.5, null),
                new NextMeasurement("Debris", "a weighed sample", 0.9, 0.5),
                new NextMeasurement("Fourth", "that nobody need see", 0.99, null),
            ],
            Prediction = new PredictionChange(Times(700, 1000, 1500), Times(1040, 1100, 1160), 0.31, 0.012),
            ModelRuns = 12_345,
            Notices = [new Notice("calibration.invented", "Nothing was fitted", "these figures are invented", "do not use them")],
        };
    }

    private static SeriesFit Met(TimedRun run, TimedSeries series) => new()
    {
        Run = run.Name,
        Series = series,
        Noise = 0.0012,
        Clock = (Duration.FromSeconds(-3), Duration.FromSeconds(1)),
        Zero = (0.0011, 0.0004),
        Readings = [.. series.Readings.Select((reading, i) => new FittedReading(reading.At, reading.Value, reading.Value + 0.001, i == 1 ? -3.5 : 0.5, i == 1))],
        Course = [],
        Autocorrelation = 0.41,
        Inflation = 1.6,
        Explained = 0.9987,
    };

    private static UncertainInput Known(StrainingInput input, Distribution spread) => new(input, spread, new Source("invented", Standing.GivenByUser));

    private static FittedInput Fitted(StrainingInput input, string? run, Distribution prior, Distribution posterior, double left) =>
        new() { Input = input, Run = run, Prior = Known(input, prior), Posterior = posterior, Left = left };

    private static TimeSpread Times(double early, double middle, double late) => new(Duration.FromSeconds(early), Duration.FromSeconds(middle), Duration.FromSeconds(late), 0);
}
