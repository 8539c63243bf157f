using FlowSim.Numerics.Sampling;
using MathNet.Numerics.Distributions;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>Runs in batches and what is made of their outputs, against the same formulas written out; and the borders of what may be asked.</summary>
public class SamplingRunsTests
{
    /// <summary>Two outputs of two coordinates; counts its batches and remembers its points.</summary>
    private sealed class Recording(bool keeps = false) : IBatchModel
    {
        public List<double[]> Points { get; } = [];

        public List<int> Batches { get; } = [];

        public int Dimensions => 2;

        public int Outputs => 2;

        public static double[] Of(ReadOnlySpan<double> x) => [Math.Exp(3 * x[0]) + x[1], x[0] - (2 * x[1])];

        public void Evaluate(ReadOnlySpan<double> points, Span<double> outputs, CancellationToken cancellation)
        {
            Batches.Add(points.Length / 2);
            for (int i = 0; i < points.Length / 2; i++)
            {
                ReadOnlySpan<double> x = points.Slice(2 * i, 2);
                Of(x).CopyTo(outputs[(2 * i)..]);
                if (keeps)
                    Points.Add(x.ToArray());
            }
        }
    }

    /// <summary>Every run belongs to its point, whatever batch it was in; no batch is empty or above its size, and what was run is not run again.</summary>
    [Theory]
    [InlineData(3, 50, 300)]
    [InlineData(3, 1500, 3000)]
    [InlineData(2, 2048, 2048)]
    public void Runs_in_batches(int replicates, int first, int then)
    {
        var model = new Recording();
        var runs = new ReplicateRuns(model, 5, replicates);
        runs.Extend(first);
        runs.Extend(then);
        runs.Extend(then);
        runs.Extend(first);
        Assert.Equal((then, replicates * then), (runs.PointsPerReplicate, model.Batches.Sum()));
        Assert.All(model.Batches, count => Assert.InRange(count, 1, BatchEvaluation.Size));
        double[] x = new double[2];
        for (int r = 0; r < replicates; r++)
        {
            double[] second = runs.Values(r, 1);
            for (int i = 0; i < then; i += 7)
            {
                runs.Coordinates(r, i, x);
                Assert.Equal(Recording.Of(x), (double[])[runs[r, i, 0], runs[r, i, 1]]);
                Assert.Equal(runs[r, i, 1], second[i]);
            }
        }

        double[] means = [.. Enumerable.Range(0, replicates).Select(r => runs.Values(r, 1).Average())];
        Assert.Equal(ReplicateEstimate.FromReplicates(means).StandardError, runs.Mean(1).StandardError, 1e-14);
        double value = runs[0, 3, 1];
        Assert.Equal(Enumerable.Range(0, replicates).Sum(r => (long)runs.Values(r, 1).Count(v => v >= value)), runs.ProbabilityAtLeast(1, value).Hits);
    }

    [Fact]
    public void Runs_that_may_not_be_asked_for()
    {
        var runs = new ReplicateRuns(new Recording(), 5, 3);
        Assert.Throws<InvalidOperationException>(() => runs.Mean(0));
        Assert.Throws<InvalidOperationException>(() => runs.ProbabilityAtLeast(0, 1));
        Assert.Throws<InvalidOperationException>(() => Propagation.Of(runs, 0));
        runs.Extend(1);
        Assert.Contains("at least 2 points", Assert.Throws<InvalidOperationException>(() => Propagation.Of(runs, 0)).Message, StringComparison.Ordinal);
        runs.Extend(4);
        Refused("replicate", () => runs[3, 0, 0]);
        Refused("point", () => runs[0, 4, 0]);
        Refused("output", () => runs[0, 0, 2]);
        Refused("replicate", () => Coordinates(3));
        Refused("output", () => runs.Mean(2));
        Refused("output", () => runs.ProbabilityAtLeast(2, 0));
        Refused("output", () => Propagation.Of(runs, 2));
        Refused("output", () => Propagation.Of(runs, -1));
        Refused("coverage", () => Propagation.Of(runs, 0, 1));
        Refused("confidence", () => Propagation.Of(runs, 0, 0.9, 0));
        Refused("first", () => runs.ExtendUntil(r => r.Mean(0), new PrecisionGoal(), 0));
        Assert.Equal("estimate", Assert.Throws<ArgumentNullException>(() => runs.ExtendUntil(null!, new PrecisionGoal())).ParamName);
        Assert.Equal("goal", Assert.Throws<ArgumentNullException>(() => runs.ExtendUntil(r => r.Mean(0), null!)).ParamName);
        Assert.Throws<ArgumentNullException>(() => Propagation.Of(null!, 0));
        Assert.Throws<ArgumentNullException>(() => new ReplicateRuns(null!, 1));
        Assert.Equal("model", Assert.Throws<ArgumentException>(() => new ReplicateRuns(new TestModel(0, 1, (_, _) => { }), 1)).ParamName);
        Assert.Equal("model", Assert.Throws<ArgumentException>(() => SobolIndices.EstimateAll(new TestModel(1, 0, (_, _) => { }))).ParamName);
        Assert.Throws<ArgumentNullException>(() => SobolIndices.Estimate(null!, 0));
        Assert.Throws<ArgumentNullException>(() => SobolIndices.EstimateAll(null!));
        Refused("output", () => SobolIndices.Estimate(new Recording(), 2));
        Refused("output", () => SobolIndices.Estimate(new Recording(), -1));
        double Coordinates(int replicate)
        {
            runs.Coordinates(replicate, 0, new double[2]);
            return 0;
        }
    }

    /// <summary>JCGM 101:2008, 7.7: intervals of q = pM values, floor(pM + ½) where that is no whole number, the symmetric one from r = (M − q)/2 or (M − q + 1)/2, the shortest by trying all.</summary>
    [Theory]
    [InlineData(16, 0.95)]
    [InlineData(25, 0.5)]
    [InlineData(30, 0.71)]
    public void Intervals_of_what_comes_out(int points, double coverage)
    {
        const int Replicates = 5;
        var runs = new ReplicateRuns(new Recording(), 2, Replicates, PointKind.Random);
        runs.Extend(points);
        Propagation answer = Propagation.Of(runs, 0, coverage, 0.9);
        double[][] each = [.. Enumerable.Range(0, Replicates).Select(r => runs.Values(r, 0))];
        double[] all = [.. each.SelectMany(x => x)];
        (Func<double[], double> Part, ReplicateEstimate Said)[] parts =
        [
            (x => x.Average(), answer.Mean),
            (x => Math.Sqrt(x.Sum(v => (v - x.Average()) * (v - x.Average())) / (x.Length - 1)), answer.StandardDeviation),
            (x => Interval(x, true).Low, answer.SymmetricLow),
            (x => Interval(x, true).High, answer.SymmetricHigh),
            (x => Interval(x, false).Low, answer.ShortestLow),
            (x => Interval(x, false).High, answer.ShortestHigh),
        ];
        foreach ((Func<double[], double> part, ReplicateEstimate said) in parts)
        {
            double value = part(all), half = StudentT.InvCDF(0, 1, Replicates - 1, 0.95) * Deviation([.. each.Select(part)]) / Math.Sqrt(Replicates);
            Assert.Equal(value, said.Value, 1e-12);
            Assert.Equal(value - half, said.Low, 1e-9);
            Assert.Equal(value + half, said.High, 1e-9);
        }

        (double Low, double High) Interval(double[] x, bool symmetric)
        {
            double[] sorted = [.. x.Order()];
            int m = sorted.Length, q = Math.Min(m - 1, (int)Math.Floor((coverage * m) + 0.5)), r = (m - q) % 2 == 0 ? (m - q) / 2 : (m - q + 1) / 2;
            if (symmetric)
                return (sorted[Math.Max(r, 1) - 1], sorted[Math.Max(r, 1) - 1 + q]);
            int best = Enumerable.Range(0, m - q).MinBy(i => sorted[i + q] - sorted[i]);
            return (sorted[best], sorted[best + q]);
        }

        static double Deviation(double[] x) => Math.Sqrt(x.Sum(v => (v - x.Average()) * (v - x.Average())) / (x.Length - 1));
    }

    /// <summary>Clopper and Pearson's interval by what defines it: at its ends what was seen, or more, or less, has a chance of half of what is left.</summary>
    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1)]
    [InlineData(1, 2)]
    [InlineData(0, 100)]
    [InlineData(1, 100)]
    [InlineData(37, 100)]
    [InlineData(99, 100)]
    [InlineData(100, 100)]
    public void A_count(int hits, int points)
    {
        ProportionEstimate estimate = ProportionEstimate.FromCounts(hits, points, 0.9);
        double counted = points == 1 ? 0.5 : Math.Clamp(hits, 1, points - 1) / (double)points;
        Assert.Equal((hits / (double)points, true), (estimate.Value, estimate.IsFromCounts));
        Assert.Equal(Math.Sqrt(counted * (1 - counted) / points), estimate.StandardError, 1e-15);
        if (hits == 0)
            Assert.Equal(0, estimate.Low);
        else
            Assert.Equal(0.05, 1 - Binomial.CDF(estimate.Low, points, hits - 1), 1e-9);
        if (hits == points)
            Assert.Equal(1, estimate.High);
        else
            Assert.Equal(0.05, Binomial.CDF(estimate.High, points, hits), 1e-9);
    }

    /// <summary>Shares of replicates: Student's t about their mean, taken to the log-odds; replicates that all agree leave −ln(1 − confidence) hits of one of them.</summary>
    [Theory]
    [InlineData(10, 14, 9, 12)]
    [InlineData(25, 25, 25, 25)]
    [InlineData(49, 48, 50, 50)]
    public void Shares_of_replicates(int a, int b, int c, int d)
    {
        const double Confidence = 0.9;
        int[] hits = [a, b, c, d];
        ProportionEstimate estimate = ProportionEstimate.FromReplicates(hits, 50, Confidence);
        double p = hits.Sum() / 200.0;
        if (hits.Sum() > 190)
        {
            Assert.Equal(ProportionEstimate.FromCounts(hits.Sum(), 200, Confidence), estimate);
            return;
        }

        double error = Math.Sqrt(hits.Sum(h => Math.Pow((h / 50.0) - p, 2)) / 3 / 4), least = -Math.Log(0.1) / 200;
        double half = Math.Max(StudentT.InvCDF(0, 1, 3, 0.95) * error, least) / (p * (1 - p)), odds = Math.Log(p / (1 - p));
        Assert.Equal((p, false, 200L), (estimate.Value, estimate.IsFromCounts, estimate.Points));
        Assert.Equal(Math.Max(error, least / 3), estimate.StandardError, 1e-14);
        Assert.Equal(1 / (1 + Math.Exp(half - odds)), estimate.Low, 1e-12);
        Assert.Equal(1 / (1 + Math.Exp(-half - odds)), estimate.High, 1e-12);
    }

    [Fact]
    public void Counts_that_are_refused()
    {
        Refused("pointsPerReplicate", () => ProportionEstimate.FromReplicates([0, 0], 0));
        Refused("hits", () => ProportionEstimate.FromReplicates([30], 50));
        Refused("hits", () => ProportionEstimate.FromReplicates([30, 51], 50));
        Refused("hits", () => ProportionEstimate.FromReplicates([30, -1], 50));
        Refused("hits", () => ProportionEstimate.FromCounts(4, 3));
        Refused("hits", () => ProportionEstimate.FromCounts(-1, 3));
        Refused("points", () => ProportionEstimate.FromCounts(0, 0));
        foreach (double bad in (double[])[0, 1, double.NaN])
        {
            Refused("confidence", () => ProportionEstimate.FromReplicates([30, 20], 50, bad));
            Refused("confidence", () => ProportionEstimate.FromReplicates([0, 0], 50, bad));
            Refused("confidence", () => ProportionEstimate.FromCounts(1, 3, bad));
        }
    }

    /// <summary>What the goals and options take at their ends, and what they say when they do not.</summary>
    [Fact]
    public void Ends_of_goals_and_options()
    {
        var estimate = new ReplicateEstimate(-10, 1, -12, -8, 0.95, 4);
        Assert.True(new PrecisionGoal { Absolute = 2 }.IsMetBy(estimate));
        Assert.True(new PrecisionGoal { Relative = 0.2 }.IsMetBy(estimate));
        Assert.False(new PrecisionGoal { Absolute = 1.999, Relative = 0.1999 }.IsMetBy(estimate));
        Assert.False(new PrecisionGoal().IsMetBy(estimate));
        Assert.Equal((0, 0), (new PrecisionGoal { Absolute = 0 }.Absolute, new PrecisionGoal { Relative = 0 }.Relative));
        Assert.Throws<ArgumentNullException>(() => new PrecisionGoal().IsMetBy(null!));
        foreach (double bad in (double[])[-1, double.PositiveInfinity, double.NaN])
            Refused("Absolute", () => new PrecisionGoal { Absolute = bad });
        Assert.Equal((1 << 20, 50), (new SubsetOptions { PointsPerLevel = 1 << 20 }.PointsPerLevel, new SubsetOptions { PointsPerLevel = 50 }.PointsPerLevel));
        Assert.Equal((0.05, 0.5), (new SubsetOptions { LevelProbability = 0.05 }.LevelProbability, new SubsetOptions { LevelProbability = 0.5 }.LevelProbability));
        Refused("PointsPerLevel", () => new SubsetOptions { PointsPerLevel = (1 << 20) + 1 });
        foreach (double bad in (double[])[0.049, 0.51, double.NaN])
            Refused("LevelProbability", () => new SubsetOptions { LevelProbability = bad });
        Assert.Contains("at least 1.", Refused("HighestPointsPerReplicate", () => new PrecisionGoal { HighestPointsPerReplicate = 0 }), StringComparison.Ordinal);
        Assert.Contains("within 1 to 60.", Refused("HighestLevels", () => new SubsetOptions { HighestLevels = 61 }), StringComparison.Ordinal);
    }

    /// <summary>An output that is no number is named with its point; a cancelled batch is not begun, or dropped.</summary>
    [Fact]
    public void Outputs_that_are_no_numbers()
    {
        var model = new TestModel(3, 2, (x, outputs) => (outputs[0], outputs[1]) = (1, x[2] == 6.5 ? double.NaN : 1));
        string message = Assert.Throws<InvalidOperationException>(() => BatchEvaluation.Run(model, [1, 2, 3, 4, 5, 6.5, 7, 8, 9], new double[6], CancellationToken.None)).Message;
        Assert.Equal("The model gave no number for output 1 at the point (4, 5, 6.5).", message);
        using var source = new CancellationTokenSource();
        var cancels = new TestModel(1, 1, (_, outputs) =>
        {
            source.Cancel();
            outputs[0] = 1;
        });
        Assert.Throws<OperationCanceledException>(() => BatchEvaluation.Run(cancels, [1], new double[1], source.Token));
        Assert.Throws<OperationCanceledException>(() => BatchEvaluation.Run(cancels, [1], new double[1], source.Token));
        Assert.Equal(1, cancels.Evaluations);
    }

    /// <summary>Points of the indices in blocks of a, b and mixtures, by the point set of twice the coordinates; mean and variance are those of all a and b.</summary>
    [Theory]
    [InlineData(64)]
    [InlineData(1500)]
    public void Indices_from_blocks(int points)
    {
        var model = new Recording(keeps: true);
        int[][] groups = [[1], [0, 1]];
        SobolIndices indices = SobolIndices.EstimateAll(model, new SobolOptions { PointsPerReplicate = points, Replicates = 4, Seed = 3 }, groups)[1];
        Assert.All(model.Batches, count => Assert.InRange(count, 1, BatchEvaluation.Size));
        Assert.True(model.Batches.Count < 4 + (4 * points * 4 / 3000.0));
        double[] pair = new double[4];
        var outputs = new List<double>();
        double total = 0;
        for (int r = 0; r < 4; r++)
        {
            var set = new ScrambledSobol(4, 3, r);
            for (int i = 0; i < points; i++)
            {
                set.Fill(i, pair);
                int block = ((r * points) + i) * 4;
                Assert.Equal([pair[0], pair[1], pair[2], pair[3]], [.. model.Points[block], .. model.Points[block + 1]]);
                Assert.Equal([pair[0], pair[3], pair[2], pair[3]], [.. model.Points[block + 2], .. model.Points[block + 3]]);
                double a = Recording.Of(model.Points[block])[1];
                outputs.AddRange([a, Recording.Of(model.Points[block + 1])[1]]);
                total += 0.5 * Math.Pow(Recording.Of(model.Points[block + 2])[1] - a, 2) / (4 * points);
            }
        }

        double mean = outputs.Average(), variance = outputs.Average(x => (x - mean) * (x - mean));
        Assert.Equal(mean, indices.Mean, 1e-12);
        Assert.Equal(variance, indices.Variance, 1e-12);
        Assert.Equal(model.Points.Count, indices.Evaluations);

        // x₀ − 2 x₁ has 4/5 of its variance from x₁, and all of it from both.
        Assert.Equal(total / variance, indices.Total[0].Value, 1e-3);
        Assert.Equal(0.8, indices.FirstOrder[0].Value, 0.05);
        Assert.Equal(1, indices.FirstOrder[1].Value, 0.05);
    }

    [Fact]
    public void Indices_without_a_variance()
    {
        var model = new TestModel(2, 3, (x, outputs) => (outputs[0], outputs[1], outputs[2]) = (-7, 1e9 + (1e-6 * x[0]), x[1]));
        IReadOnlyList<SobolIndices> indices = SobolIndices.EstimateAll(model, groups: [[1], [0]]);
        Assert.Equal([SobolStatus.ConstantOutput, SobolStatus.ConstantOutput, SobolStatus.Estimated], indices.Select(i => i.Status));
        Assert.Equal((-7, 0), (indices[0].Mean, indices[0].Variance));
        Assert.Equal(1, indices[2].Total[0].Value, 1e-3);
        Assert.Equal(0, indices[2].Total[1].Value, 1e-12);
        Assert.Equal(SobolStatus.Estimated, SobolIndices.EstimateAll(TestModel.Of(1, x => 1e9 + x[0]))[0].Status);
        Assert.Equal(SobolStatus.Estimated, SobolIndices.EstimateAll(TestModel.Of(1, x => 1e-9 * (x[0] - 0.5)))[0].Status);
        Assert.Throws<InvalidOperationException>(() => SobolIndices.EstimateAll(TestModel.Of(1, x => x[0] > 0.999 ? double.PositiveInfinity : x[0])));
        Assert.Throws<ArgumentException>(() => SobolIndices.EstimateAll(model, groups: [[1, 1]]));
        Assert.Equal(2, SobolIndices.EstimateAll(TestModel.Of(3, x => x[0] + x[1] + x[2]), groups: [[0, 1], [2]])[0].Total.Count);
    }

    /// <summary>A rare event of one of three outputs is the same as of a model that has no other; batches keep to their size, and all evaluations are counted.</summary>
    [Fact]
    public void A_rare_event_of_one_output()
    {
        var options = new SubsetOptions { PointsPerLevel = 400, Replicates = 12 };
        var batches = new List<int>();
        var three = new TestModel(3, 3, (x, outputs) => (outputs[0], outputs[1], outputs[2]) = (-x[0], x[0] + x[1] + x[2], 1));
        TestModel one = TestModel.Of(3, x => x[0] + x[1] + x[2]);
        var counted = new Counted(one, batches);
        RareEventEstimate estimate = SubsetSimulation.Estimate(three, 1, 2.9, options), alone = SubsetSimulation.Estimate(counted, 0, 2.9, options);
        Assert.Equal(alone with { Replicates = [] }, estimate with { Replicates = [] });
        Assert.Equal(alone.Replicates, estimate.Replicates);
        Assert.Equal((three.Evaluations, batches.Sum()), (estimate.Evaluations, (int)estimate.Evaluations));
        Assert.All(batches, count => Assert.InRange(count, 1, BatchEvaluation.Size));
        Assert.Contains(BatchEvaluation.Size, batches);

        // The corner of a cube: 0.1³/6.
        Assert.InRange(1e-3 / 6, estimate.Low, estimate.High);
        Assert.InRange(estimate.Value, 0.5e-3 / 6, 2e-3 / 6);
        Assert.True(estimate.High / estimate.Value < 3 && estimate.Value / estimate.Low < 3);
        Assert.Equal(estimate.Value * estimate.Value, estimate.Low * estimate.High, 1e-6 * estimate.Value * estimate.Value);
        Assert.Throws<ArgumentNullException>(() => SubsetSimulation.Estimate(null!, 0, 1));
        Refused("output", () => SubsetSimulation.Estimate(three, 3, 1));
    }

    /// <summary>
    /// Proposals of conditional sampling (Papaioannou et al. 2015, from memory): ρ u + σ z with σ the step times the spread of the chains' starts, at most 1. The z are standard normal and all
    /// different, in every batch and on every level; what is below the level keeps its place, what is at it does not.
    /// </summary>
    [Fact]
    public void Proposals_of_chains()
    {
        const int Dimensions = 3, Size = 1000;
        var replicate = new SubsetReplicate(2, Dimensions, new SubsetOptions { PointsPerLevel = Size });
        Assert.Equal(Size, replicate.Propose());
        double[] points = replicate.Proposals.ToArray();
        double[] values = [.. Enumerable.Range(0, Size).Select(i => Math.Round(points[i * Dimensions], 1))];
        replicate.Learn(values);
        var seen = new HashSet<double>();
        double step = 0.6;
        int adaptations = 0;
        for (int level = 1; level <= 2; level++)
        {
            double bound = values.OrderDescending().ElementAt(Size / 10);
            int[] starts = [.. Enumerable.Range(0, Size).Where(i => values[i] >= bound)];
            replicate.Begin(bound);
            Assert.Equal((level, starts.Length), (replicate.Level, replicate.Chains));
            double[][] at = [.. starts.Select(i => points[(i * Dimensions)..((i + 1) * Dimensions)])];
            var all = new List<double[]>(at);
            var known = new List<double>(starts.Select(i => values[i]));
            double[] sigma = [.. Enumerable.Range(0, Dimensions).Select(d => Spread(at, d))];
            while (known.Count < Size)
            {
                int asked = replicate.Propose();
                Assert.Equal(Math.Min(starts.Length, Size - known.Count), asked);
                double[] proposals = replicate.Proposals.ToArray(), outputs = new double[asked];
                var z = new List<double>();
                int accepted = 0;
                for (int i = 0; i < asked; i++)
                {
                    double[] from = all[^starts.Length..][i];
                    for (int d = 0; d < Dimensions; d++)
                    {
                        double s = Math.Min(1, step * sigma[d]), value = (proposals[(i * Dimensions) + d] - (Math.Sqrt(1 - (s * s)) * from[d])) / s;
                        z.Add(value);
                        Assert.True(seen.Add(Math.Round(value, 9)));
                    }

                    outputs[i] = i % 3 == 0 ? bound : i % 3 == 1 ? bound - 1 : bound + 1;
                    accepted += i % 3 == 1 ? 0 : 1;
                }

                Assert.InRange(z.Average(), -4.5 / Math.Sqrt(z.Count), 4.5 / Math.Sqrt(z.Count));
                Assert.InRange(z.Average(x => x * x), 1 - (6.5 / Math.Sqrt(z.Count)), 1 + (6.5 / Math.Sqrt(z.Count)));
                replicate.Learn(outputs);
                double[][] last = [.. all[^starts.Length..]];
                double[] lastValues = [.. known[^starts.Length..]];
                for (int i = 0; i < asked; i++)
                {
                    all.Add(outputs[i] >= bound ? proposals[(i * Dimensions)..((i + 1) * Dimensions)] : last[i]);
                    known.Add(outputs[i] >= bound ? outputs[i] : lastValues[i]);
                }

                step *= Math.Exp(((double)accepted / asked - 0.44) / Math.Sqrt(++adaptations));
            }

            Assert.Equal(known, replicate.Values.ToArray());
            Assert.Equal(0, replicate.Propose());
            (points, values) = ([.. all.SelectMany(x => x)], [.. known]);
        }

        static double Spread(double[][] at, int d) => Math.Sqrt(at.Sum(x => Math.Pow(x[d] - at.Average(y => y[d]), 2)) / (at.Length - 1));
    }

    /// <summary>Coordinates that are tied to none stay as they are and do no harm, at 0 and 1 too; the room does not depend on how many there are.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(256)]
    [InlineData(257)]
    [InlineData(400)]
    public void Coordinates_that_are_not_tied(int n)
    {
        double[,] correlation = new double[n, n];
        for (int i = 0; i < n; i++)
            correlation[i, i] = 1;
        correlation[0, n - 1] = correlation[n - 1, 0] = 0.6;
        double[] point = new double[n];
        Array.Fill(point, 0.3);
        (point[1], point[n - 1]) = (0, 0.8);
        new GaussianCopula(correlation).Apply(point);
        Assert.Equal((0.3, 0), (point[0], point[1]));
        double z = (0.6 * Normal.InvCDF(0, 1, 0.3)) + (0.8 * Normal.InvCDF(0, 1, 0.8));
        Assert.Equal(Normal.CDF(0, 1, z), point[n - 1], 1e-12);
        Assert.Throws<ArgumentNullException>(() => new GaussianCopula(null!));
        Assert.Throws<ArgumentNullException>(() => GaussianCopula.HighestStrength(null!));
        Assert.Equal(double.PositiveInfinity, GaussianCopula.HighestStrength(new double[,] { { 1 } }));
    }

    private static string Refused(string name, Func<object> act)
    {
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(act);
        Assert.Equal(name, refused.ParamName);
        return refused.Message;
    }

    private sealed class Counted(IBatchModel model, List<int> batches) : IBatchModel
    {
        public int Dimensions => model.Dimensions;

        public int Outputs => model.Outputs;

        public void Evaluate(ReadOnlySpan<double> points, Span<double> outputs, CancellationToken cancellation)
        {
            batches.Add(outputs.Length);
            model.Evaluate(points, outputs, cancellation);
        }
    }
}
