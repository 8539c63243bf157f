using System.Text.RegularExpressions;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Tests;

/// <summary>With US units no sentence stays metric, and none is converted that should not be.</summary>
public partial class UsTextTests
{
    [Theory]
    // 1 lb = 0.45359237 kg, 1 in = 25.4 mm, 1 US gal = 231 in³, °F = 1.8 °C + 32, all by definition.
    [InlineData("more than the 23 kg that one", "more than the 51 lb that one")]
    [InlineData("outside 20 to 30 °C, the", "outside 68 to 86 °F, the")]
    [InlineData("reaches the strainer at 58.0 °C;", "reaches the strainer at 136.4 °F;")]
    [InlineData("19 L stand 298 mm high", "5 gal stand 11.7 in high")]
    [InlineData("1.5 kg in all", "3.3 lb in all")]
    [InlineData("at -5 °C", "at 23 °F")]
    [InlineData("5 K above it", "9 °F above it")] // a difference: 1 K is 1.8 °F
    [InlineData("2.5 W/(m²·K), 30 kJ/K", "2.5 W/(m²·K), 30 kJ/K")]
    [InlineData("0.3 g/kg, 6 W/m2K, 1407 kg/m³, 400 µm, 5 US gal", "0.3 g/kg, 6 W/m2K, 1407 kg/m³, 400 µm, 5 US gal")]
    [InlineData("\"19 L\" read as", "\"19 L\" read as")]
    public void Sentences(string metric, string us) => Assert.Equal(us, UsText.Of(metric));

    [Fact]
    public void How_a_gallon_was_read_is_said_in_litres_all_the_same() =>
        Assert.Contains("read as US gallon, 3.785", Ran.With("strain", "--units", "us", "--set", "receiver.capacity=7 gal").Out, StringComparison.Ordinal);

    [Fact]
    public void The_caution_and_the_table_give_one_weight_of_the_tank()
    {
        string text = Ran.With("strain").Out;
        string weight = Tank().Match(text).Groups["weight"].Value;
        Assert.Contains("The tank holds " + weight + ": more", text, StringComparison.Ordinal);
    }

    [GeneratedRegex(@"^Tank +(?<weight>[0-9.]+ kg),", RegexOptions.Multiline, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Tank();

    public static TheoryData<string[]> Runs { get; } =
    [
        ["strain"],
        ["strain", "--set", "honey.temperature=58 °C"],
        ["strain", "--set", "honey.temperature=65 °C", "--set", "receiver.capacity=10 L"],
        ["strain", "--set", "receiver.capacity=10 L", "--set", "receiver.shut_when_full=false", "--set", "gate.ride_pond=60 mm"],
        ["strain", "--set", "screen.venting=sealed", "--set", "screen.overflow=spill"],
        ["strain", "--set", "gate.opening=5%", "--set", "run.longest=1 min", "--set", "gate.use=gate-25mm"],
        ["strain", "--set", "screen.cloths=[\"astm 40\", \"30/20 um\"]"],
        ["warm"],
        ["warm", "--set", "warming.by=jacket", "--set", "warming.upper_end=250 mm", "--set", "warming.power=300 W", "--set", "thermostat.sensor=honey"],
        ["warm", "--set", "warming.granulation=coarse", "--set", "warming.air_speed=1 m/s", "--set", "until.longest=1 d"],
        ["honey", "--set", "honey.temperature=65 °C"],
        ["kit"],
    ];

    [Theory]
    [MemberData(nameof(Runs))]
    public void Nothing_stays_metric(string[] arguments)
    {
        Ran ran = Ran.With([.. arguments, "--units", "us"]);
        Assert.Equal(ExitCode.Done, ran.Code);
        Assert.DoesNotMatch(Metric(), Quoted().Replace(ran.Out, string.Empty));
    }

    /// <summary>What may be written in a file stands in quotes and stays as it is.</summary>
    [GeneratedRegex("\"[^\"\n]*\"", RegexOptions.None, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Quoted();

    [GeneratedRegex(@"\d (?:°C|K|kg|mm|cm|m|L|m/s)\b(?![/·²³])", RegexOptions.None, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Metric();
}
