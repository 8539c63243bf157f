namespace FlowSim;

/// <summary>Something the user should know about a result: what was seen, what it may mean, what helps.</summary>
/// <param name="Code">Stable identifier, for programs.</param>
/// <param name="Seen">What was seen, with values and limits.</param>
/// <param name="MayMean">What it may mean.</param>
/// <param name="Helps">What helps.</param>
public sealed record Notice(string Code, string Seen, string MayMean, string Helps)
{
    /// <inheritdoc/>
    public override string ToString() => Seen + " – " + MayMean + " – " + Helps;
}
