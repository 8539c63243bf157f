using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace FlowSim.Numerics.Sampling;

/// <summary>How far chains that run side by side can be trusted.</summary>
internal static class ChainDiagnostics
{
    /// <summary>
    /// Integrated autocorrelation time of one number of several chains, in steps: so many steps of one chain are worth one independent draw.
    /// <para><b>Equation</b>: τ = 1 + 2 Σ ρ(t), t = 1 … M, the sum cut at the first M ≥ 5 max(1, τ(M)); ρ the mean over the chains of the autocovariance about the mean of
    /// <em>all</em>, over that at t = 0. About the common mean, so that chains that stay apart do not look short-lived.</para>
    /// <para><b>Range</b>: chains some 50 τ long; the length of the chain is answered when no window fits or nothing varies.</para>
    /// <para><b>Error</b>: relative standard deviation about √(20 τ/(steps × chains)), and low by some e⁻⁵ of itself.</para>
    /// <para><b>Source</b>: A. D. Sokal, Monte Carlo methods in statistical mechanics (1989/1996), section 3; averaging over chains after D. Foreman-Mackey et
    /// al., PASP 125 (2013) 306; from memory.</para>
    /// <para><b>Checked by</b>: ChainDiagnosticsTests.cs.</para>
    /// </summary>
    /// <param name="chains">Chains of one length.</param>
    public static double AutocorrelationTime(IReadOnlyList<double[]> chains)
    {
        const double window = 5;
        int steps = chains[0].Length;
        double mean = chains.Sum(chain => chain.Sum() / steps) / chains.Count;
        // Twice the length, so that the end does not wrap around to the start.
        int size = (int)BitOperations.RoundUpToPowerOf2((uint)(2 * steps));
        // Two chains at a time as real and imaginary part: the real part of their spectrum's transform is the sum of both covariances.
        Complex[] spectrum = new Complex[size];
        Complex[] room = new Complex[size];
        for (int c = 0; c < chains.Count; c += 2)
        {
            double[] real = chains[c];
            double[]? imaginary = c + 1 < chains.Count ? chains[c + 1] : null;
            Array.Clear(room);
            for (int t = 0; t < steps; t++) room[t] = new Complex(real[t] - mean, imaginary is null ? 0 : imaginary[t] - mean);
            Fourier.Forward(room, FourierOptions.NoScaling);
            for (int k = 0; k < size; k++) spectrum[k] += room[k].Real * room[k].Real + room[k].Imaginary * room[k].Imaginary;
        }
        Fourier.Inverse(spectrum, FourierOptions.NoScaling);
        double[] covariance = new double[steps];
        for (int t = 0; t < steps; t++) covariance[t] = spectrum[t].Real / (steps - t);
        if (!(covariance[0] > 0)) return steps;
        double time = 1;
        for (int t = 1; t < steps; t++)
        {
            time += 2 * covariance[t] / covariance[0];
            if (t >= window * Math.Max(1, time)) return Math.Clamp(time, 0.1, steps);
        }
        return steps;
    }

    /// <summary>
    /// How much wider all chains together are than each alone, every chain cut in two: 1 when they agree.
    /// <para><b>Equation</b>: R̂ = √(((n − 1)/n W + B/n)/W), W the mean variance within the half chains of n steps, B/n the variance of their means.</para>
    /// <para><b>Range</b>: at least 4 steps a chain.</para>
    /// <para><b>Error</b>: about √(1 + (τ − 1)/n) when all is well.</para>
    /// <para><b>Source</b>: A. Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), section 11.4; from memory.</para>
    /// <para><b>Checked by</b>: ChainDiagnosticsTests.cs.</para>
    /// </summary>
    /// <param name="chains">Chains of one length.</param>
    /// <returns>R̂; +∞ when no chain varies.</returns>
    public static double SplitRHat(IReadOnlyList<double[]> chains)
    {
        int n = chains[0].Length / 2;
        double within = 0;
        double[] means = new double[2 * chains.Count];
        for (int c = 0; c < means.Length; c++)
        {
            double[] chain = chains[c / 2];
            ReadOnlySpan<double> half = chain.AsSpan(c % 2 == 0 ? 0 : chain.Length - n, n);
            foreach (double value in half) means[c] += value / n;
            foreach (double value in half) within += (value - means[c]) * (value - means[c]) / (n - 1);
        }
        within /= means.Length;
        if (!(within > 0)) return double.PositiveInfinity;
        double centre = means.Average();
        double between = means.Sum(mean => (mean - centre) * (mean - centre)) / (means.Length - 1);
        return Math.Sqrt((n - 1.0) / n + between / within);
    }
}
