using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using UnitsNet;

namespace FlowSim.Plots;

/// <summary>The figure of the chance that the strainer has run over against the time that nobody stands by, and how long that may last.</summary>
/// <remarks>The axis of chances is logarithmic where the tolerance would be lost on an even one.</remarks>
public static class AbsenceFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 860;

    // Engineering choice: a tolerance below this share of an even axis would be read as zero.
    private const double ReadableShare = 0.1;

    // Engineering choice: the curve is drawn for twice the time in which nearly all has happened that will.
    private const double DoneShare = 0.98;
    private const double TailOfDone = 2;

    private const string BandHex = "#F6D3C0";

    private static readonly Frame s_frame = new(Width, Height, TextPx: 24, RightPx: 138);
    private static readonly LineLook s_tolerance = new(OkabeIto.Black, 2.5f, 14, 4, 3, 4);
    private static readonly LineLook s_fromTheStart = new(OkabeIto.Black, 2f, 6, 4);
    private static readonly LineLook s_worst = new(OkabeIto.Blue, 2.6f);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels; times and chances are the same in both.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(RiskAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        _ = units;
        string title = Title(answer);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet =>
        {
            float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? [] : [subtitle]);
            Stack(answer).Draw(sheet, s_frame, top, Height);
        });
    }

    /// <summary>The panel with its marks.</summary>
    internal static PanelStack Stack(RiskAnswer answer)
    {
        ChancePoint[] points = [.. answer.ChanceOverTime.Where(p => double.IsFinite(p.At.Seconds) && double.IsFinite(p.Low) && double.IsFinite(p.Value) && double.IsFinite(p.High))];
        double endS = EndS(answer, points);
        points = [.. points.Where(p => p.At.Seconds <= endS * (1 + 1e-9))];
        TimeScale time = TimeScale.For(endS);
        double tolerance = 100 * answer.Question.Tolerance.DecimalFractions;
        double highest = points.Select(p => 100 * p.High).Append(tolerance).Max();
        bool logarithmic = tolerance < ReadableShare * highest;

        // Where nothing was seen yet there is no place on a logarithmic axis: the curve comes up from its foot.
        double floor = Math.Floor(Math.Log10(tolerance) - 1);
        double Y(double share) => !logarithmic ? 100 * share : share > 0 ? Math.Max(floor, Math.Log10(100 * share)) : floor;
        double[] xs = [.. points.Select(p => p.At.Seconds / time.SecondsPerUnit)];
        double[] values = [.. points.Select(p => Y(p.Value))];
        (List<TimeMark> marks, List<TimeSpell> spells) = Marks(answer, time, endS);
        return new()
        {
            Panels =
            [
                new()
                {
                    // Beside the small numbers of a logarithmic axis there is no room for its label.
                    Heading = "Chance to have run over, %",
                    YLabel = "",
                    Bands = [.. Band.WithGaps("95 % interval", BandHex, xs, [.. points.Select(p => Y(p.Low))], [.. points.Select(p => Y(p.High))])],
                    Curves = [.. Curve.WithGaps("best estimate", new(OkabeIto.Vermillion, 4.5f), xs, values)],
                    References = [(logarithmic ? Math.Log10(tolerance) : tolerance, "tolerance", s_tolerance)],
                    LogarithmicY = logarithmic,
                    YRange = logarithmic ? (floor, Math.Log10(highest) + 0.06 * (Math.Log10(highest) - floor)) : null,
                },
            ],
            XLimits = (0, endS > 0 ? 1.02 * endS / time.SecondsPerUnit : 1),
            XLabel = "Time from the opening of the gate, " + time.Unit,
            Marks = marks,
            Spells = spells,
            EmptyWords = points.Length == 0 ? "No chances over time were kept." : "",
        };
    }

    /// <summary>Where the axis ends: when hardly more happens, but not before the marks.</summary>
    private static double EndS(RiskAnswer answer, ChancePoint[] points)
    {
        double lastS = points.Select(p => p.At.Seconds).DefaultIfEmpty(0).Max();
        double highest = points.Select(p => p.Value).DefaultIfEmpty(0).Max();
        double doneS = highest > 0 ? points.First(p => p.Value >= DoneShare * highest).At.Seconds : lastS;
        AbsenceAdvice advice = answer.Absence;
        double marksS = Math.Max(advice.FromTheStart?.Seconds ?? 0, (advice.WorstStart?.Seconds ?? 0) + (advice.Longest?.Seconds ?? 0));
        double endS = Math.Max(TailOfDone * doneS, double.IsFinite(marksS) ? 1.1 * marksS : 0);
        return endS > 0 ? Math.Min(lastS, endS) : lastS;
    }

    private static string Title(RiskAnswer answer)
    {
        string tolerance = ChanceText.Percent(answer.Question.Tolerance.DecimalFractions);
        return answer.Absence.Longest switch
        {
            null => "Nobody need stand by for the tolerance you set, " + tolerance,
            { Seconds: >= RiskTitle.ShortestAwayS } longest => "Away for " + RiskTitle.Moment(longest, down: true) + " at most, for the tolerance you set, " + tolerance,
            _ => "Not to be left" + (answer.Absence.WorstStart is { } worst ? " at " + RiskTitle.Moment(worst) : "") + ", for the tolerance you set, " + tolerance,
        };
    }

    /// <summary>When somebody must be back: who left at the opening of the gate, and who left at the worst moment.</summary>
    private static (List<TimeMark> Marks, List<TimeSpell> Spells) Marks(RiskAnswer answer, TimeScale time, double endS)
    {
        List<TimeMark> marks = [];
        List<TimeSpell> spells = [];
        double X(double seconds) => seconds / time.SecondsPerUnit;
        AbsenceAdvice advice = answer.Absence;
        double first = advice.FromTheStart?.Seconds ?? double.NaN;
        double worst = advice.WorstStart?.Seconds ?? double.NaN;
        double longest = advice.Longest?.Seconds ?? double.NaN;
        double back = longest < RiskTitle.ShortestAwayS ? worst : worst + longest;
        bool oneMark = Math.Abs(back - first) < 0.5;
        if (first >= 0 && first <= endS)
            marks.Add(new(X(first), "left at the start" + (oneMark ? ", the worst moment" : "") + ": back by " + time.Moment(first), oneMark ? s_worst : s_fromTheStart));
        if (worst >= 0 && back <= endS)
        {
            if (!oneMark)
                marks.Add(new(X(back), back > worst ? "left at " + time.Moment(worst) + ", the worst moment: back by " + time.Moment(back) : "not to be left at " + time.Moment(worst), s_worst));
            if (back > worst)
                spells.Add(new(X(worst), X(back), TimeSpell.PaleBlue));
        }

        return (marks, spells);
    }
}
