namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Which inputs an output's variance comes from. The first-order index of an input, or group of inputs, is the share of the variance that would go
/// if the group were known exactly; the total index the share that would stay if everything else were. Their difference is the part in which the
/// group acts together with others.
/// <para><b>Equation</b>: first order V⁻¹ E[f(B) (f(Aᴮ) − f(A))], total ½ V⁻¹ E[(f(A) − f(Aᴮ))²], where Aᴮ is the point A with the group's coordinates
/// from B.</para>
/// <para><b>Error</b>: independent replicates, ratios of their sums, jackknife over the replicates (which also removes the ratio's first-order bias)
/// with Student's t. Estimates and intervals are not cut off at 0 and 1: an index of 0 may come out slightly negative.</para>
/// <para><b>Source</b>: first order A. Saltelli et al., Comput. Phys. Commun. 181 (2010) 259–270, eq. (b) of table 2; total M. J. W. Jansen, Comput. Phys.
/// Commun. 117 (1999) 35–43; from memory.</para>
/// <para><b>Checked by</b>: SobolIndicesTests.cs.</para>
/// </summary>
/// <remarks>
/// For N points per replicate, R replicates and k groups the model runs R·N·(k + 2) times, for all outputs together. The inputs are the model's
/// independent coordinates; inputs that a model makes depend on each other belong into one group.
/// </remarks>
public sealed record SobolIndices
{
    private SobolIndices()
    {
    }

    /// <summary>Output, from 0.</summary>
    public required int Output { get; init; }

    /// <summary>Whether there are indices.</summary>
    public required SobolStatus Status { get; init; }

    /// <summary>Mean of the output.</summary>
    public required double Mean { get; init; }

    /// <summary>Variance of the output.</summary>
    public required double Variance { get; init; }

    /// <summary>First-order index of each group; empty unless <see cref="SobolStatus.Estimated"/>.</summary>
    public required IReadOnlyList<ReplicateEstimate> FirstOrder { get; init; }

    /// <summary>Total index of each group; empty unless <see cref="SobolStatus.Estimated"/>.</summary>
    public required IReadOnlyList<ReplicateEstimate> Total { get; init; }

    /// <summary>Runs of the model, for all outputs together.</summary>
    public required long Evaluations { get; init; }

    /// <summary>Indices of one output.</summary>
    /// <param name="model">Model.</param>
    /// <param name="output">Output, from 0.</param>
    /// <param name="options">How many runs; the defaults if not given.</param>
    /// <param name="groups">Coordinates of each group; each coordinate by itself if not given. Coordinates in no group vary too.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <exception cref="InvalidOperationException">The output does not vary, or too rarely; or the model gave NaN or an infinite output.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no such output.</exception>
    /// <exception cref="ArgumentException">A group is empty, repeats a coordinate, or names one that the model has not.</exception>
    public static SobolIndices Estimate(
        IBatchModel model, int output, SobolOptions? options = null, IReadOnlyList<IReadOnlyList<int>>? groups = null, CancellationToken cancellation = default)
    {
        BatchEvaluation.Check(model);
        Arguments.From(0, output, model.Outputs - 1);
        SobolIndices indices = EstimateAll(model, options, groups, cancellation)[output];
        return indices.Status switch
        {
            SobolStatus.Estimated => indices,
            SobolStatus.ConstantOutput => throw new InvalidOperationException(FormattableString.Invariant(
                $"Output {output} is {indices.Mean} in every one of {indices.Evaluations} runs: it has no variance to share out among the inputs.")),
            _ => throw new InvalidOperationException(FormattableString.Invariant(
                $"Output {output} differs in so few of {indices.Evaluations} runs that its variance cannot be shared out among the inputs. More points would help.")),
        };
    }

    /// <summary>Indices of all outputs, from the same runs.</summary>
    /// <inheritdoc cref="Estimate"/>
    /// <returns>One entry per output; <see cref="Status"/> says which have no indices.</returns>
    public static IReadOnlyList<SobolIndices> EstimateAll(
        IBatchModel model, SobolOptions? options = null, IReadOnlyList<IReadOnlyList<int>>? groups = null, CancellationToken cancellation = default)
    {
        BatchEvaluation.Check(model);
        options ??= new SobolOptions();
        int[][] members = Members(model.Dimensions, groups);
        SobolRuns runs = SobolRuns.Run(model, options, members, cancellation);
        return [.. Enumerable.Range(0, model.Outputs).Select(output => Of(runs, output, options.Confidence))];
    }

    private static int[][] Members(int dimensions, IReadOnlyList<IReadOnlyList<int>>? groups)
    {
        if (groups is null) return [.. Enumerable.Range(0, dimensions).Select(i => new[] { i })];
        if (groups.Count == 0) throw new ArgumentException("There is no group.", nameof(groups));
        for (int g = 0; g < groups.Count; g++)
        {
            IReadOnlyList<int> group = groups[g] ?? throw new ArgumentException($"Group {g} is null.", nameof(groups));
            if (group.Count == 0) throw new ArgumentException($"Group {g} is empty.", nameof(groups));
            if (group.Distinct().Count() != group.Count) throw new ArgumentException($"Group {g} repeats a coordinate.", nameof(groups));
            foreach (int i in group)
            {
                if (i < 0 || i >= dimensions) throw new ArgumentException($"Group {g} names coordinate {i} of a model with {dimensions}.", nameof(groups));
            }
        }
        return [.. groups.Select(group => group.ToArray())];
    }

    private static SobolIndices Of(SobolRuns runs, int output, double confidence)
    {
        SobolSums sums = new(runs, output);
        SobolIndices indices = new()
        {
            Output = output,
            Status = SobolStatus.ConstantOutput,
            Mean = sums.Centre,
            Variance = 0,
            FirstOrder = [],
            Total = [],
            Evaluations = runs.Evaluations,
        };
        if (sums.IsConstant) return indices;

        int replicates = runs.Replicates;
        double variance = sums.Variance(without: -1);
        indices = indices with { Variance = variance };
        double least = double.PositiveInfinity;
        for (int r = 0; r < replicates; r++) least = Math.Min(least, sums.Variance(without: r));
        // Where leaving one replicate out leaves no variance, the pseudo-values below would divide by nothing.
        if (!(least > 1e-9 * variance)) return indices with { Status = SobolStatus.VariesTooRarely };

        return indices with
        {
            Status = SobolStatus.Estimated,
            FirstOrder = [.. Enumerable.Range(0, runs.Groups).Select(g => Jackknife(without => sums.FirstOrder(g, without)))],
            Total = [.. Enumerable.Range(0, runs.Groups).Select(g => Jackknife(without => sums.Total(g, without)))],
        };

        ReplicateEstimate Jackknife(Func<int, double> index)
        {
            double whole = index(-1);
            double[] pseudo = new double[replicates];
            for (int r = 0; r < replicates; r++) pseudo[r] = replicates * whole - (replicates - 1) * index(r);
            return ReplicateEstimate.FromReplicates(pseudo, confidence);
        }
    }
}
