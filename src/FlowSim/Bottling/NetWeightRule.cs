using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>What a law asks of the net weight of a lot, as data. Local weights-and-measures law decides; this only computes with the figures given here.</summary>
public sealed record NetWeightRule
{
    /// <summary>Name as the user writes it.</summary>
    public required string Name { get; init; }

    /// <summary>What it is, in a few words.</summary>
    public required string Description { get; init; }

    /// <summary>Tolerable shortfall of one jar by net weight; empty when the user must give it (<see cref="FillingSetup.TolerableShortfall"/>).</summary>
    public required IReadOnlyList<ToleranceBand> Bands { get; init; }

    /// <summary>How many jars may fall short by how much.</summary>
    public required IReadOnlyList<ShortfallLimit> Limits { get; init; }

    /// <summary>How officials check a lot; empty when no table could be read.</summary>
    public required IReadOnlyList<SamplingPlan> Plans { get; init; }

    /// <summary>Where it comes from.</summary>
    public required Source Source { get; init; }

    /// <summary>Tolerable shortfall of a jar of some net weight; null when the rule has no row for it.</summary>
    /// <param name="netWeight">Net weight on the label.</param>
    public Mass? TolerableShortfall(Mass netWeight) =>
        Bands.FirstOrDefault(band => netWeight.Grams >= band.From.Grams && netWeight.Grams <= band.To.Grams) is { } row ? Mass.FromGrams(row.GramsFor(netWeight)) : null;

    /// <summary>The plan for a lot; null when there is none, as for small lots that are checked whole.</summary>
    /// <param name="lot">Jars in the lot.</param>
    public SamplingPlan? PlanFor(int lot) => Plans.FirstOrDefault(plan => lot >= plan.LotFrom && lot <= plan.LotTo);
}
