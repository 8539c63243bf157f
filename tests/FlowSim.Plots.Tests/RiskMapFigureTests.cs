using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class RiskMapFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<RiskMap>> s_cases = new(StringComparer.Ordinal)
    {
        ["usual"] = () => new InventedRisk().Map(),
        ["by subset simulation"] = () => new InventedRisk { Subset = true, MapScore = -4, Tolerance = 1e-4 }.Map(),
        ["all classes"] = () => new InventedRisk { Subset = true, MapScore = -2.5, Tolerance = 1e-6, RunsPerCell = 20_000 }.Map(),
        ["few"] = () => new InventedRisk { Openings = 3, Temperatures = 2 }.Map(),
        ["one row"] = () => new InventedRisk { Temperatures = 1 }.Map(),
        ["one column"] = () => new InventedRisk { Openings = 1 }.Map(),
        ["one cell"] = () => new InventedRisk { Openings = 1, Temperatures = 1 }.Map(),
        ["a hundred by a hundred"] = () => new InventedRisk { Openings = 100, Temperatures = 100 }.Map(),
        ["never"] = () => new InventedRisk { MapScore = -9 }.Map(),
        ["always"] = () => new InventedRisk { MapScore = 9 }.Map(),
        ["too few runs"] = () => new InventedRisk { Tolerance = 0.001, RunsPerCell = 512 }.Map(),
        ["some never get there"] = () => new InventedRisk { Never = 0.8 }.Map(),
        ["none gets there"] = () => NoneGetsThere(),
        ["seconds"] = () => new InventedRisk { Minutes = 0.3 }.Map(),
        ["weeks"] = () => new InventedRisk { Minutes = 20_000 }.Map(),
        ["times alike"] = () => new InventedRisk { Openings = 2, Temperatures = 2 }.Map() with { Openings = [Ratio.FromPercent(90), Ratio.FromPercent(100)] },
        ["not complete"] = () => new InventedRisk().Map() with { Cells = [] },
        ["nothing"] = () => new InventedRisk().Map() with { Openings = [], Temperatures = [], Cells = [] },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_of_the_map_stay_on_the_sheet_and_off_each_other(string name)
    {
        RiskMap map = s_cases[name]();
        Sheet.AssertReadable(RiskMapFigure.Of(map, name: "Invented lot").ToSvg());
        Sheet.AssertReadable(RiskMapFigure.Of(map, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
        Sheet.AssertPicture(RiskMapFigure.Of(map).ToPng(), RiskMapFigure.Width).Dispose();
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_of_the_times_stay_on_the_sheet_and_off_each_other(string name)
    {
        RiskMap map = s_cases[name]();
        Sheet.AssertReadable(StrainTimesFigure.Of(map, name: "Invented lot").ToSvg());
        Sheet.AssertReadable(StrainTimesFigure.Of(map, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
        Sheet.AssertPicture(StrainTimesFigure.Of(map).ToPng(), StrainTimesFigure.Width).Dispose();
    }

    [Fact]
    public void Classes_tolerance_and_axes_are_named()
    {
        string[] texts = Sheet.Texts(RiskMapFigure.Of(new InventedRisk().Map()).ToSvg());
        string[] expected =
        [
            "Where an overflow is within the tolerance you set, 1 %", "tolerance, 1 %", "your setup", "tried, 1000 runs each", "1 in 1000 to 1 in 100", "1 in 100 to 1 in 10",
            "Opening of the gate, % of the bore", "Temperature of the honey at the start, °C",
        ];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));

        // In the key and in the map itself.
        Assert.Equal(2, texts.Count(t => t == "none in 1000 runs"));
        Assert.Equal(2, texts.Count(t => t == "over 1 in 2"));
        Assert.Contains("Temperature of the honey at the start, °F", Sheet.Texts(RiskMapFigure.Of(new InventedRisk().Map(), DisplayUnits.UsCustomary).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void The_rarest_class_of_a_map_without_zeros_has_no_lower_end() =>
        Assert.Contains("under 1 in 100\u202F000", Sheet.Texts(RiskMapFigure.Of(s_cases["by subset simulation"]()).ToSvg()), StringComparer.Ordinal);

    [Fact]
    public void The_map_says_where_all_or_none_is_within_and_when_runs_are_too_few()
    {
        Assert.Equal("Everywhere within the tolerance you set, 1 %", Sheet.Texts(RiskMapFigure.Of(s_cases["never"]()).ToSvg())[0]);
        Assert.Equal("Nowhere within the tolerance you set, 1 %", Sheet.Texts(RiskMapFigure.Of(s_cases["always"]()).ToSvg())[0]);
        Assert.Equal("The map is not complete", Sheet.Texts(RiskMapFigure.Of(s_cases["not complete"]()).ToSvg())[0]);

        // None seen in 512 runs leaves up to three in 512 (rule of three), six times 0.1 %: no line may be drawn.
        string[] tooFew = Sheet.Texts(RiskMapFigure.Of(s_cases["too few runs"]()).ToSvg());
        Assert.Equal("Too few runs for the tolerance you set, 0.1 %", tooFew[0]);
        Assert.DoesNotContain("tolerance, 0.1 %", tooFew, StringComparer.Ordinal);
    }

    // Two openings, of chances Φ(−3) and Φ(−1): by even normal scores Φ(−2) lies halfway, where the line of that tolerance must stand.
    [Fact]
    public void The_line_of_the_tolerance_stands_where_the_normal_score_is_reached()
    {
        RiskMap invented = new InventedRisk { Openings = 2, Temperatures = 2, Tolerance = 0.022750131948179195, Subset = true }.Map();
        RiskCell Cell(double chance) => invented.Cells[0][0] with { Overflow = new(chance, chance, chance, 1000, EstimateMethod.SubsetSimulation) };
        RiskCell[] row = [Cell(0.0013498980316300933), Cell(0.15865525393145707)];
        using SKBitmap picture = SKBitmap.Decode(RiskMapFigure.Of(invented with { Cells = [row, row] }).ToPng());

        // The data area goes from 118 px to 956 px with as much room on either side; the row is free of words, points and the setup.
        int y = picture.Height - 150;
        int[] black = [.. Enumerable.Range(130, 810).Where(x => picture.GetPixel(x, y) == SKColors.Black)];
        Assert.InRange(black.Length, 3, 6);
        Assert.Equal((118 + 956) / 2.0, black.Average(), 1.5);
    }

    [Fact]
    public void Openings_are_chosen_with_the_first_and_the_last()
    {
        // Ten invented openings from 10 % to 100 % in steps of 10 %.
        string[] texts = Sheet.Texts(StrainTimesFigure.Of(new InventedRisk().Map()).ToSvg());
        Assert.All((string[])["10 % open", "40 % open", "70 % open", "100 % open", "eight runs in ten"], e => Assert.Contains(e, texts, StringComparer.Ordinal));
        Assert.Contains("4 of 10 openings; lines: half of the runs are there", texts, StringComparer.Ordinal);

        // An opening that the setup has, here 40 %, is among twelve in steps of 5 % too.
        RiskMap twelve = new InventedRisk { Openings = 12 }.Map() with { Openings = [.. Enumerable.Range(1, 12).Select(i => Ratio.FromPercent(5 * i))] };
        Assert.Contains("40 % open", Sheet.Texts(StrainTimesFigure.Of(twelve).ToSvg()), StringComparer.Ordinal);
        Assert.Contains("30 % open", Sheet.Texts(StrainTimesFigure.Of(twelve with { Question = twelve.Question with { Setup = twelve.Question.Setup with { Control = FlowSim.Straining.GateControl.LeaveAt(Ratio.FromPercent(30)) } } }).ToSvg()), StringComparer.Ordinal);

        // Beside the ends of both panels' lines.
        Assert.Equal(2, texts.Count(t => t == "40 %"));
    }

    [Fact]
    public void Times_that_differ_much_are_drawn_as_ratios_with_their_units()
    {
        string[] texts = Sheet.Texts(StrainTimesFigure.Of(new InventedRisk().Map()).ToSvg());
        Assert.Contains("95 % strained (logarithmic)", texts, StringComparer.Ordinal);
        Assert.All((string[])["30 min", "1 h", "5 h"], e => Assert.Contains(e, texts, StringComparer.Ordinal));

        // Within a factor of five from shortest to longest: 1.5/0.7 and (100/90) to the power of 1.4 are, for one temperature.
        RiskMap alike = new InventedRisk { Openings = 1, Temperatures = 1 }.Map();
        Assert.Contains("95 % strained", Sheet.Texts(StrainTimesFigure.Of(alike).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void What_is_never_reached_is_not_drawn()
    {
        Assert.Contains("No run gets there.", Sheet.Texts(StrainTimesFigure.Of(s_cases["none gets there"]()).ToSvg()), StringComparer.Ordinal);
        string title = Sheet.Texts(StrainTimesFigure.Of(s_cases["some never get there"]()).ToSvg())[0];
        Assert.StartsWith("Strained 10 % open: ", title, StringComparison.Ordinal);
        Assert.StartsWith("Strained 100 % open: mostly never at 22 °C, ", Sheet.Texts(StrainTimesFigure.Of(new InventedRisk { Never = 1, Openings = 1, Temperatures = 2 }.Map() with { Openings = [Ratio.FromPercent(100)] }).ToSvg())[0], StringComparison.Ordinal);
        using SKBitmap all = SKBitmap.Decode(StrainTimesFigure.Of(new InventedRisk().Map()).ToPng());
        using SKBitmap some = SKBitmap.Decode(StrainTimesFigure.Of(s_cases["some never get there"]()).ToPng());
        Assert.True(Sheet.Count(some, OkabeIto.Vermillion) < 0.9 * Sheet.Count(all, OkabeIto.Vermillion));
    }

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_map_gives_the_same_bytes(FigureFormat format)
    {
        Assert.Equal(RiskMapFigure.Of(new InventedRisk().Map()).Encode(format), RiskMapFigure.Of(new InventedRisk().Map()).Encode(format));
        Assert.Equal(StrainTimesFigure.Of(new InventedRisk().Map()).Encode(format), StrainTimesFigure.Of(new InventedRisk().Map()).Encode(format));
    }

    private static RiskMap NoneGetsThere()
    {
        RiskMap map = new InventedRisk().Map();
        TimeSpread never = new(null, null, null, 1);
        return map with { Cells = [.. map.Cells.Select(row => row.Select(cell => cell with { Drain = never, Strain = never }).ToArray())] };
    }
}
