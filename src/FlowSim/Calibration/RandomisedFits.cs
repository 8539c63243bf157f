using FlowSim.Numerics.Sampling;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Calibration;

/// <summary>
/// Intervals that follow the bends of the model: where two inputs make up for each other over a wide range, the line on which they do is curved, and Laplace's
/// straight one is too short. Each draw is a fit to readings and priors that were shaken by their own errors, weighted so that together they follow the posterior.
/// <para><b>Equation</b>: x solves C Jᵀ(r(x) − r(x̂)) = δ, δ normal with covariance C = (JᵀJ)⁻¹; weight ∝ exp(½ ‖Qᵀr‖² − ½ ‖r‖²)/|det JᵀJ(x)|, ‖Qᵀr‖² = (Jᵀr)ᵀ C Jᵀr. J and C are those of the best fit,
/// r the residuals of readings and the numbers themselves.</para>
/// <para><b>Error</b>: none but that of the number of draws, as long as every shaken fit is found and unique; those not found are left out and counted.</para>
/// <para><b>Source</b>: J. M. Bardsley, A. Solonen, H. Haario, M. Laine, Randomize-then-optimize, SIAM J. Sci. Comput. 36 (2014) A1895; from memory.</para>
/// <para><b>Checked by</b>: CoverageTests.cs, and by the affine-invariant sampler in every calibration.</para>
/// </summary>
internal sealed class RandomisedFits
{
    private const int Draws = 256;
    private const int MostTurns = 25;

    /// <summary>Distance from the solution, in Laplace standard deviations, at which a fit is found.</summary>
    private const double Near = 0.02;

    /// <summary>Least share of the draws that must be found, and least number of even draws that they must be worth (engineering choices).</summary>
    private const double LeastFound = 0.8, LeastEffective = 60;

    private readonly BestFit _fit;
    private readonly double[] _weights;
    private readonly double[] _offAtFit;
    private readonly Matrix<double> _jacobian;
    private readonly Matrix<double> _pull;
    private readonly int _width;
    private readonly int _measured;

    private RandomisedFits(BestFit fit)
    {
        _fit = fit;
        _width = fit.Numbers.Length;
        _measured = fit.Posterior.Measured;
        _offAtFit = fit.Off;
        _weights = Weights(fit);
        double[] slopes = fit.SlopesAt(fit.Numbers);
        _jacobian = Matrix<double>.Build.Dense(_measured, _width, (i, j) => slopes[(i * _width) + j] * _weights[i]);
        Covariance = (_jacobian.TransposeThisAndMultiply(_jacobian) + Matrix<double>.Build.DenseIdentity(_width)).Cholesky().Solve(Matrix<double>.Build.DenseIdentity(_width));
        _pull = Covariance * _jacobian.Transpose();
    }

    /// <summary>Laplace's covariance with the weights used here.</summary>
    private Matrix<double> Covariance { get; }

    /// <summary>Draws and their weights; null when too few were found.</summary>
    /// <param name="fit">Best fit.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="cancellation">Ends early.</param>
    public static WeightedDraws? Of(BestFit fit, ulong seed, CancellationToken cancellation)
    {
        var fits = new RandomisedFits(fit);
        double[] x = fits.Solve(fits.Shaken(seed), cancellation, out bool[] found);
        if (found.Count(f => f) < LeastFound * Draws)
            return null;
        double[] logs = fits.LogWeights(x, found, cancellation);
        if (logs.Count(double.IsFinite) < LeastFound * Draws)
            return null;
        double[] weights = Even(logs, 1, out double effective);

        // Where a few draws would carry all, the weights are taken to a power below 1: nearer to the draws as they are, which are wide enough already.
        for (double power = 0.9; effective < LeastEffective && power > 0; power -= 0.1)
            weights = Even(logs, power, out effective);
        return new WeightedDraws(x, weights, fits._width, effective);
    }

    private static double[] Even(double[] logs, double power, out double effective)
    {
        double highest = logs.Max();
        double[] weights = [.. logs.Select(log => Math.Exp(power * (log - highest)))];
        double sum = weights.Sum();
        effective = sum * sum / weights.Sum(w => w * w);
        return [.. weights.Select(w => w / sum)];
    }

    /// <summary>Square root of the weight of each residual: that of its scale, and less the more it is stray.</summary>
    private static double[] Weights(BestFit fit)
    {
        double[] weights = new double[fit.Posterior.Measured];
        Array.Fill(weights, 1);
        for (int s = 0; s < fit.Posterior.Places.Length; s++)
        {
            (int start, int count) = fit.Posterior.Places[s];
            double scale = fit.Posterior.Scales[s], sum = 0;
            for (int i = start; i < start + count; i++)
            {
                double u = fit.Off[i] / scale;
                weights[i] = 1 / (1 + (u * u / StudentNoise.Freedom));
                sum += weights[i];
            }

            double mean = sum / count;
            for (int i = start; i < start + count; i++)
                weights[i] = Math.Sqrt(weights[i] / mean / fit.Counted[s]) / scale;
        }

        return weights;
    }

    /// <summary>Draws δ, row by row.</summary>
    private double[] Shaken(ulong seed)
    {
        double[] normal = new double[Draws * _width];
        new ScrambledSobol(_width, seed + 2, 0).Fill(0, normal);
        Matrix<double> factor = Covariance.Cholesky().Factor;
        Vector<double> one = Vector<double>.Build.Dense(_width);
        for (int d = 0; d < Draws; d++)
        {
            for (int j = 0; j < _width; j++)
                one[j] = Normal.InvCDF(0, 1, normal[(d * _width) + j]);
            (factor * one).AsArray().CopyTo(normal, d * _width);
        }

        return normal;
    }

    /// <summary>Solves for all draws at once, by the chord method with steps that shrink where it does not come nearer or has no answer.</summary>
    private double[] Solve(double[] delta, CancellationToken cancellation, out bool[] found)
    {
        double[] x = new double[delta.Length], best = new double[delta.Length], miss = new double[delta.Length];
        double[] least = new double[Draws], damping = new double[Draws];
        Array.Fill(least, double.PositiveInfinity);
        Array.Fill(damping, 1);
        delta.CopyTo(miss, 0);
        for (int i = 0; i < x.Length; i++)
        {
            best[i] = _fit.Numbers[i % _width];
            x[i] = Clamp(best[i] + delta[i]);
        }

        double[] deviations = [.. Enumerable.Range(0, _width).Select(j => Math.Sqrt(Covariance[j, j]))];
        found = new bool[Draws];
        int[] open = [.. Enumerable.Range(0, Draws)];
        for (int turn = 0; turn < MostTurns && open.Length > 0; turn++)
        {
            cancellation.ThrowIfCancellationRequested();
            double[] off = OffOf(x, open);
            for (int k = 0; k < open.Length; k++)
            {
                int d = open[k];
                Vector<double> residual = Moved(off.AsSpan(k * _measured, _measured));
                Vector<double> pulled = _pull * residual;
                double largest = 0;
                double[] error = new double[_width];
                Vector<double> own = Vector<double>.Build.Dense(_width, j => x[(d * _width) + j] - _fit.Numbers[j]);
                Vector<double> prior = Covariance * own;
                for (int j = 0; j < _width; j++)
                {
                    error[j] = delta[(d * _width) + j] - pulled[j] - prior[j];
                    largest = Math.Max(largest, Math.Abs(error[j]) / deviations[j]);
                }

                if (largest < least[d])
                {
                    least[d] = largest;
                    x.AsSpan(d * _width, _width).CopyTo(best.AsSpan(d * _width));
                    error.CopyTo(miss, d * _width);
                    damping[d] = Math.Min(1, 1.5 * damping[d]);
                }
                else
                {
                    damping[d] *= 0.4;
                }

                for (int j = 0; j < _width; j++)
                    x[(d * _width) + j] = Clamp(best[(d * _width) + j] + (damping[d] * miss[(d * _width) + j]));
            }

            foreach (int d in open)
                found[d] = least[d] <= Near;
            bool[] done = found;
            open = [.. open.Where(d => !done[d])];
        }

        // A miss of a few hundredths moves no interval.
        for (int d = 0; d < Draws; d++)
            found[d] = least[d] <= 5 * Near;
        return best;
    }

    /// <summary>Logarithms of the weights, −∞ where no fit was found or, beside it, there is no answer. Slopes are taken to the side that lies within the scores.</summary>
    private double[] LogWeights(double[] x, bool[] found, CancellationToken cancellation)
    {
        const double Step = 0.05;
        double[] logs = new double[Draws];
        Array.Fill(logs, double.NegativeInfinity);
        Matrix<double> transposed = _jacobian.Transpose();
        for (int d = 0; d < Draws; d++)
        {
            if (!found[d])
                continue;
            cancellation.ThrowIfCancellationRequested();
            double[] rows = new double[(_width + 1) * _width];
            double[] steps = new double[_width];
            for (int j = 0; j < _width; j++)
                steps[j] = x[(d * _width) + j] + Step > ScoreScale.Furthest ? -Step : Step;
            for (int row = 0; row <= _width; row++)
            {
                x.AsSpan(d * _width, _width).CopyTo(rows.AsSpan(row * _width));
                if (row > 0)
                    rows[(row * _width) + row - 1] += steps[row - 1];
            }

            double[] off = new double[(_width + 1) * _measured];
            _fit.Posterior.Off(rows, _width + 1, off);
            if (off.Any(double.IsNaN))
                continue;
            Matrix<double> slopes = Matrix<double>.Build.Dense(_measured, _width, (i, j) => (off[((j + 1) * _measured) + i] - off[i]) * _weights[i] / steps[j]);
            double determinant = (transposed * slopes + Matrix<double>.Build.DenseIdentity(_width)).Determinant();
            Vector<double> residual = Vector<double>.Build.Dense(_measured, i => off[i] * _weights[i]);
            Vector<double> numbers = Vector<double>.Build.Dense(_width, j => x[(d * _width) + j]);
            Vector<double> along = (transposed * residual) + numbers;
            double kept = along * (Covariance * along);
            logs[d] = (0.5 * (kept - (residual * residual) - (numbers * numbers))) - Math.Log(Math.Abs(determinant));
        }

        return logs;
    }

    private Vector<double> Moved(ReadOnlySpan<double> off)
    {
        Vector<double> moved = Vector<double>.Build.Dense(_measured);
        for (int i = 0; i < _measured; i++)
            moved[i] = (off[i] - _offAtFit[i]) * _weights[i];
        return moved;
    }

    /// <summary>Residuals of some draws, NaN where there is no answer.</summary>
    private double[] OffOf(double[] x, int[] draws)
    {
        double[] rows = new double[draws.Length * _width], off = new double[draws.Length * _measured];
        for (int k = 0; k < draws.Length; k++)
            x.AsSpan(draws[k] * _width, _width).CopyTo(rows.AsSpan(k * _width));
        _fit.Posterior.Off(rows, draws.Length, off);
        return off;
    }

    private static double Clamp(double score) => Math.Clamp(score, -ScoreScale.Furthest, ScoreScale.Furthest);
}

/// <summary>Draws of the independent numbers with weights.</summary>
/// <param name="Values">The numbers, draw by draw.</param>
/// <param name="Weights">Weights, their sum 1.</param>
/// <param name="Width">Numbers in a draw.</param>
/// <param name="Effective">Number of even draws that they are worth.</param>
internal sealed record WeightedDraws(double[] Values, double[] Weights, int Width, double Effective)
{
    /// <summary>Some of the draws, each as often as its weight says, one after the other.</summary>
    /// <param name="count">How many.</param>
    public IEnumerable<double[]> Chosen(int count)
    {
        double passed = 0;
        int chosen = 0;
        for (int d = 0; d < Weights.Length; d++)
        {
            passed += Weights[d];
            for (; chosen < count && chosen + 0.5 <= passed * count; chosen++)
                yield return Values.AsSpan(d * Width, Width).ToArray();
        }

        for (; chosen < count; chosen++)
            yield return Values.AsSpan(0, Width).ToArray();
    }

    /// <summary>Mean and covariance.</summary>
    public (double[] Mean, Matrix<double> Covariance) Moments()
    {
        double[] mean = new double[Width];
        for (int d = 0; d < Weights.Length; d++)
        {
            for (int j = 0; j < Width; j++)
                mean[j] += Weights[d] * Values[(d * Width) + j];
        }

        // As for any sample, the variance about the sample's own mean is too small by one part in its number.
        double correction = Effective / (Effective - 1);
        Matrix<double> covariance = Matrix<double>.Build.Dense(Width, Width, (a, b) =>
        {
            double sum = 0;
            for (int d = 0; d < Weights.Length; d++)
                sum += Weights[d] * (Values[(d * Width) + a] - mean[a]) * (Values[(d * Width) + b] - mean[b]);
            return correction * sum;
        });
        return (mean, covariance);
    }
}
