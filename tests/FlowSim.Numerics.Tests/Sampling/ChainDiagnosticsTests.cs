using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>Chains x ← φ x + √(1 − φ²) ξ, whose autocorrelation time is (1 + φ)/(1 − φ) (textbook; from memory).</summary>
public sealed class ChainDiagnosticsTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    [InlineData(0.98)]
    [InlineData(-0.5)]
    public void AutocorrelationTime_of_a_first_order_chain(double phi)
    {
        double expected = (1 + phi) / (1 - phi);
        double time = ChainDiagnostics.AutocorrelationTime(Chains(phi, 16, 20_000));
        // Four standard deviations of Sokal's estimate with a window of 5 τ, and the part beyond the window.
        double tolerance = phi < 0 ? 0.2 : Math.Max(0.03, 4 * Math.Sqrt(20 * Math.Max(1, expected) / (16 * 20_000.0)) + 0.01);
        Assert.Equal(1, time / expected, tolerance);
    }

    [Fact]
    public void Averaged_over_seeds_it_is_not_off()
    {
        double sum = 0;
        for (int seed = 0; seed < 100; seed++) sum += ChainDiagnostics.AutocorrelationTime(Chains(0.8, 10, 500, seed));
        Assert.Equal(9, sum / 100, 0.4); // low by e⁻⁵ and by the mean that is taken off
    }

    [Fact]
    public void Chains_that_stay_apart_do_not_look_short_lived()
    {
        double[][] chains = Chains(0.5, 8, 2000);
        for (int c = 0; c < 4; c++) chains[c] = [.. chains[c].Select(x => x + 10)];
        Assert.Equal(2000, ChainDiagnostics.AutocorrelationTime(chains));
        Assert.InRange(ChainDiagnostics.SplitRHat(chains), 4, 7); // √(1 + 25·16/15)
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.9)]
    public void SplitRHat_of_chains_that_agree(double phi)
    {
        const int steps = 4000;
        const double n = steps / 2;
        double time = (1 + phi) / (1 - phi);
        // The variance of the 64 means is known to 18 %.
        Assert.Equal(Math.Sqrt(1 + (time - 1) / n), ChainDiagnostics.SplitRHat(Chains(phi, 32, steps)), 4 * 0.18 * time / n / 2);
    }

    [Fact]
    public void A_drift_shows_in_SplitRHat()
    {
        double[][] chains = [.. Chains(0, 8, 1000).Select(chain => chain.Select((x, t) => x + 0.004 * t).ToArray())];
        // The halves' means lie 1 to either side (16 of them), within a half the drift adds 2²/12 to the variance.
        Assert.Equal(Math.Sqrt(1 + 16.0 / 15 / (1 + 4.0 / 12)), ChainDiagnostics.SplitRHat(chains), 0.03);
    }

    [Fact]
    public void What_never_varies_is_not_called_known()
    {
        double[][] constant = [.. Enumerable.Range(0, 4).Select(_ => new double[50])];
        Assert.Equal(50, ChainDiagnostics.AutocorrelationTime(constant));
        Assert.Equal(double.PositiveInfinity, ChainDiagnostics.SplitRHat(constant));
    }

    private static double[][] Chains(double phi, int count, int steps, int seed = 1)
    {
        Random random = new(seed);
        double[][] chains = new double[count][];
        for (int c = 0; c < count; c++)
        {
            chains[c] = new double[steps];
            double x = Normal();
            for (int t = 0; t < steps; t++) chains[c][t] = x = phi * x + Math.Sqrt(1 - phi * phi) * Normal();
        }
        return chains;

        double Normal() => StandardNormal.Quantile(Math.Max(1e-300, random.NextDouble()));
    }
}
