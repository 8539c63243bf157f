namespace FlowSim.OverflowRisk;

/// <summary>What drives an output: Sobol' indices of each input.</summary>
/// <param name="Of">The output.</param>
/// <param name="Drivers">Largest total first; empty when <paramref name="Refused"/> says why.</param>
/// <param name="Refused">Why there are none, as when the output is the same in every run; null when there are.</param>
public sealed record DriverTable(DriverOutput Of, IReadOnlyList<Driver> Drivers, string? Refused);

/// <summary>What is driven.</summary>
public enum DriverOutput
{
    /// <summary>Whether the strainer runs over.</summary>
    Overflow,

    /// <summary>ln of the time to 95 % strained; of the longest time for a run that never gets there.</summary>
    StrainTime,
}

/// <summary>How much of the variance of an output an input makes. Inputs that go together count as one.</summary>
/// <param name="Name">Name of the input; of a group, the names joined with " + ".</param>
/// <param name="FirstOrder">Share of the variance that would go if it alone were known (Sobol' first-order index).</param>
/// <param name="FirstLow">Low end of its 95 % interval; may be a little below 0.</param>
/// <param name="FirstHigh">High end.</param>
/// <param name="Total">Share that would stay if all others were known (total index).</param>
/// <param name="TotalLow">Low end of its 95 % interval.</param>
/// <param name="TotalHigh">High end.</param>
public sealed record Driver(string Name, double FirstOrder, double FirstLow, double FirstHigh, double Total, double TotalLow, double TotalHigh);

/// <summary>What to measure next.</summary>
/// <param name="Name">Name of the input, or of the first of a group.</param>
/// <param name="Of">What gets narrower by it.</param>
/// <param name="How">How it is measured in a honey house.</param>
/// <param name="SpreadLeft">What would be left of the standard deviation of the output, were it known exactly, 0 to 1.</param>
public sealed record MeasureAdvice(string Name, DriverOutput Of, string How, double SpreadLeft);
