using FlowSim.Plots.Drawing;
using FlowSim.Warming;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class WarmingFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<WarmingBounds>> s_cases = new(StringComparer.Ordinal)
    {
        ["pail in warm air"] = () => Alone(new()),
        ["bounds"] = () => new InventedWarming().Between(11, 28),
        ["slow bound never"] = () => new InventedWarming().Between(11, null),
        ["no bound ever"] = () => new InventedWarming().Between(null, null),
        ["slow bound after the end"] = () => new InventedWarming { Hours = 17 }.Between(12, 60),
        ["minutes"] = () => Alone(new() { Hours = 0.4, MeanLagHours = 0.1, ColdestLagHours = 0.05 }),
        ["weeks"] = () => Alone(new() { Hours = 24 * 40, MeanLagHours = 120, ColdestLagHours = 90, CrystalShare = 0.15, Targets = [WarmingTarget.NoCrystals] }),
        ["no targets"] = () => Alone(new() { Targets = [] }),
        ["targets at once"] = () => Alone(new() { Targets = [Mean(30), Mean(30.05), WarmingTarget.Coldest(C(25)), WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(10)), WarmingTarget.NoCrystals, Mean(31)] }),
        ["many targets"] = () => Alone(new() { Targets = [.. Enumerable.Range(17, 25).Select(c => Mean(c))] }),
        ["targets never reached"] = () => Alone(new() { Targets = [.. Enumerable.Range(60, 8).Select(c => Mean(c))] }),
        ["cut out"] = () => Alone(new() { CutOutC = 44, CutOutHours = 6.2 }),
        ["cooling"] = () => Alone(Cooling),
        ["schedule"] = () => Alone(new() { Schedule = [new(Duration.Zero, C(35)), new(Duration.FromHours(12), C(45))], Sensor = SensorPlace.Wall, LagS = 900, Kit = t => new HeatedJacket { Thermostat = t, To = Length.FromMeters(0.2) } }),
        ["large heater"] = () => Alone(new() { HeaterW = 120_000, Kit = t => new HeatedBath { Thermostat = t, WaterLevel = Length.FromMeters(0.2) } }),
        ["hardly any change"] = () => Alone(new() { StartC = 20, RoomC = 20, SetpointC = 20.1, HeaterW = null, Targets = [] }),
        ["no series"] = () => Alone(new() { Points = 0 }),
        ["one point"] = () => Alone(new() { Points = 1 }),
        ["no duration"] = () => Alone(new() { Points = 1, Hours = 0 }),
        ["many points"] = () => Alone(new() { Points = 4001 }),
        ["not numbers"] = () => Of(Spoilt(new InventedWarming().Result())),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        WarmingBounds bounds = s_cases[name]();
        Sheet.AssertReadable(WarmingFigure.Of(bounds.Best, name: "Invented lot", bounds: bounds).ToSvg());
        Sheet.AssertReadable(WarmingFigure.Of(bounds.Best, DisplayUnits.UsCustomary, new string('W', 500), bounds).ToSvg());
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Png_has_the_size_it_says(string name)
    {
        WarmingBounds bounds = s_cases[name]();
        using SKBitmap picture = Sheet.AssertPicture(WarmingFigure.Of(bounds.Best, bounds: bounds).ToPng(), WarmingFigure.Width);
        Assert.Equal(WarmingFigure.Height, picture.Height);
    }

    [Fact]
    public void Curves_targets_and_heater_are_named()
    {
        InventedWarming invented = new() { CrystalShare = 0.15, Sensor = SensorPlace.Honey, LagS = 300, Targets = [Mean(40), WarmingTarget.Coldest(C(38)), WarmingTarget.NoCrystals] };
        WarmingResult result = invented.Result();
        string[] texts = Sheet.Texts(WarmingFigure.Of(result).ToSvg());

        string[] expected =
        [
            "coldest honey", "mean honey", "hottest wall", "probe", "air", "setpoint", "room", "target", "most", "left, share of the honey's mass",
            "Temperature, °C", "Power, W", "Crystals, %", "Time from the start, h",
        ];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.All((string[])["mean 40 °C at ", "coldest 38 °C at ", "crystals gone at "], e => Assert.Contains(texts, t => t.StartsWith(e, StringComparison.Ordinal)));
        Assert.Contains(texts, t => t.StartsWith("average power, switched ", StringComparison.Ordinal));
        Assert.StartsWith("Reached in ", texts[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_probe_in_the_body_without_lag_is_not_drawn_twice()
    {
        string[] texts = Sheet.Texts(WarmingFigure.Of(new InventedWarming { HeaterW = null }.Result()).ToSvg());
        Assert.Contains("air and probe", texts, StringComparer.Ordinal);
        Assert.DoesNotContain("probe", texts, StringComparer.Ordinal);
    }

    // On and off some 400 times in 241 rows: the rows show no cycle, only where it swings.
    [Fact]
    public void A_body_that_switches_faster_than_the_rows_is_drawn_as_a_band()
    {
        WarmingResult switching = new InventedWarming().Result();
        Assert.True(switching.Switchings > 241);
        Assert.Contains("air and probe, switching", Sheet.Texts(WarmingFigure.Of(switching).ToSvg()), StringComparer.Ordinal);
        Assert.DoesNotContain("air and probe, switching", Sheet.Texts(WarmingFigure.Of(switching with { Switchings = 5 }).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void Without_crystals_there_is_no_panel_for_them() =>
        Assert.DoesNotContain(Sheet.Texts(WarmingFigure.Of(new InventedWarming().Result()).ToSvg()), t => t.StartsWith("Crystals", StringComparison.Ordinal));

    [Fact]
    public void Bounds_are_shaded_and_told()
    {
        WarmingBounds bounds = new InventedWarming().Between(11, 28);
        Assert.Contains("reached between the bounds 11:00–28:00 h", Sheet.Texts(WarmingFigure.Of(bounds.Best, bounds: bounds).ToSvg()), StringComparer.Ordinal);
        using SKBitmap with = SKBitmap.Decode(WarmingFigure.Of(bounds.Best, bounds: bounds).ToPng());
        using SKBitmap without = SKBitmap.Decode(WarmingFigure.Of(bounds.Best).ToPng());

        // 17 of 30 hours of a plot that is at least 600 px wide and 300 px high.
        Assert.True(Sheet.Count(with, TimeSpell.PaleBlue) > 17.0 / 30 * 600 * 300 / 2);
        Assert.Equal(0, Sheet.Count(without, TimeSpell.PaleBlue));
    }

    [Fact]
    public void A_bound_that_never_gets_there_is_told()
    {
        WarmingBounds bounds = new InventedWarming().Between(11, null);
        Assert.Contains("reached at 11:00 h at the earliest, not by all bounds", Sheet.Texts(WarmingFigure.Of(bounds.Best, bounds: bounds).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void A_cut_out_is_marked_and_in_the_title()
    {
        string[] texts = Sheet.Texts(WarmingFigure.Of(new InventedWarming { CutOutC = 44, CutOutHours = 6.2, Targets = [Mean(44)] }.Result()).ToSvg());

        // 6.2 h are 6 h and 12 min.
        Assert.StartsWith("Cut out at 6:12 h, not reached; ", texts[0], StringComparison.Ordinal);
        Assert.Contains("cut out at 6:12 h", texts, StringComparer.Ordinal);
        Assert.Contains("cut-out", texts, StringComparer.Ordinal);
        Assert.Contains(texts, t => t.StartsWith("Not reached: mean 44 °C; ", StringComparison.Ordinal));
    }

    [Fact]
    public void Cooling_says_that_heat_is_taken_out()
    {
        string[] texts = Sheet.Texts(WarmingFigure.Of(Cooling.Result()).ToSvg());
        Assert.Contains("average power, below zero it cools", texts, StringComparer.Ordinal);
        Assert.Contains(texts, t => t.Contains(" kWh taken out", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("mean down to 25 °C at ", StringComparison.Ordinal));
    }

    [Fact]
    public void Us_units_stand_in_the_labels()
    {
        string[] texts = Sheet.Texts(WarmingFigure.Of(new InventedWarming().Result(), DisplayUnits.UsCustomary).ToSvg());

        // 40 °C are 104 °F.
        Assert.Contains("Temperature, °F", texts, StringComparer.Ordinal);
        Assert.Contains(texts, t => t.StartsWith("mean 104 °F at ", StringComparison.Ordinal));
        Assert.DoesNotContain(texts, t => t.Contains("°C", StringComparison.Ordinal) || t.Contains(" K", StringComparison.Ordinal));
    }

    [Fact]
    public void A_run_without_series_says_so() =>
        Assert.Contains("No series was kept for this run.", Sheet.Texts(WarmingFigure.Of(new InventedWarming { Points = 0 }.Result()).ToSvg()), StringComparer.Ordinal);

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_result_gives_the_same_bytes(FigureFormat format) =>
        Assert.Equal(WarmingFigure.Of(new InventedWarming().Result()).Encode(format), WarmingFigure.Of(new InventedWarming().Result()).Encode(format));

    [Fact]
    public void Saving_takes_the_format_from_the_ending()
    {
        string folder = Directory.CreateTempSubdirectory().FullName;
        try
        {
            string svg = Path.Combine(folder, "run.svg");
            WarmingFigure.Of(new InventedWarming().Result()).Save(svg);
            Assert.Equal(WarmingFigure.Of(new InventedWarming().Result()).ToSvg(), File.ReadAllText(svg));
            Assert.Throws<ArgumentException>(() => WarmingFigure.Of(new InventedWarming().Result()).Save(Path.Combine(folder, "run.jpg")));
            Assert.Single(Directory.GetFiles(folder));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static InventedWarming Cooling => new() { StartC = 42, SetpointC = 12, RoomC = 12, HeaterW = null, Targets = [WarmingTarget.CooledTo(C(25)), WarmingTarget.Thick(DynamicViscosity.FromPascalSeconds(15))] };

    private static Temperature C(double celsius) => Temperature.FromDegreesCelsius(celsius);

    private static WarmingTarget Mean(double celsius) => WarmingTarget.Mean(C(celsius));

    private static WarmingBounds Alone(InventedWarming invented) => Of(invented.Result());

    private static WarmingBounds Of(WarmingResult result) => new() { Best = result, WellMixed = result with { TimeToTarget = null }, ConductionOnly = result with { TimeToTarget = null } };

    private static WarmingResult Spoilt(WarmingResult run)
    {
        double[] spoilt = [double.NaN, double.PositiveInfinity, double.NegativeInfinity, 300, double.NaN];
        return run with { Series = run.Series with { ColdestK = spoilt, HeaterW = spoilt, MeanK = [], WallK = spoilt } };
    }
}
