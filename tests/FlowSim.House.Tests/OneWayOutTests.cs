using System.Text.RegularExpressions;

namespace FlowSim.House.Tests;

/// <summary>Files are written in one place of the program, so that what holds of it holds of every command.</summary>
public partial class OneWayOutTests
{
    /// <summary>The one place, and a log, which is added to.</summary>
    private static readonly string[] s_writers = ["DiskFiles.cs", "DiskKeptFile.cs"];

    [Fact]
    public void No_command_writes_a_file_by_itself()
    {
        string[] sources = [.. new[] { "FlowSim.Commands", "FlowSim.Console" }.SelectMany(project => Directory.EnumerateFiles(Path.Combine(Repository.Root, "src", project), "*.cs", SearchOption.AllDirectories))
            .Where(path => !path.Contains("/obj/", StringComparison.Ordinal))];
        Assert.NotEmpty(sources);
        string[] strays = [.. sources.Where(path => !s_writers.Contains(Path.GetFileName(path)) && Writing().IsMatch(File.ReadAllText(path)))];
        Assert.Empty(strays);
        Assert.Matches(Writing(), Repository.Read("src", "FlowSim.Console", "DiskFiles.cs"));
    }

    [GeneratedRegex(@"\bFile\.(Write|Create|Open|Append|Move|Copy|Delete|Replace)|new (FileStream|StreamWriter)|\bFileStream \w+ = new|Directory\.(Create|Delete)|FileInfo\(", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Writing();
}
