using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Calibration;

/// <summary>What the readings of one run say of it while it goes on: honey, kit, the day's own, clock and zeros together, so that what makes up for each other does so in every draw.</summary>
/// <remarks>
/// The same fit as a calibration's, without what that says of the next one. Scores are taken as normal about the mean and covariance of the randomised fits, as in what a calibration
/// keeps. Without a reading, and where no fit is found, they are as they were before.
/// </remarks>
internal sealed class RunPosterior
{
    private readonly FitLayout _layout;
    private readonly double[] _mean;
    private readonly Matrix<double> _factor;

    private RunPosterior(CalibrationQuestion question, FitLayout layout, BestFit? fit, CancellationToken cancellation)
    {
        _layout = layout;
        IsFound = fit is { IsFound: true };
        (_mean, Matrix<double> covariance) = IsFound
            ? CalibrationFit.Scores(fit!, RandomisedFits.Of(fit!, question.Seed, cancellation))
            : layout.Scores(new double[layout.Count], Matrix<double>.Build.DenseIdentity(layout.Count));
        _factor = Factor(covariance);
        Inputs = CalibrationFit.Inputs(layout, question, (_mean, covariance));
        Noise = [.. question.Runs[0].Series.Select((series, s) => StudentNoise.DeviationPerScale * (IsFound ? fit!.Posterior.Scales[s] : QuantityFacts.Of(series.Quantity).Scatter))];
    }

    /// <summary>Whether there are readings and a fit to them was found.</summary>
    public bool IsFound { get; }

    /// <summary>What is known now of honey, kit and the day's own.</summary>
    public IReadOnlyList<FittedInput> Inputs { get; }

    /// <summary>Scatter of each series: standard deviation without outliers, SI.</summary>
    public IReadOnlyList<double> Noise { get; }

    /// <summary>Finds it.</summary>
    /// <param name="question">Question about one run, checked by <see cref="CalibrationCheck.RequireGoingOn"/>.</param>
    /// <param name="cancellation">Ends early.</param>
    public static RunPosterior Of(CalibrationQuestion question, CancellationToken cancellation)
    {
        TimedSeries[] series = [.. question.Runs[0].Series];
        if (series.Length == 0)
            return new RunPosterior(question, new FitLayout(question), null, cancellation);
        var posterior = new CalibrationPosterior(question, cancellation);
        return new RunPosterior(question, posterior.Layout, BestFit.Find(posterior, series, question.Seed, cancellation), cancellation);
    }

    /// <summary>Draws of it.</summary>
    /// <param name="count">How many.</param>
    /// <param name="seed">Seed.</param>
    public RunDrawn Draw(int count, ulong seed)
    {
        int width = _layout.Count;
        double[] points = new double[count * width];
        new ScrambledSobol(width, seed, 0).Fill(0, points);
        Vector<double> normal = Vector<double>.Build.Dense(width);
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < width; j++)
                normal[j] = Normal.InvCDF(0, 1, points[(i * width) + j]);
            Vector<double> scores = _factor * normal;
            for (int j = 0; j < width; j++)
                points[(i * width) + j] = _layout.Numbers[j].Scale.ValueAt(_mean[j] + scores[j]);
        }

        return new RunDrawn(count, width, [.. _layout.Numbers.Select(number => number.Input)], _layout.Clocks[0], points);
    }

    /// <summary>Rounding may leave a covariance a hair short of one; a little of the unit matrix mends that.</summary>
    private static Matrix<double> Factor(Matrix<double> covariance)
    {
        Matrix<double> even = (covariance + covariance.Transpose()) / 2;
        for (double mend = 0; ; mend = Math.Max(1e-10, 10 * mend))
        {
            try
            {
                return (even + (mend * Matrix<double>.Build.DenseIdentity(even.RowCount))).Cholesky().Factor;
            }
            catch (ArgumentException) when (mend < 1)
            {
                // Not positive definite: mended a little more.
            }
        }
    }
}

/// <summary>Draws of what a run may be.</summary>
/// <param name="Count">Draws.</param>
/// <param name="Width">Numbers of each.</param>
/// <param name="Inputs">What each number is; null for clocks and zeros.</param>
/// <param name="Clocks">Place of the clock of each series; its zero comes next.</param>
/// <param name="Values">Values, SI, draw by draw.</param>
internal sealed record RunDrawn(int Count, int Width, StrainingInput?[] Inputs, int[] Clocks, double[] Values)
{
    /// <summary>By how much the clock of a series is behind, s, and the zero of its scale off, in a draw.</summary>
    /// <param name="draw">Draw.</param>
    /// <param name="series">Series.</param>
    public (double ClockS, double Zero) Scale(int draw, int series) => (Values[(draw * Width) + Clocks[series]], Values[(draw * Width) + Clocks[series] + 1]);

    /// <summary>The inputs that do something in a setup.</summary>
    /// <param name="setup">Setup.</param>
    public int[] Applying(StrainingSetup setup) => [.. Enumerable.Range(0, Width).Where(j => Inputs[j] is { } input && input.AppliesTo(setup))];
}
