using FlowSim.Screens;
using FlowSim.Settling;
using UnitsNet;

namespace FlowSim.Plots.Tests;

/// <summary>The figure of honey that stands, drawn of invented layers; none of its figures is checked here.</summary>
public class SettlingFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<SettlingResult>> s_cases = new(StringComparer.Ordinal)
    {
        ["pail"] = () => Run(Layer()),
        ["bubbles alone"] = () => Run(Layer() with { Debris = null }),
        ["sand alone"] = () => Run(Layer() with { Bubbles = null, Debris = new Debris { Density = Density.FromKilogramsPerCubicMeter(2650) } }),
        ["minutes"] = () => Run(Layer() with { Depth = Length.FromMillimeters(20), StandsFor = Duration.FromMinutes(3), ClearTo = Clarity.OfShare(Ratio.FromPercent(50)) }),
        ["weeks"] = () => Run(Layer() with { Depth = Length.FromMeters(3), StandsFor = Duration.FromDays(20) }),
        ["far from clear"] = () => Run(Layer() with { StandsFor = Duration.FromHours(1) }),
        ["never clear"] = () => Run(Layer() with { ClearTo = Clarity.OfSize(Length.FromMillimeters(0.002)) }),
        ["stays"] = () => Run(Layer() with { Bubbles = null, Debris = new Debris { Density = Density.FromKilogramsPerCubicMeter(1405) } }),
        ["many profiles"] = () => Run(Layer(), new SettlingOptions { ProfileTimes = [.. Enumerable.Range(1, 12).Select(hour => Duration.FromHours(hour))] }),
        ["no series"] = () => Run(Layer(), new SettlingOptions { SeriesPoints = 0, ProfileTimes = [] }),
    };

    private static SettlingSetup Layer() => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        Depth = Length.FromMillimeters(298),
        Temperature = TemperatureHistory.Hold(Temperature.FromDegreesCelsius(33), Duration.FromHours(1)),
    };

    private static SettlingResult Run(SettlingSetup setup, SettlingOptions? options = null) => SettlingRun.Simulate(setup, options);

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        SettlingResult result = s_cases[name]();
        SettlingBand band = SettlingBand.Of(result.Setup);
        Sheet.AssertReadable(SettlingFigure.Of(result, name: "Invented lot", band: band).ToSvg());
        Sheet.AssertReadable(SettlingFigure.Of(result, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
        Sheet.AssertPicture(SettlingFigure.Of(result, band: band).ToPng(), SettlingFigure.Width).Dispose();
    }

    [Fact]
    public void It_says_what_is_drawn()
    {
        SettlingResult result = s_cases["pail"]();
        string[] texts = Sheet.Texts(SettlingFigure.Of(result, band: SettlingBand.Of(result.Setup)).ToSvg());
        Assert.All(
            new[] { "bubbles", "debris", "clear", "layer", "surface", "Mean left, %", "Depth, cm", "Height, cm", "Left at that height, % of the start", "clear, quick to slow" },
            said => Assert.Contains(said, texts, StringComparer.Ordinal));
        Assert.Contains(texts, text => text.StartsWith("Clear after ", StringComparison.Ordinal));
        Assert.Contains(texts, text => text.StartsWith("clear of bubbles ", StringComparison.Ordinal));
        Assert.Contains(texts, text => text.StartsWith("it stands for ", StringComparison.Ordinal));
    }

    [Fact]
    public void The_same_result_gives_the_same_bytes()
    {
        SettlingResult result = s_cases["pail"]();
        Assert.Equal(SettlingFigure.Of(result).ToPng(), SettlingFigure.Of(result).ToPng());
        Assert.Throws<ArgumentNullException>(() => SettlingFigure.Of(null!).ToPng());
    }
}
