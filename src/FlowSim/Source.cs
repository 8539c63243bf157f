namespace FlowSim;

/// <summary>Where a number or an equation comes from.</summary>
/// <param name="Citation">Author, year and place, as a reader would look it up.</param>
/// <param name="Standing">Whether it was opened.</param>
public sealed record Source(string Citation, Standing Standing);
