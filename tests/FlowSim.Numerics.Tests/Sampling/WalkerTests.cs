using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Tests.Sampling;

/// <summary>The moves of the walkers, one by one, by the points they ask the density for; and the account that a chain gives of them.</summary>
public class WalkerTests
{
    private const int Half = 8;

    /// <summary>
    /// Difference moves go along the line between two others of the other half: nine in ten by 2.38/√(2d) of it, one by all, each but for 1e-5 (ter Braak 2006, from memory).
    /// </summary>
    [Fact]
    public void Difference_moves()
    {
        const int Dimensions = 3;
        double usual = 2.38 / Math.Sqrt(2 * Dimensions);
        int whole = 0, moves = 0;
        var jitters = new List<double>();
        var pairs = new HashSet<(int, int)>();
        Watch(Dimensions, 1, 30, (walker, from, proposal, others) =>
        {
            double[] way = Minus(proposal, from);
            (double length, int a, int b) = Enumerable.Range(0, Half).SelectMany(a => Enumerable.Range(0, Half).Where(b => b != a).Select(b => (Along(way, Minus(others[a], others[b])), a, b)))
                .First(found => found.Item1 > 0);
            moves++;
            pairs.Add((a, b));
            bool isWhole = length > 0.985;
            whole += isWhole ? 1 : 0;
            jitters.Add((length / (isWhole ? 1 : usual)) - 1);
        });
        Assert.Equal(2 * Half * 30, moves);
        Assert.InRange(whole, (0.1 * moves) - 25, (0.1 * moves) + 25);
        Assert.Equal(Half * (Half - 1), pairs.Count);
        Assert.InRange(Math.Sqrt(jitters.Average(j => j * j)), 0.85e-5, 1.15e-5);
        Assert.InRange(jitters.Max(Math.Abs), 0, 6e-5);
    }

    /// <summary>
    /// Stretch moves go to a + z (x − a) with z within ½ to 2, its root evenly spread, and on a flat density are accepted with z^(d − 1) (Goodman and Weare 2010, from memory).
    /// </summary>
    [Fact]
    public void Stretch_moves()
    {
        const int Dimensions = 3;
        double expected = 0, variance = 0, roots = 0;
        int moves = 0;
        int[] moved = Watch(Dimensions, 0, 150, (walker, from, proposal, others) =>
        {
            double z = others.Select(a => Along(Minus(proposal, a), Minus(from, a))).First(found => found is >= 0.5 and <= 2);
            double chance = Math.Min(1, z * z);
            (expected, variance, roots, moves) = (expected + chance, variance + (chance * (1 - chance)), roots + Math.Sqrt(z), moves + 1);
        });
        int accepted = moved.Sum();
        Assert.InRange(accepted, expected - (5 * Math.Sqrt(variance)), expected + (5 * Math.Sqrt(variance)));
        Assert.Equal((Math.Sqrt(0.5) + Math.Sqrt(2)) / 2, roots / moves, 0.02);
    }

    /// <summary>Beyond the largest numbers there is nothing: such a move is not made, and the density never sees it.</summary>
    [Fact]
    public void Walkers_at_the_end_of_the_numbers()
    {
        double[] positions = [.. Enumerable.Range(0, 2 * Half * 2).Select(i => (i % 2 == 0 ? 1 : -1) * 1.6e308 * (1 - (0.001 * i)))];
        double[] start = [.. positions];
        int asked = 0;
        var density = new TestDensity(2, x =>
        {
            Assert.All(x, value => Assert.True(double.IsFinite(value)));
            asked++;
            return 0;
        });
        var ensemble = new WalkerEnsemble(density, positions, 3, 0.5);
        int[] moved = new int[2 * Half];
        for (int step = 0; step < 20; step++)
            ensemble.Step(step, moved, CancellationToken.None);
        Assert.Equal((20 * 2 * Half, 20L * 2 * Half), (asked, ensemble.Evaluations));
        for (int walker = 0; walker < 2 * Half; walker++)
        {
            if (moved[walker] == 0)
                Assert.Equal(start[(2 * walker)..(2 * walker + 2)], ensemble.Positions[(2 * walker)..(2 * walker + 2)]);
        }

        Assert.All(ensemble.Positions, value => Assert.True(double.IsFinite(value)));
    }

    /// <summary>Numbers further apart than the grid's points are left as they are, and what lies halfway goes to the even point.</summary>
    [Fact]
    public void Coordinates_are_put_on_the_nearest_point_of_a_grid()
    {
        var ensemble = new WalkerEnsemble(new TestDensity(1, _ => 0), new double[4], 1, 0.5, grid: 0.25);
        double[] coordinates = [0.1, -0.2, 0.125, 0.375, 1e300, double.MaxValue, double.NegativeInfinity, 7];
        ensemble.PutOnGrid(coordinates);
        Assert.Equal([0, -0.25, 0, 0.5, 1e300, double.MaxValue, double.NegativeInfinity, 7], coordinates);
        new WalkerEnsemble(new TestDensity(1, _ => 0), coordinates = [0.1, 0.2, 0.3, 0.4], 1, 0.5).PutOnGrid(coordinates);
        Assert.Equal([0.1, 0.2, 0.3, 0.4], coordinates);
    }

    /// <summary>An infinite density is an error that names the point; NaN is a density of zero; a cancelled step evaluates nothing, one cancelled meanwhile is dropped.</summary>
    [Fact]
    public void Densities_that_are_no_numbers()
    {
        var density = new TestDensity(2, x => x[0] > 5 ? double.PositiveInfinity : x[0] < 0 ? double.NaN : x[1]);
        var ensemble = new WalkerEnsemble(density, new double[16], 1, 0.5);
        double[] answers = new double[3];
        ensemble.Evaluate([1, 2, -1, 3, 4, 5], answers, CancellationToken.None);
        Assert.Equal([2, double.NegativeInfinity, 5], answers);
        string message = Assert.Throws<InvalidOperationException>(() => ensemble.Evaluate([1, 2, 3, 4, 7.5, 8.25], new double[3], CancellationToken.None)).Message;
        Assert.Contains("(7.5, 8.25)", message, StringComparison.Ordinal);

        using var source = new CancellationTokenSource();
        var cancels = new TestDensity(2, _ =>
        {
            source.Cancel();
            return 0;
        });
        var other = new WalkerEnsemble(cancels, new double[16], 1, 0.5);
        Assert.Throws<OperationCanceledException>(() => other.Evaluate([1, 2], new double[1], source.Token));
        Assert.Equal((1L, 0L), (cancels.Evaluations, other.Evaluations));
        Assert.Throws<OperationCanceledException>(() => other.Evaluate([1, 2], new double[1], source.Token));
        Assert.Equal(1, cancels.Evaluations);
    }

    /// <summary>What is left of a chain, its moves, and its diagnostics, which are those of what is left alone.</summary>
    [Theory]
    [InlineData(null, 100, 25)]
    [InlineData(0, 100, 0)]
    [InlineData(60, 100, 60)]
    [InlineData(99, 100, 96)]
    [InlineData(10, 8, 4)]
    public void The_account_of_a_chain(int? burnIn, int steps, int from)
    {
        const int Walkers = 6, Dimensions = 2;
        (Chain chain, double[][][] values, int[][] moves) = Recorded(Walkers, Dimensions, steps, burnIn, 1);
        SampledPosterior posterior = chain.Posterior(77, 1, 0, 1e9);
        int kept = steps - from;
        Assert.Equal((from, steps, Walkers, 77L, kept * Walkers), (posterior.BurnIn, posterior.Steps, posterior.Walkers, posterior.Evaluations, posterior.Count));
        for (int d = 0; d < Dimensions; d++)
        {
            double[][] left = [.. Enumerable.Range(0, Walkers).Select(w => values[d][w][from..])];
            double time = ChainDiagnostics.AutocorrelationTime(left);
            Assert.Equal(time, posterior.AutocorrelationTime[d], 1e-12);
            Assert.Equal(Walkers * kept / time, posterior.EffectiveSampleSize[d], 1e-9);
            Assert.Equal(ChainDiagnostics.SplitRHat(left), posterior.SplitRHat[d], 1e-12);
            for (int i = 0; i < posterior.Count; i++)
                Assert.Equal(values[d][i % Walkers][from + (i / Walkers)], posterior.Draw(i)[d]);
        }

        int all = Enumerable.Range(0, Walkers).Sum(w => moves[w].Skip(from).Sum());
        Assert.Equal(all / (double)(Walkers * kept), posterior.AcceptanceRate, 1e-14);
    }

    /// <summary>The verdicts in their order, each with what it says, at its border.</summary>
    [Fact]
    public void The_verdict_on_a_chain()
    {
        const int Walkers = 6;
        (Chain chain, _, _) = Recorded(Walkers, 2, 400, 0, 1);
        SampledPosterior posterior = chain.Posterior(0, 1, 1, 1e9);
        Assert.Equal(SamplerStatus.Converged, posterior.Status);
        double time = posterior.AutocorrelationTime.Max(), effective = posterior.EffectiveSampleSize.Min(), rHat = posterior.SplitRHat.Max();
        Assert.NotEqual(posterior.AutocorrelationTime[0], posterior.AutocorrelationTime[1]);
        Assert.Equal(SamplerStatus.NotMixed, chain.Posterior(0, 1, 1, rHat - 1e-9).Status);
        Assert.Equal(SamplerStatus.Converged, chain.Posterior(0, 1, 1, rHat).Status);
        Assert.Equal(SamplerStatus.TooFewEffective, chain.Posterior(0, effective * 1.0001, 1, 1e9).Status);
        Assert.Equal(SamplerStatus.Converged, chain.Posterior(0, effective, 1, 1e9).Status);
        SampledPosterior tooShort = chain.Posterior(0, 1, 400 / time * 1.0001, 1e9);
        Assert.Equal(SamplerStatus.TooFewEffective, tooShort.Status);
        Assert.Contains(FormattableString.Invariant($"the steps kept {400 / time:0} times their memory of {400 / time * 1.0001:0} needed"), tooShort.Message, StringComparison.Ordinal);
        Assert.Equal(SamplerStatus.Converged, chain.Posterior(0, 1, 400 / time * 0.9999, 1e9).Status);
    }

    /// <summary>A walker that did not move is stuck once the others made 20 moves on the average, or in 1000 steps; before, that may be chance.</summary>
    [Theory]
    [InlineData(24, 100, true)]
    [InlineData(23, 100, false)]
    [InlineData(1, 1000, true)]
    [InlineData(1, 999, false)]
    public void Stuck_walkers(int movesOfOthers, int steps, bool isStuck)
    {
        const int Walkers = 6;
        (Chain chain, _, _) = Recorded(Walkers, 1, steps, 0, 1, (walker, step) => walker == 2 || step >= movesOfOthers ? 0 : 1);
        SampledPosterior posterior = chain.Posterior(0, 1e9, 1, 1e9);
        Assert.Equal(isStuck ? SamplerStatus.StuckWalkers : SamplerStatus.TooFewEffective, posterior.Status);
        if (isStuck)
            Assert.Equal($"1 of 6 walkers did not move in {steps} steps.", posterior.Message);
    }

    /// <summary>Sokal's time by plain sums, and the split R̂ by its definition, for even and odd numbers of chains of any length.</summary>
    [Theory]
    [InlineData(1, 100)]
    [InlineData(2, 101)]
    [InlineData(3, 257)]
    [InlineData(5, 64)]
    public void Diagnostics_by_definition(int chains, int steps)
    {
        var random = new Random(chains);
        double[][] values = [.. Enumerable.Range(0, chains).Select(_ => new double[steps])];
        foreach (double[] chain in values)
        {
            chain[0] = 40 + random.NextDouble();
            for (int t = 1; t < steps; t++)
                chain[t] = 40 + (0.6 * (chain[t - 1] - 40)) + random.NextDouble() - 0.5;
        }

        double mean = values.Average(chain => chain.Average());
        double Covariance(int t) => values.Sum(chain => Enumerable.Range(0, steps - t).Sum(i => (chain[i] - mean) * (chain[i + t] - mean))) / (steps - t);
        double time = 1, expected = steps;
        for (int t = 1; t < steps; t++)
        {
            time += 2 * Covariance(t) / Covariance(0);
            if (t < 5 * Math.Max(1, time))
                continue;
            expected = Math.Clamp(time, 0.1, steps);
            break;
        }

        Assert.Equal(expected, ChainDiagnostics.AutocorrelationTime(values), 1e-9);

        double[][] halves = [.. values.SelectMany(chain => (double[][])[chain[..(steps / 2)], chain[(steps - (steps / 2))..]])];
        double n = steps / 2, within = halves.Average(half => half.Sum(x => Math.Pow(x - half.Average(), 2)) / (n - 1)), centre = halves.Average(half => half.Average());
        double between = halves.Sum(half => Math.Pow(half.Average() - centre, 2)) / (halves.Length - 1);
        Assert.Equal(Math.Sqrt(((n - 1) / n) + (between / within)), ChainDiagnostics.SplitRHat(values), 1e-12);
    }

    [Fact]
    public void Draws_means_and_covariances()
    {
        (Chain chain, double[][][] values, _) = Recorded(6, 3, 50, 0, 5);
        SampledPosterior posterior = chain.Posterior(0, 1, 1, 1e9);
        double[][] flat = [.. values.Select(walkers => walkers.SelectMany(x => x).ToArray())];
        double[,] covariance = posterior.Covariance();
        for (int a = 0; a < 3; a++)
        {
            Assert.Equal(flat[a].Average(), posterior.Mean(a), 1e-12);
            Assert.Same(posterior.Marginal(a), posterior.Marginal(a));
            for (int b = 0; b < 3; b++)
            {
                double expected = flat[a].Zip(flat[b], (x, y) => (x - flat[a].Average()) * (y - flat[b].Average())).Sum() / (flat[a].Length - 1);
                Assert.Equal(expected, covariance[a, b], 1e-12);
            }
        }

        int count = posterior.Count;
        foreach (int bad in (int[])[-1, count])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => posterior.Draw(bad).Length);
            Assert.Throws<ArgumentOutOfRangeException>(() => posterior.LogDensity(bad));
        }

        Assert.Equal("dimension", Assert.Throws<ArgumentOutOfRangeException>(() => posterior.Marginal(3)).ParamName);
        Assert.Equal("dimension", Assert.Throws<ArgumentOutOfRangeException>(() => posterior.Coordinate(3)).ParamName);
    }

    private delegate void Seen(int walker, double[] from, double[] proposal, double[][] others);

    /// <summary>Steps on a flat density: each proposal with where its walker stood and where the other half stands.</summary>
    private static int[] Watch(int dimensions, double differences, int steps, Seen seen)
    {
        var random = new Random(5);
        double[] positions = [.. Enumerable.Range(0, 2 * Half * dimensions).Select(_ => random.NextDouble())];
        WalkerEnsemble? ensemble = null;
        int call = 0;
        var density = new BatchDensity(dimensions, points =>
        {
            int first = call++ % 2 == 0 ? 0 : Half;
            double[][] stand = [.. Enumerable.Range(0, 2 * Half).Select(w => ensemble!.Positions[(w * dimensions)..((w + 1) * dimensions)])];
            for (int i = 0; i < Half; i++)
                seen(first + i, stand[first + i], points[(i * dimensions)..((i + 1) * dimensions)], stand[(Half - first)..(2 * Half - first)]);
        });
        ensemble = new WalkerEnsemble(density, positions, 9, differences);
        int[] moved = new int[2 * Half];
        for (int step = 0; step < steps; step++)
        {
            double[] before = [.. ensemble.Positions];
            int[] movedBefore = [.. moved];
            ensemble.Step(step, moved, CancellationToken.None);
            for (int w = 0; w < 2 * Half; w++)
            {
                bool isElsewhere = !before.AsSpan(w * dimensions, dimensions).SequenceEqual(ensemble.Positions.AsSpan(w * dimensions, dimensions));
                Assert.Equal(movedBefore[w] + (isElsewhere ? 1 : 0), moved[w]);
            }
        }

        return moved;
    }

    /// <summary>The factor by which one way is the other, or −1 if they are not along each other.</summary>
    private static double Along(double[] way, double[] direction)
    {
        double norm = direction.Sum(x => x * x), factor = way.Zip(direction, (a, b) => a * b).Sum() / norm;
        double off = way.Zip(direction, (a, b) => Math.Abs(a - (factor * b))).Max();
        return norm > 0 && off < 1e-9 * Math.Sqrt(norm) ? factor : -1;
    }

    private static double[] Minus(double[] a, double[] b) => [.. a.Zip(b, (x, y) => x - y)];

    /// <summary>A chain of walkers that wander about by themselves, and what was written into it.</summary>
    private static (Chain Chain, double[][][] Values, int[][] Moves) Recorded(
        int walkers, int dimensions, int steps, int? burnIn, int seed, Func<int, int, int>? moves = null)
    {
        var random = new Random(seed);
        var ensemble = new WalkerEnsemble(new TestDensity(dimensions, _ => 0), new double[walkers * dimensions], 1, 0.5);
        var chain = new Chain(walkers, dimensions, burnIn);
        double[][][] values = [.. Enumerable.Range(0, dimensions).Select(_ => Enumerable.Range(0, walkers).Select(_ => new double[steps]).ToArray())];
        int[][] made = [.. Enumerable.Range(0, walkers).Select(_ => new int[steps])];
        for (int t = 0; t < steps; t++)
        {
            for (int w = 0; w < walkers; w++)
            {
                for (int d = 0; d < dimensions; d++)
                {
                    // The later coordinates remember longer.
                    double kept = 0.2 + (0.3 * d), x = (kept * ensemble.Positions[(w * dimensions) + d]) + random.NextDouble();
                    ensemble.Positions[(w * dimensions) + d] = values[d][w][t] = x;
                }

                made[w][t] = moves is null ? (random.Next(3) == 0 ? 0 : 1) : moves(w, t);
                chain.Moved[w] += made[w][t];
            }

            chain.Add(ensemble);
        }

        return (chain, values, made);
    }

    private sealed class BatchDensity(int dimensions, Action<double[]> seen) : ILogDensity
    {
        public int Dimensions => dimensions;

        public void Evaluate(ReadOnlySpan<double> points, Span<double> logDensities, CancellationToken cancellation)
        {
            seen(points.ToArray());
            logDensities.Clear();
        }
    }
}
