namespace FlowSim.Commands.Input;

/// <summary>An option of <c>flowsim measure</c>.</summary>
/// <param name="Name">The option.</param>
/// <param name="Value">What it takes, for the help.</param>
/// <param name="Meaning">What it means.</param>
/// <param name="Repeats">Whether it may be given several times.</param>
internal sealed record MeasureOption(string Name, string Value, string Meaning, bool Repeats = false)
{
    /// <summary>Words it takes; empty when it takes anything.</summary>
    public IReadOnlyList<string> Words { get; init; } = [];
}
