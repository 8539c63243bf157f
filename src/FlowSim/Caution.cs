namespace FlowSim;

/// <summary>A reminder where work can hurt someone. It defers to local codes and licensed practice.</summary>
/// <param name="Code">Stable identifier, for programs.</param>
/// <param name="Text">What to mind.</param>
/// <param name="Source">Where the limit comes from.</param>
public sealed record Caution(string Code, string Text, Source Source);
