using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>Chances and times over openings and temperatures, the other inputs spread as they are.</summary>
/// <remarks>The same draws serve every cell, so that neighbours differ by what they are and not by chance.</remarks>
public sealed record RiskMap
{
    /// <summary>The question.</summary>
    public required RiskQuestion Question { get; init; }

    /// <summary>Openings left at, shares of the bore.</summary>
    public required IReadOnlyList<Ratio> Openings { get; init; }

    /// <summary>Temperatures of the honey at the start: the middle of what is spread about it.</summary>
    public required IReadOnlyList<Temperature> Temperatures { get; init; }

    /// <summary>Cells, temperature by temperature, each by opening.</summary>
    public required IReadOnlyList<IReadOnlyList<RiskCell>> Cells { get; init; }

    /// <summary>Runs in each cell.</summary>
    public required int RunsPerCell { get; init; }
}

/// <summary>One opening at one temperature.</summary>
/// <param name="Overflow">Chance that the strainer runs over.</param>
/// <param name="Drain">Time to 95 % drained.</param>
/// <param name="Strain">Time to 95 % strained.</param>
public sealed record RiskCell(ProbabilityEstimate Overflow, TimeSpread Drain, TimeSpread Strain);
