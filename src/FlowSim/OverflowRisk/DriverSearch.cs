using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.OverflowRisk;

/// <summary>What drives an overflow and the time, and what to measure next.</summary>
/// <param name="inputs">Inputs.</param>
/// <param name="points">Points of each of the two sets that the indices are made from.</param>
/// <param name="seed">Seed.</param>
internal sealed class DriverSearch(SpreadInputs inputs, int points, ulong seed)
{
    /// <summary>Fewest of the points that must differ from the rest for shares to be told (engineering choice).</summary>
    private const double FewestThatDiffer = 20;

    /// <summary>What happens with a probability above this over n shows at least once in n with 95 %.</summary>
    private const double Unseen = 3;

    /// <summary>An overflow whose chance lies within these limits has drivers worth measuring; else the time's are.</summary>
    private const double LeastChance = 1e-3;

    /// <summary>Joins the names of a group.</summary>
    private const string Joint = " + ";

    /// <summary>Finds the drivers of both outputs from the same runs.</summary>
    /// <param name="batch">What is run.</param>
    /// <param name="cancellation">Ends early.</param>
    public (DriverTable OfOverflow, DriverTable OfTime) Find(StrainingBatch batch, CancellationToken cancellation)
    {
        var options = new SobolOptions { Replicates = RunDraws.Replicates, PointsPerReplicate = Math.Max(2, points / RunDraws.Replicates), Seed = seed };
        IReadOnlyList<SobolIndices> indices = SobolIndices.EstimateAll(batch, options, inputs.Groups, cancellation);
        return (
            Table(DriverOutput.Overflow, indices[StrainingBatch.OverflowOutput]),
            Table(DriverOutput.StrainTime, indices[StrainingBatch.StrainTimeOutput]));
    }

    private DriverTable Table(DriverOutput of, SobolIndices indices)
    {
        int drawn = 2 * RunDraws.Replicates * Math.Max(2, points / RunDraws.Replicates);
        bool tooFew = of == DriverOutput.Overflow && Math.Min(indices.Mean, 1 - indices.Mean) * drawn < FewestThatDiffer;
        if (indices.Status != SobolStatus.Estimated || tooFew)
            return new DriverTable(of, [], Refusal(of, indices));

        // An input that made no difference may still make one in a run that was not drawn: of one to an overflow, of a standard deviation to a time.
        double least = Unseen / drawn * (of == DriverOutput.Overflow ? 0.5 / indices.Variance : 1);
        IEnumerable<Driver> drivers = inputs.Groups.Select((group, g) => new Driver(
            string.Join(Joint, group.Select(i => inputs.Given[i].Input.Name)),
            indices.FirstOrder[g].Value,
            Math.Min(indices.FirstOrder[g].Low, indices.FirstOrder[g].Value - least),
            Math.Max(indices.FirstOrder[g].High, indices.FirstOrder[g].Value + least),
            indices.Total[g].Value,
            Math.Min(indices.Total[g].Low, indices.Total[g].Value - least),
            Math.Max(indices.Total[g].High, indices.Total[g].Value + least)));
        return new DriverTable(of, [.. drivers.OrderByDescending(driver => driver.Total)], null);
    }

    private static string Refusal(DriverOutput of, SobolIndices indices)
    {
        bool constant = indices.Status == SobolStatus.ConstantOutput;
        return of switch
        {
            DriverOutput.Overflow when constant => Invariant($"the strainer {(indices.Mean > 0.5 ? "runs over in all" : "runs over in none")} of {indices.Evaluations} runs, so nothing drives it"),
            DriverOutput.Overflow => Invariant($"too few of {indices.Evaluations} runs differ in whether the strainer runs over to tell what drives it"),
            _ when constant => Invariant($"the time to 95 % strained is the same in all of {indices.Evaluations} runs, or never comes, so nothing drives it"),
            _ => Invariant($"too few of {indices.Evaluations} runs differ in the time to 95 % strained to tell what drives it"),
        };
    }

    /// <summary>The input that narrows most by being measured: the overflow while that is in doubt and something surely drives it, else the time.</summary>
    /// <param name="overflow">Chance of an overflow.</param>
    /// <param name="ofOverflow">Its drivers.</param>
    /// <param name="ofTime">Drivers of the time.</param>
    /// <param name="inputs">Inputs.</param>
    public static MeasureAdvice? MeasureNext(ProbabilityEstimate overflow, DriverTable ofOverflow, DriverTable ofTime, SpreadInputs inputs)
    {
        bool doubtful = overflow.Value is >= LeastChance and <= 1 - LeastChance;
        return (doubtful ? Best(ofOverflow, inputs) : null) ?? Best(ofTime, inputs);
    }

    private static MeasureAdvice? Best(DriverTable table, SpreadInputs inputs)
    {
        // What might as well be nothing is not worth measuring.
        foreach (Driver driver in table.Drivers.Where(driver => driver.FirstLow > 0).OrderByDescending(driver => driver.FirstOrder))
        {
            string[] names = driver.Name.Split(Joint);
            if (inputs.Given.Select(given => given.Input).FirstOrDefault(input => names.Contains(input.Name, StringComparer.Ordinal) && Measurements.Of(input) is not null) is { } input)
                return new MeasureAdvice(input.Name, table.Of, Measurements.Of(input)!, Math.Sqrt(Math.Clamp(1 - driver.FirstOrder, 0, 1)));
        }

        return null;
    }
}
