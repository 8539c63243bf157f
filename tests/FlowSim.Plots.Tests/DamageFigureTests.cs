using FlowSim.HeatDamage;
using FlowSim.Plots.Drawing;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class DamageFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly HoneyBeforeHeat s_before = new() { Hmf = MassFraction.FromMilligramsPerKilogram(12), DiastaseNumber = 17 };

    private static readonly Dictionary<string, Func<(InventedWarming Run, HeatLimit? Limit)>> s_cases = new(StringComparer.Ordinal)
    {
        ["known start"] = () => (new() { Before = s_before, HmfPerHour = 0.2 }, Eu),
        ["far beyond the limit"] = () => (new() { Before = s_before, HmfPerHour = 50 }, Eu),
        ["diastase not known"] = () => (new() { Before = s_before with { DiastaseNumber = null } }, Eu),
        ["unknown start"] = () => (new(), Eu),
        ["unknown start, much gained"] = () => (new() { HmfPerHour = 0.5 }, Eu),
        ["no limit"] = () => (new() { Before = s_before }, null),
        ["neither"] = () => (new(), null),
        ["limit of the house"] = () => (new() { Before = s_before }, HeatLimit.House(MassFraction.FromMilligramsPerKilogram(15))),
        ["house limit on diastase"] = () => (new() { Before = s_before }, HeatLimit.House(diastaseAtLeast: 16.5)),
        ["limit of nothing"] = () => (new() { Before = s_before }, HeatLimit.House(MassFraction.Zero, 100)),
        ["hardly any"] = () => (new() { HmfPerHour = 1e-6 }, Eu),
        ["hardly any, fresh"] = () => (new() { HmfPerHour = 1e-5, Before = new() { Hmf = MassFraction.Zero } }, null),
        ["none"] = () => (new() { HmfPerHour = 0 }, Eu),
        ["minutes"] = () => (new() { Hours = 0.2 }, Eu),
        ["weeks"] = () => (new() { Hours = 1000, Before = s_before }, Eu),
        ["no series"] = () => (new() { Points = 0 }, Eu),
        ["one point"] = () => (new() { Points = 1, Before = s_before }, Eu),
    };

    private static HeatLimit Eu => HeatLimits.ByName("eu");

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        (InventedWarming run, HeatLimit? limit) = s_cases[name]();
        Sheet.AssertReadable(DamageFigure.Of(run.Result(), name: "Invented lot", limit: limit).ToSvg());
        Sheet.AssertReadable(DamageFigure.Of(run.Result(), DisplayUnits.UsCustomary, new string('W', 500), limit).ToSvg());
        Sheet.AssertPicture(DamageFigure.Of(run.Result(), limit: limit).ToPng(), DamageFigure.Width).Dispose();
    }

    [Fact]
    public void With_the_start_known_levels_are_drawn_against_the_limit()
    {
        string[] texts = Sheet.Texts(DamageFigure.Of(new InventedWarming { Before = s_before, HmfPerHour = 0.2 }.Result(), limit: Eu).ToSvg());

        // Directive 2001/110/EC, Annex II: HMF at most 40 mg/kg, diastase at least 8, as HeatLimits gives it.
        string[] expected = ["limit 40", "limit 8", "HMF, mg/kg", "Diastase number", "average honey", "band of the source", "spread between honeys", "worst honey at the end"];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.Contains(texts, t => t.Contains("limit of EU Directive", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("Limit for honey in general", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.EndsWith("[opened]", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("Costs as much as ", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_the_start_gains_are_drawn_and_the_limit_is_told_to_be_beyond_reach()
    {
        string[] texts = Sheet.Texts(DamageFigure.Of(new InventedWarming().Result(), limit: Eu).ToSvg());
        Assert.Contains("Gain, mg/kg", texts, StringComparer.Ordinal);
        Assert.Contains("Left, %", texts, StringComparer.Ordinal);
        Assert.DoesNotContain(texts, t => t.StartsWith("limit ", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("The limit (HMF at most 40 mg/kg, diastase number at least 8)", StringComparison.Ordinal));
    }

    [Fact]
    public void What_would_be_flat_against_the_limit_is_also_drawn_by_itself()
    {
        string[] little = Sheet.Texts(DamageFigure.Of(new InventedWarming { Before = s_before }.Result(), limit: Eu).ToSvg());
        string[] much = Sheet.Texts(DamageFigure.Of(new InventedWarming { Before = s_before, HmfPerHour = 5 }.Result(), limit: Eu).ToSvg());
        Assert.All((string[])["HMF", "Gain of HMF", "Diastase number", "Diastase left"], e => Assert.Contains(e, little, StringComparer.Ordinal));
        Assert.DoesNotContain("Gain of HMF", much, StringComparer.Ordinal);
        Assert.DoesNotContain("Diastase left", much, StringComparer.Ordinal);
    }

    [Fact]
    public void The_floral_band_is_called_so()
    {
        var run = new InventedWarming().Result();
        run = run with { Setup = run.Setup with { Response = new HeatResponse { IncludeFloralSpread = true } } };
        Assert.Contains("band, floral types included", Sheet.Texts(DamageFigure.Of(run).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void A_tiny_gain_has_a_unit_of_its_own() =>
        Assert.Contains("Gain, µg/kg", Sheet.Texts(DamageFigure.Of(new InventedWarming { HmfPerHour = 1e-4 }.Result()).ToSvg()), StringComparer.Ordinal);

    [Fact]
    public void Bands_and_curves_are_there()
    {
        using SKBitmap picture = SKBitmap.Decode(DamageFigure.Of(new InventedWarming { Before = s_before, HmfPerHour = 0.3 }.Result(), limit: Eu).ToPng());
        Assert.All((string[])[OkabeIto.Vermillion, OkabeIto.Blue, "#F6D3C0", "#C9E2F2"], hex => Assert.True(Sheet.Count(picture, hex) > 1000, hex));
    }

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_result_gives_the_same_bytes(FigureFormat format) =>
        Assert.Equal(DamageFigure.Of(new InventedWarming().Result(), limit: Eu).Encode(format), DamageFigure.Of(new InventedWarming().Result(), limit: Eu).Encode(format));
}
