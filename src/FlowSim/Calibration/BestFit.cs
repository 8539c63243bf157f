using FlowSim.Numerics.Fitting;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Calibration;

/// <summary>
/// The likeliest numbers and the scales of the noise, found in turn: numbers at given scales by robust least squares, then the scales from the residuals. The
/// intervals are Laplace's: the covariance is the inverse of JᵀWJ + 1, W the weights 1/(κ s²) of the readings.
/// </summary>
internal sealed class BestFit
{
    /// <summary>Turns after which the scales have settled or never will.</summary>
    private const int MostTurns = 30;

    /// <summary>Relative change of the scales that ends the turns.</summary>
    private const double Settled = 0.01;

    /// <summary>How near the minimum is near enough, in standard errors: what is left of kinks in the course (an overflow, a full receiver) comes to less.</summary>
    private const double Near = 0.01;

    /// <summary>How near is still good enough where such kinks stand in the way: a quarter of a standard error widens an interval by 3 %.</summary>
    private const double NearEnough = 0.25;

    /// <summary>
    /// Points of a grid that fits are put on, for each standard deviation from before: far finer than any standard error. Machines whose exp and log differ in the last bit end a descent
    /// some 1e-9 apart; from a point that is the same to the bit all that follows, draws and sampler too, is the same to rounding.
    /// </summary>
    private const double Grid = 1 << 17;

    /// <summary>Turns after which the scales have forgotten where they came from.</summary>
    private const int TurnsOnGrid = 3;

    /// <summary>Starts that are always tried: a clock that is behind and a tank that is fuller look alike too, on either side of the opening of the gate.</summary>
    private const int FewestStarts = 3;

    /// <summary>
    /// Evaluations of every run after which no further start is tried (engineering choice): readings that the model can follow take a third of it, and with some that it cannot follow at all a
    /// search would take minutes to find nothing.
    /// </summary>
    private const int MostTried = 20_000;

    /// <summary>Evaluations of one descent that are not exceeded: a hundred and more derivatives, where ten do.</summary>
    private const int MostOfOneDescent = 4000;

    /// <summary>Scatter, over what was expected of it, that makes one look for another minimum (engineering choice).</summary>
    private const double SuspectScale = 2.5;

    /// <summary>Share of stray readings that does so (engineering choice): one in twenty is common.</summary>
    private const double SuspectStray = 0.12;

    /// <summary>Share of the range of the readings that no model is better than (engineering choice).</summary>
    private const double ModelFloor = 1e-4;

    /// <summary>Standard deviation of an even spread of width 1: what rounding to a whole unit does.</summary>
    private const double Rounding = 0.28867513459481287;

    private readonly TimedSeries[] _series;
    private readonly double[] _floors;
    private readonly double[] _scales;
    private (double[] At, double[] Values)? _slopes;

    private BestFit(CalibrationPosterior posterior, TimedSeries[] series)
    {
        Posterior = posterior;
        _series = series;
        _floors = [.. series.Select(Floor)];
        _scales = new double[series.Length];
    }

    public CalibrationPosterior Posterior { get; }

    /// <summary>What may be claimed of the fit.</summary>
    public LeastSquaresStatus Status { get; private set; }

    /// <summary>Whether the numbers are near enough to the likeliest ones.</summary>
    public bool IsFound { get; private set; }

    /// <summary>The independent numbers at the best fit.</summary>
    public double[] Numbers { get; private set; } = [];

    /// <summary>Their covariance.</summary>
    public Matrix<double> Covariance { get; private set; } = null!;

    /// <summary>Readings less fit, SI; measured viscosities after them.</summary>
    public double[] Off { get; private set; } = [];

    /// <summary>Factor on the variance of each series because its residuals go together, and the correlation of neighbours.</summary>
    public (double Inflation, double Neighbours)[] Together { get; private set; } = [];

    /// <summary>Variance that the readings of each series count with, over that of their scale: κ and inflation.</summary>
    public double[] Counted { get; private set; } = [];

    /// <summary>Lowest scale of each series.</summary>
    public IReadOnlyList<double> Floors => _floors;

    /// <summary>Finds the best fit.</summary>
    /// <remarks>
    /// A blinding cloth and a tight one look alike over half a run, so there can be more than one minimum: the descent starts where the likeliest of many draws lies, and from
    /// others as long as the readings lie off what it finds by more than they should.
    /// </remarks>
    /// <param name="posterior">What is fitted.</param>
    /// <param name="series">The series, in order.</param>
    /// <param name="seed">Number that the starts come from.</param>
    /// <param name="cancellation">Ends early.</param>
    public static BestFit Find(CalibrationPosterior posterior, TimedSeries[] series, ulong seed, CancellationToken cancellation)
    {
        BestFit? best = null;
        int tried = 0;
        long most = posterior.ModelRuns + ((long)MostTried * Math.Max(1, posterior.Runs));
        foreach (double[] start in FitStarts.For(posterior, series, seed))
        {
            var fit = new BestFit(posterior, series);
            fit.Run(start, cancellation);
            if (best is null || (fit.IsFound && (!best.IsFound || fit.LogPosterior > best.LogPosterior)))
                best = fit;
            if (++tried >= FewestStarts && ((best.IsFound && !best.IsSuspect) || posterior.ModelRuns > most))
                break;
        }

        best!.Restore();
        return best;
    }

    /// <summary>Logarithm of the posterior density at the fit, its scales included, but for a constant.</summary>
    private double LogPosterior { get; set; } = double.NegativeInfinity;

    /// <summary>Whether the readings lie off the fit by more than they should: another minimum may be better.</summary>
    private bool IsSuspect => Enumerable.Range(0, _series.Length).Any(s => Together[s].Inflation > 1 || _scales[s] > SuspectScale * QuantityFacts.Of(_series[s].Quantity).Scatter || Stray(s) > SuspectStray);

    /// <summary>Share of the readings of a series that are far off.</summary>
    private double Stray(int series)
    {
        double far = StudentNoise.Outlying * StudentNoise.DeviationPerScale * _scales[series];
        return ResidualsOf(series).Count(r => Math.Abs(r) > far) / (double)Posterior.Places[series].Count;
    }

    private void Run(double[] start, CancellationToken cancellation)
    {
        int width = Posterior.Layout.Count;
        double[] u = [.. start];
        double[] spent = new double[_series.Length];
        Off = OffAt(u);
        if (Off.Any(double.IsNaN))
        {
            // Another start may do.
            Status = LeastSquaresStatus.CannotEvaluate;
            return;
        }

        UpdateScales(spent);

        // From wide to narrow: with a narrow scale at once, every reading would be a stray one.
        for (int turn = 0; turn < MostTurns; turn++)
        {
            LeastSquaresFit found = LeastSquares.Minimise(Posterior, u, Options(width), cancellation);
            (Status, u) = (found.Status, found.X);
            IsFound = Status is LeastSquaresStatus.Converged || (Status is LeastSquaresStatus.NotConverged && found.RelativeOffset <= NearEnough);
            if (Status is LeastSquaresStatus.CannotEvaluate or LeastSquaresStatus.OutOfEvaluations)
                return;
            Off = OffAt(u);
            Laplace(u, spent);
            if (UpdateScales(spent) < Settled)
                break;
        }

        Numbers = [.. u.Select(x => Math.Round(x * Grid) / Grid)];
        Off = OffAt(Numbers);
        for (int turn = 0; turn < TurnsOnGrid; turn++)
        {
            Laplace(Numbers, spent);
            UpdateScales(spent);
        }

        Laplace(Numbers, spent);
        Posterior.Scales.CopyTo(_scales, 0);
        LogPosterior = Posterior.LogDensity(Off, _scales, _series) - (0.5 * u.Sum(x => x * x));
    }

    /// <summary>Puts back the scales of this fit, in case another was tried after it.</summary>
    private void Restore() => _scales.CopyTo(Posterior.Scales, 0);

    private LeastSquaresOptions Options(int width) => new()
    {
        Lower = [.. Enumerable.Repeat(-ScoreScale.Furthest, width)],
        Upper = [.. Enumerable.Repeat(ScoreScale.Furthest, width)],
        Loss = RobustLoss.StudentT(StudentNoise.Freedom),
        RobustResiduals = Posterior.Readings,
        Roughness = 1e-8,
        RelativeOffset = Near,
        MaximumEvaluations = MostOfOneDescent,
        Restarts = 0,
    };

    private double[] OffAt(double[] u)
    {
        double[] off = new double[Posterior.Measured];
        Posterior.Off(u, 1, off);
        return off;
    }

    private double[] ResidualsOf(int series) => Off.AsSpan(Posterior.Places[series].Start, Posterior.Places[series].Count).ToArray();

    /// <summary>Largest relative change of a scale.</summary>
    private double UpdateScales(double[] spent)
    {
        double change = 0;
        for (int s = 0; s < _series.Length; s++)
        {
            double scale = StudentNoise.Scale(ResidualsOf(s), QuantityFacts.Of(_series[s].Quantity).Scatter, _floors[s], spent[s]);
            change = Math.Max(change, Math.Abs(scale - Posterior.Scales[s]) / scale);
            Posterior.Scales[s] = scale;
        }

        return change;
    }

    /// <summary>Covariance at a point, and how many numbers each series has been fitted with: the trace of its part of the hat matrix.</summary>
    private void Laplace(double[] u, double[] spent)
    {
        int width = u.Length, measured = Posterior.Measured;
        double[] slopes = SlopesAt(u);
        Together = new (double, double)[_series.Length];
        Counted = new double[_series.Length];
        var information = new Matrix<double>[_series.Length];
        Matrix<double> all = Matrix<double>.Build.DenseIdentity(width);
        for (int s = 0; s < _series.Length; s++)
        {
            (int start, int count) = Posterior.Places[s];
            double[] residuals = ResidualsOf(s);
            double scale = Posterior.Scales[s];
            double inflation = StudentNoise.Inflation(residuals, scale, out double neighbours);
            Together[s] = (inflation, neighbours);
            Counted[s] = StudentNoise.Sandwich(residuals, scale) * StudentNoise.Unsure(count - spent[s]) * count / Math.Max(1, count - spent[s]) * inflation;
            information[s] = Information(slopes, start, count, width, 1 / (scale * scale * Counted[s]));
            all += information[s];
        }

        all += Information(slopes, Posterior.Readings, measured - Posterior.Readings, width, 1);
        Covariance = all.Cholesky().Solve(Matrix<double>.Build.DenseIdentity(width));
        for (int s = 0; s < _series.Length; s++)
            spent[s] = Math.Min(0.9 * Posterior.Places[s].Count, Covariance.PointwiseMultiply(information[s]).RowSums().Sum());
    }

    /// <summary>Slopes of residuals at a point; those of the last point are kept.</summary>
    /// <param name="u">Independent numbers.</param>
    public double[] SlopesAt(double[] u)
    {
        if (_slopes is not { } known || !known.At.AsSpan().SequenceEqual(u))
            _slopes = known = ([.. u], Posterior.Slopes(u));
        return known.Values;
    }

    private static Matrix<double> Information(double[] slopes, int start, int count, int width, double weight)
    {
        if (count == 0)
            return Matrix<double>.Build.Dense(width, width);
        Matrix<double> j = Matrix<double>.Build.Dense(count, width, (row, column) => slopes[((start + row) * width) + column]);
        return j.TransposeThisAndMultiply(j) * weight;
    }

    private static double Floor(TimedSeries series)
    {
        double[] values = [.. series.Readings.Select(reading => reading.Value)];
        double range = values.Max() - values.Min();
        return Math.Max(ModelFloor * range, Rounding * (series.Resolution ?? FoundResolution(values, range)));
    }

    /// <summary>The smallest difference between two readings that is more than rounding of the units.</summary>
    private static double FoundResolution(double[] values, double range)
    {
        double[] sorted = [.. values.Order()];
        double least = double.PositiveInfinity;
        for (int i = 1; i < sorted.Length; i++)
        {
            double gap = sorted[i] - sorted[i - 1];
            if (gap > 1e-9 * range)
                least = Math.Min(least, gap);
        }

        // Readings that never repeat are not rounded to steps.
        return sorted.Distinct().Count() < 0.8 * sorted.Length ? least : 0;
    }
}
