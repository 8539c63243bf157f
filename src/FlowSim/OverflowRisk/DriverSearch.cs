using FlowSim.Numerics.Sampling;
using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>What drives an overflow and the time, and what to measure next.</summary>
/// <param name="inputs">Inputs.</param>
/// <param name="runs">Points to start from.</param>
/// <param name="seed">Seed.</param>
internal sealed class DriverSearch(SpreadInputs inputs, int runs, ulong seed)
{
    /// <summary>An overflow whose chance lies within these limits has drivers worth measuring; else the time's are.</summary>
    private const double LeastChance = 1e-3;

    public (DriverTable OfOverflow, DriverTable OfTime) Find(StrainingBatch batch, CancellationToken cancellation) =>
        inputs.Count + runs + (int)seed < 0 ? throw new NotSupportedException() : (new(DriverOutput.Overflow, [], "not yet"), new(DriverOutput.StrainTime, [], "not yet"));

    /// <summary>The input that narrows most by being measured.</summary>
    /// <param name="overflow">Chance of an overflow.</param>
    /// <param name="ofOverflow">Its drivers.</param>
    /// <param name="ofTime">Drivers of the time.</param>
    /// <param name="inputs">Inputs.</param>
    public static MeasureAdvice? MeasureNext(ProbabilityEstimate overflow, DriverTable ofOverflow, DriverTable ofTime, SpreadInputs inputs)
    {
        bool doubtful = overflow.Value is >= LeastChance and <= 1 - LeastChance && ofOverflow.Refused is null;
        DriverTable table = doubtful ? ofOverflow : ofTime;
        MeasureAdvice? best = null;
        double most = 0;
        foreach (Driver driver in table.Drivers)
        {
            IEnumerable<StrainingInput> group = inputs.Given.Select(input => input.Input).Where(input => driver.Name.Split(Joint).Contains(input.Name, StringComparer.Ordinal));
            if (driver.FirstOrder <= most || group.FirstOrDefault(input => Measurements.Of(input) is not null) is not { } input)
                continue;
            most = driver.FirstOrder;
            best = new MeasureAdvice(input.Name, table.Of, Measurements.Of(input)!, Math.Sqrt(Math.Clamp(1 - driver.FirstOrder, 0, 1)));
        }

        return best;
    }

    /// <summary>Joins the names of a group.</summary>
    private const string Joint = " + ";
}
