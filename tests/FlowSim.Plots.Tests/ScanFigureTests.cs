using FlowSim.Plots.Drawing;
using SkiaSharp;

namespace FlowSim.Plots.Tests;

public class ScanFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<ScanTable>> s_cases = new(StringComparer.Ordinal)
    {
        ["usual"] = Usual,
        ["logarithmic"] = () => Usual() with { LogarithmicX = true },
        ["no setup to mark"] = () => Usual() with { Nominal = null },
        ["setup far off"] = () => Usual() with { Nominal = 50 },
        ["setup not a number"] = () => Usual() with { Nominal = double.NaN },
        ["one value"] = () => One(3),
        ["one value of zero"] = () => One(0),
        ["no value"] = () => Usual() with { X = [], Series = [new() { Name = "nothing", Unit = "", Values = [] }] },
        ["no series"] = () => Usual() with { Series = [] },
        ["nothing but gaps"] = () => Usual() with { Series = [new() { Name = "95 % drained", Unit = "min", Values = [.. Enumerable.Repeat(double.NaN, 7)] }] },
        ["wide numbers"] = () => Usual() with { Series = [Series("pressure", "Pa", x => 1e6 * (1 + x)), Series("share", "%", x => 1e-5 + x), Series("tiny", "m", x => 1e-4 * x)] },
        ["many of one unit"] = () => Usual() with { Series = [.. Enumerable.Range(1, 8).Select(i => Series(new string((char)('a' + i), 14), "kg", x => i + x))] },
        ["many units"] = () => Usual() with { Series = [.. Enumerable.Range(1, 7).Select(i => Series("output", new string('u', i), x => i - x))] },
        ["long words"] = () => Usual() with { Title = new string('W', 300), Subtitle = new string('W', 300) },
        ["a thousand values"] = () => Usual() with { X = [.. Enumerable.Range(0, 1000).Select(i => i / 100.0)], Series = [new() { Name = "out", Unit = "min", Values = [.. Enumerable.Range(0, 1000).Select(i => Math.Sin(i / 100.0))] }] },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        ScanTable table = s_cases[name]();
        Sheet.AssertReadable(ScanFigure.Of(table).ToSvg());
        Sheet.AssertPicture(ScanFigure.Of(table).ToPng(), ScanFigure.Width).Dispose();
    }

    [Fact]
    public void Panels_are_named_by_series_and_unit()
    {
        string[] texts = Sheet.Texts(ScanFigure.Of(Usual()).ToSvg());
        string[] expected = ["Debris from 0 to 1 %", "min", "95 % drained", "95 % strained", "eight runs in ten", "Deepest pond, cm", "rim", "Chance of an overflow, % (logarithmic)", "tolerance", "Debris, %", "your setup 0.25 %"];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
    }

    // Four places of the input, the third without a value: only the first two are joined.
    [Fact]
    public void A_gap_is_not_drawn_over()
    {
        ScanTable Table(double third) => new() { Title = "t", XName = "x", XUnit = "", X = [0, 1, 2, 3], Series = [new() { Name = "y", Unit = "", Values = [1, 1, third, 1] }] };
        using SKBitmap whole = SKBitmap.Decode(ScanFigure.Of(Table(1)).ToPng());
        using SKBitmap gap = SKBitmap.Decode(ScanFigure.Of(Table(double.NaN)).ToPng());
        double share = Sheet.Count(gap, OkabeIto.Blue) / (double)Sheet.Count(whole, OkabeIto.Blue);

        // A third of the line is left, and of four points three.
        Assert.InRange(share, 1 / 3.0, 0.5);
    }

    [Fact]
    public void Values_and_their_places_must_be_as_many()
    {
        ArgumentException wrong = Assert.Throws<ArgumentException>(() => ScanFigure.Of(Usual() with { X = [1, 2, 3] }).ToPng());
        Assert.Contains("95 % drained", wrong.Message, StringComparison.Ordinal);
        Assert.Contains("3", wrong.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => ScanFigure.Of(Usual() with { Series = [Series("a", "", x => x) with { Low = [1], High = [2] }] }).ToPng());
    }

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_table_gives_the_same_bytes(FigureFormat format) => Assert.Equal(ScanFigure.Of(Usual()).Encode(format), ScanFigure.Of(Usual()).Encode(format));

    private static ScanTable Usual() => new()
    {
        Title = "Debris from 0 to 1 %",
        Subtitle = "Invented lot",
        XName = "Debris",
        XUnit = "%",
        X = [0, 0.1, 0.2, 0.3, 0.5, 0.7, 1],
        Nominal = 0.25,
        Series =
        [
            new() { Name = "95 % drained", Unit = "min", Values = [10, 11, 12, 14, 19, 25, double.NaN], Low = [8, 9, 10, 11, 14, 19, double.NaN], High = [13, 14, 16, 20, 30, 40, double.NaN] },
            new() { Name = "95 % strained", Unit = "min", Values = [12, 13, 14, 17, double.NaN, 30, 45] },
            new() { Name = "deepest pond", Unit = "cm", Values = [4, 5, 6, 7, 9, 10, 10], Limit = 10, LimitName = "rim" },
            new() { Name = "chance of an overflow", Unit = "%", Values = [0.001, 0.01, 0.05, 0.4, 8, 60, 99], Limit = 1, LimitName = "tolerance" },
        ],
    };

    private static ScanTable One(double x) => Usual() with { X = [x], Nominal = x, Series = [new() { Name = "out", Unit = "min", Values = [7] }] };

    private static ScanSeries Series(string name, string unit, Func<double, double> of) =>
        new() { Name = name, Unit = unit, Values = [.. Usual().X.Select(of)] };
}
