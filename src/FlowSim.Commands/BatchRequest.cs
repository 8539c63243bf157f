using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>What every command can be asked that answers about one input.</summary>
internal abstract record BatchRequest
{
    /// <summary>Path of the input; null for the example.</summary>
    public string? File { get; init; }

    /// <summary>Settings that win over the input, as <c>key=value</c>.</summary>
    public IReadOnlyList<string> Settings { get; init; } = [];

    /// <summary>Whether the answer is JSON.</summary>
    public bool Json { get; init; }

    /// <summary>Units of the text and of figures.</summary>
    public UnitChoice Units { get; init; }

    /// <summary>Whether the outcome alone is told.</summary>
    public bool Quiet { get; init; }
}
