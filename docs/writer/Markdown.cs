namespace FlowSim.Docs;

/// <summary>What all Markdown pages share.</summary>
internal static class Markdown
{
    /// <summary>Said at the top of a page that nobody edits.</summary>
    public const string Generated = "<!-- Made by docs/generate from the program itself; change it there. -->\n\n";

    /// <summary>A text as a cell of a table.</summary>
    /// <param name="text">Text.</param>
    public static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal).Replace("<", "&lt;", StringComparison.Ordinal).Replace('\n', ' ');

    /// <summary>A text as code in a cell of a table.</summary>
    /// <param name="text">Text.</param>
    public static string Code(string text) => $"`{text.Replace("|", "\\|", StringComparison.Ordinal)}`";
}
