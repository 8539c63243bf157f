using FlowSim.Bottling;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Warming;

namespace FlowSim.WholeJob;

/// <summary>One batch from cold honey to full jars: the setups of its steps. Change a copy with <c>with</c>.</summary>
/// <remarks>
/// Each step takes over what the one before it leaves: settling the depth of the tank and, afterwards, its temperature, level and what bits are left; filling what the
/// straining brought into the bottling tank. What the steps' own setups say of these is replaced (<see cref="JobRun"/>).
/// </remarks>
public sealed record JobSetup
{
    /// <summary>Warming until straining can begin; null for honey that is warm enough.</summary>
    public WarmingSetup? Warming { get; init; }

    /// <summary>Standing in the tank, then skimmed; null for honey that is strained as it is. Its depth and honey are those of the tank.</summary>
    public SettlingSetup? Settling { get; init; }

    /// <summary>The straining. Its tank is full before it is skimmed.</summary>
    public required StrainingSetup Straining { get; init; }

    /// <summary>The filling; null ends the job in the bottling tank. The level in its tank is what the straining brought.</summary>
    public FillingSetup? Filling { get; init; }
}
