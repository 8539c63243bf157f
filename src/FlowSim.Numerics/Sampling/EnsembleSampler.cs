using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Draws from a density by an ensemble of walkers whose moves follow the walkers themselves, so that the units and correlations of the coordinates do not
/// matter. One move in five stretches the line to another walker, the others go along the difference of two others, which gives some
/// three times as many effective draws an evaluation (measured on normal densities of 2 to 10 dimensions, a box and two modes).
/// <para><b>Equation</b>: y = x_j + z (x − x_j), density of z ∝ 1/√z on [½, 2], accepted with probability min(1, z^{d−1} p(y)/p(x)); and
/// y = x + γ (x_i − x_j), γ = 2.38/√(2d) or, one time in ten, 1, accepted with probability min(1, p(y)/p(x)).</para>
/// <para><b>Range</b>: up to some ten dimensions; modes that no walker starts in are not found, and the weights of modes far apart are known only as far as
/// walkers pass between them, which the status tells.</para>
/// <para><b>Error</b>: that of <see cref="SampledPosterior.EffectiveSampleSize"/> independent draws.</para>
/// <para><b>Source</b>: J. Goodman and J. Weare, Commun. Appl. Math. Comput. Sci. 5 (2010) 65–80; C. J. F. ter Braak, Stat. Comput. 16 (2006) 239–249; from
/// memory.</para>
/// <para><b>Checked by</b>: EnsembleSamplerTests.cs.</para>
/// </summary>
public static class EnsembleSampler
{
    // A chain this many times longer than its memory tells the memory, and R̂ of chains that agree is then about 1.02.
    private const double LongEnough = 50;
    private const double MostRHat = 1.05;

    private const int FirstLook = 200;
    private const int PlacingRounds = 100;

    /// <summary>Samples from walkers scattered normally about a centre.</summary>
    /// <param name="density">Density.</param>
    /// <param name="centre">Centre, best near the mode.</param>
    /// <param name="spread">Standard deviation of the start in each coordinate, above 0: best about that of the density.</param>
    /// <param name="options">How long; the defaults if not given.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <exception cref="ArgumentException">Lengths do not fit or values are out of range.</exception>
    /// <exception cref="InvalidOperationException">The density is 0 around the centre, or infinite somewhere.</exception>
    public static SampledPosterior Run(
        ILogDensity density, ReadOnlySpan<double> centre, ReadOnlySpan<double> spread, SamplerOptions? options = null, CancellationToken cancellation = default)
    {
        options ??= new SamplerOptions();
        int walkers = Check(density, options);
        int n = density.Dimensions;
        if (centre.Length != n) throw new ArgumentException($"centre has {centre.Length} values but the density has {n} dimensions.", nameof(centre));
        if (spread.Length != n) throw new ArgumentException($"spread has {spread.Length} values but the density has {n} dimensions.", nameof(spread));
        foreach (double value in centre) Arguments.Finite(value, nameof(centre));
        foreach (double value in spread) Arguments.Positive(value, nameof(spread));

        WalkerEnsemble ensemble = new(density, new double[walkers * n], options.Seed, options.DifferenceMoves, options.Grid);
        Place(ensemble, centre, spread, options.Seed, cancellation);
        return Sample(ensemble, n, options, cancellation);
    }

    /// <summary>Samples from given walkers.</summary>
    /// <param name="density">Density.</param>
    /// <param name="start">One walker a row; they may not lie in a plane. One where the density is 0 is drawn towards one where it is not, half the way at a time.</param>
    /// <param name="options">How long; the defaults if not given. <see cref="SamplerOptions.Walkers"/> must fit if given.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <exception cref="ArgumentException">The number of walkers does not fit, one is not finite, the density is 0 at all of them, or they lie in a plane.</exception>
    /// <exception cref="InvalidOperationException">The density is infinite somewhere.</exception>
    public static SampledPosterior Run(ILogDensity density, double[,] start, SamplerOptions? options = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(start);
        options ??= new SamplerOptions();
        int walkers = Check(density, options with { Walkers = options.Walkers ?? start.GetLength(0) });
        int n = density.Dimensions;
        if (start.GetLength(0) != walkers || start.GetLength(1) != n)
        {
            throw new ArgumentException($"start is {start.GetLength(0)} × {start.GetLength(1)} but must be {walkers} walkers × {n} dimensions.", nameof(start));
        }
        double[] positions = [.. start.Cast<double>()];
        foreach (double value in positions) Arguments.Finite(value, nameof(start));
        WalkerEnsemble ensemble = new(density, positions, options.Seed, options.DifferenceMoves, options.Grid);
        for (int half = 0; half < 2; half++)
        {
            if (!Spans(positions.AsSpan(half * positions.Length / 2, positions.Length / 2), n))
            {
                throw new ArgumentException($"The {(half == 0 ? "first" : "second")} half of the walkers lies in a plane: no move would leave it.", nameof(start));
            }
        }
        ensemble.Evaluate(positions, ensemble.LogDensities, cancellation);
        if (Array.TrueForAll(ensemble.LogDensities, double.IsNegativeInfinity)) throw new ArgumentException("The density is 0 at every walker of start.", nameof(start));
        PullIn(ensemble, n, cancellation);
        return Sample(ensemble, n, options, cancellation);
    }

    private static int Check(ILogDensity density, SamplerOptions options)
    {
        ArgumentNullException.ThrowIfNull(density);
        int n = density.Dimensions;
        if (n < 1) throw new ArgumentException($"A density needs at least 1 dimension; this one has {n}.", nameof(density));
        int walkers = options.Walkers ?? Math.Max(32, 4 * n);
        if (walkers < 2 * (n + 1))
        {
            throw new ArgumentException($"{walkers} walkers are too few for {n} dimensions: at least {2 * (n + 1)} are needed.", nameof(options));
        }
        return walkers;
    }

    /// <summary>Scatters the walkers; those on impossible places are scattered again, closer to the centre after a while.</summary>
    private static void Place(WalkerEnsemble ensemble, ReadOnlySpan<double> centre, ReadOnlySpan<double> spread, ulong seed, CancellationToken cancellation)
    {
        int n = centre.Length;
        int[] open = [.. Enumerable.Range(0, ensemble.Walkers)];
        for (int round = 0; open.Length > 0; round++)
        {
            if (round == PlacingRounds)
            {
                throw new InvalidOperationException($"The density is 0 almost everywhere around the centre: {open.Length} of {ensemble.Walkers} walkers found no place.");
            }
            double closer = Math.Pow(0.95, round);
            double[] points = new double[open.Length * n];
            double[] answers = new double[open.Length];
            for (int i = 0; i < open.Length; i++)
            {
                for (int d = 0; d < n; d++)
                {
                    (ulong bits, _) = Philox.Pair(seed, RandomStream.WalkerStarts, open[i], (ulong)round, d);
                    points[i * n + d] = centre[d] + closer * spread[d] * StandardNormal.Quantile(Philox.Unit(bits));
                }
            }
            ensemble.PutOnGrid(points);
            ensemble.Evaluate(points, answers, cancellation);
            for (int i = 0; i < open.Length; i++)
            {
                points.AsSpan(i * n, n).CopyTo(ensemble.Positions.AsSpan(open[i] * n));
                ensemble.LogDensities[open[i]] = answers[i];
            }
            open = [.. open.Where(walker => double.IsNegativeInfinity(ensemble.LogDensities[walker]))];
        }
    }

    /// <summary>Draws walkers on impossible places, in turn, towards those that are not.</summary>
    private static void PullIn(WalkerEnsemble ensemble, int n, CancellationToken cancellation)
    {
        int[] possible = [.. Enumerable.Range(0, ensemble.Walkers).Where(walker => !double.IsNegativeInfinity(ensemble.LogDensities[walker]))];
        for (int i = 0, walker = 0; walker < ensemble.Walkers; walker++)
        {
            if (!double.IsNegativeInfinity(ensemble.LogDensities[walker])) continue;
            int other = possible[i++ % possible.Length];
            ReadOnlySpan<double> there = ensemble.Positions.AsSpan(other * n, n);
            Span<double> place = ensemble.Positions.AsSpan(walker * n, n);
            for (int round = 0; round < PlacingRounds && double.IsNegativeInfinity(ensemble.LogDensities[walker]); round++)
            {
                for (int d = 0; d < n; d++) place[d] = 0.5 * place[d] + 0.5 * there[d];
                ensemble.PutOnGrid(place);
                ensemble.Evaluate(place, ensemble.LogDensities.AsSpan(walker, 1), cancellation);
            }
            if (!double.IsNegativeInfinity(ensemble.LogDensities[walker])) continue;
            there.CopyTo(place);
            ensemble.LogDensities[walker] = ensemble.LogDensities[other];
        }
    }

    /// <summary>Whether points span all dimensions, whatever their units.</summary>
    private static bool Spans(ReadOnlySpan<double> points, int n)
    {
        const double flat = 1e-10;
        int count = points.Length / n;
        Matrix<double> matrix = Matrix<double>.Build.Dense(count, n);
        for (int d = 0; d < n; d++)
        {
            double mean = 0, norm = 0, largest = 0;
            for (int i = 0; i < count; i++) mean += points[i * n + d] / count;
            for (int i = 0; i < count; i++) largest = Math.Max(largest, Math.Abs(points[i * n + d]));
            for (int i = 0; i < count; i++) norm += (points[i * n + d] - mean) * (points[i * n + d] - mean);
            // What the mean's rounding leaves of equal numbers is no spread.
            if (!(Math.Sqrt(norm) > 1e-14 * count * largest)) return false;
            for (int i = 0; i < count; i++) matrix[i, d] = (points[i * n + d] - mean) / Math.Sqrt(norm);
        }
        Vector<double> values = matrix.Svd(computeVectors: false).S;
        return values[n - 1] > flat * values[0];
    }

    private static SampledPosterior Sample(WalkerEnsemble ensemble, int n, SamplerOptions options, CancellationToken cancellation)
    {
        Chain chain = new(ensemble.Walkers, n, options.BurnIn);
        int look = Math.Max(FirstLook, 2 * (options.BurnIn ?? 0));
        while (true)
        {
            ensemble.Step(chain.Steps, chain.Moved, cancellation);
            chain.Add(ensemble);
            bool last = chain.Steps >= options.HighestSteps || ensemble.Evaluations + ensemble.Walkers > options.HighestEvaluations;
            if (!last && chain.Steps < look) continue;
            SampledPosterior posterior = chain.Posterior(ensemble.Evaluations, options.TargetEffectiveSamples, LongEnough, MostRHat);
            if (last || posterior.Status == SamplerStatus.Converged) return posterior;
            look = NextLook(posterior, options.TargetEffectiveSamples);
        }
    }

    /// <summary>When it should be enough, as far as can be told; looking costs time too.</summary>
    private static int NextLook(SampledPosterior posterior, double target)
    {
        double missing = Math.Max(target / posterior.EffectiveSampleSize.Min(), LongEnough * posterior.AutocorrelationTime.Max() / (posterior.Steps - posterior.BurnIn));
        return (int)Math.Min(int.MaxValue, Math.Ceiling(posterior.Steps * Math.Clamp(1.05 * missing, 1.1, 2)));
    }
}
