using System.Collections.Concurrent;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Docs;

/// <summary>Defaults, assumptions and examples of a batch's keys, found by reading the example file with and without them.</summary>
internal static class BatchFacts
{
    private const string WithoutIt = "without it, ";

    private static readonly string[] s_lines = Demo.Text.Split('\n');

    private static readonly ILookup<string, DemoLine> s_demo = DemoLine.Of(Demo.Text).ToLookup(line => line.Section + "." + line.Key, StringComparer.Ordinal);

    private static readonly Reading s_whole = Read(Demo.Text);

    private static readonly ConcurrentDictionary<string, KeyFacts> s_known = new(StringComparer.Ordinal);

    /// <summary>What is known of a key.</summary>
    /// <param name="key">Section and name.</param>
    public static KeyFacts Of(string key) => s_known.GetOrAdd(key, Find);

    private static KeyFacts Find(string key)
    {
        DemoLine[] lines = [.. s_demo[key]];
        string[] examples = [.. lines.Select(line => line.Value)];
        if (lines.Length == 0)
            return new KeyFacts(false, null, Assumption(key, s_whole), examples);
        DemoLine first = lines[0];
        if (first.IsActive)
        {
            Reading without = Read(Without(first));
            bool required = without.Problems.Any(problem => problem.Contains($"{key} is missing", StringComparison.Ordinal));
            return new KeyFacts(required, null, Remark(lines) ?? Assumption(key, without), examples);
        }

        if (Remark(lines) is { } remark)
            return new KeyFacts(false, null, remark, examples);
        Reading with = Read(With(first));
        bool changesNothing = with.Problems.Count == 0 && with.State == s_whole.State;
        return new KeyFacts(false, changesNothing ? first.Value : null, Assumption(key, s_whole), examples);
    }

    private static string? Remark(DemoLine[] lines) => lines.Select(line => line.Remark).FirstOrDefault(remark => remark.Contains(WithoutIt, StringComparison.Ordinal)) is { } said
        ? said[(said.IndexOf(WithoutIt, StringComparison.Ordinal) + WithoutIt.Length)..]
        : null;

    private static string? Assumption(string key, Reading reading) => reading.Assumptions.FirstOrDefault(one => one.Key == key) is { } found
        ? $"{found.Text} [{StandingText.Of(found.Standing)}]"
        : null;

    private static string Without(DemoLine line) => string.Join('\n', s_lines.Where((_, number) => number != line.Number));

    private static string With(DemoLine line) => string.Join('\n', s_lines.Select((text, number) => number == line.Number ? text[1..].TrimStart() : text));

    private static Reading Read(string toml)
    {
        List<string> problems = [];
        List<Assumption> assumptions = [];
        List<string> states = [];
        foreach ((string _, Func<Loaded, object?> reader) in BatchReaders.All)
        {
            try
            {
                Loaded loaded = Loader.Load(toml, "demo.toml", [], null);
                states.Add(StateText.Of(reader(loaded)));
                assumptions.AddRange(loaded.Journal.Assumptions);
            }
            catch (BadInputException bad)
            {
                problems.AddRange(bad.Problems.All.Select(problem => problem.What));
            }
        }

        return new Reading(problems, assumptions, string.Join('\n', states));
    }

    private sealed record Reading(IReadOnlyList<string> Problems, IReadOnlyList<Assumption> Assumptions, string State);
}
