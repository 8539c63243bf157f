namespace FlowSim.Commands.Input;

/// <summary>Something in the input is wrong. The problems say what and where.</summary>
/// <param name="problems">At least one.</param>
internal sealed class BadInputException(Problems problems) : Exception("the input is wrong")
{
    public Problems Problems { get; } = problems;
}

/// <summary>The library has no trustworthy figures for this honey.</summary>
/// <param name="message">Where, why, and what can be measured.</param>
internal sealed class RefusedHoneyException(string message) : Exception(message);
