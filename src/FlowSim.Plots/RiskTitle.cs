using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>What was found about the risk, in one line and some sentences.</summary>
internal static class RiskTitle
{
    /// <summary>Nobody can be away for less, s.</summary>
    public const double ShortestAwayS = 1;

    private const double ExactBelowS = 600;
    private const double WholeMinutesBelowS = 3 * 3600;

    public static string Of(RiskAnswer answer)
    {
        double tolerance = answer.Question.Tolerance.DecimalFractions;
        ProbabilityEstimate overflow = answer.Overflow;
        string chance = overflow.Value == 0 ? Invariant($"No overflow in {ChanceText.Thousands(overflow.Runs)} runs") : "Chance of an overflow " + ChanceText.Percent(overflow.Value);
        return chance + ", " + ChanceText.Against(overflow, tolerance);
    }

    public static IEnumerable<string> Sentences(RiskAnswer answer, DisplayUnits units)
    {
        yield return "Overflow: " + ChanceText.Of(answer.Overflow) + ".";
        yield return "Opening: " + Opening(answer.WidestOpening);
        yield return "Away: " + Away(answer.Absence);
        yield return "Scraping: " + Scraping(answer.Scraping);
        yield return "Riding the gate: " + Riding(answer, units);
        if (answer.MeasureNext is { } next)
            yield return MeasureNext(next);
    }

    public static string MeasureNext(MeasureAdvice next) =>
        "Measure next: " + Words(next.Name) + (next.How.Length > 0 ? ", " + FigureText.Clean(next.How).TrimEnd('.') : "")
        + Invariant($"; if it were known exactly, {100 * next.SpreadLeft:0} % of the spread of {(next.Of == DriverOutput.Overflow ? "the overflow" : "the time to strain")} would be left.");

    /// <summary>Words as a sentence: a capital first and a full stop last.</summary>
    public static string Sentence(string words)
    {
        string clean = FigureText.Clean(words);
        return clean.Length == 0 ? "" : char.ToUpperInvariant(clean[0]) + clean[1..] + (clean[^1] is '.' or '…' ? "" : ".");
    }

    /// <summary>Names of inputs in words.</summary>
    public static string Words(string name) => string.Join(" + ", name
        .Split('+', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
        .Select(one => StrainingInputs.All.FirstOrDefault(input => input.Name.Equals(one, StringComparison.OrdinalIgnoreCase))?.Words ?? FigureText.Clean(one)));

    /// <summary>A length of time with the figures that count: <c>48 s</c>, <c>4:30 min</c>, <c>52 min</c>, <c>3:20 h</c>.</summary>
    /// <param name="duration">The time.</param>
    /// <param name="down">Whether it is a longest time, to be rounded down.</param>
    public static string Moment(Duration duration, bool down = false)
    {
        double seconds = duration.Seconds;
        double step = seconds < 10 ? 0.1 : seconds < ExactBelowS ? 1 : 60;
        double rounded = step * (down ? Math.Floor(seconds / step + 1e-9) : Math.Round(seconds / step));
        if (rounded < 60)
            return new TimeScale("s", 1).Moment(rounded);

        TimeScale scale = rounded < WholeMinutesBelowS ? new("min", 60) : TimeScale.For(rounded);
        string words = scale.Moment(rounded);
        return words.Replace(":00 ", " ", StringComparison.Ordinal);
    }

    private static string Away(AbsenceAdvice advice) => advice switch
    {
        { Longest: null } => "nobody need stand by.",
        { Longest: { Seconds: >= ShortestAwayS } longest } => "for " + Moment(longest, down: true) + " at most, at any moment"
            + (advice.FromTheStart is { } first && first > longest ? "; " + Moment(first, down: true) + " from the start." : "."),
        { FromTheStart: { Seconds: >= ShortestAwayS } first, WorstStart: { } worst } =>
            "for " + Moment(first, down: true) + " from the start at most; at " + Moment(worst) + " not at all.",
        _ => "not at all.",
    };

    private static string Opening(OpeningAdvice advice) =>
        advice.Opening.DecimalFractions > 0
            ? Invariant($"{advice.Opening.Percent:0.#} % of the bore at most, left alone")
                + (advice.Strain?.P50 is { } half ? ", 95 % strained in " + Moment(half) + " by half of the runs" : "")
                + (advice.Strain?.P90 is { } most ? ", " + Moment(most) + " by nine in ten." : ".")
            : "none is within the tolerance.";

    private static string Scraping(ScrapeAdvice advice) => advice switch
    {
        { Needed: false } => "not needed.",
        { Every: { } every } => "at least every " + Moment(every, down: true) + ".",
        _ => "no interval tried suffices.",
    };

    private static string Riding(RiskAnswer answer, DisplayUnits units) =>
        answer.Riding.Deepest is { } deepest
            ? Invariant($"pond {Math.Floor(10 * UnitScales.Length(units).Of(deepest.Meters) + 1e-6) / 10:0.0} {UnitScales.Length(units).Unit} deep at most, looking every ") + Moment(answer.Question.LookEvery) + "."
            : "the pond rises too fast for a look every " + Moment(answer.Question.LookEvery) + ".";
}
