using System.Text.Json;
using System.Text.RegularExpressions;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests;

/// <summary>The command as a whole, on real searches. They take seconds, so few are made and shared.</summary>
public partial class SetpointTests
{
    private static readonly Lazy<Ran> s_text = new(() => Ran.With("setpoint"));
    private static readonly Lazy<Ran> s_json = new(() => Ran.With("setpoint", "--json"));

    /// <summary>Nothing can be strained colder than 40 °C here, and nothing may be warmer than 38 °C: no plan can meet both.</summary>
    private static readonly string[] s_impossible = ["setpoint", "--ceiling", "38 °C", "--set", "limits.lowest_setpoint=36 °C", "--set", "limits.coldest_straining=40 °C"];

    private static readonly Lazy<Ran> s_none = new(() => Ran.With(s_impossible));

    [Fact]
    public void It_answers_with_choice_runner_up_binding_limit_and_what_a_degree_buys()
    {
        Ran ran = s_text.Value;
        Assert.True(ran.Code == ExitCode.Done, ran.Error);
        string text = Folded(ran.Out);
        Assert.All(
            new[] { "SET THE HEAT AT ", "Next best: ", "stands in the way of less time", "One degree more would ", "breaks", "ceiling", "within the limit of EU Directive", "[source read]", "What to do next 1. Set the thermostat at " },
            said => Assert.Contains(said, text, StringComparison.Ordinal));
        Assert.True(text.IndexOf("Assumed (", StringComparison.Ordinal) < text.IndexOf(" Result ", StringComparison.Ordinal));
    }

    [Fact]
    public void It_fits_the_terminal_and_never_says_that_word()
    {
        string text = s_text.Value.Out + s_none.Value.Out;
        Assert.DoesNotMatch(SafeWord(), text);
        Assert.DoesNotContain('\u001b', text);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= Surroundings.Widest, line));
    }

    [Fact]
    public void Json_has_the_keys_that_are_promised_in_a_stable_order()
    {
        using var json = JsonDocument.Parse(s_json.Value.Out);
        string[] promised =
        [
            "status", "setpointK", "bindingLimit", "totalSeconds", "timeADegreeBuysSeconds", "warmLowSeconds", "warmHighSeconds", "choice", "runnerUp", "nearestMiss", "curve",
            "heatLimit", "confidence", "ceilingK", "ceilingIsSetByUser", "longestSeconds", "warmingRuns", "notices", "cautions", "assumptions", "readAs",
        ];
        string[] names = [.. json.RootElement.EnumerateObject().Select(p => p.Name)];
        Assert.Equal(promised, names.Where(promised.Contains), StringComparer.Ordinal);
        Assert.Equal(names.Length, names.ToHashSet(StringComparer.Ordinal).Count);
    }

    [Fact]
    public void Json_and_text_tell_one_story()
    {
        using var json = JsonDocument.Parse(s_json.Value.Out);
        JsonElement root = json.RootElement;
        Assert.Equal("found", root.GetProperty("status").GetString());
        double setpointC = root.GetProperty("setpointK").GetDouble() - 273.15;
        Assert.Contains(FormattableString.Invariant($"SET THE HEAT AT {setpointC:0.#} °C:"), s_text.Value.Out, StringComparison.Ordinal);
        JsonElement choice = root.GetProperty("choice");
        Assert.Equal(root.GetProperty("totalSeconds").GetDouble(), choice.GetProperty("warmSeconds").GetDouble() + choice.GetProperty("strainSeconds").GetDouble(), 1e-6);
        Assert.Empty(choice.GetProperty("breaks").EnumerateArray());
        Assert.InRange(choice.GetProperty("warmSeconds").GetDouble(), root.GetProperty("warmLowSeconds").GetDouble(), root.GetProperty("warmHighSeconds").GetDouble());
    }

    [Fact]
    public void The_choice_is_within_the_limits_and_on_the_curve_none_that_is_allowed_is_sooner()
    {
        using var json = JsonDocument.Parse(s_json.Value.Out);
        JsonElement root = json.RootElement;
        Assert.True(root.GetProperty("setpointK").GetDouble() <= root.GetProperty("ceilingK").GetDouble() + 1e-9);
        JsonElement[] curve = [.. root.GetProperty("curve").EnumerateArray()];
        Assert.True(curve.Length > 10);
        Assert.Equal(curve.Select(p => p.GetProperty("setpointK").GetDouble()).Order(), curve.Select(p => p.GetProperty("setpointK").GetDouble()));
        Assert.All(curve, point => Assert.Equal(point.GetProperty("allowed").GetBoolean(), point.GetProperty("breaks").GetArrayLength() == 0 && point.GetProperty("plan").ValueKind == JsonValueKind.Object));
        double soonest = curve.Where(p => p.GetProperty("allowed").GetBoolean()).Min(p => p.GetProperty("plan").GetProperty("totalSeconds").GetDouble());

        // The choice was run again as a whole, the curve is read off one run per setpoint; both are tabulated finely.
        Assert.True(root.GetProperty("totalSeconds").GetDouble() <= 1.01 * soonest);
    }

    [Fact]
    public void When_none_meets_the_limits_it_says_so_with_the_nearest_miss_and_its_own_code()
    {
        Ran ran = s_none.Value;
        Assert.Equal(ExitCode.NoSetpoint, ran.Code);
        string text = Folded(ran.Out);
        Assert.Contains("NO SETPOINT MEETS THESE LIMITS.", text, StringComparison.Ordinal);
        Assert.Contains("Nearest: ", text, StringComparison.Ordinal);
        Assert.Contains("The ceiling of 38 °C: ", text, StringComparison.Ordinal);
        Assert.Contains("Decide which limit may give way, or change the kit: limits.ceiling", text, StringComparison.Ordinal);
        Assert.Contains("The ceiling is 38 °C, as you set it; without that it is 50 °C.", text, StringComparison.Ordinal);

        Ran json = Ran.With([.. s_impossible, "--json"]);
        Assert.Equal(ExitCode.NoSetpoint, json.Code);
        using var root = JsonDocument.Parse(json.Out);
        Assert.Equal("none-meets-the-limits", root.RootElement.GetProperty("status").GetString());
        Assert.Equal(JsonValueKind.Null, root.RootElement.GetProperty("setpointK").ValueKind);
        Assert.True(root.RootElement.GetProperty("ceilingIsSetByUser").GetBoolean());
        Assert.NotEmpty(root.RootElement.GetProperty("nearestMiss").GetProperty("misses").EnumerateArray());
    }

    [Theory]
    [InlineData("--ceiling", "45", "--ceiling 45: limits.ceiling: \"45\" has no unit")]
    [InlineData("--ceiling", "200 °C", "--ceiling 200 °C: limits.ceiling: \"200 °C\" is outside what is allowed, 20 to 95 °C")]
    [InlineData("--set", "limits.wall=200 °C", "20 to 150 °C")]
    [InlineData("--set", "limits.at_strainer=100 °C", "limits.at_strainer")]
    [InlineData("--set", "limits.for_hands=10 °C", "limits.for_hands")]
    [InlineData("--set", "limits.longest=90 d", "(2160 h) is outside what is allowed, 1 to 1440 h")]
    [InlineData("--set", "limits.longest_straining=1 s", "limits.longest_straining")]
    [InlineData("--set", "limits.lowest_setpoint=60 °C", "15 to 50 °C")]
    [InlineData("--set", "limits.coldest_straining=5 °C", "limits.coldest_straining")]
    [InlineData("--set", "gate.bore=1 mm", "gate.bore")]
    [InlineData("--set", "tank.level=2 m", "tank.level")]
    [InlineData("--set", "warming.from=90 °C", "warming.from")]
    [InlineData("--set", "vessel.level=5 mm", "vessel.level")]
    public void Refused(string option, string value, string said)
    {
        Ran ran = Ran.With("setpoint", option, value);
        Assert.True(ran.Code == ExitCode.BadInput, ran.Out);
        Assert.Empty(ran.Out);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_ceiling_is_set_once()
    {
        Ran ran = Ran.With("setpoint", "--ceiling", "45 °C", "--set", "limits.ceiling=46 °C");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains("a second time", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cancelled_search_prints_no_result()
    {
        Ran ran = Ran.On(["setpoint"], colour: false, cancellation: new CancellationToken(canceled: true));
        Assert.Equal(ExitCode.Cancelled, ran.Code);
        Assert.Empty(ran.Out);
    }

    private static string Folded(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    [GeneratedRegex(@"\bsafe\w*", RegexOptions.IgnoreCase | RegexOptions.NonBacktracking)]
    private static partial Regex SafeWord();
}
