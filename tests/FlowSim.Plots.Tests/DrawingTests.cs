using FlowSim.Plots.Drawing;
using FsCheck.Xunit;

namespace FlowSim.Plots.Tests;

public class DrawingTests
{
    [Fact]
    public void The_font_is_the_embedded_one() => Assert.Equal("DejaVu Sans", FigureFont.Regular.FamilyName);

    [Theory]
    [InlineData(48, "s")]
    [InlineData(600, "min")]
    [InlineData(8 * 3600, "h")]
    [InlineData(30 * 86400, "d")]
    public void The_unit_of_time_follows_the_length(double seconds, string unit) => Assert.Equal(unit, TimeScale.For(seconds).Unit);

    // Arithmetic of sixty and twenty-four.
    [Theory]
    [InlineData(100, 48.3, "48 s")]
    [InlineData(600, 200, "3:20 min")]
    [InlineData(600, 59.7, "1:00 min")]
    [InlineData(600, 59.2, "59 s")]
    [InlineData(36000, 3900, "1:05 h")]
    [InlineData(36000, 180, "3 min")]
    [InlineData(864000, 187200, "2 d 4 h")]
    [InlineData(864000, 172800, "2 d")]
    [InlineData(864000, 50400, "14 h")]
    [InlineData(864000, 180, "3 min")]
    public void Moments_read_as_clocks_do(double lengthS, double momentS, string expected) => Assert.Equal(expected, TimeScale.For(lengthS).Moment(momentS));

    [Theory]
    [InlineData(600, 200, 310, "3:20–5:10 min")]
    [InlineData(600, 0, 310, "0–5:10 min")]
    [InlineData(600, 49, 73, "49 s – 1:13 min")]
    [InlineData(100, 12, 48, "12–48 s")]
    [InlineData(864000, 50400, 187200, "14 h – 2 d 4 h")]
    public void Spans_name_their_unit_once_when_they_share_it(double lengthS, double fromS, double toS, string expected) =>
        Assert.Equal(expected, TimeScale.For(lengthS).Span(fromS, toS));

    // The international pound is 0.45359237 kg and the inch 25.4 mm exactly (from memory; NIST SP 811 lists both); water freezes at 32 °F and boils at 212 °F.
    [Fact]
    public void Us_units_follow_their_definitions()
    {
        Assert.Equal("1.0 lb", UnitScales.Mass(DisplayUnits.UsCustomary, 0.45359237));
        Assert.Equal(1, UnitScales.Length(DisplayUnits.UsCustomary).Of(0.0254), 12);
        Assert.Equal(1, UnitScales.MassFlow(DisplayUnits.UsCustomary, 1).Of(0.45359237 / 60), 12);
        Assert.Equal(32, UnitScales.Temperature(DisplayUnits.UsCustomary, 0), 12);
        Assert.Equal(212, UnitScales.Temperature(DisplayUnits.UsCustomary, 100), 12);
    }

    [Fact]
    public void A_slow_flow_is_drawn_per_hour()
    {
        Scale flow = UnitScales.MassFlow(DisplayUnits.Metric, 0.001);
        Assert.Equal("kg/h", flow.Unit);
        Assert.Equal(3.6, flow.Of(0.001), 12);
    }

    [Theory]
    [InlineData("a\u0000b", "a b")]
    [InlineData("  a \r\n\t b  ", "a b")]
    [InlineData("a\u202Eb", "ab")]
    [InlineData("<b>&", "<b>&")]
    [InlineData(null, "")]
    public void Cleaning_leaves_one_line_of_visible_characters(string? text, string expected) => Assert.Equal(expected, FigureText.Clean(text));

    [Property]
    public bool Cleaned_text_holds_no_control_characters_and_no_half_pairs(string? text)
    {
        string clean = FigureText.Clean(text);
        return !clean.Any(char.IsControl) && System.Text.Encoding.UTF8.GetString(System.Text.Encoding.UTF8.GetBytes(clean)) == clean;
    }

    [Property]
    public bool Words_of_marks_never_meet(byte[]? places, byte[]? lengths)
    {
        int count = Math.Min(Math.Min(places?.Length ?? 0, lengths?.Length ?? 0), 7);
        float[] xs = [.. Enumerable.Range(0, count).Select(i => 100 + places![i] * 4f)];
        float[] widths = [.. Enumerable.Range(0, count).Select(i => 60 + lengths![i] * 1.5f)];
        MarkStrip.Placed[] placed = MarkStrip.Place(xs, widths, 20, 1180);
        for (int i = 0; i < count; i++)
        {
            if (placed[i].Left < 20 || placed[i].Right > 1180.01f)
                return false;
            for (int j = 0; j < i; j++)
            {
                if (placed[i].Row == placed[j].Row && placed[i].Left < placed[j].Right && placed[j].Left < placed[i].Right)
                    return false;
            }
        }

        return true;
    }

    [Fact]
    public void A_thinned_curve_keeps_its_ends_its_peak_and_its_jumps()
    {
        double[] xs = [.. Enumerable.Range(0, 100_000).Select(i => (double)i)];
        double[] ys = [.. xs.Select(x => x == 43_210 ? 7 : x < 60_000 ? 1.0 : 2.0)];
        Curve curve = Curve.Of("", new LineLook("#000000", 1), xs, 1, ys, 1);

        Assert.InRange(curve.Xs.Length, 2, 8000);
        Assert.Equal(0, curve.Xs[0]);
        Assert.Equal(99_999, curve.Xs[^1]);
        Assert.Equal(7, curve.Highest);
        Assert.Equal(43_210, curve.Xs[Array.IndexOf(curve.Ys, 7)]);
        Assert.Equal(curve.Xs.Order(), curve.Xs);
    }
}
