using FlowSim.Numerics.Sampling;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Random;

namespace FlowSim.Calibration;

/// <summary>Checks the intervals of the fit by an affine-invariant sampler, and takes the sampler's where the fit's would mislead.</summary>
/// <remarks>
/// Only where readings say something is there anything to sample: along the eigenvectors of their information whose eigenvalue exceeds <see cref="Informed"/>. Across
/// them the numbers stay normal as they were before (the likelihood-informed subspace of Cui et al., Inverse Problems 30 (2014) 114015; from memory). The scales of the
/// noise are sampled too.
/// </remarks>
internal static class PosteriorSampling
{
    /// <summary>Eigenvalue of the information, in units of that from before, from which a direction is sampled; below it at most a tenth of the spread is lost, and the fit's normal distribution serves.</summary>
    private const double Informed = 0.25;

    /// <summary>Effective draws that are aimed at, and those that must be had for the sampler to be believed (engineering choices).</summary>
    private const double WantedDraws = 300, LeastDraws = 100;

    private const long MostEvaluations = 80_000;
    private const int Kept = 8192;
    private const int FewestWalkers = 32;

    /// <summary>Grid of the walkers, in standard deviations of the fit: a millionth, so that the same draws come out on every machine.</summary>
    private const double Grid = 1.0 / (1 << 20);

    /// <summary>Shift of a median, in standard deviations, and ratio of widths from which the fit's intervals mislead (engineering choices): beyond what the sampler's own noise does.</summary>
    private const double MostShift = 0.3, MostRatio = 1.2;

    /// <summary>Samples.</summary>
    /// <param name="fit">Best fit.</param>
    /// <param name="series">Series.</param>
    /// <param name="draws">Draws that the walkers start from; null to draw from Laplace's approximation.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="scores">Mean and covariance of the scores; replaced where they mislead.</param>
    /// <param name="cancellation">Ends early.</param>
    /// <returns>What the sampler found; null where the readings tell of nothing, so that there is nothing to sample.</returns>
    public static SamplerCheck? Check(BestFit fit, TimedSeries[] series, WeightedDraws? draws, ulong seed, ref (double[] Mean, Matrix<double> Covariance) scores, CancellationToken cancellation)
    {
        var density = new InformedDensity(fit, series, draws, Informed);
        if (density.Dimensions == 0)
            return null;
        int walkers = Math.Max(FewestWalkers, 4 * density.Dimensions);
        SampledPosterior sampled = EnsembleSampler.Run(density, density.Start(walkers, draws, seed), new SamplerOptions
        {
            Walkers = walkers,
            TargetEffectiveSamples = WantedDraws,
            HighestEvaluations = MostEvaluations,
            Grid = Grid,
            Seed = seed,
        }, cancellation);

        int count = Math.Min(Kept, sampled.Count);
        double[][] values = density.Scores(sampled.Spaced(count), count, seed);
        double worstShift = 0, worstRatio = 1;
        int width = values.Length;
        double[] middles = new double[width], deviations = new double[width];
        for (int j = 0; j < width; j++)
        {
            double[] sorted = [.. values[j].Order()];
            double sd = Math.Sqrt(scores.Covariance[j, j]);
            middles[j] = At(sorted, 0.5);
            deviations[j] = (At(sorted, 0.975) - At(sorted, 0.025)) / (2 * NormalDistribution.HalfWidth95);
            double shift = Math.Abs(middles[j] - scores.Mean[j]) / sd, ratio = deviations[j] / sd;
            worstShift = Math.Max(worstShift, shift);
            if (Math.Abs(Math.Log(ratio)) > Math.Abs(Math.Log(worstRatio)))
                worstRatio = ratio;
        }

        double effective = sampled.EffectiveSampleSize.Min(), mixing = sampled.SplitRHat.Max();
        bool used = effective >= LeastDraws && (worstShift > MostShift || Math.Abs(Math.Log(worstRatio)) > Math.Log(MostRatio));
        if (used)
            scores = (middles, Covariance(values, deviations));
        return new SamplerCheck(count, effective, mixing, worstShift, worstRatio, used);
    }

    private static double At(double[] sorted, double share) => sorted[(int)Math.Round(share * (sorted.Length - 1))];

    /// <summary>The correlations of the draws, with the standard deviations that their intervals have.</summary>
    private static Matrix<double> Covariance(double[][] draws, double[] deviations)
    {
        int width = draws.Length;
        double[] means = [.. draws.Select(column => column.Average())];
        Matrix<double> products = Matrix<double>.Build.Dense(width, width);
        for (int a = 0; a < width; a++)
        {
            for (int b = 0; b <= a; b++)
            {
                double sum = 0;
                for (int i = 0; i < draws[a].Length; i++)
                    sum += (draws[a][i] - means[a]) * (draws[b][i] - means[b]);
                products[a, b] = products[b, a] = sum;
            }
        }

        return Matrix<double>.Build.Dense(width, width, (a, b) => deviations[a] * deviations[b] * products[a, b] / Math.Sqrt(products[a, a] * products[b, b]));
    }

    /// <summary>
    /// The posterior along the informed directions, each in units of its Laplace standard deviation from the fit and straightened by a <see cref="RidgeShear"/>, and the logarithms of
    /// the scales over those of the fit.
    /// </summary>
    private sealed class InformedDensity : ILogDensity
    {
        private readonly BestFit _fit;
        private readonly TimedSeries[] _series;
        private readonly double[] _inflations;
        private readonly Matrix<double> _informed;
        private readonly Matrix<double> _rest;
        private readonly double[] _floors;
        private readonly RidgeShear _shear;
        private double[] _u = [];
        private double[] _off = [];

        public InformedDensity(BestFit fit, TimedSeries[] series, WeightedDraws? draws, double informed)
        {
            (_fit, _series) = (fit, series);
            _inflations = [.. fit.Together.Select(together => together.Inflation)];
            _floors = [.. fit.Floors];
            int width = fit.Numbers.Length;

            // Covariance = (H + 1)⁻¹ has the eigenvectors of the information H, and eigenvalues 1/(1 + λ).
            var evd = fit.Covariance.Evd(Symmetricity.Symmetric);
            int[] told = [.. Enumerable.Range(0, width).Where(k => evd.EigenValues[k].Real < 1 / (1 + informed))];
            int[] untold = [.. Enumerable.Range(0, width).Except(told)];
            _informed = Scaled(told);
            _rest = Scaled(untold);
            double[][]? known = draws is null ? null : [.. Enumerable.Range(0, draws.Weights.Length).Select(d => Coordinates(draws.Values.AsSpan(d * width, width)))];
            _shear = RidgeShear.Of(known, draws?.Weights ?? [], told.Length);

            Matrix<double> Scaled(int[] columns) =>
                Matrix<double>.Build.Dense(width, columns.Length, (i, k) => evd.EigenVectors[i, columns[k]] * Math.Sqrt(Math.Max(1e-300, evd.EigenValues[columns[k]].Real)));
        }

        public int Dimensions => _informed.ColumnCount + _series.Length;

        /// <summary>Walkers at draws of the posterior, or drawn from Laplace's approximation where there are none.</summary>
        public double[,] Start(int walkers, WeightedDraws? draws, ulong seed)
        {
            const double ScaleSpread = 0.1, Apart = 0.05;
            var random = new MersenneTwister((int)(seed ^ (seed >> 32)), threadSafe: false);
            double[,] start = new double[walkers, Dimensions];
            double[][]? chosen = draws is null ? null : [.. draws.Chosen(walkers)];
            for (int w = 0; w < walkers; w++)
            {
                double[]? from = chosen is null ? null : Coordinates(chosen[(int)((long)w * 7919 % walkers)]); // Neighbours may be the same draw: spread over both halves.
                if (from is not null)
                    _shear.Straighten(from);
                for (int k = 0; k < _informed.ColumnCount; k++)
                {
                    double normal = Normal.InvCDF(0, 1, random.NextDouble());
                    start[w, k] = from is null ? normal : from[k] + (Apart * normal);
                }

                for (int s = 0; s < _series.Length; s++)
                    start[w, _informed.ColumnCount + s] = ScaleSpread * Math.Abs(Normal.InvCDF(0, 1, random.NextDouble()));
            }

            return start;
        }

        /// <summary>Where a draw lies along the informed directions: those are perpendicular, each as long as its standard deviation.</summary>
        private double[] Coordinates(ReadOnlySpan<double> u)
        {
            double[] along = new double[_informed.ColumnCount];
            for (int k = 0; k < along.Length; k++)
            {
                double sum = 0, square = 0;
                for (int j = 0; j < u.Length; j++)
                {
                    sum += _informed[j, k] * (u[j] - _fit.Numbers[j]);
                    square += _informed[j, k] * _informed[j, k];
                }

                along[k] = sum / square;
            }

            return along;
        }

        public void Evaluate(ReadOnlySpan<double> points, Span<double> logDensities, CancellationToken cancellation)
        {
            cancellation.ThrowIfCancellationRequested();
            int rows = logDensities.Length, width = _fit.Numbers.Length, measured = _fit.Posterior.Measured;
            if (_u.Length < rows * width)
                (_u, _off) = (new double[rows * width], new double[rows * measured]);
            for (int row = 0; row < rows; row++)
                Numbers(points.Slice(row * Dimensions, _informed.ColumnCount), _u.AsSpan(row * width, width));
            _fit.Posterior.Off(_u, rows, _off);
            Span<double> scales = stackalloc double[_series.Length];
            for (int row = 0; row < rows; row++)
            {
                bool possible = true;
                for (int s = 0; s < scales.Length; s++)
                {
                    scales[s] = _fit.Posterior.Scales[s] * Math.Exp(points[(row * Dimensions) + _informed.ColumnCount + s]);
                    possible &= scales[s] >= _floors[s] && scales[s] < double.PositiveInfinity;
                }

                double square = 0;
                foreach (double u in _u.AsSpan(row * width, width))
                    square += u * u;
                logDensities[row] = possible
                    ? _fit.Posterior.LogDensity(_off.AsSpan(row * measured, measured), scales, _series, _inflations) - (0.5 * square)
                    : double.NegativeInfinity;
            }
        }

        /// <summary>Scores of draws, number by number, with what the readings say nothing of drawn as it was before.</summary>
        public double[][] Scores(double[] points, int count, ulong seed)
        {
            int width = _fit.Numbers.Length;
            double[][] scores = [.. Enumerable.Range(0, width).Select(_ => new double[count])];
            double[] u = new double[width], z = new double[width], across = new double[Math.Max(1, _rest.ColumnCount)];
            var others = new ScrambledSobol(across.Length, seed + 1, 0);
            double[] uniform = new double[count * across.Length];
            others.Fill(0, uniform);
            for (int i = 0; i < count; i++)
            {
                Numbers(points.AsSpan(i * Dimensions, _informed.ColumnCount), u);
                for (int k = 0; k < _rest.ColumnCount; k++)
                {
                    double normal = Normal.InvCDF(0, 1, uniform[(i * across.Length) + k]);
                    for (int j = 0; j < width; j++)
                        u[j] += _rest[j, k] * normal;
                }

                _fit.Posterior.Layout.Scores(u, z);
                for (int j = 0; j < width; j++)
                    scores[j][i] = z[j];
            }

            return scores;
        }

        private void Numbers(ReadOnlySpan<double> straight, Span<double> u)
        {
            Span<double> along = stackalloc double[straight.Length];
            straight.CopyTo(along);
            _shear.Bend(along);
            for (int j = 0; j < u.Length; j++)
            {
                double sum = _fit.Numbers[j];
                for (int k = 0; k < along.Length; k++)
                    sum += _informed[j, k] * along[k];
                u[j] = sum;
            }
        }
    }
}
