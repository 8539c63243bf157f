using FlowSim.Numerics.Sampling;
using Xunit.Abstractions;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>
/// Of 95 % intervals from many seeds, between 92 and 98 % must hold the truth. The truths are closed forms. An interval that is right would fall outside
/// by luck of 200 seeds once in 20; where runs are cheap there are more seeds. Times as many seeds: COVERAGE_FACTOR=5 dotnet test … --filter CoverageTests.
/// </summary>
/// <remarks>
/// Measured once with five times the seeds (5000, and 1000 for indices and subset simulation), per cent held: mean 95.2 random and 95.0 scrambled; 0.3: 95.0
/// and 94.9; 0.01: 95.5 and 94.6; indices 94.5 to 95.4; subset simulation with 16 replicates of 500: 94.1 at 1e-4, 95.3 at 1e-6,
/// 93.9 at 1e-5 behind a curved surface; a mean with points doubled until good enough 94.6. Of the subset estimates the mean was 0.6, 1.4 and 2.4 % above the truth.
/// </remarks>
public sealed class CoverageTests(ITestOutputHelper log)
{
    private static readonly int Factor = int.Parse(Environment.GetEnvironmentVariable("COVERAGE_FACTOR") ?? "1", System.Globalization.CultureInfo.InvariantCulture);

    [Theory]
    [InlineData(PointKind.Random)]
    [InlineData(PointKind.ScrambledSobol)]
    public void Of_a_mean(PointKind kind)
    {
        // E[exp(u) v²] = (e − 1)/3
        TestModel model = TestModel.Of(2, x => Math.Exp(x[0]) * x[1] * x[1]);
        AssertCovers(1000, (Math.E - 1) / 3, seed =>
        {
            ReplicateRuns runs = new(model, seed, 16, kind);
            runs.Extend(64);
            return runs.Mean(0);
        });
    }

    [Theory]
    [InlineData(PointKind.Random, 0.3)]
    [InlineData(PointKind.ScrambledSobol, 0.3)]
    [InlineData(PointKind.Random, 0.01)]
    [InlineData(PointKind.ScrambledSobol, 0.01)]
    public void Of_a_probability(PointKind kind, double probability)
    {
        // u + v ≥ 2 − √(2p) cuts a triangle of area p off the unit square.
        TestModel model = TestModel.Of(2, x => x[0] + x[1]);
        double threshold = 2 - Math.Sqrt(2 * probability);
        AssertCovers(1000, probability, seed =>
        {
            ReplicateRuns runs = new(model, seed, 16, kind);
            runs.Extend(256);
            return runs.ProbabilityAtLeast(0, threshold);
        });
    }

    [Fact]
    public void Of_a_mean_whose_points_were_doubled_until_it_was_good_enough()
    {
        TestModel model = TestModel.Of(2, x => Math.Exp(x[0]) * x[1] * x[1]);
        AssertCovers(1000, (Math.E - 1) / 3, seed =>
        {
            ReplicateRuns runs = new(model, seed, 16, PointKind.Random);
            runs.ExtendUntil(r => r.Mean(0), new PrecisionGoal { Relative = 0.05 }, 16);
            return runs.Mean(0);
        });
    }

    [Fact]
    public void Of_first_order_and_total_indices()
    {
        TestModel model = new(3, 1, (point, outputs) => outputs[0] = SobolIndicesTests.Ishigami(point));
        double[] truths = [0.313905, 0.442411, 0, 0.557589, 0.442411, 0.243684];
        int[] held = new int[6];
        int seeds = 200 * Factor;
        for (int seed = 0; seed < seeds; seed++)
        {
            SobolIndices indices = SobolIndices.Estimate(model, 0, new SobolOptions { Seed = (ulong)seed, PointsPerReplicate = 128 });
            ReplicateEstimate[] all = [.. indices.FirstOrder, .. indices.Total];
            for (int i = 0; i < 6; i++) held[i] += Holds(all[i], truths[i]);
        }
        log.WriteLine(string.Join(", ", held.Select(h => (double)h / seeds)));
        Assert.All(held, h => Assert.InRange((double)h / seeds, 0.92, 0.98));
    }

    [Theory]
    [InlineData(3.719, 1.00006525934e-4)]
    [InlineData(4.7534, 1.00012029509e-6)]
    public void Of_subset_simulation_beyond_a_plane(double beta, double truth)
    {
        TestModel model = SubsetSimulationTests.Plane(2);
        AssertCovers(200, truth, seed => SubsetSimulation.Estimate(model, 0, beta, new SubsetOptions { Seed = seed }));
    }

    [Fact]
    public void Of_subset_simulation_beyond_a_curved_surface()
    {
        TestModel model = SubsetSimulationTests.Gamma3();
        AssertCovers(200, 1e-5, seed => SubsetSimulation.Estimate(model, 0, 16.5535284084145, new SubsetOptions { Seed = seed }));
    }

    private static int Holds(IEstimate estimate, double truth) => estimate.Low <= truth && truth <= estimate.High ? 1 : 0;

    private void AssertCovers(int seeds, double truth, Func<ulong, IEstimate> estimate)
    {
        seeds *= Factor;
        int held = 0;
        double sum = 0, relative = 0;
        for (int seed = 0; seed < seeds; seed++)
        {
            IEstimate one = estimate((ulong)seed);
            held += Holds(one, truth);
            sum += one.Value / truth;
            relative += one.StandardError / truth;
        }
        log.WriteLine($"held {(double)held / seeds:0.0000}, mean/truth {sum / seeds:0.0000}, standard error/truth {relative / seeds:0.0000}");
        Assert.InRange((double)held / seeds, 0.92, 0.98);
    }
}
