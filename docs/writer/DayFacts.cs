using FlowSim.Commands;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Docs;

/// <summary>Assumptions and examples of a day's keys, found by reading a small day with and without them.</summary>
internal static class DayFacts
{
    /// <summary>A day without a batch file, so that no model is run.</summary>
    private const string Small = """
        [day]
        date = "2026-03-14"
        [[person]]
        name = "A"
        from = "07:00"
        to = "15:00"
        [[strainer]]
        name = "cone"
        [[bottling_tank]]
        name = "tank 1"
        capacity = "70 L"
        [[warming_place]]
        name = "cabinet"
        [[batch]]
        name = "heather"
        warm = "9 h"
        strain = "50 min"
        volume = "24 L"
        fill = "none"
        """;

    private static readonly ILookup<string, DemoLine> s_demo = DemoLine.Of(Demo.Day).ToLookup(line => line.Section + "." + line.Key, StringComparer.Ordinal);

    private static readonly IReadOnlyList<Assumption> s_assumed = Read(Small).Assumptions;

    /// <summary>What is known of a key.</summary>
    /// <param name="key">Key of a day.</param>
    public static KeyFacts Of(Key key)
    {
        string[] examples = [.. s_demo[key.ToString()].Select(line => line.Value)];
        string[] without = [.. Small.Split('\n').Where((line, number) => !IsLineOf(key, line, number))];
        bool required = Read(string.Join('\n', without)).Problems.Any(problem => problem.Contains($".{key.Name} is missing", StringComparison.Ordinal) || problem.Contains($" 1.{key.Name} is missing", StringComparison.Ordinal));
        string? assumed = s_assumed.FirstOrDefault(one => one.Key == key.ToString() || one.Key.EndsWith(" 1." + key.Name, StringComparison.Ordinal) && one.Key.StartsWith(key.Section, StringComparison.Ordinal)) is { } found
            ? $"{found.Text} [{StandingText.Of(found.Standing)}]"
            : null;
        return new KeyFacts(required && IsAlone(key), null, assumed, examples);
    }

    // Strain, volume and fill stand in for a batch's file, which must be there without them.
    private static bool IsAlone(Key key) => key.Section != "batch" || key == DayKeys.Batch.Name;

    private static bool IsLineOf(Key key, string line, int number)
    {
        string section = Small.Split('\n').Take(number + 1).Last(earlier => earlier.StartsWith('[')).Trim('[', ']');
        return section == key.Section && line.StartsWith(key.Name + " =", StringComparison.Ordinal);
    }

    private static (IReadOnlyList<string> Problems, IReadOnlyList<Assumption> Assumptions) Read(string toml)
    {
        Problems problems = new();
        InputDocument document = TomlReader.Read(toml, "day.toml", problems, Dialect.Day);
        Loaded loaded = new(document, new Journal(new Spot("day.toml", 1, 1)), problems, "day.toml");
        try
        {
            DayReader.Read(new NamedTexts(), loaded, null, null, CancellationToken.None);
        }
        catch (BadInputException)
        {
            // Told by the problems.
        }

        return ([.. problems.All.Select(problem => problem.What)], loaded.Journal.Assumptions);
    }
}
