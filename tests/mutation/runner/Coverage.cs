using System.Globalization;
using System.Text.Json;

namespace FlowSim.Mutation;

/// <summary>Which changes a test comes to.</summary>
/// <param name="Name">The test.</param>
/// <param name="Seconds">How long it took while that was noted.</param>
/// <param name="Changes">The changes.</param>
internal sealed record TestCoverage(string Name, double Seconds, int[] Changes);

/// <summary>Which changes are come to.</summary>
/// <param name="AtStart">Those in what a process makes once, before any test.</param>
/// <param name="Tests">Those of each test.</param>
internal sealed record Coverage(int[] AtStart, TestCoverage[] Tests)
{
    /// <summary>A test that takes longer is of no use: in that time hundreds of changes are tried.</summary>
    private static readonly TimeSpan s_longest = TimeSpan.FromSeconds(10);

    /// <summary>Reads what <see cref="Write"/> wrote, of all lanes.</summary>
    /// <param name="folder">Where the files are.</param>
    public static Coverage Read(string folder)
    {
        string[][] lanes = [.. Directory.GetFiles(folder, "*.jsonl").Order(StringComparer.Ordinal).Select(File.ReadAllLines)];
        return new(JsonSerializer.Deserialize<int[]>(lanes[0][0])!, [.. lanes.SelectMany(lane => lane.Skip(1)).Select(line => JsonSerializer.Deserialize<TestCoverage>(line)!)]);
    }

    /// <summary>Runs tests one at a time and adds what they come to, a line each; those that have a line are not run again.</summary>
    /// <param name="laboratory">Library and tests.</param>
    /// <param name="folder">Where to write it.</param>
    /// <param name="lane">This process's share of the tests, counted from 0.</param>
    /// <param name="lanes">So many processes share them.</param>
    /// <returns>Whether all are done; if not, a test runs on and this process is no good for the rest.</returns>
    public static bool Write(Laboratory laboratory, string folder, int lane, int lanes)
    {
        string file = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{lane}.jsonl"));
        if (!File.Exists(file))
            File.WriteAllText(file, JsonSerializer.Serialize(laboratory.AtStart) + "\n");
        HashSet<string> known = [.. File.ReadLines(file).Skip(1).Select(line => JsonSerializer.Deserialize<TestCoverage>(line)!.Name)];
        foreach (string name in laboratory.Tests.Names.Where(name => name.Sum(letter => letter) % lanes == lane && !known.Contains(name)))
        {
            laboratory.Switches.TakeHits();
            long start = TimeProvider.System.GetTimestamp();
            (string? failed, Task work) = laboratory.Tests.Run([name], s_longest);
            bool isOfUse = work.IsCompleted && failed is null;
            if (failed is not null)
                Console.WriteLine($"fails without any change and is left out: {name}");
            var covered = new TestCoverage(name, isOfUse ? TimeProvider.System.GetElapsedTime(start).TotalSeconds : double.MaxValue, isOfUse ? laboratory.Switches.TakeHits() : []);
            File.AppendAllText(file, JsonSerializer.Serialize(covered) + "\n");
            if (!work.IsCompleted)
                return false;
        }

        return true;
    }
}
