using FlowSim.Bottling;
using FlowSim.Commands.Input;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a filling.</summary>
/// <param name="Band">The run and its quick and slow neighbours.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Name">Name of the input.</param>
/// <param name="NextSteps">What to do next.</param>
internal sealed record FillingStory(FillingBand Band, Journal Journal, string Name, IReadOnlyList<string> NextSteps);
