using FlowSim.Plots.Drawing;
using FlowSim.Setpoints;
using ScottPlot;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>The figure of a search for the setpoint: damage against time along the setpoints, and what each setpoint takes.</summary>
/// <remarks>Setpoints that break a limit are shown as such.</remarks>
public static class SetpointFigure
{
    /// <summary>Width, px.</summary>
    public const int Width = 1000;

    /// <summary>Height, px.</summary>
    public const int Height = 1800;

    // Engineering choice: a limit further away than this would flatten the rest to a line.
    private const double LimitWithinGains = 4;

    // Setpoints are named where there is room: first those of every fifth degree.
    private const double NamedEveryC = 5;

    private const string WarmHex = "#E3B55F";
    private const string StrainHex = "#2F6F9F";
    private const string BandHex = "#DDDDDD";
    private const string BarredHex = "#8C3A00";

    private static readonly Frame s_frame = new(Width, Height, TextPx: 24, RightPx: 122);
    private static readonly LineLook s_binding = new(OkabeIto.Vermillion, 4f, 14, 4, 3, 4);
    private static readonly LineLook s_other = new("#555555", 1.8f, 14, 4, 3, 4);
    private static readonly LineLook s_along = new("#555555", 2f);

    /// <summary>The figure.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="units">Units of the labels.</param>
    /// <param name="name">What it is called, shown under the title; control characters are dropped and a long name is cut.</param>
    public static DrawnFigure Of(SetpointAnswer answer, DisplayUnits units = DisplayUnits.Metric, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        TimeScale time = TimeScale.For(Planned(answer).Select(p => p.Plan!.Total.Seconds).Append(answer.Choice?.Total.Seconds ?? 0).Max());
        string title = SetpointTitle.Of(answer, units, time);
        string subtitle = FigureText.Clean(name);
        return FigureSheet.Of(Width, Height, FigureText.Whole(title, subtitle), sheet => Draw(sheet, answer, units, time, title, subtitle));
    }

    private static IEnumerable<CurvePoint> Planned(SetpointAnswer answer) =>
        answer.Curve.Where(p => p.Plan is { } plan && double.IsFinite(plan.Total.Seconds) && double.IsFinite(plan.Damage.HmfGain.MilligramsPerKilogram));

    private static void Draw(FigureSheet sheet, SetpointAnswer answer, DisplayUnits units, TimeScale time, string title, string subtitle)
    {
        string[] under = [.. SetpointTitle.Sentences(answer, units, time).SelectMany(s => SourceNotes.Wrap(s, sheet, s_frame.TextPx, s_frame.Widest))];
        float top = s_frame.DrawHeadings(sheet, title, subtitle.Length == 0 ? under : [subtitle, .. under]);
        string empty = Planned(answer).Any() ? "" : answer.Curve.Count == 0 ? "No setpoint was tried." : "The honey never gets warm enough to strain.";
        float middle = top + 0.41f * (Height - top);
        TradeOff(answer, units, time, empty).Draw(sheet, s_frame, top, middle);
        AlongSetpoints(answer, units, time, empty).Draw(sheet, s_frame, middle + 14, Height);
    }

    private static PanelStack TradeOff(SetpointAnswer answer, DisplayUnits units, TimeScale time, string empty)
    {
        CurvePoint[] curve = [.. Planned(answer)];
        double Time(SetpointPlan plan) => plan.Total.Seconds / time.SecondsPerUnit;
        SetpointPlan[] plans = [.. curve.Select(p => p.Plan!).Concat(new[] { answer.Choice, answer.RunnerUp, answer.NearestMiss?.Plan }.OfType<SetpointPlan>())];
        (double first, double last) = Range(plans.Select(Time), 0.02);
        double highest = plans.Select(p => p.Damage.HmfGainHigh.MilligramsPerKilogram).DefaultIfEmpty(0).Max();
        double? most = answer.Question.Limits.Heat.HmfAtMost?.MilligramsPerKilogram - (answer.Question.Warming.Before?.Hmf.MilligramsPerKilogram ?? 0);
        bool hmfBinds = BindsOrMisses(answer, PlanLimit.Hmf);
        bool mostDrawn = most is { } headroom && (hmfBinds || headroom <= LimitWithinGains * highest);
        Scale scale = UnitScales.Hmf(Math.Max(highest, mostDrawn ? most!.Value : 0));

        // A honey beyond the limit from the start has its limit below the axis, where it would only flatten the rest.
        string mostWords = most < 0 ? "limit < 0" : Invariant($"limit {scale.Of(most ?? 0):0.#}");
        double Of(MassFraction gain) => scale.Of(gain.MilligramsPerKilogram);
        double Gain(SetpointPlan plan) => Of(plan.Damage.HmfGain);
        LabelledPoint Point(CurvePoint p) => new(Time(p.Plan!), Gain(p.Plan!), Marker(p), Hex(p), 13, Invariant($"{UnitScales.Temperature(units, p.Setpoint.DegreesCelsius):0.#}"), Math.Abs(Math.IEEERemainder(p.Setpoint.DegreesCelsius, NamedEveryC)) < 0.01);

        List<TimeMark> marks = [];
        double longest = answer.Question.Limits.Longest.Seconds / time.SecondsPerUnit;
        bool timeBinds = BindsOrMisses(answer, PlanLimit.Time);
        if (timeBinds || (longest >= first && longest <= last))
        {
            marks.Add(new(longest, "longest time " + time.Moment(answer.Question.Limits.Longest.Seconds), timeBinds ? s_binding : s_other));
            (first, last) = (Math.Min(first, longest - 0.03 * (last - first)), Math.Max(last, longest + 0.03 * (last - first)));
        }

        return new()
        {
            Panels =
            [
                new()
                {
                    Heading = "Damage and time",
                    YLabel = "Gain of HMF, " + scale.Unit,
                    Curves = [Curve.Of("", s_along, [.. curve.Select(p => Time(p.Plan!))], 1, [.. curve.Select(p => Gain(p.Plan!))], 1)],
                    Bands = [Band.Of("band of HMF", BandHex, [.. curve.Select(p => Time(p.Plan!))], 1, [.. curve.Select(p => Of(p.Plan!.Damage.HmfGainLow))], [.. curve.Select(p => Of(p.Plan!.Damage.HmfGainHigh))], g => g)],
                    Whiskers = [.. Special(answer, Time, Gain).Select(s => new Whisker(s.Point.X, Of(s.Plan.Damage.HmfGainLow), s.Point.Y, Of(s.Plan.Damage.HmfGainHigh), MarkerShape.None, OkabeIto.Blue))],
                    References = mostDrawn ? [(scale.Of(Math.Max(0, most!.Value)), mostWords, hmfBinds ? s_binding : s_other)] : [],
                    Points = [.. curve.Select(Point), .. Special(answer, Time, Gain).Select(s => s.Point)],
                    ExtraLegend = [.. PointLegend(answer, units)],
                },
            ],
            XLimits = (first, last),
            XLabel = Invariant($"Time for warming and straining, {time.Unit} (numbers: setpoints in {UnitScales.TemperatureUnit(units)})"),
            Marks = marks,
            EmptyWords = empty,
        };
    }

    private static PanelStack AlongSetpoints(SetpointAnswer answer, DisplayUnits units, TimeScale time, string empty)
    {
        CurvePoint[] curve = [.. Planned(answer)];
        double Setpoint(Temperature t) => UnitScales.Temperature(units, t.DegreesCelsius);
        double[] xs = [.. curve.Select(p => Setpoint(p.Setpoint))];
        double[] warmS = [.. curve.Select(p => p.Plan!.WarmTime.Seconds)];
        double[] totalS = [.. curve.Select(p => p.Plan!.Total.Seconds)];
        double[] zeros = [.. xs.Select(_ => 0.0)];
        double PerUnit(double s) => s / time.SecondsPerUnit;
        double Total(SetpointPlan plan) => PerUnit(plan.Total.Seconds);

        List<LegendEntry> extra = [];
        TimeSpell[] barred = [.. Barred(answer, units)];
        if (barred.Length > 0)
            extra.Add(new("breaks a limit", new(TimeSpell.PaleVermillion, 20)));
        CurvePoint[] cold = [.. answer.Curve.Where(p => p.Plan is null)];
        if (cold.Length > 0 && empty.Length == 0)
            extra.Add(new("never warm enough", null, MarkerShape.Eks));

        SetpointLimits limits = answer.Question.Limits;
        bool timeBinds = BindsOrMisses(answer, PlanLimit.Time);
        double longest = PerUnit(limits.Longest.Seconds);
        double slowest = totalS.Select(PerUnit).DefaultIfEmpty(0).Max();
        Panel times = new()
        {
            Heading = "Time",
            YLabel = "Time, " + time.Unit,
            Bands =
            [
                Band.Of("warming", WarmHex, xs, 1, zeros, warmS, PerUnit),
                Band.Of("straining", StrainHex, xs, 1, warmS, totalS, PerUnit),
            ],
            Curves = [Curve.Of("together", new(OkabeIto.Black, 3f), xs, 1, totalS, PerUnit)],
            References = timeBinds || longest <= slowest ? [(longest, "longest", timeBinds ? s_binding : s_other)] : [],
            Points = [.. cold.Select(p => new LabelledPoint(Setpoint(p.Setpoint), 0, MarkerShape.Eks, OkabeIto.Black, 13)), .. Special(answer, p => Setpoint(p.Setpoint), Total).Select(s => s.Point)],
            ExtraLegend = extra,
        };

        List<Panel> panels = [times, Temperatures(answer, curve, xs, units)];
        if (BindsOrMisses(answer, PlanLimit.Diastase))
            panels.Add(Diastase(answer, curve, xs));
        if (BindsOrMisses(answer, PlanLimit.StrainingTime) && limits.LongestStraining is { } longestStraining)
        {
            double[] strainS = [.. curve.Select(p => p.Plan!.StrainTime.Seconds)];
            TimeScale strainTime = TimeScale.For(strainS.Append(longestStraining.Seconds).Max());
            panels.Add(new()
            {
                Heading = "Straining alone",
                YLabel = "Time, " + strainTime.Unit,
                Curves = [Curve.Of("straining", new("#20669A", 3.5f), xs, 1, strainS, 1 / strainTime.SecondsPerUnit)],
                References = [(longestStraining.Seconds / strainTime.SecondsPerUnit, "longest", s_binding)],
            });
        }

        if (BindsOrMisses(answer, PlanLimit.Overflow))
        {
            panels.Add(new()
            {
                Heading = "Gate",
                YLabel = "Opening, %",
                Curves = [Curve.Of("widest that keeps the strainer from running over", new(OkabeIto.Black, 3.5f), xs, 1, [.. curve.Select(p => p.Plan!.Opening.Percent)], 1)],
            });
        }

        (double first, double last) = Range(answer.Curve.Select(p => Setpoint(p.Setpoint)).Concat(answer.Choice is { } c ? [Setpoint(c.Setpoint)] : []), 0.01);
        return new()
        {
            Panels = panels,
            XLimits = (first, last),
            XLabel = "Setpoint, " + UnitScales.TemperatureUnit(units),
            Spells = barred,
            Marks = [.. SetpointMarks(answer, units, first, last)],
            EmptyWords = empty,
        };
    }

    private static Panel Temperatures(SetpointAnswer answer, CurvePoint[] curve, double[] xs, DisplayUnits units)
    {
        SetpointLimits limits = answer.Question.Limits;
        Curve Of(string name, LineLook look, Func<SetpointPlan, Temperature> pick) =>
            Curve.Of(name, look, xs, 1, [.. curve.Select(p => UnitScales.Temperature(units, pick(p.Plan!).DegreesCelsius))], 1);

        (PlanLimit Limit, string Name, Temperature? At)[] levels =
        [
            (PlanLimit.Ceiling, "ceiling", limits.Ceiling),
            (PlanLimit.Wall, "wall", limits.WallLimit),
            (PlanLimit.WaxAtStrainer, "wax", limits.WarmestAtStrainer),
            (PlanLimit.Burn, "hands", limits.WarmestForHands),
        ];

        // The one in the way is drawn last, over another of the same temperature.
        (double, string, LineLook)[] lines = [.. levels
            .Where(l => l.At is not null)
            .Select(l => (UnitScales.Temperature(units, l.At!.Value.DegreesCelsius), l.Name, BindsOrMisses(answer, l.Limit) ? s_binding : s_other))
            .OrderBy(l => ReferenceEquals(l.Item3, s_binding))];
        return new()
        {
            Heading = "Temperatures",
            YLabel = "Temperature, " + UnitScales.TemperatureUnit(units),
            Curves =
            [
                Of("hottest wall", new(OkabeIto.Vermillion, 3.5f, 12, 5, 3, 5), p => p.HottestWall),
                Of("hottest honey", new(OkabeIto.ReddishPurple, 3f, 5, 3), p => p.HottestHoney),
                Of("strained at", new(OkabeIto.BluishGreen, 4f), p => p.StrainAt),
            ],
            References = lines,
            ExtraLegend = lines.Any(l => ReferenceEquals(l.Item3, s_binding)) ? [new("in the way", s_binding)] : [],
            LeastSpan = UnitScales.LeastTemperatureSpan(units),
        };
    }

    private static Panel Diastase(SetpointAnswer answer, CurvePoint[] curve, double[] xs)
    {
        double number = answer.Question.Warming.Before?.DiastaseNumber ?? 100;
        bool known = answer.Question.Warming.Before?.DiastaseNumber is not null;
        return new()
        {
            Heading = known ? "Diastase number" : "Diastase left",
            YLabel = known ? "Number" : "Left, %",
            Bands = [Band.Of("spread between honeys", "#C9E2F2", xs, 1, [.. curve.Select(p => p.Plan!.Damage.DiastaseLeftLow.DecimalFractions)], [.. curve.Select(p => p.Plan!.Damage.DiastaseLeftHigh.DecimalFractions)], d => number * d)],
            Curves = [Curve.Of("best estimate", new(OkabeIto.Blue, 4f), xs, 1, [.. curve.Select(p => p.Plan!.Damage.DiastaseLeft.DecimalFractions)], number)],
            References = known && answer.Question.Limits.Heat.DiastaseAtLeast is { } least ? [(least, Invariant($"limit {least:0.#}"), s_binding)] : [],
        };
    }

    private static IEnumerable<TimeMark> SetpointMarks(SetpointAnswer answer, DisplayUnits units, double first, double last)
    {
        TimeMark At(Temperature setpoint, string words, LineLook look) =>
            new(UnitScales.Temperature(units, setpoint.DegreesCelsius), words + " " + UnitScales.TemperatureText(units, setpoint), look);
        if (answer.Choice is { } choice)
            yield return At(choice.Setpoint, "choice", new(OkabeIto.Blue, 2.4f));
        if (answer.RunnerUp is { } runnerUp)
            yield return At(runnerUp.Setpoint, "runner-up", new(OkabeIto.Blue, 1.8f, 9, 5));
        if (answer.NearestMiss is { } miss && answer.Choice is null)
            yield return At(miss.Plan.Setpoint, "nearest miss", new(OkabeIto.Blue, 1.8f, 3, 4));
        double ceiling = UnitScales.Temperature(units, answer.Question.Limits.Ceiling.DegreesCelsius);
        if (ceiling >= first && ceiling <= last)
            yield return At(answer.Question.Limits.Ceiling, "ceiling", BindsOrMisses(answer, PlanLimit.Ceiling) ? s_binding : s_other);
    }

    /// <summary>Stretches of setpoints that break a limit, each reaching halfway to its neighbours.</summary>
    private static IEnumerable<TimeSpell> Barred(SetpointAnswer answer, DisplayUnits units)
    {
        CurvePoint[] curve = [.. answer.Curve];
        double[] xs = [.. curve.Select(p => UnitScales.Temperature(units, p.Setpoint.DegreesCelsius))];
        for (int i = 0; i < curve.Length; i++)
        {
            if (curve[i].Allowed)
                continue;

            int end = i;
            while (end + 1 < curve.Length && !curve[end + 1].Allowed)
                end++;
            double from = i > 0 ? (xs[i - 1] + xs[i]) / 2 : xs[i] - HalfStep(xs, i);
            double to = end + 1 < xs.Length ? (xs[end] + xs[end + 1]) / 2 : xs[end] + HalfStep(xs, end - 1);
            yield return new(from, to);
            i = end;
        }
    }

    private static double HalfStep(double[] xs, int i) => i >= 0 && i + 1 < xs.Length ? (xs[i + 1] - xs[i]) / 2 : 0.5;

    /// <summary>The plans that have a name, with their points.</summary>
    private static IEnumerable<(SetpointPlan Plan, string Name, LabelledPoint Point)> Special(SetpointAnswer answer, Func<SetpointPlan, double> x, Func<SetpointPlan, double> y)
    {
        (SetpointPlan? Plan, string Name, MarkerShape Marker)[] named =
        [
            (answer.RunnerUp, "runner-up", MarkerShape.FilledDiamond),
            (answer.Choice is null ? answer.NearestMiss?.Plan : null, "nearest miss", MarkerShape.FilledTriangleUp),
            (answer.Choice, "choice", MarkerShape.FilledSquare),
        ];
        foreach ((SetpointPlan? plan, string name, MarkerShape marker) in named)
        {
            if (plan is not null)
                yield return (plan, name, new(x(plan), y(plan), marker, OkabeIto.Blue, 20));
        }
    }

    private static IEnumerable<LegendEntry> PointLegend(SetpointAnswer answer, DisplayUnits units)
    {
        foreach ((SetpointPlan plan, string name, LabelledPoint point) in Special(answer, _ => 0, _ => 0).Reverse())
            yield return new(name + " " + UnitScales.TemperatureText(units, plan.Setpoint), null, point.Marker, point.Hex);

        CurvePoint[] curve = [.. Planned(answer)];
        if (curve.Any(p => p.Allowed))
            yield return new("within the limits", null, MarkerShape.FilledCircle);
        if (curve.Any(p => !p.Allowed))
            yield return new("breaks a limit", null, MarkerShape.OpenCircle, BarredHex);
    }

    private static MarkerShape Marker(CurvePoint point) => point.Allowed ? MarkerShape.FilledCircle : MarkerShape.OpenCircle;

    private static string Hex(CurvePoint point) => point.Allowed ? OkabeIto.Black : BarredHex;

    private static bool BindsOrMisses(SetpointAnswer answer, PlanLimit limit) =>
        answer.BindingLimit == limit || (answer.NearestMiss?.Misses.Any(m => m.Limit == limit) ?? false);

    /// <summary>From the least to the greatest, with some room on both sides.</summary>
    private static (double First, double Last) Range(IEnumerable<double> values, double leastShare)
    {
        double[] finite = [.. values.Where(double.IsFinite)];
        if (finite.Length == 0)
            return (0, 1);

        double least = finite.Min();
        double greatest = finite.Max();
        double span = Math.Max(greatest - least, Math.Max(leastShare * Math.Abs(greatest), 1e-3));
        return (least - 0.07 * span - (greatest > least ? 0 : span / 2), greatest + 0.07 * span + (greatest > least ? 0 : span / 2));
    }
}
