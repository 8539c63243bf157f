using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>How long somebody stands by while a tank is strained: quantiles over runs with inputs drawn from their spreads.</summary>
internal static class StrainingTimes
{
    /// <summary>Runs: quantiles of 10 and 90 % to a few per cent (engineering choice).</summary>
    private const int Runs = 1024;

    /// <summary>Times at which one run in ten and nine in ten have ended; null when nothing varies.</summary>
    /// <param name="setup">Setup, checked.</param>
    /// <param name="spreads">Spreads; null for the common ones.</param>
    /// <param name="seed">Number that the draws come from.</param>
    /// <param name="cancellation">Ends early.</param>
    public static (Duration Quick, Duration Slow)? Of(StrainingSetup setup, IReadOnlyList<UncertainInput>? spreads, ulong seed, CancellationToken cancellation)
    {
        spreads ??= DefaultSpreads.For(setup);
        if (spreads.Count == 0)
            return null;

        var inputs = new SpreadInputs(spreads, []);
        var batch = new StrainingBatch(setup, inputs, new EnsembleOptions());
        double[] points = new double[Runs * inputs.Count];
        new RunDraws(inputs.Count, seed).Fill(0, points);
        var samples = new StrainingSample[Runs];
        batch.Run(points, samples, cancellation);

        double[] ends = [.. samples.Select(sample => sample.EndSeconds).Order()];
        return (At(0.1), At(0.9));

        Duration At(double share) => Duration.FromSeconds(ends[(int)(share * (Runs - 1))]);
    }
}
