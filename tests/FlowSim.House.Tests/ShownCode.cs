using System.Text.RegularExpressions;

namespace FlowSim.House.Tests;

/// <summary>Code that a page shows, and the tested code that it has to be.</summary>
internal static class ShownCode
{
    /// <summary>The code blocks of a page that say they are in this language.</summary>
    public static IEnumerable<string> Blocks(string page, string language) =>
        Regex.Matches(page, $@"```{language}\n(?<text>.*?)```", RegexOptions.Singleline | RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(1)).Select(m => m.Groups["text"].Value);

    /// <summary>What stands between the marks of a source file, one region after the other.</summary>
    public static string Marked(string source) =>
        string.Join('\n', Regex.Matches(source, @"// README begins\n(?<code>.*?)\n\s*// README ends", RegexOptions.Singleline | RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(1)).Select(m => m.Groups["code"].Value));

    /// <summary>The namespaces that a file or a block imports.</summary>
    public static string Usings(string code) => string.Join('\n', code.Split('\n').Where(IsUsing));

    /// <summary>The code without its imports.</summary>
    public static string WithoutUsings(string code) => string.Join('\n', code.Split('\n').Where(line => !IsUsing(line)));

    /// <summary>The lines with something in them, without what they are indented by.</summary>
    public static string Undent(string text) =>
        string.Join('\n', text.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0));

    private static bool IsUsing(string line) => line.StartsWith("using ", StringComparison.Ordinal) && line.EndsWith(';');
}
