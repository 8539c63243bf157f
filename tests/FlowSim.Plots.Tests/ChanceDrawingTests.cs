using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using FsCheck.Xunit;
using ScottPlot;
using ScottPlot.TickGenerators;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class ChanceDrawingTests
{
    // Two figures that count, by rounding by hand.
    [Theory]
    [InlineData(0, "0 %")]
    [InlineData(1e-7, "under 0.0001 %")]
    [InlineData(1e-6, "0.0001 %")]
    [InlineData(0.000123, "0.012 %")]
    [InlineData(0.00999, "1 %")]
    [InlineData(0.01, "1 %")]
    [InlineData(0.0234, "2.3 %")]
    [InlineData(0.0996, "10 %")]
    [InlineData(0.5, "50 %")]
    [InlineData(0.9951, "99.5 %")]
    [InlineData(0.99999, "99.9 %")]
    [InlineData(1, "100 %")]
    public void Chances_read_in_percent(double share, string expected) => Assert.Equal(expected, ChanceText.Percent(share));

    [Fact]
    public void What_was_never_seen_is_not_called_impossible()
    {
        Assert.Equal("none in 1000 runs, 0.3 % at most", ChanceText.Of(new(0, 0, 0.003, 1000, EstimateMethod.Counting)));
        Assert.Equal("2 % (95 % interval 1.5 to 2.7 %)", ChanceText.Of(new(0.02, 0.015, 0.027, 1000, EstimateMethod.Counting)));
    }

    // A longest time is rounded down, any other to the nearest.
    [Theory]
    [InlineData(47.6, false, "48 s")]
    [InlineData(47.6, true, "47 s")]
    [InlineData(3.46, true, "3.4 s")]
    [InlineData(120, false, "2 min")]
    [InlineData(299.9, true, "4:59 min")]
    [InlineData(5869, false, "98 min")]
    [InlineData(5879, true, "97 min")]
    [InlineData(12000, false, "3:20 h")]
    [InlineData(14400, true, "4 h")]
    [InlineData(360000, false, "4 d 4 h")]
    public void Lengths_of_time_read_with_the_figures_that_count(double seconds, bool down, string expected) =>
        Assert.Equal(expected, RiskTitle.Moment(Duration.FromSeconds(seconds), down));

    [Fact]
    public void Classes_get_darker_all_the_way()
    {
        ChanceClasses classes = new(new InventedRisk { Subset = true, MapScore = -2.5, RunsPerCell = 20_000 }.Map());
        Assert.Equal(7, classes.Count);

        // Relative luminance of sRGB (IEC 61966-2-1, from memory): what is left of a colour in grey.
        double Luminance(int index)
        {
            Color colour = Color.FromHex(classes.Hex(index));
            static double Linear(byte channel)
            {
                double c = channel / 255.0;
                return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
            }

            return 0.2126 * Linear(colour.R) + 0.7152 * Linear(colour.G) + 0.0722 * Linear(colour.B);
        }

        // Lightness L* of CIE 1976 (from memory): the steps are to be seen, four units at least.
        double[] lightness = [.. Enumerable.Range(0, classes.Count).Select(Luminance).Select(y => y > 0.008856 ? 116 * Math.Cbrt(y) - 16 : 903.3 * y)];
        Assert.All(lightness.Zip(lightness.Skip(1)), pair => Assert.True(pair.First - pair.Second >= 4, pair.ToString()));

        // Words on a class: contrast of at least 3 for large text (WCAG 2, from memory).
        Assert.All(Enumerable.Range(0, classes.Count), i =>
        {
            double ink = ColourScale.InkOn(Color.FromHex(classes.Hex(i))) == OkabeIto.Black ? 0 : 1;
            Assert.True((Math.Max(ink, Luminance(i)) + 0.05) / (Math.Min(ink, Luminance(i)) + 0.05) >= 3, classes.Hex(i));
        });
    }

    [Fact]
    public void Each_chance_falls_into_the_class_that_its_words_say()
    {
        ChanceClasses classes = new(new InventedRisk().Map());
        (double Chance, string Words)[] expected =
        [
            (0, "none in 1000 runs"), (0.002, "1 in 1000 to 1 in 100"), (0.02, "1 in 100 to 1 in 10"), (0.2, "1 in 10 to 1 in 2"), (0.7, "over 1 in 2"), (1, "over 1 in 2"),
        ];
        Assert.All(expected, e => Assert.Equal(e.Words, classes.Words(classes.Of(e.Chance))));

        // By way of the normal score too, of the least that is seen as well.
        Assert.All(expected, e => Assert.Equal(e.Words, classes.Words(classes.OfScore(classes.Score(e.Chance)))));

        // The quantile of Φ(−3), as printed in tables of the normal distribution.
        Assert.Equal(-3, classes.Score(0.0013498980316300933), 1e-9);
    }

    // z = x·y is linear in x and in y, so the grid holds it exactly and its contours are hyperbolas.
    [Fact]
    public void A_contour_lies_where_the_field_has_the_value()
    {
        double[] xs = [1, 1.5, 3, 4];
        double[] ys = [2, 3, 7];
        GridField field = new(xs, ys, [.. ys.Select(y => xs.Select(x => x * y).ToArray())]);
        Assert.Equal(2.2 * 4.4, field.At(2.2, 4.4), 12);
        Assert.Equal(1 * 7, field.At(-5, 9), 12);

        List<(double X1, double Y1, double X2, double Y2)> pieces = field.Contour(9, (1, 4), (2, 7));
        Assert.NotEmpty(pieces);
        Assert.All(pieces, p =>
        {
            Assert.Equal(9, p.X1 * p.Y1, 1e-9);
            Assert.Equal(9, p.X2 * p.Y2, 1e-9);
        });

        // From the upper edge, x = 9/7, to the right one, y = 9/4.
        Assert.Equal(9.0 / 7, pieces.Min(p => Math.Min(p.X1, p.X2)), 1e-9);
        Assert.Equal(9.0 / 4, pieces.Min(p => Math.Min(p.Y1, p.Y2)), 1e-9);
        Assert.Empty(field.Contour(100, (1, 4), (2, 7)));
    }

    [Fact]
    public void A_single_value_fills_the_field() => Assert.Equal(3, new GridField([10], [20], [[3]]).At(-1, 99));

    [Fact]
    public void Words_find_the_region_that_holds_them()
    {
        // A disc of radius 80 px holds a box of 100 by 24 px, and not one of 200 by 24 px.
        PixelRect area = new(0, 400, 300, 0);
        bool Disc(float x, float y) => (x - 250) * (x - 250) + (y - 120) * (y - 120) < 80 * 80;
        PixelRect place = Assert.NotNull(RegionLabels.Place(area, 100, 24, Disc));
        Assert.All(new[] { place.Left, place.Right }, x => Assert.All(new[] { place.Top, place.Bottom }, y => Assert.True(Disc(x, y))));
        Assert.Null(RegionLabels.Place(area, 200, 24, Disc));
        Assert.Null(RegionLabels.Place(area, 100, 24, (_, _) => false));
    }

    [Theory]
    [InlineData(-1, 1, 8, "0.1 0.2 0.5 1 2 5 10")]
    [InlineData(-1, 1, 5, "0.1 0.3 1 3 10")]
    [InlineData(-4, 2, 8, "0.0001 0.001 0.01 0.1 1 10 100")]
    [InlineData(-4, 2, 3, "0.0001 0.01 1 100")]
    public void Ticks_of_a_logarithmic_axis_fit_its_room(double low, double high, double most, string expected)
    {
        NumericManual ticks = AxesStyle.LogTicks(low, high, most);
        using Paint paint = Paint.NewDisposablePaint();
        LabelStyle style = new();
        ticks.Regenerate(new(low, high), Edge.Left, new(100), paint, style);
        Tick[] named = [.. ticks.Ticks.Where(t => t.IsMajor)];
        Assert.Equal(expected.Split(' '), named.Select(t => t.Label));
        Assert.All(named, t => Assert.Equal(double.Parse(t.Label, System.Globalization.CultureInfo.InvariantCulture), Math.Pow(10, t.Position), 1e-9));
    }

    [Property]
    public void Stretches_hold_just_the_rows_that_are_numbers(double[] ys)
    {
        double[] xs = [.. ys.Select((_, i) => (double)i)];
        Curve[] parts = [.. Curve.WithGaps("y", new("#000000", 1), xs, ys)];
        Assert.Equal(Enumerable.Range(0, ys.Length).Where(i => double.IsFinite(ys[i])).Select(i => (double)i), parts.SelectMany(p => p.Xs));
        Assert.All(parts, p => Assert.Equal(p.Xs.Length - 1, p.Xs[^1] - p.Xs[0]));
        Assert.True(parts.Skip(1).All(p => p.Name.Length == 0));
    }
}
