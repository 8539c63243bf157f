using System.Text.Json;
using System.Text.RegularExpressions;
using FlowSim.Commands.Tests.Watching;
using FlowSim.House.Tests;

namespace FlowSim.Commands.Tests;

/// <summary>
/// A change detector, not a check of the physics: what every command answered when its answers were stored, to 1e-9, on whatever machine. <c>tests/machines/run</c> does it over on machines that
/// are made to lack what this one has, and stores new answers.
/// </summary>
/// <remarks>
/// Machines differ in the last bit of exp and log. A run, and many runs, keep to 1e-9 all the same. What is fitted is put on a grid, and so is the walk that checks it; from there on it keeps to
/// 1e-8, and the number of model runs, which may differ on the way there, is left out.
/// </remarks>
public sealed partial class StoredAnswersTests : IDisposable
{
    /// <summary>Names a folder that answers are written to in place of being compared.</summary>
    private const string Target = "FLOWSIM_STORE_ANSWERS";

    /// <summary>Relative: of runs, of what is fitted.</summary>
    private const double OfRuns = 1e-9, Fitted = 1e-8;

    /// <summary>Nothing beside the kilograms, metres and seconds of a run, whose differences are among the answers; and, fitted, in standard deviations and correlations.</summary>
    private const double Nothing = 1e-10, FittedNothing = 1e-8;

    /// <summary>Counts of work done, which may differ where numbers do.</summary>
    private static readonly string[] s_work = ["modelRuns"];

    private static readonly string[] s_inDeviations = ["standardDeviations", "strength"];

    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("strain", OfRuns, "strain")]
    [InlineData("strain-scraped", OfRuns, "strain --set debris.load=2g/kg --set scraping.at_pond_depth=60mm --set gate.opening=25%")]
    [InlineData("warm", OfRuns, "warm")]
    [InlineData("warm-granulated", OfRuns, "warm --set warming.granulation=fine --set until.no_crystals=true")]
    [InlineData("settle", OfRuns, "settle")]
    [InlineData("fill", OfRuns, "fill")]
    [InlineData("yield", OfRuns, "yield")]
    [InlineData("shelf", OfRuns, "shelf")]
    [InlineData("honey", OfRuns, "honey")]
    [InlineData("setpoint", OfRuns, "setpoint")]
    [InlineData("risk", OfRuns, "risk --runs 1024 --seed 7")]
    [InlineData("plan", OfRuns, "plan")]
    [InlineData("fit", Fitted, "fit pail.csv --batch batch.toml --no-sampler")]
    [InlineData("fit-sampled", Fitted, "fit pail.csv --batch batch.toml")]
    [InlineData("watch", Fitted, "watch batch.toml --log pail.csv --at 100s")]
    public void Answers_are_those_that_were_stored(string name, double tolerance, string line)
    {
        _folder.Write("pail.csv", Readings());
        _folder.Write("batch.toml", FlowSim.Commands.Input.Demo.Text);
        Ran ran = Ran.On([.. line.Split(' ').Select(word => word.Contains('.', StringComparison.Ordinal) && !word.Contains('=', StringComparison.Ordinal) ? _folder[word] : word), "--json"], colour: false, clock: new HandClock());
        Assert.True(ran.Error.Length == 0 || ran.Code == ExitCode.Done, ran.Error);
        string answer = ran.Out.Replace(_folder.Path + Path.DirectorySeparatorChar, string.Empty, StringComparison.Ordinal);
        if (Environment.GetEnvironmentVariable(Target) is { Length: > 0 } target)
        {
            File.WriteAllText(Path.Combine(target, name + ".json"), answer);
            return;
        }

        using JsonDocument stored = JsonDocument.Parse(Repository.Read("tests", "FlowSim.Commands.Tests", "StoredAnswers", name + ".json"));
        using JsonDocument given = JsonDocument.Parse(answer);
        List<string> differences = [];
        int numbers = Compare(name, stored.RootElement, given.RootElement, tolerance, differences);
        Assert.True(differences.Count == 0, string.Join('\n', differences.Take(20)));
        Assert.True(numbers > 5, $"{numbers} numbers");
    }

    [Fact]
    public void A_number_that_moved_is_seen()
    {
        using JsonDocument one = JsonDocument.Parse("""{"a":[1,{"b":2.0}],"c":"x"}""");
        foreach (string other in new[] { """{"a":[1,{"b":2.00000001}],"c":"x"}""", """{"a":[1],"c":"x"}""", """{"a":[1,{"b":2.0}],"c":"y"}""", """{"a":[1,{"b":2.0}]}""", """{"a":[1,{"b":null}],"c":"x"}""", """{"a":[1,{"b":2.0}],"c":"x","d":1}""" })
        {
            using JsonDocument moved = JsonDocument.Parse(other);
            List<string> differences = [];
            _ = Compare("", one.RootElement, moved.RootElement, OfRuns, differences);
            Assert.Single(differences);
        }
    }

    [Theory]
    [InlineData("risk --runs 512 --json")]
    [InlineData("strain --json")]
    [InlineData("plan --json")]
    public void The_same_bytes_again(string line) => Assert.Equal(Ran.With(line.Split(' ')), Ran.With(line.Split(' ')));

    [Fact]
    public void The_same_bytes_on_any_number_of_threads()
    {
        Ran one = Ran.With("risk", "--runs", "512", "--threads", "1", "--json");
        Assert.Equal(one, Ran.With("risk", "--runs", "512", "--threads", "2", "--json"));
        Assert.Equal(one, Ran.With("risk", "--runs", "512", "--threads", "7", "--json"));
    }

    /// <summary>The README's readings.</summary>
    private static string Readings()
    {
        string readme = Repository.Read("README.md");
        int from = readme.IndexOf("```csv\n", StringComparison.Ordinal) + "```csv\n".Length;
        return readme[from..readme.IndexOf("```", from, StringComparison.Ordinal)];
    }

    [GeneratedRegex("[0-9.]+", RegexOptions.NonBacktracking)]
    private static partial Regex Digits();

    private static int Compare(string at, JsonElement stored, JsonElement given, double tolerance, List<string> differences)
    {
        if (stored.ValueKind != given.ValueKind)
        {
            differences.Add($"{at}: {stored.GetRawText()} was stored, {given.GetRawText()} is given");
            return 0;
        }

        switch (stored.ValueKind)
        {
            case JsonValueKind.Object:
                string[] names = [.. stored.EnumerateObject().Select(one => one.Name)], now = [.. given.EnumerateObject().Select(one => one.Name)];
                if (!names.SequenceEqual(now, StringComparer.Ordinal))
                {
                    differences.Add($"{at}: has {string.Join(", ", now)} and had {string.Join(", ", names)}");
                    return 0;
                }

                return names.Sum(name => Compare($"{at}.{name}", stored.GetProperty(name), given.GetProperty(name), tolerance, differences));
            case JsonValueKind.Array:
                if (stored.GetArrayLength() != given.GetArrayLength())
                {
                    differences.Add($"{at}: {given.GetArrayLength()} entries and not {stored.GetArrayLength()}");
                    return 0;
                }

                return Enumerable.Range(0, stored.GetArrayLength()).Sum(i => Compare($"{at}[{i}]", stored[i], given[i], tolerance, differences));
            case JsonValueKind.Number:
                string key = at[(at.LastIndexOf('.') + 1)..];
                double was = stored.GetDouble(), isNow = given.GetDouble();
                double nothing = tolerance >= Fitted && s_inDeviations.Contains(key, StringComparer.Ordinal) ? FittedNothing : Nothing;
                if (tolerance > OfRuns && s_work.Contains(key, StringComparer.Ordinal))
                    return 0;
                if (!(Math.Abs(was - isNow) <= Math.Max(nothing, tolerance * Math.Max(Math.Abs(was), Math.Abs(isNow)))))
                    differences.Add(FormattableString.Invariant($"{at}: {isNow:R} and not {was:R}"));
                return 1;
            default:
                // Fitted numbers stand in texts too, rounded.
                if (!(tolerance > OfRuns ? Digits().Replace(stored.GetRawText(), "#") == Digits().Replace(given.GetRawText(), "#") : stored.GetRawText() == given.GetRawText()))
                    differences.Add($"{at}: {given.GetRawText()} and not {stored.GetRawText()}");
                return 0;
        }
    }
}
