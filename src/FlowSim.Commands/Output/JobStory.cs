using FlowSim.Commands.Input;
using FlowSim.WholeJob;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a whole job.</summary>
/// <param name="Result">The job.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Name">Name of the input.</param>
internal sealed record JobStory(JobResult Result, Journal Journal, string Name)
{
    /// <summary>What standing longer or shorter would do; empty where nothing settles.</summary>
    public IReadOnlyList<StandingChoice> Standing { get; init; } = [];
}
