using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>A density from a function of one point.</summary>
internal sealed class TestDensity(int dimensions, Func<double[], double> function, int threads = 1) : ILogDensity
{
    public int Dimensions => dimensions;

    public long Evaluations { get; private set; }

    public void Evaluate(ReadOnlySpan<double> points, Span<double> logDensities, CancellationToken cancellation)
    {
        Evaluations += logDensities.Length;
        double[] all = points.ToArray();
        double[] answers = new double[logDensities.Length];
        if (threads == 1)
        {
            for (int i = answers.Length - 1; i >= 0; i--) answers[i] = function(all[(i * dimensions)..((i + 1) * dimensions)]);
        }
        else
        {
            Parallel.For(0, answers.Length, new ParallelOptions { MaxDegreeOfParallelism = threads },
                i => answers[i] = function(all[(i * dimensions)..((i + 1) * dimensions)]));
        }
        answers.CopyTo(logDensities);
    }
}
