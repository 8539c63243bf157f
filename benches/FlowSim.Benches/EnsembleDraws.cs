using System.Runtime.InteropServices;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;

namespace FlowSim.Benches;

/// <summary>The batches that all ensembles run: <see cref="PlainPail"/> with six inputs varied. The spreads are assumed, not measured.</summary>
internal static class EnsembleDraws
{
    private const ulong Seed = 20261125;

    /// <summary>The inputs, in the order in which the peers read them (<c>Batch</c> in plain_straining.h).</summary>
    public static IReadOnlyList<StrainingInput> Varied { get; } =
    [
        StrainingInputs.Moisture, StrainingInputs.HoneyTemperature, StrainingInputs.LotFactor, StrainingInputs.ScreenFactor, StrainingInputs.DebrisLoad,
        StrainingInputs.Opening,
    ];

    /// <summary>Draws; run i is the same however many there are.</summary>
    /// <param name="count">Runs.</param>
    /// <returns>Values, run by run.</returns>
    public static double[] Take(int count)
    {
        Distribution[] distributions =
        [
            new NormalDistribution(Middle(StrainingInputs.Moisture), 0.002),
            new NormalDistribution(Middle(StrainingInputs.HoneyTemperature), 1),
            new LogNormalDistribution(Middle(StrainingInputs.LotFactor), 0.30),
            new UniformDistribution(0.62, 1),

            // A third and three times the median at 10 and 90 %; the normal quantile of 0.9 is 1.2816.
            new LogNormalDistribution(Middle(StrainingInputs.DebrisLoad), Math.Log(3) / new NormalDistribution(0, 1).Quantile(0.9)),
            new NormalDistribution(Middle(StrainingInputs.Opening), 0.02),
        ];
        int inputs = Varied.Count;
        for (int j = 0; j < inputs; j++)
        {
            (double low, double high) = Varied[j].RangeIn(PlainPail.Setup);
            distributions[j] = distributions[j].Within(low, high);
        }

        double[] values = new double[count * inputs];
        new RandomPoints(inputs, Seed).Fill(0, values);
        for (int i = 0; i < values.Length; i++)
            values[i] = distributions[i % inputs].Quantile(values[i]);
        return values;
    }

    /// <summary>Writes draws for the peers: doubles, lowest byte first.</summary>
    /// <param name="path">File.</param>
    /// <param name="values">Draws.</param>
    public static void Write(string path, double[] values) => File.WriteAllBytes(path, MemoryMarshal.AsBytes(values.AsSpan()));

    private static double Middle(StrainingInput input) => input.ValueIn(PlainPail.Setup);
}
