namespace FlowSim.Docs;

/// <summary>What becomes of a run when a key is left out.</summary>
/// <param name="IsRequired">Whether the reader asks for it.</param>
/// <param name="Default">Value that makes no difference, as TOML; null when there is none or it hangs on others.</param>
/// <param name="Assumed">What is assumed, in words; null when nothing is said.</param>
/// <param name="Examples">Values of the example file, as TOML.</param>
internal sealed record KeyFacts(bool IsRequired, string? Default, string? Assumed, IReadOnlyList<string> Examples)
{
    /// <summary>In words, for a table; empty when there is nothing to say.</summary>
    public string Without => IsRequired ? "must be given" : Default is { } value ? Markdown.Code(value) : Assumed is { } words ? Markdown.Cell(words) : string.Empty;
}
