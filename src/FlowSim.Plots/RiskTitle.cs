using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>What was found about the risk, in one line and some sentences.</summary>
internal static class RiskTitle
{
    public static string Of(RiskAnswer answer)
    {
        double tolerance = answer.Question.Tolerance.DecimalFractions;
        ProbabilityEstimate overflow = answer.Overflow;
        string chance = overflow.Value == 0 ? Invariant($"No overflow in {ChanceText.Thousands(overflow.Runs)} runs") : "Chance of an overflow " + ChanceText.Percent(overflow.Value);
        return chance + ", " + ChanceText.Against(overflow, tolerance);
    }

    public static IEnumerable<string> Sentences(RiskAnswer answer, DisplayUnits units)
    {
        yield return "Chance of an overflow: " + ChanceText.Of(answer.Overflow) + ".";
        yield return "Opening: " + Opening(answer.WidestOpening) + " " + AbsenceSentence(answer);
        yield return "Scraping: " + Scraping(answer.Scraping) + " Riding the gate: " + Riding(answer, units);
        if (answer.MeasureNext is { } next)
            yield return MeasureNext(next);
    }

    public static string AbsenceSentence(RiskAnswer answer) =>
        answer.Absence.Longest is { } longest
            ? longest.Seconds > 0 ? "Leave it for " + Moment(longest) + " at most." : "Not to be left at any moment."
            : "Nobody need stand by.";

    public static string MeasureNext(MeasureAdvice next) =>
        "Measure next: " + Words(next.Name) + (next.How.Length > 0 ? ", " + FigureText.Clean(next.How).TrimEnd('.') : "")
        + Invariant($"; known exactly, {100 * next.SpreadLeft:0} % of the spread of {(next.Of == DriverOutput.Overflow ? "the overflow" : "the time to strain")} would be left.");

    /// <summary>Names of inputs in words.</summary>
    public static string Words(string name) => string.Join(" + ", name
        .Split('+', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
        .Select(one => StrainingInputs.All.FirstOrDefault(input => input.Name.Equals(one, StringComparison.OrdinalIgnoreCase))?.Words ?? FigureText.Clean(one)));

    public static string Moment(UnitsNet.Duration duration) => TimeScale.For(duration.Seconds).Moment(duration.Seconds);

    private static string Opening(OpeningAdvice advice) =>
        advice.Opening.DecimalFractions > 0
            ? Invariant($"{advice.Opening.Percent:0.#} % of the bore at most")
                + (advice.Strain?.P50 is { } half ? ", 95 % strained in " + Moment(half) + " by half of the runs" : "")
                + (advice.Strain?.P90 is { } most ? ", " + Moment(most) + " by nine in ten." : ".")
            : "none is within the tolerance.";

    private static string Scraping(ScrapeAdvice advice) => advice switch
    {
        { Needed: false } => "not needed.",
        { Every: { } every } => "every " + Moment(every) + " at least.",
        _ => "no interval tried suffices.",
    };

    private static string Riding(RiskAnswer answer, DisplayUnits units) =>
        answer.Riding.Deepest is { } deepest
            ? Invariant($"pond {UnitScales.Length(units).Of(deepest.Meters):0.0} {UnitScales.Length(units).Unit} deep at most, looking every ") + Moment(answer.Question.LookEvery) + "."
            : "the pond rises too fast for a look every " + Moment(answer.Question.LookEvery) + ".";
}
