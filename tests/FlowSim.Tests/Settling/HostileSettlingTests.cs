using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using UnitsNet;
using UnitsNet.Units;
using static FlowSim.Tests.HostileValues;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>Setups that nobody should ask for: refused by name, or answered in finite figures and finite time.</summary>
public partial class HostileSettlingTests
{
    private static readonly SettlingOptions Quick = new() { SeriesPoints = 3, ProfilePoints = 3, RelativeTolerance = 1e-6 };

    private static SettlingSetup Base() => Plain() with { HoneyMass = Mass.FromKilograms(26), Bubbles = new Bubbles(), ClearTo = Clarity.OfShare(Ratio.FromPercent(3)) };

    private static readonly (string Text, object Value)[] Parts =
    [
        ("smallest size", Clarity.OfSize(Length.FromMillimeters(0.001))),
        ("largest size", Clarity.OfSize(Length.FromMillimeters(20))),
        ("no size", Clarity.OfSize(Length.Zero)),
        ("endless size", Clarity.OfSize(new Length(double.MaxValue, LengthUnit.Kilometer))),
        ("least share", Clarity.OfShare(Ratio.FromPercent(1e-4))),
        ("no share", Clarity.OfShare(Ratio.Zero)),
        ("all", Clarity.OfShare(Ratio.FromPercent(100))),
        ("coldest", TemperatureHistory.Hold(Celsius(-40), Duration.FromHours(1))),
        ("hottest", TemperatureHistory.Hold(Celsius(150), Duration.FromHours(1))),
        ("at the ends of the range", new TemperatureHistory([(Duration.FromDays(-30000), Celsius(10)), (Duration.FromSeconds(1e-9), Celsius(70)), (Duration.FromDays(30000), Celsius(10))])),
        ("every second another", new TemperatureHistory([.. Enumerable.Range(0, 2000).Select(i => (Duration.FromSeconds(i), Celsius(10 + (i % 60))))])),
        ("long before", new TemperatureHistory([(Duration.FromDays(-3000), Celsius(10)), (Duration.FromDays(-2999), Celsius(70))])),
    ];

    private static string? Simulate(SettlingSetup setup, CancellationToken cancellation) =>
        NotFinite(SettlingRun.Simulate(setup, Quick, cancellation), "result", typeof(SettlingSetup));

    [Fact]
    public void One_hostile_value_is_answered_or_refused()
    {
        SettlingSetup setup = Base();
        Mutation[] mutations = [.. MutationsOf(setup, Parts)];
        Assert.True(mutations.Length > 200, $"only {mutations.Length} hostile values were found");
        string[] troubles = [.. mutations.Select(m => Trouble<SettlingSetup>(m.Name, m.Apply(setup), Simulate)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles));
    }

    [Fact]
    public void Two_hostile_values_are_answered_or_refused()
    {
        SettlingSetup setup = Base();
        Mutation[] passing = [.. MutationsOf(setup, Parts).Where(m => IsAccepted(m.Apply(setup)))];
        Assert.True(passing.Length > 40, $"only {passing.Length} hostile values pass the checks");
        var random = new Random(20);
        List<string> troubles = [];
        for (int i = 0; i < 1500; i++)
        {
            Mutation first = passing[random.Next(passing.Length)], second = passing[random.Next(passing.Length)];
            if (first.Path != second.Path && Trouble<SettlingSetup>(first.Name + ", " + second.Name, second.Apply(first.Apply(setup)), Simulate) is { } trouble)
                troubles.Add(trouble);
        }

        Assert.True(troubles.Count == 0, string.Join(Environment.NewLine, troubles));
    }

    private static bool IsAccepted(object? setup)
    {
        try
        {
            SettlingSetupCheck.Require((SettlingSetup)setup!);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    [Fact]
    public void Options_out_of_range_are_named()
    {
        foreach (SettlingOptions options in new[]
                 {
                     new SettlingOptions { RelativeTolerance = double.NaN }, new SettlingOptions { SeriesPoints = -1 }, new SettlingOptions { ProfilePoints = 1 },
                     new SettlingOptions { ProfileTimes = [Duration.FromHours(-1)] }, new SettlingOptions { ProfileTimes = [Duration.FromDays(61)] },
                     new SettlingOptions { ProfileTimes = new Duration[1001] },
                 })
        {
            Assert.NotEmpty(Assert.Throws<ArgumentOutOfRangeException>(() => SettlingRun.Simulate(Base(), options)).ParamName!);
        }
    }

    [Fact]
    public void Searches_and_bands_name_what_is_wrong()
    {
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => SettlingRun.Simulate(null!)).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => SettlingBand.Of(null!)).ParamName);
        Assert.Equal("within", Assert.Throws<ArgumentOutOfRangeException>(() => SettlingSearch.CoolestFor(Base(), Duration.Zero)).ParamName);
        Assert.Equal("highest", Assert.Throws<ArgumentOutOfRangeException>(() => SettlingSearch.CoolestFor(Base(), Duration.FromHours(1), Celsius(90))).ParamName);
        Assert.Throws<HoneyRefusedException>(() => SettlingRun.Simulate(Base() with { Honey = new Honey { Moisture = Ratio.FromPercent(18), Form = HoneyForm.Granulated } }));
        Assert.Contains("bubbles", Assert.Throws<ArgumentException>(() => SettlingRun.Simulate(Base() with { Bubbles = null, ClearOf = ClearOf.Bubbles })).Message, StringComparison.Ordinal);
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(() => SettlingRun.Simulate(Base(), cancellation: cancelled.Token));
    }

    [GeneratedRegex(@"(?<low>\d+(\.\d+)?)( (?<lowUnit>[^\s.,;]+))? to (?<high>\d+(\.\d+)?)( (?<highUnit>[^\s.,;]+))?\.", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Interval();

    /// <summary>At a documented limit a setup is accepted, a little beyond it is refused by name; the limits are read from the documentation.</summary>
    [Theory]
    [InlineData("Depth", null)]
    [InlineData("StandsFor", null)]
    [InlineData("Longest", null)]
    [InlineData("Packing", null)]
    [InlineData("HoneyMass", null)]
    [InlineData("Load", "Bubbles")]
    [InlineData("MedianSize", "Bubbles")]
    [InlineData("SizeSpread", "Bubbles")]
    public void A_documented_limit_is_the_one_that_is_kept(string name, string? part)
    {
        Type type = part is null ? typeof(SettlingSetup) : typeof(Bubbles);
        string summary = XDocument.Load(Path.ChangeExtension(typeof(Honey).Assembly.Location, ".xml")).Descendants("member")
            .Single(member => member.Attribute("name")!.Value == $"P:{type.FullName}.{name}").Element("summary")!.Value;
        Match interval = Interval().Matches(summary).First();
        double low = double.Parse(interval.Groups["low"].Value, CultureInfo.InvariantCulture), high = double.Parse(interval.Groups["high"].Value, CultureInfo.InvariantCulture);
        string highUnit = interval.Groups["highUnit"].Value;
        string lowUnit = interval.Groups["lowUnit"] is { Success: true } unit ? unit.Value : highUnit;

        Assert.Null(Refusal(low, lowUnit));
        Assert.Null(Refusal(high, highUnit));
        Assert.Equal(name, Refusal(low - (1e-6 * Math.Max(low, 1e-3)), lowUnit));
        Assert.Equal(name, Refusal(high * (1 + 1e-6), highUnit));

        string? Refusal(double value, string unitName)
        {
            SettlingSetup setup = Base();
            object target = part is null ? setup : setup.Bubbles!;
            PropertyInfo property = type.GetProperty(name)!;
            property.SetValue(target, Value(Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType, value, unitName)); // The records are this call's own.
            try
            {
                SettlingSetupCheck.Require(setup);
                return null;
            }
            catch (ArgumentException refused)
            {
                return refused.ParamName;
            }
        }
    }

    private static object Value(Type type, double value, string unit) => (type.Name, unit) switch
    {
        (nameof(Length), "mm") => Length.FromMillimeters(value),
        (nameof(Length), "m") => Length.FromMeters(value),
        (nameof(Duration), "min") => Duration.FromMinutes(value),
        (nameof(Duration), "days") => Duration.FromDays(value),
        (nameof(Ratio), "%") => Ratio.FromPercent(value),
        (nameof(Mass), "kg") => Mass.FromKilograms(value),
        (nameof(Double), _) => value,
        _ => throw new NotSupportedException($"{type.Name} in {unit}"),
    };
}
