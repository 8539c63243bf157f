using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Calibration;

/// <summary>What the runs say, how sure that is, what they cannot say, and what to measure next.</summary>
public sealed record CalibrationAnswer
{
    /// <summary>The question.</summary>
    public required CalibrationQuestion Question { get; init; }

    /// <summary>Whether a fit was found.</summary>
    public required CalibrationStatus Status { get; init; }

    /// <summary>What was fitted: honey and kit first, then each run's own.</summary>
    public required IReadOnlyList<FittedInput> Inputs { get; init; }

    /// <summary>Correlations of the honey and kit inputs, in the order of <see cref="Inputs"/>: [i][j], ones on the diagonal, of their normal scores.</summary>
    public required IReadOnlyList<IReadOnlyList<double>> Correlations { get; init; }

    /// <summary>What is to be kept.</summary>
    public required CalibratedInputs Calibrated { get; init; }

    /// <summary>How each series was met, in the order of runs and series.</summary>
    public required IReadOnlyList<SeriesFit> Series { get; init; }

    /// <summary>Inputs that these runs cannot tell apart, most important first; empty when there are none.</summary>
    public required IReadOnlyList<IndistinctInputs> Indistinct { get; init; }

    /// <summary>What the sampler found; null when it was not asked.</summary>
    public required SamplerCheck? Check { get; init; }

    /// <summary>What one more measurement would do to the prediction for <see cref="CalibrationQuestion.Setup"/>, most useful first.</summary>
    public required IReadOnlyList<NextMeasurement> Next { get; init; }

    /// <summary>Time to 95 % strained of the setup, before and after.</summary>
    public required PredictionChange Prediction { get; init; }

    /// <summary>Model runs made altogether.</summary>
    public required long ModelRuns { get; init; }

    /// <summary>What the user should know about the figures.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }
}

/// <summary>How a fit ended.</summary>
public enum CalibrationStatus
{
    /// <summary>The best fit was found and looks as a fit should.</summary>
    Fitted,

    /// <summary>The best fit was found, but the readings lie off it in a way that the model does not explain; the intervals are widened for it.</summary>
    FittedPoorly,

    /// <summary>No best fit was found: nothing is to be kept.</summary>
    NotFound,
}

/// <summary>One fitted input.</summary>
public sealed record FittedInput
{
    /// <summary>The input.</summary>
    public required StrainingInput Input { get; init; }

    /// <summary>The run it belongs to; null for honey and kit, which all runs share.</summary>
    public required string? Run { get; init; }

    /// <summary>What was known before.</summary>
    public required UncertainInput Prior { get; init; }

    /// <summary>What is known now.</summary>
    public required Distribution Posterior { get; init; }

    /// <summary>Low end of the 95 % interval, SI.</summary>
    public double Low => Posterior.Quantile(0.025);

    /// <summary>Median, SI.</summary>
    public double Middle => Posterior.Median;

    /// <summary>High end of the 95 % interval, SI.</summary>
    public double High => Posterior.Quantile(0.975);

    /// <summary>Standard deviation left, as a share of that before, of the normal score: 1 when nothing was learnt.</summary>
    public required double Left { get; init; }

    /// <summary>Whether the readings say anything about it worth the name: at most <see cref="MostLeft"/> of its spread is left.</summary>
    public bool Identified => Left <= MostLeft;

    /// <summary>Share of the spread that may be left in an input that counts as identified (engineering choice).</summary>
    public const double MostLeft = 0.7;
}

/// <summary>How one series of readings was met.</summary>
public sealed record SeriesFit
{
    /// <summary>Name of the run.</summary>
    public required string Run { get; init; }

    /// <summary>The series.</summary>
    public required TimedSeries Series { get; init; }

    /// <summary>Scatter of the readings about the fit: standard deviation without outliers, in the unit of the readings.</summary>
    public required double Noise { get; init; }

    /// <summary>Clock of the readings against the opening of the gate, with its standard deviation.</summary>
    public required (Duration Value, Duration Sd) Clock { get; init; }

    /// <summary>Zero of the scale, with its standard deviation, in the unit of the readings.</summary>
    public required (double Value, double Sd) Zero { get; init; }

    /// <summary>Each reading beside what the fit makes of it.</summary>
    public required IReadOnlyList<FittedReading> Readings { get; init; }

    /// <summary>The fitted course, with the band in which a new reading lies with 95 %, on an even grid from 0 to the end of the run (at least to the last reading, at most three times as long).</summary>
    public required IReadOnlyList<PredictedReading> Course { get; init; }

    /// <summary>Correlation of neighbouring residuals, −1 to 1: near 0 when the model explains the course.</summary>
    public required double Autocorrelation { get; init; }

    /// <summary>Factor by which the variance of the noise counts more because residuals go together; 1 when they do not.</summary>
    public required double Inflation { get; init; }

    /// <summary>Share of the variance of the readings that the fit explains, at most 1.</summary>
    public required double Explained { get; init; }

    /// <summary>Number of readings that lie further off than three times the scatter.</summary>
    public int Outliers => Readings.Count(reading => reading.IsOutlier);
}

/// <summary>A reading and its fit.</summary>
/// <param name="At">Time by the clock of the readings.</param>
/// <param name="Read">What was read, SI.</param>
/// <param name="Fitted">What the fit gives, clock and zero of the scale included.</param>
/// <param name="Residual">Read less fitted, in units of the scatter.</param>
/// <param name="IsOutlier">Whether that is more than 3.</param>
public readonly record struct FittedReading(Duration At, double Read, double Fitted, double Residual, bool IsOutlier);

/// <summary>The fitted course at a time, as the scale would show it.</summary>
/// <param name="At">Time by the clock of the readings.</param>
/// <param name="Value">Fitted value, SI.</param>
/// <param name="Low">Low end of the 95 % band of a new reading.</param>
/// <param name="High">High end.</param>
public readonly record struct PredictedReading(Duration At, double Value, double Low, double High);

/// <summary>Inputs that change together without the fit getting worse.</summary>
/// <param name="Inputs">The inputs, two or more.</param>
/// <param name="Words">What is known of them together and what would tell them apart, for people.</param>
public sealed record IndistinctInputs(IReadOnlyList<StrainingInput> Inputs, string Words);

/// <summary>What an affine-invariant sampler says of the intervals.</summary>
/// <param name="Draws">Draws kept.</param>
/// <param name="EffectiveSampleSize">Least effective sample size among the fitted numbers.</param>
/// <param name="SplitRHat">Largest split R̂ among them: near 1 when the chains have mixed.</param>
/// <param name="MedianShift">Largest distance of a median from that of the fit, in its standard deviations.</param>
/// <param name="WidthRatio">The ratio furthest from 1 of a 95 % interval's width to that of the fit.</param>
/// <param name="Used">Whether the answer takes the sampler's intervals because the fit's would mislead.</param>
public sealed record SamplerCheck(int Draws, double EffectiveSampleSize, double SplitRHat, double MedianShift, double WidthRatio, bool Used);

/// <summary>One measurement that could be made next.</summary>
/// <param name="What">What is measured, for people.</param>
/// <param name="How">How, and how well.</param>
/// <param name="TimeLeft">Standard deviation of the logarithm of the time to strain that is left with it, as a share of that without: 0 to 1.</param>
/// <param name="OverflowLeft">The same for the chance of an overflow, whose uncertainty is whether it runs over at all; null when that is certain already.</param>
public sealed record NextMeasurement(string What, string How, double TimeLeft, double? OverflowLeft);

/// <summary>What the calibration does to the prediction for a setup.</summary>
/// <param name="StrainBefore">Time to 95 % strained under the spreads from before.</param>
/// <param name="StrainAfter">The same under the calibration.</param>
/// <param name="OverflowBefore">Chance that the strainer runs over, before, 0 to 1; from 4096 draws.</param>
/// <param name="OverflowAfter">The same under the calibration.</param>
public sealed record PredictionChange(TimeSpread StrainBefore, TimeSpread StrainAfter, double OverflowBefore, double OverflowAfter);
