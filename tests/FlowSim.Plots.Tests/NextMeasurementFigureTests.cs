using FlowSim.Calibration;
using FlowSim.Plots.Drawing;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class NextMeasurementFigureTests
{
    [Fact]
    public void The_best_is_in_the_title_and_each_says_how()
    {
        string[] texts = Sheet.Texts(NextMeasurementFigure.Of(new InventedCalibration().Answer()).ToSvg());
        Assert.Equal("Measure next: viscosity of this honey", texts[0]);
        string[] expected = ["Viscosity of this honey", "Time a 10 mm steel ball through a tall jar at its temperature, to 5 %.", "34 %", "49 %", "of the time to strain", "of the overflow", "Left of the spread now, %"];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        string words = string.Join(' ', texts);
        Assert.Contains("95 % strained: 48 min (eight in ten 42 to 55 min); before the runs: 55 min (eight in ten 31 to 99 min).", words, StringComparison.Ordinal);
        Assert.Contains("Chance of an overflow: 4.2 %; before the runs: 31 %.", words, StringComparison.Ordinal);
    }

    [Fact]
    public void Titles_do_not_advise_what_would_tell_nothing()
    {
        Assert.Equal("No measurement tried would tell much more", Title(new() { BestLeft = 0.97 }));
        Assert.Equal("No next measurement was weighed", Title(new() { Next = 0 }));
        Assert.Equal("No fit was found: nothing is to be kept", Title(new() { Status = CalibrationStatus.NotFound }));

        static string Title(InventedCalibration invented) => Sheet.Texts(NextMeasurementFigure.Of(invented.Answer()).ToSvg())[0];
    }

    [Fact]
    public void A_longer_bar_leaves_more()
    {
        CalibrationAnswer answer = new InventedCalibration().Answer();
        int Blue(double left)
        {
            using SKBitmap picture = SKBitmap.Decode(NextMeasurementFigure.Of(answer with { Next = [new("a", "b", left, null)] }).ToPng());
            return Sheet.Count(picture, OkabeIto.Blue);
        }

        double step = Blue(0.4) - Blue(0.2);
        Assert.True(step > 1000);
        Assert.Equal(1, (Blue(0.8) - Blue(0.4)) / (2 * step), 0.03);
    }

    [Fact]
    public void An_overflow_that_is_certain_has_no_bars()
    {
        string[] certain = Sheet.Texts(NextMeasurementFigure.Of(new InventedCalibration { OverflowKnown = true }.Answer()).ToSvg());
        Assert.DoesNotContain("of the overflow", certain, StringComparer.Ordinal);
        CalibrationAnswer answer = new InventedCalibration().Answer();
        string[] mixed = Sheet.Texts(NextMeasurementFigure.Of(answer with { Next = [.. answer.Next.Select((n, i) => i == 1 ? n with { OverflowLeft = null } : n)] }).ToSvg());
        Assert.Single(mixed, t => t == "overflow certain already");
    }

    [Fact]
    public void Measurements_that_find_no_room_are_counted()
    {
        // Ten, of which seven are drawn; the eighth leaves 0.02 + 7 × 0.13.
        string[] texts = Sheet.Texts(NextMeasurementFigure.Of(new InventedCalibration { Next = 10, BestLeft = 0.02 }.Answer()).ToSvg());
        Assert.Contains("and 3 more that leave 93 % of the time's or more", texts, StringComparer.Ordinal);

        // Of five, the last three leave all of it: 0.74 + 2 × 0.13 is 1.
        string[] some = Sheet.Texts(NextMeasurementFigure.Of(new InventedCalibration { BestLeft = 0.74, OverflowKnown = true }.Answer()).ToSvg());
        Assert.Contains("and 3 more that leave it all but as it is", some, StringComparer.Ordinal);
        Assert.DoesNotContain("Temperature of the honey", some, StringComparer.Ordinal);
    }

    [Fact]
    public void Times_that_are_never_reached_are_told()
    {
        CalibrationAnswer answer = new InventedCalibration().Answer();
        string Words(FlowSim.OverflowRisk.TimeSpread after) =>
            string.Join(' ', Sheet.Texts(NextMeasurementFigure.Of(answer with { Prediction = answer.Prediction with { StrainAfter = after, OverflowAfter = 0 } }).ToSvg()));
        Assert.Contains("95 % strained: mostly never; before", Words(new(null, null, null, 0.98)), StringComparison.Ordinal);
        Assert.Contains("95 % strained: 50 min in half of the runs, never in 20 %; before", Words(new(Duration.FromMinutes(40), Duration.FromMinutes(50), null, 0.2)), StringComparison.Ordinal);
        Assert.Contains("Chance of an overflow: none of the draws; before", Words(new(null, null, null, 1)), StringComparison.Ordinal);
        Assert.Contains("(eight in ten 50 s to 2 min)", Words(new(Duration.FromSeconds(50), Duration.FromSeconds(70), Duration.FromMinutes(2), 0)), StringComparison.Ordinal);
        Assert.Contains("(eight in ten 70 h to 4 d 4 h)", Words(new(Duration.FromHours(70), Duration.FromHours(80), Duration.FromHours(100), 0)), StringComparison.Ordinal);
    }
}
