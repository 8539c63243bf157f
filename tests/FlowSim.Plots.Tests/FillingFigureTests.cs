using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Vessels;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class FillingFigureTests
{
    private static readonly FillingSetup Plain = new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        Temperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank { Shape = CommonVessels.ByName("tank-50l").Item, Level = Length.FromMillimeters(430), HeldAtTemperature = true },
        Gate = CommonGates.ByName("gate-38mm").Item,
        Opening = Ratio.FromPercent(25),
        Jar = CommonJars.ByName("jar-500g").Item,
    };

    private static readonly Dictionary<string, Func<FillingBand>> s_cases = new(StringComparer.Ordinal)
    {
        ["a tank"] = () => FillingBand.Of(Plain),
        ["no spread"] = () => FillingBand.Of(Plain, lotLogDeviation: 0),
        ["one jar"] = () => FillingBand.Of(Plain with { MostJars = 1 }),
        ["no jar"] = () => FillingBand.Of(Plain with { LabelledMass = Mass.FromGrams(900) }),
        ["thousands"] = () => FillingBand.Of(Plain with { Jar = CommonJars.ByName("jar-30g").Item, FillScatter = Mass.FromGrams(0.5) }),
        ["thick"] = () => FillingBand.Of(Plain with { Temperature = Temperature.FromDegreesCelsius(20), LongestFill = Duration.FromHours(10) }),
        ["cools and stops"] = () => FillingBand.Of(Plain with { Tank = Plain.Tank with { HeldAtTemperature = false }, LongestFill = Duration.FromSeconds(20) }),
    };

    public static TheoryData<string> Cases => [.. s_cases.Keys];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        FillingBand band = s_cases[name]();
        Sheet.AssertReadable(FillingFigure.Of(band, name: "Invented lot").ToSvg());
        Sheet.AssertReadable(FillingFigure.Of(band, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
        using SKBitmap picture = Sheet.AssertPicture(FillingFigure.Of(band).ToPng(), FillingFigure.Width);
        Assert.Equal(FillingFigure.Height, picture.Height);
    }

    [Fact]
    public void Title_and_panels_say_what_is_drawn()
    {
        FillingBand band = FillingBand.Of(Plain);
        string[] texts = Sheet.Texts(FillingFigure.Of(band).ToSvg());
        Assert.Contains(texts, text => text.StartsWith(FormattableString.Invariant($"{band.Likely.Jars} jars of 500 g in "), StringComparison.Ordinal));
        Assert.Contains(texts, text => text.StartsWith("Time to fill a jar", StringComparison.Ordinal));
        Assert.Contains("Honey above the gate when the jar is full", texts);
        Assert.Contains("Level, cm", texts);
        Assert.Contains("Jar", texts);
        Assert.Contains("No jar was filled", Sheet.Texts(FillingFigure.Of(s_cases["no jar"]()).ToSvg()));
    }

    [Fact]
    public void The_same_filling_gives_the_same_bytes() => Assert.Equal(FillingFigure.Of(FillingBand.Of(Plain)).ToPng(), FillingFigure.Of(FillingBand.Of(Plain)).ToPng());
}
