using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of the pond's depth against time over all runs: median, half of the runs, nine in ten, and the rim.</summary>
/// <remarks>Depths are quantiles over the runs that are still going on; the share of these is drawn below. It ends where few are left.</remarks>
public static class PondFanFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1000;

    // Engineering choice: quantiles over the last few runs say little and would take half of the axis.
    private const double FewestGoingOn = 0.05;

    private const string NineInTenHex = "#CDEBE0";
    private const string HalfHex = "#86CDB3";

    private static readonly Frame s_frame = new(Width, Height, TextPx: 24, RightPx: 100);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(RiskAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string title = RiskTitle.Of(answer);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet =>
        {
            float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? [] : [subtitle]);
            Stack(answer, units).Draw(sheet, s_frame, top, Height);
        });
    }

    /// <summary>The panels: depth, and the share of the runs still going on where not all are.</summary>
    internal static PanelStack Stack(RiskAnswer answer, DisplayUnits units)
    {
        PondFan fan = answer.Fan;
        int rows = RowsDrawn(fan);
        double endS = rows == 0 ? 0 : fan.Times[rows - 1].Seconds;
        TimeScale time = TimeScale.For(endS);
        Scale length = UnitScales.Length(units);
        double[] xs = [.. fan.Times.Take(rows).Select(t => t.Seconds / time.SecondsPerUnit)];
        double[] Depths(IReadOnlyList<double> quantile) => [.. quantile.Take(rows).Select(length.Of)];

        List<Panel> panels =
        [
            new()
            {
                Heading = "Pond",
                YLabel = "Depth of the pond, " + length.Unit,
                Bands =
                [
                    .. Band.WithGaps("nine runs in ten", NineInTenHex, xs, Depths(fan.P05), Depths(fan.P95)),
                    .. Band.WithGaps("half of the runs", HalfHex, xs, Depths(fan.P25), Depths(fan.P75)),
                ],
                Curves = [.. Curve.WithGaps("median", new("#00543D", 4.5f), xs, Depths(fan.P50))],
                References = [(length.Of(fan.Rim.Meters), "rim", new(OkabeIto.Black, 2.5f))],
                Weight = 1,
            },
        ];
        if (fan.GoingOn.Take(rows).Any(g => g < 0.995))
        {
            panels.Add(new()
            {
                Heading = Invariant($"Runs still going on{(rows < fan.Times.Count ? Invariant($" (drawn until {100 * FewestGoingOn:0} % are left)") : "")}"),
                YLabel = "Share, %",
                Curves = [.. Curve.WithGaps("", new(OkabeIto.Black, 3.5f), xs, [.. fan.GoingOn.Take(rows).Select(g => 100 * g)])],
                YRange = (-6, 120),
                Weight = 0.36,
            });
        }

        return new()
        {
            Panels = panels,
            XLimits = (0, endS > 0 ? 1.02 * endS / time.SecondsPerUnit : 1),
            XLabel = "Time from the opening of the gate, " + time.Unit,
            EmptyWords = rows == 0 ? "No depths were kept." : "",
        };
    }

    private static int RowsDrawn(PondFan fan)
    {
        int rows = new[] { fan.Times.Count, fan.P05.Count, fan.P25.Count, fan.P50.Count, fan.P75.Count, fan.P95.Count, fan.GoingOn.Count }.Min();
        while (rows > 0 && !(fan.GoingOn[rows - 1] >= FewestGoingOn && double.IsFinite(fan.P50[rows - 1])))
            rows--;
        return rows;
    }
}
