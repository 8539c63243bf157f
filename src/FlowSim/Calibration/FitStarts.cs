using FlowSim.Numerics.Sampling;
using MathNet.Numerics.Distributions;

namespace FlowSim.Calibration;

/// <summary>Where a fit starts: the likeliest of many draws from what was known before, then its middle, then the next likeliest.</summary>
internal static class FitStarts
{
    private const int Draws = 1024, Batch = 64, Starts = 10;

    /// <summary>Coordinates are pulled in a little: the best fit is seldom in the tails.</summary>
    private const double PulledIn = 0.8;

    /// <summary>The starts, most promising first.</summary>
    /// <param name="posterior">What is fitted.</param>
    /// <param name="series">The series.</param>
    /// <param name="seed">Number that the draws come from.</param>
    public static IEnumerable<double[]> For(CalibrationPosterior posterior, TimedSeries[] series, ulong seed)
    {
        int width = posterior.Layout.Count;
        double[] points = new double[Draws * width];
        new ScrambledSobol(width, seed, 0).Fill(0, points);
        for (int i = 0; i < points.Length; i++)
            points[i] = PulledIn * Normal.InvCDF(0, 1, points[i]);

        double[] likely = new double[Draws];
        double[] off = new double[Batch * posterior.Measured];
        double[] scales = new double[series.Length];
        for (int first = 0; first < Draws; first += Batch)
        {
            posterior.Off(points.AsSpan(first * width, Batch * width), Batch, off);
            for (int row = 0; row < Batch; row++)
            {
                ReadOnlySpan<double> mine = off.AsSpan(row * posterior.Measured, posterior.Measured);
                for (int s = 0; s < series.Length; s++)
                    scales[s] = Scatter(mine.Slice(posterior.Places[s].Start, posterior.Places[s].Count), QuantityFacts.Of(series[s].Quantity).Scatter);
                double square = 0;
                for (int j = 0; j < width; j++)
                    square += points[((first + row) * width) + j] * points[((first + row) * width) + j];
                likely[first + row] = posterior.LogDensity(mine, scales, series) - (0.5 * square);
            }
        }

        int[] order = [.. Enumerable.Range(0, Draws).OrderByDescending(i => likely[i])];
        yield return Row(order[0]);
        yield return new double[width];
        for (int i = 1; i < Starts - 1; i++)
            yield return Row(order[i]);

        double[] Row(int i) => points.AsSpan(i * width, width).ToArray();
    }

    /// <summary>A scale good enough to compare draws by: the median distance, at least what was expected.</summary>
    private static double Scatter(ReadOnlySpan<double> off, double expected)
    {
        double[] sizes = off.ToArray();
        for (int i = 0; i < sizes.Length; i++)
            sizes[i] = Math.Abs(sizes[i]);
        Array.Sort(sizes);
        return Math.Max(expected, sizes[sizes.Length / 2]);
    }
}
