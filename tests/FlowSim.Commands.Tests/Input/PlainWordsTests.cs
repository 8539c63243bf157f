using FlowSim.Commands.Input;

namespace FlowSim.Commands.Tests.Input;

/// <summary>What the library refuses is said of what the user wrote, in words and units of the file and not of the code.</summary>
public sealed class PlainWordsTests : IDisposable
{
    private readonly Folder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    // 200 °F = 93.33 °C and 2 ft = 0.6096 m by the definitions of the units.
    [InlineData("room.temperature=200 F", "\"200 F\" (93.3333 °C) is outside what is allowed, -10 to 60 °C")]
    [InlineData("tank.level=2 ft", "\"2 ft\" (0.6096 m) is outside what is allowed, 0 to 0.33 m")]
    [InlineData("debris.capture=200%", "\"200%\" is outside what is allowed, 0 to 100 %")]
    [InlineData("gate.bore=400 mm", "\"400 mm\" is outside what is allowed, 3 to 200 mm")]
    [InlineData("screen.factor=1e300", "\"1e300\" is outside what is allowed, 0.05 to 20")]
    [InlineData("run.tolerance=1e-30", "\"1e-30\" is outside what is allowed, 1e-12 to 0.001")]
    [InlineData("run.points=1e12", "\"1e12\" is outside what is allowed, 0 to 100000")]
    [InlineData("honey.moisture=12%", "\"12%\": moisture must be within 13.5 to 21.5 %")]
    [InlineData("gate.opening=[\"5 min 20%\"]", "a schedule begins at 0 s")]
    [InlineData("gate.opening=[\"0 min 20%\",\"2 min 10%\",\"2 min 30%\"]", "\"2 min 30%\" does not come later than \"2 min 10%\"")]
    [InlineData("gate.opening=[\"0 min 120%\"]", "opening is 120 %; it must be within 0 to 100 %")]
    [InlineData("honey.measured=[\"30 °C, 5.1 Pa.s\",\"40 °C, 6 Pa.s\"]", "honey thins as it warms")]
    [InlineData("screen.venting=sealed", "overflow = \"spill\"")]
    [InlineData("screen.cloths=[\"400 um / 0 um\"]", "wire diameter is 0 mm")]
    public void Of_one_setting(string setting, string said)
    {
        Ran ran = Ran.With("strain", "--set", setting);
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.Contains(said, ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bag_whose_rim_is_too_low_names_the_key_of_the_rim()
    {
        Ran ran = Ran.With("strain", "--set", "screen.form=bag");
        Assert.Contains("screen.rim_height: \"100 mm\" (0.1 m) is outside what is allowed, 0.12 to 3 m", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_gate_wider_than_the_tank_is_not_blamed_on_the_level()
    {
        Ran ran = Ran.With("strain", "--set", "tank.shape=upright-cylinder", "--set", "tank.diameter=100 mm", "--set", "tank.height=330 mm", "--set", "gate.bore=150 mm");
        Assert.Equal(ExitCode.BadInput, ran.Code);
        Assert.StartsWith("--set gate.bore=150 mm: gate.bore:", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_shape_of_an_option_lacks_is_said_at_the_option_and_the_example_is_no_file()
    {
        string error = Ran.With("strain", "--set", "tank.shape=cone-bottomed-tank").Error;
        Assert.All(error.TrimEnd().Split('\n'), line => Assert.StartsWith("--set tank.shape=cone-bottomed-tank: ", line, StringComparison.Ordinal));
        Assert.StartsWith("the example, line ", Ran.With("strain", "--set", "screen.form=bag").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_schedule_of_ten_thousand_steps_is_counted()
    {
        string steps = string.Join(", ", Enumerable.Range(0, 10_000).Select(i => FormattableString.Invariant($"\"{i} s 20%\"")));
        string path = _folder.Write("run.toml", Demo.Text.Replace("opening = \"30 %\" ", $"opening = [{steps}] ", StringComparison.Ordinal));
        Assert.Contains("has 10000 entries; allowed: 1 to 1000", Ran.With("strain", path).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Old_line_ends_and_open_quotes_are_named()
    {
        string cr = _folder.Write("cr.toml", "[honey]\rmoisture = \"17 %\"\r");
        Assert.Contains("carriage return alone", Ran.With("strain", cr).Error, StringComparison.Ordinal);
        string open = _folder.Write("open.toml", "[honey]\nmoisture = \"17 %\ntemperature = \"35 °C\"\n");
        Ran ran = Ran.With("strain", open);
        Assert.Contains("no closing quote", ran.Error, StringComparison.Ordinal);
        Assert.Single(ran.Error.TrimEnd().Split('\n'));
    }

    [Fact]
    public void A_problem_is_said_once()
    {
        string[] lines = Ran.With("strain", "--set", "honey.measured=[5, 6]").Error.TrimEnd().Split('\n');
        Assert.Equal(lines.Distinct(StringComparer.Ordinal), lines);
    }

    [Fact]
    public void No_name_is_no_file()
    {
        Ran ran = Ran.With("strain", "");
        Assert.Equal(ExitCode.FileTrouble, ran.Code);
        Assert.DoesNotContain("Parameter", ran.Error, StringComparison.Ordinal);
    }
}
