using System.Text.RegularExpressions;

namespace FlowSim.House.Tests;

/// <summary>Files are written in one place, so that what holds of it holds of every command.</summary>
public partial class OneWayOutTests
{
    /// <summary>The one place; a log, which is added to; and the texts that both are given to put in place.</summary>
    private static readonly string[] s_writers = ["OutputFile.cs", "WatchLog.cs", "CalibrationSave.cs", "InputFile.cs"];

    [Fact]
    public void No_command_writes_a_file_by_itself()
    {
        string[] sources = [.. Directory.EnumerateFiles(Path.Combine(Repository.Root, "src", "FlowSim.Commands"), "*.cs", SearchOption.AllDirectories)
            .Where(path => !path.Contains("/obj/", StringComparison.Ordinal))];
        Assert.NotEmpty(sources);
        string[] strays = [.. sources.Where(path => !s_writers.Contains(Path.GetFileName(path)) && Writing().IsMatch(File.ReadAllText(path)))];
        Assert.Empty(strays);
        Assert.Matches(Writing(), Repository.Read("src", "FlowSim.Commands", "Output", "OutputFile.cs"));
    }

    [GeneratedRegex(@"\bFile\.(Write|Create|Open|Append|Move|Copy|Delete|Replace)|new (FileStream|StreamWriter)|\bFileStream \w+ = new|Directory\.(Create|Delete)|FileInfo\(", RegexOptions.CultureInvariant)]
    private static partial Regex Writing();
}
