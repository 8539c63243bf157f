namespace FlowSim.Commands.Input;

/// <summary>What may stand in a kind of TOML file.</summary>
/// <param name="Sections">Sections that stand once.</param>
/// <param name="Lists">Sections that stand as often as there are things, in double brackets.</param>
internal sealed record Dialect(IReadOnlyList<string> Sections, IReadOnlyList<string> Lists)
{
    /// <summary>A batch: honey and kit.</summary>
    public static Dialect Batch { get; } = new(Keys.Sections, []);

    /// <summary>A day: what is to be done, and who and what is there.</summary>
    public static Dialect Day { get; } = new(DayKeys.Sections, DayKeys.Lists);

    /// <summary>The sections as a file writes them.</summary>
    public string Written => string.Join(", ", [.. Sections.Select(section => $"[{section}]"), .. Lists.Select(list => $"[[{list}]]")]);

    /// <summary>Name that one of a list goes by: "batch 2".</summary>
    /// <param name="list">Name of the list.</param>
    /// <param name="number">Number from 1.</param>
    public static string Numbered(string list, int number) => FormattableString.Invariant($"{list} {number}");
}
