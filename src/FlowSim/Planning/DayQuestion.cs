using UnitsNet;

namespace FlowSim.Planning;

/// <summary>What is to be done on a day, and with what. Change a copy with <c>with</c>.</summary>
/// <remarks>
/// All moments are durations from the midnight with which the day begins; those of the evening before are negative. They lie within two weeks of it.
/// The plan counts whole minutes: durations are rounded up, moments to the inside of the hours.
/// </remarks>
public sealed record DayQuestion
{
    /// <summary>The vessels of honey, one to forty, each under a name of its own.</summary>
    public required IReadOnlyList<PlannedBatch> Batches { get; init; }

    /// <summary>Where honey is warmed. Default none: then nothing can be warmed.</summary>
    public IReadOnlyList<WarmingPlace> Places { get; init; } = [];

    /// <summary>The strainers, one to twenty.</summary>
    public required IReadOnlyList<PlannedStrainer> Strainers { get; init; }

    /// <summary>The tanks that honey is strained into and filled from, one to twenty.</summary>
    public required IReadOnlyList<BottlingTank> Tanks { get; init; }

    /// <summary>The people, one to twenty.</summary>
    public required IReadOnlyList<Worker> People { get; init; }

    /// <summary>When the house is open; nobody works outside it. Null: whenever somebody is there.</summary>
    public IReadOnlyList<WorkSpan>? Open { get; init; }

    /// <summary>Cleaning between honeys and at the end.</summary>
    public Cleaning Cleaning { get; init; } = new();

    /// <summary>Which of each step's times the plan counts with. Default likely.</summary>
    public Pace Pace { get; init; } = Pace.Likely;

    /// <summary>How long is searched.</summary>
    public PlanEffort Effort { get; init; } = new();
}

/// <summary>How long a plan is searched for. The same effort gives the same plan on any machine.</summary>
public sealed record PlanEffort
{
    /// <summary>Partial plans kept side by side in the quick search. 1 to 10 000. Default 100.</summary>
    public int Breadth { get; init; } = 100;

    /// <summary>Partial plans looked at to prove that no plan is shorter, or to find one. 0 to 100 million. Default 20 000.</summary>
    public int Proof { get; init; } = 20_000;
}
