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
/// <param name="Tests">Those of each test that passes without any change.</param>
internal sealed record Coverage(int[] AtStart, TestCoverage[] Tests)
{
    private static readonly TimeSpan s_longest = TimeSpan.FromMinutes(5);

    /// <summary>Reads what <see cref="Write"/> wrote, of all lanes.</summary>
    /// <param name="folder">Where the files are.</param>
    public static Coverage Read(string folder)
    {
        Coverage[] lanes = [.. Directory.GetFiles(folder, "*.json").Order(StringComparer.Ordinal).Select(ReadLane)];
        return new([.. lanes.SelectMany(lane => lane.AtStart).Distinct()], [.. lanes.SelectMany(lane => lane.Tests)]);
    }

    /// <summary>Runs tests one at a time and notes what they come to.</summary>
    /// <param name="laboratory">Library and tests.</param>
    /// <param name="folder">Where to write it.</param>
    /// <param name="lane">This process's share of the tests, counted from 0.</param>
    /// <param name="lanes">So many processes share them.</param>
    /// <param name="parts">Where something is known, only tests whose names have one of these in them are run again.</param>
    public static void Write(Laboratory laboratory, string folder, int lane, int lanes, string[] parts)
    {
        string file = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{lane}.json"));
        TestCoverage[] known = parts.Length > 0 && File.Exists(file) ? ReadLane(file).Tests : [];
        bool IsWanted(string name) => known.Length == 0 || parts.Any(part => name.Contains(part, StringComparison.Ordinal));
        List<TestCoverage> tests = [.. known.Where(test => laboratory.Tests.Has(test.Name) && !IsWanted(test.Name))];
        foreach (string name in laboratory.Tests.Names.Where(name => IsWanted(name) && name.Sum(letter => letter) % lanes == lane))
        {
            laboratory.Switches.TakeHits();
            long start = TimeProvider.System.GetTimestamp();
            (string? failed, Task work) = laboratory.Tests.Run([name], s_longest);
            if (!work.IsCompleted || failed is not null)
                Console.WriteLine($"fails without any change and is left out: {name}");
            else
                tests.Add(new(name, TimeProvider.System.GetElapsedTime(start).TotalSeconds, laboratory.Switches.TakeHits()));
        }

        File.WriteAllText(file, JsonSerializer.Serialize(new Coverage(laboratory.AtStart, [.. tests])));
    }

    private static Coverage ReadLane(string file) => JsonSerializer.Deserialize<Coverage>(File.ReadAllText(file))!;
}
