namespace FlowSim.Numerics.Sampling;

/// <summary>What an ensemble went through, step by step.</summary>
internal sealed class Chain(int walkers, int dimensions, int? burnIn)
{
    // A walker without a move is no accident when the others made so many, or in so many steps.
    private const int EnoughMoves = 20;
    private const int EnoughSteps = 1000;

    private readonly List<double[]> _positions = [];
    private readonly List<double[]> _logDensities = [];
    private readonly List<int[]> _moved = [];

    public int Steps => _positions.Count;

    /// <summary>Moves of each walker so far.</summary>
    public int[] Moved { get; } = new int[walkers];

    public void Add(WalkerEnsemble ensemble)
    {
        _positions.Add([.. ensemble.Positions]);
        _logDensities.Add([.. ensemble.LogDensities]);
        _moved.Add([.. Moved]);
    }

    public SampledPosterior Posterior(long evaluations, double target, double longEnough, double mostRHat)
    {
        // What is left must be enough for variances of half chains.
        int from = Math.Min(burnIn ?? Steps / 4, Math.Max(0, Steps - 4));
        int kept = Steps - from;
        double[] times = new double[dimensions], effective = new double[dimensions], rHat = new double[dimensions];
        for (int d = 0; d < dimensions; d++)
        {
            double[][] chains = Chains(d, from, kept);
            times[d] = ChainDiagnostics.AutocorrelationTime(chains);
            effective[d] = (double)walkers * kept / times[d];
            rHat[d] = ChainDiagnostics.SplitRHat(chains);
        }
        int[] before = from == 0 ? new int[walkers] : _moved[from - 1];
        int[] moves = [.. Moved.Zip(before, (all, early) => all - early)];
        (SamplerStatus status, string message) = Judge(moves, kept, times.Max(), effective.Min(), rHat.Max(), target, longEnough, mostRHat);
        double[] draws = [.. _positions.Skip(from).SelectMany(row => row)];
        return new SampledPosterior(dimensions, draws, [.. _logDensities.Skip(from).SelectMany(row => row)])
        {
            Status = status,
            Message = message,
            Walkers = walkers,
            Steps = Steps,
            BurnIn = from,
            Evaluations = evaluations,
            AcceptanceRate = moves.Sum() / ((double)walkers * kept),
            AutocorrelationTime = times,
            EffectiveSampleSize = effective,
            SplitRHat = rHat,
        };
    }

    private double[][] Chains(int dimension, int from, int kept)
    {
        double[][] chains = new double[walkers][];
        for (int w = 0; w < walkers; w++)
        {
            chains[w] = new double[kept];
            for (int t = 0; t < kept; t++) chains[w][t] = _positions[from + t][w * dimensions + dimension];
        }
        return chains;
    }

    private (SamplerStatus Status, string Message) Judge(
        int[] moves, int kept, double time, double effective, double rHat, double target, double longEnough, double mostRHat)
    {
        int stuck = moves.Count(count => count == 0);
        if (stuck > 0 && (moves.Average() >= EnoughMoves || kept >= EnoughSteps))
        {
            return (SamplerStatus.StuckWalkers, FormattableString.Invariant($"{stuck} of {walkers} walkers did not move in {kept} steps."));
        }
        if (rHat > mostRHat) return (SamplerStatus.NotMixed, FormattableString.Invariant($"The walkers disagree: split R̂ is {rHat:0.00} and should be at most {mostRHat}."));
        if (kept < longEnough * time || effective < target)
        {
            return (SamplerStatus.TooFewEffective, FormattableString.Invariant(
                $"{effective:0} effective draws of {target:0} wanted, the steps kept {kept / time:0} times their memory of {longEnough:0} needed."));
        }
        return (SamplerStatus.Converged, FormattableString.Invariant($"{effective:0} effective draws."));
    }
}
