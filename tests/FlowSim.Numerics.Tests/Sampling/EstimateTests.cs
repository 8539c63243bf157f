using FlowSim.Numerics.Sampling;
using FsCheck.Xunit;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>Intervals against SciPy 1.10.1: <c>scipy.stats.binomtest(...).proportion_ci(method="exact")</c> and <c>scipy.stats.t.interval</c>.</summary>
public sealed class EstimateTests
{
    [Theory]
    [InlineData(0, 100, 0.95, 0.0, 0.03621669264519054)]
    [InlineData(1, 100, 0.95, 0.0002531460326818928, 0.054459385392080666)]
    [InlineData(9, 1000, 0.95, 0.004123395660314189, 0.017015783070048987)]
    [InlineData(95, 100, 0.99, 0.8648553174643762, 0.9890596664152524)]
    [InlineData(100, 100, 0.95, 0.9637833073548094, 1.0)]
    [InlineData(5, 1000000, 0.95, 1.6234883187096884e-06, 1.1668293175240655e-05)]
    public void Clopper_and_Pearson(long hits, long points, double confidence, double low, double high)
    {
        ProportionEstimate estimate = ProportionEstimate.FromCounts(hits, points, confidence);
        Assert.Equal(low, estimate.Low, 1e-9 + 1e-5 * low);
        Assert.Equal(high, estimate.High, 1e-9 + 1e-5 * high);
        Assert.True(estimate.StandardError > 0);
    }

    [Fact]
    public void Student_t()
    {
        ReplicateEstimate estimate = ReplicateEstimate.FromReplicates([1, 2, 4, 8, 16]);
        Assert.Equal((6.2, 5), (estimate.Value, estimate.Replicates));
        Assert.Equal(2.727636339397171, estimate.StandardError, 1e-12);
        Assert.Equal(-1.3731325632789178, estimate.Low, 1e-6);
        Assert.Equal(13.773132563278917, estimate.High, 1e-6);
        Assert.Equal(8.220352283052748, ReplicateEstimate.FromReplicates([1, 2, 4, 8, 16], 0.5).High, 1e-6);
    }

    [Property]
    public void A_proportion_never_has_an_interval_without_width_and_holds_its_value(ushort[] counts, ushort points)
    {
        int n = points % 5000 + 1;
        int[] hits = [.. counts.Select(c => c % (n + 1)), 0, n / 2];
        foreach (int[] each in new[] { hits, [0, 0, 0], [n, n, n], [n / 2, n / 2] })
        {
            ProportionEstimate estimate = ProportionEstimate.FromReplicates(each, n);
            Assert.True(estimate.High > estimate.Low);
            Assert.InRange(estimate.Value, estimate.Low, estimate.High);
            Assert.InRange(estimate.Low, 0, 1);
            Assert.InRange(estimate.High, 0, 1);
            Assert.True(estimate.StandardError > 0);
            Assert.Equal(estimate.IsFromCounts, Math.Min(estimate.Hits, estimate.Points - estimate.Hits) < 10);
        }
    }

    [Theory]
    [InlineData(PointKind.ScrambledSobol)]
    [InlineData(PointKind.Random)]
    public void More_runs_add_to_those_there_are(PointKind kind)
    {
        TestModel model = new(3, 2, (point, outputs) => (outputs[0], outputs[1]) = (point[0] + point[1] * point[2], point[2]));
        ReplicateRuns little = new(model, 5, 8, kind);
        little.Extend(100);
        ReplicateRuns grown = new(new TestModel(3, 2, (point, outputs) => (outputs[0], outputs[1]) = (point[0] + point[1] * point[2], point[2]), parallel: true), 5, 8, kind);
        grown.Extend(7);
        grown.Extend(64);
        grown.Extend(5000);
        grown.Extend(100);
        Assert.Equal(5000, grown.PointsPerReplicate);
        double[] coordinates = new double[3];
        for (int r = 0; r < 8; r++)
        {
            for (int i = 0; i < 100; i++)
            {
                Assert.Equal(little[r, i, 0], grown[r, i, 0]);
                grown.Coordinates(r, i, coordinates);
                Assert.Equal(coordinates[2], grown[r, i, 1]);
            }
        }
        ReplicateRuns same = new(model, 5, 8, kind);
        same.Extend(5000);
        Assert.Equal(same.Mean(0), grown.Mean(0));
        Assert.Equal(100 * 8 + 5000 * 8, model.Evaluations);
        // E[u + v w] = 3/4
        Assert.Equal(0.75, grown.Mean(0).Value, 4 * grown.Mean(0).StandardError);
    }

    [Fact]
    public void Points_are_doubled_until_the_goal_is_met_or_costs_too_much()
    {
        TestModel model = TestModel.Of(2, x => x[0] * x[1]);
        ReplicateRuns runs = new(model, 1, 8, PointKind.Random);
        PrecisionGoal goal = new() { Absolute = 0.004 };
        Assert.True(runs.ExtendUntil(r => r.Mean(0), goal));
        ReplicateEstimate mean = runs.Mean(0);
        Assert.True(mean.High - mean.Low <= 0.008);
        // Var[uv] = 7/144, t = 2.36: some 2000 points; and less than 64 would be luck.
        Assert.InRange(runs.PointsPerReplicate, 512, 8192);
        Assert.Equal(runs.Points, model.Evaluations);
        Assert.True(runs.ExtendUntil(r => r.Mean(0), goal));
        Assert.Equal(runs.Points, model.Evaluations);
        Assert.False(runs.ExtendUntil(r => r.ProbabilityAtLeast(0, 2), new PrecisionGoal { Relative = 0.1, HighestPointsPerReplicate = 10_000 }));
        Assert.Equal(10_000, runs.PointsPerReplicate);
        Assert.False(new PrecisionGoal().IsMetBy(mean));
    }

    [Fact]
    public void Hostile_arguments()
    {
        TestModel model = TestModel.Of(2, x => x[0]);
        ReplicateRuns runs = new(model, 1);
        Assert.Throws<InvalidOperationException>(() => runs.Mean(0));
        Assert.Throws<InvalidOperationException>(() => Propagation.Of(runs, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => runs.Extend(0));
        runs.Extend(4);
        Assert.Throws<ArgumentOutOfRangeException>(() => runs.Mean(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => runs.Mean(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => runs.ProbabilityAtLeast(0, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => runs[0, 4, 0]);
        Assert.Throws<ArgumentOutOfRangeException>(() => Propagation.Of(runs, 0, coverage: 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReplicateRuns(model, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReplicateRuns(model, 1, 8, (PointKind)9));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PrecisionGoal { Absolute = double.NaN });
        Assert.Throws<ArgumentOutOfRangeException>(() => ReplicateEstimate.FromReplicates([1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ReplicateEstimate.FromReplicates([1, double.NaN]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ProportionEstimate.FromReplicates([1, 5], 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => ProportionEstimate.FromCounts(0, 0));
        string message = Assert.Throws<InvalidOperationException>(() => new ReplicateRuns(TestModel.Of(2, x => x[0] > 0.5 ? double.NaN : 1), 1).Extend(8)).Message;
        Assert.Contains("no number for output 0 at the point (0.", message, StringComparison.Ordinal);
        ReplicateRuns infinite = new(TestModel.Of(2, x => x[0] > 0.5 ? double.PositiveInfinity : 1), 1);
        infinite.Extend(8);
        Assert.Throws<InvalidOperationException>(() => infinite.Mean(0));
        Assert.Throws<InvalidOperationException>(() => Propagation.Of(infinite, 0));
        Assert.Equal(0.5, infinite.ProbabilityAtLeast(0, 2).Value);
    }

    [Fact]
    public void A_cancelled_extension_leaves_the_runs_there_were()
    {
        using CancellationTokenSource source = new();
        TestModel model = new(1, 1, (point, outputs) => outputs[0] = point[0]);
        ReplicateRuns runs = new(model, 1, 8);
        runs.Extend(16, source.Token);
        ReplicateEstimate before = runs.Mean(0);
        source.Cancel();
        Assert.Throws<OperationCanceledException>(() => runs.Extend(32, source.Token));
        Assert.Equal(16, runs.PointsPerReplicate);
        Assert.Equal(before, runs.Mean(0));
    }
}
