using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class RiskFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<RiskAnswer>> s_cases = new(StringComparer.Ordinal)
    {
        ["usual"] = () => new InventedRisk().Answer(),
        ["rare"] = () => new InventedRisk { Overflow = 0.02, Interval = 1.4 }.Answer(),
        ["never seen"] = () => new InventedRisk { Overflow = 0, HasAbsence = false, Refused = "No run of 16384 ran over." }.Answer(),
        ["always"] = () => new InventedRisk { Overflow = 1, LongestMinutes = 0, WorstMinutes = 20 }.Answer(),
        ["smallest tolerance"] = () => new InventedRisk { Tolerance = 1e-6, Subset = true, Drivers = 11, LongestMinutes = 0.02, FirstMinutes = 0.3 }.Answer(),
        ["largest tolerance"] = () => new InventedRisk { Tolerance = 0.5, Overflow = 1e-7, Subset = true, HasAbsence = false }.Answer(),
        ["left at the start"] = () => new InventedRisk { WorstMinutes = 0, LongestMinutes = 8.5 }.Answer(),
        ["seconds"] = () => new InventedRisk { Minutes = 1.5, LongestMinutes = 0.1, WorstMinutes = 0.3, FirstMinutes = 0.4 }.Answer(),
        ["days"] = () => new InventedRisk { Minutes = 9000, LongestMinutes = 700, WorstMinutes = 2000, FirstMinutes = 1500 }.Answer(),
        ["one point"] = () => new InventedRisk { Points = 1 }.Answer(),
        ["no points"] = () => new InventedRisk { Points = 0, Drivers = 0 }.Answer(),
        ["one driver"] = () => new InventedRisk { Drivers = 1 }.Answer(),
        ["not numbers"] = () => NotNumbers(),
        ["intervals beyond all"] = () => BeyondAll(),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        RiskAnswer answer = s_cases[name]();
        (Func<DisplayUnits, string, string> Svg, Func<byte[]> Png, int Width)[] figures =
        [
            ((units, called) => PondFanFigure.Of(answer, units, called).ToSvg(), () => PondFanFigure.Of(answer).ToPng(), PondFanFigure.Width),
            ((units, called) => AbsenceFigure.Of(answer, units, called).ToSvg(), () => AbsenceFigure.Of(answer).ToPng(), AbsenceFigure.Width),
            ((units, called) => DriversFigure.Of(answer, units, called).ToSvg(), () => DriversFigure.Of(answer).ToPng(), DriversFigure.Width),
            ((units, called) => RiskFigure.Of(answer, units, called).ToSvg(), () => RiskFigure.Of(answer).ToPng(), RiskFigure.Width),
        ];
        Assert.All(figures, figure =>
        {
            Sheet.AssertReadable(figure.Svg(DisplayUnits.Metric, "Invented lot"));
            Sheet.AssertReadable(figure.Svg(DisplayUnits.UsCustomary, new string('W', 500)));
            Sheet.AssertPicture(figure.Png(), figure.Width).Dispose();
        });
    }

    [Fact]
    public void The_fan_names_its_bands_and_the_rim()
    {
        string[] texts = Sheet.Texts(PondFanFigure.Of(new InventedRisk().Answer()).ToSvg());
        string[] expected = ["median", "nine runs in ten", "half of the runs", "rim", "Depth of the pond, cm", "Share, %", "Time from the opening of the gate, min", "Runs still going on (drawn until 5 % are left)"];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.Contains("Depth of the pond, in", Sheet.Texts(PondFanFigure.Of(new InventedRisk().Answer(), DisplayUnits.UsCustomary).ToSvg()), StringComparer.Ordinal);
        Assert.Contains("No depths were kept.", Sheet.Texts(PondFanFigure.Of(new InventedRisk { Points = 0 }.Answer()).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void A_fan_of_runs_that_all_go_on_says_nothing_of_their_share()
    {
        RiskAnswer answer = new InventedRisk().Answer();
        RiskAnswer all = answer with { Fan = answer.Fan with { GoingOn = [.. answer.Fan.GoingOn.Select(_ => 1.0)] } };
        Assert.DoesNotContain(Sheet.Texts(PondFanFigure.Of(all).ToSvg()), t => t.StartsWith("Runs still going on", StringComparison.Ordinal));
    }

    // A tolerance of 1 % beside 23 % needs a logarithmic axis, which has no zero but tenths; beside 2 % it is read on an even one.
    [Fact]
    public void The_tolerance_is_readable_on_the_axis_of_chances()
    {
        string[] logarithmic = Sheet.Texts(AbsenceFigure.Of(new InventedRisk { Overflow = 0.23 }.Answer()).ToSvg());
        Assert.Contains("0.1", logarithmic, StringComparer.Ordinal);
        Assert.Contains("10", logarithmic, StringComparer.Ordinal);
        string[] even = Sheet.Texts(AbsenceFigure.Of(new InventedRisk { Overflow = 0.02, Interval = 1.4 }.Answer()).ToSvg());
        Assert.DoesNotContain("0.1", even, StringComparer.Ordinal);
        Assert.Equal(2, even.Count(t => t == "0"));
        string[] smallest = Sheet.Texts(AbsenceFigure.Of(new InventedRisk { Tolerance = 1e-6, Subset = true }.Answer()).ToSvg());
        Assert.Contains("0.0001", smallest, StringComparer.Ordinal);
        Assert.All(new[] { logarithmic, even, smallest }, t => Assert.Contains("tolerance", t, StringComparer.Ordinal));
    }

    [Fact]
    public void When_to_be_back_is_written_at_its_line()
    {
        // Away for 5 min from 9 min on ends at 14 min.
        string[] texts = Sheet.Texts(AbsenceFigure.Of(new InventedRisk().Answer()).ToSvg());
        Assert.Equal("Away for 5 min at most, for the tolerance you set, 1 %", texts[0]);
        Assert.Contains("left at 9:00 min, the worst moment: back by 14:00 min", texts, StringComparer.Ordinal);
        Assert.Contains("left at the start: back by 8:30 min", texts, StringComparer.Ordinal);

        string[] same = Sheet.Texts(AbsenceFigure.Of(s_cases["left at the start"]()).ToSvg());
        Assert.Contains("left at the start, the worst moment: back by 8:30 min", same, StringComparer.Ordinal);
        Assert.Single(same, t => t.StartsWith("left at", StringComparison.Ordinal));

        // A fifth of a second is no time to be away.
        string[] never = Sheet.Texts(AbsenceFigure.Of(new InventedRisk { LongestMinutes = 0.2 / 60, WorstMinutes = 0.5, FirstMinutes = 0.4 }.Answer()).ToSvg());
        Assert.Equal("Not to be left at 30 s, for the tolerance you set, 1 %", never[0]);
        Assert.Contains("not to be left at 30 s", never, StringComparer.Ordinal);
        Assert.Contains("Away: for 24 s from the start at most; at 30 s not at all.", Sheet.Texts(RiskFigure.Of(new InventedRisk { LongestMinutes = 0, WorstMinutes = 0.5, FirstMinutes = 0.4 }.Answer()).ToSvg()), StringComparer.Ordinal);
        Assert.Contains("not to be left at 20:00 min", Sheet.Texts(AbsenceFigure.Of(s_cases["always"]()).ToSvg()), StringComparer.Ordinal);
        Assert.Equal("Nobody need stand by for the tolerance you set, 1 %", Sheet.Texts(AbsenceFigure.Of(s_cases["never seen"]()).ToSvg())[0]);
    }

    [Fact]
    public void The_axis_of_absence_ends_when_hardly_more_happens()
    {
        // All that happens has happened within 6 of 60 minutes, and the marks are over by 3 min: the axis has no 20 min to name.
        RiskAnswer answer = new InventedRisk { LongestMinutes = 1, WorstMinutes = 2, FirstMinutes = 1 }.Answer();
        RiskAnswer early = answer with { ChanceOverTime = [.. answer.ChanceOverTime.Select(p => p.At.Minutes < 6 ? p : p with { Low = 0.2, Value = 0.23, High = 0.26 })] };
        string[] texts = Sheet.Texts(AbsenceFigure.Of(early).ToSvg());
        Assert.Contains("10", texts, StringComparer.Ordinal);
        Assert.DoesNotContain("20", texts.Skip(Array.IndexOf(texts, "tolerance")), StringComparer.Ordinal);
        Assert.DoesNotContain("40", texts, StringComparer.Ordinal);
    }

    [Fact]
    public void The_worst_time_to_be_away_is_shaded()
    {
        using SKBitmap some = SKBitmap.Decode(AbsenceFigure.Of(new InventedRisk().Answer()).ToPng());
        using SKBitmap none = SKBitmap.Decode(AbsenceFigure.Of(new InventedRisk { HasAbsence = false }.Answer()).ToPng());
        Assert.True(Sheet.Count(some, TimeSpell.PaleBlue) > 5_000);
        Assert.Equal(0, Sheet.Count(none, TimeSpell.PaleBlue));
    }

    [Fact]
    public void Drivers_are_named_in_words_with_both_indices()
    {
        string[] texts = Sheet.Texts(DriversFigure.Of(new InventedRisk().Answer()).ToSvg());

        // The invented total of the first is 62 %, by itself six tenths of it.
        Assert.Contains("lot factor of viscosity: 37 % by itself, 62 % with others", texts, StringComparer.Ordinal);
        Assert.Contains(texts, t => t.StartsWith("honey temperature + room temperature: ", StringComparison.Ordinal));
        Assert.Equal("The overflow depends most on: lot factor of viscosity", texts[0]);
        Assert.Contains(texts, t => t.StartsWith("Measure next: lot factor of viscosity, time a ball", StringComparison.Ordinal));
        Assert.Equal(2, texts.Count(t => t == "Share of the variance, %"));
    }

    [Fact]
    public void A_longer_bar_is_a_stronger_driver()
    {
        RiskAnswer answer = new InventedRisk { Drivers = 1 }.Answer();
        int Blue(double first)
        {
            Driver driver = new("debris.load", first, first, first, first, first, first);
            using SKBitmap picture = SKBitmap.Decode(DriversFigure.Of(answer with { Drivers = new(DriverOutput.Overflow, [driver], null) }).ToPng());
            return Sheet.Count(picture, OkabeIto.Blue);
        }

        // What is blue beside the bar stays as it is, so equal steps of the index add equal areas: within 3 % for the ends of the bar.
        double step = Blue(0.4) - Blue(0.2);
        Assert.True(step > 1000);
        Assert.Equal(1, (Blue(0.8) - Blue(0.4)) / (2 * step), 0.03);
    }

    [Fact]
    public void More_drivers_than_fit_are_counted_and_a_refusal_says_why()
    {
        // Eleven invented drivers, of which the figure draws eight and the sheet four.
        RiskAnswer many = new InventedRisk { Drivers = 11 }.Answer();
        Assert.Contains(Sheet.Texts(DriversFigure.Of(many).ToSvg()), t => t.StartsWith("and 3 more, ", StringComparison.Ordinal));
        Assert.Contains(Sheet.Texts(RiskFigure.Of(many).ToSvg()), t => t.StartsWith("and 7 more, ", StringComparison.Ordinal));

        string[] refused = Sheet.Texts(DriversFigure.Of(new InventedRisk { Refused = "no run of 16384 ran over" }.Answer()).ToSvg());
        Assert.Contains("No run of 16384 ran over.", refused, StringComparer.Ordinal);
        Assert.Equal("The time to strain depends most on: lot factor of viscosity", refused[0]);
        Assert.Equal("What drives it could not be told", Sheet.Texts(DriversFigure.Of(new InventedRisk { Drivers = 0 }.Answer()).ToSvg())[0]);
    }

    [Fact]
    public void The_sheet_says_what_helps()
    {
        string[] texts = Sheet.Texts(RiskFigure.Of(new InventedRisk().Answer()).ToSvg());
        string[] expected =
        [
            "Chance of an overflow 23 %, beyond the tolerance you set, 1 %", "Away: for 5 min at most, at any moment; 8:30 min from the start.",
            "Scraping: at least every 6 min.", "Riding the gate: pond 6.0 cm deep at most, looking every 2 min.", "rim", "tolerance", "Drivers of overflow", "Drivers of the time",
        ];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("Opening: 32.5 % of the bore at most", StringComparison.Ordinal));

        string[] never = Sheet.Texts(RiskFigure.Of(s_cases["never seen"]()).ToSvg());
        Assert.StartsWith("No overflow in 16\u202F384 runs, within the tolerance you set", never[0], StringComparison.Ordinal);
        Assert.Contains("Away: nobody need stand by.", never, StringComparer.Ordinal);
        Assert.Contains("Scraping: not needed.", never, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData(0.02, 0.01, 0.012, "beyond")]
    [InlineData(0.02, 0.01, 0.018, "about")]
    [InlineData(0.005, 0.008, 0.003, "within")]
    public void The_interval_decides_how_a_chance_stands_to_the_tolerance(double value, double high, double low, string word)
    {
        // Tolerances of 1 %: an interval below it is within, above it beyond, across it about.
        (low, high) = word == "about" ? (0.008, 0.03) : word == "beyond" ? (low, 0.03) : (low, high);
        RiskAnswer answer = new InventedRisk().Answer() with { Overflow = new(value, low, high, 1000, EstimateMethod.Counting) };
        Assert.Contains(", " + word + " the tolerance you set, 1 %", Sheet.Texts(RiskFigure.Of(answer).ToSvg())[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_called_safe()
    {
        Assert.All(s_cases.Values, make => Assert.DoesNotContain(Sheet.Texts(RiskFigure.Of(make()).ToSvg()), t => t.Contains("safe", StringComparison.OrdinalIgnoreCase)));
    }

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_answer_gives_the_same_bytes(FigureFormat format)
    {
        Assert.Equal(RiskFigure.Of(new InventedRisk().Answer()).Encode(format), RiskFigure.Of(new InventedRisk().Answer()).Encode(format));
    }

    [Fact]
    public void Saving_takes_the_format_from_the_ending()
    {
        string folder = Directory.CreateTempSubdirectory().FullName;
        try
        {
            RiskAnswer answer = new InventedRisk().Answer();
            RiskFigure.Of(answer, DisplayUnits.UsCustomary, "lot").Save(Path.Combine(folder, "risk.PNG"));
            Assert.Equal(RiskFigure.Of(answer, DisplayUnits.UsCustomary, "lot").ToPng(), File.ReadAllBytes(Path.Combine(folder, "risk.PNG")));
            PondFanFigure.Of(answer).Save(Path.Combine(folder, "fan.svg"));
            Assert.Equal(PondFanFigure.Of(answer).ToSvg(), File.ReadAllText(Path.Combine(folder, "fan.svg")));
            AbsenceFigure.Of(answer).Save(Path.Combine(folder, "absence.svg"));
            DriversFigure.Of(answer).Save(Path.Combine(folder, "drivers.svg"));
            Assert.Throws<ArgumentException>(() => RiskFigure.Of(answer).Save(Path.Combine(folder, "risk.jpg")));
            Assert.Equal(4, Directory.GetFiles(folder).Length);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static RiskAnswer NotNumbers()
    {
        RiskAnswer answer = new InventedRisk().Answer();
        double[] spoilt = [0.01, double.NaN, double.PositiveInfinity, 0.03];
        Driver nothing = new("honey.moisture", double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN);
        Driver noInterval = new("debris.load", 0.3, double.NaN, double.NaN, 0.4, double.NegativeInfinity, double.PositiveInfinity);
        return answer with
        {
            Fan = answer.Fan with { P05 = spoilt, P50 = spoilt, P95 = [double.NaN, double.NaN, 0.05, 0.06] },
            ChanceOverTime = [new(Duration.Zero, 0, 0, 0), new(Duration.FromMinutes(1), double.NaN, 0.1, 0.2), new(Duration.FromMinutes(2), 0.1, 0.2, 0.3)],
            Drivers = new(DriverOutput.Overflow, [nothing, noInterval], null),
        };
    }

    private static RiskAnswer BeyondAll()
    {
        RiskAnswer answer = new InventedRisk().Answer();
        return answer with
        {
            Drivers = new(DriverOutput.Overflow, [new("debris.load", 0.5, -3, 4, 1.4, -2, 5), new("honey.moisture", -0.2, -0.9, 0.3, -0.1, -0.8, 0.4)], null),
        };
    }
}
