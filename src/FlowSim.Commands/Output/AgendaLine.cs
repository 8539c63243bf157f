namespace FlowSim.Commands.Output;

/// <summary>One line of a day.</summary>
/// <param name="From">Begin.</param>
/// <param name="To">End.</param>
/// <param name="Who">Who does it.</param>
/// <param name="What">What is done.</param>
/// <param name="Slack">How much later it may end; empty for nothing.</param>
internal sealed record AgendaLine(string From, string To, string Who, string What, string Slack);
