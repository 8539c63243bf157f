using FlowSim.OverflowRisk;
using FlowSim.RunSheets;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of a chance of an overflow.</summary>
internal static class RiskSheet
{
    public static RunSheet Of(RiskStory story, Provenance made, UnitChoice units, IFigures figures)
    {
        Display display = new(units);
        SheetPage page = new();
        RiskText text = new(page, display);
        text.WriteOutcome(story);
        page.Blank();
        text.WriteDetails(story);
        return page.Sheet("Chance of an overflow: " + story.Name, [.. Watch(story.Answer, display)], Drawn(story, units, figures), made);
    }

    private static FigureBlock[] Drawn(RiskStory story, UnitChoice units, IFigures figures) =>
    [
        new(
            figures.Svg(new Figure.Pond(story.Answer), units, story.Name),
            "How deep the pond gets",
            "The depth of the pond over time beneath the rim: the middle of all runs, and the bands that half of them and nine in ten of them keep to; below, the share of runs that still go on."),
        new(
            figures.Svg(new Figure.Absence(story.Answer), units, story.Name),
            "When it runs over",
            "The chance that the strainer has run over by each time, with its interval and the tolerance, and how long nobody need look. The chance at the end stands among the numbers of this page."),
        new(
            figures.Svg(new Figure.Drivers(story.Answer), units, story.Name),
            "What drives it",
            "Bars of how much each input has to say in whether it runs over and in the time of straining. The same shares stand in the tables of this page."),
    ];

    private static IEnumerable<WatchNumber> Watch(RiskAnswer answer, Display display)
    {
        string tolerance = $"for a chance of at most {ChanceText.Percent(answer.Question.Tolerance.DecimalFractions)}";
        yield return new WatchNumber("Runs over", ChanceText.Words(answer.Overflow.Value), "as the gate is set");
        yield return answer.WidestOpening.Opening.DecimalFractions > 0
            ? new WatchNumber("Open the gate", $"{Display.Share(answer.WidestOpening.Opening.DecimalFractions)} at most", tolerance)
            : new WatchNumber("Open the gate", "no opening keeps to it", tolerance);
        yield return answer.Absence switch
        {
            { Longest: null } => new WatchNumber("Look away", "the whole run", tolerance),
            { Longest.Seconds: < 1 } => new WatchNumber("Look away", "not at all", "at the opening as set"),
            { Longest: { } longest } => new WatchNumber("Look away", $"{Display.TimeAtMost(longest.Seconds)} at most", "at the opening as set"),
        };
        if (answer.Scraping is { Needed: true, Every: { } every })
            yield return new WatchNumber("Scrape every", Display.TimeAtMost(every.Seconds), "at the opening as set");
        if (answer.Riding.Deepest is { } deepest)
            yield return new WatchNumber("Or ride the pond at", $"{display.Length(deepest.Meters)} at most", $"a look every {Display.RoughTime(answer.Question.LookEvery.Seconds)}; rim {display.Length(answer.Question.Setup.Strainer.Shape.RimHeight.Meters)}");
        TimeSpread times = answer.WidestOpening is { Opening.DecimalFractions: > 0, Strain: { } narrowed } ? narrowed : answer.Strain;
        if (times is { P10: { } early, P50: { } middle, P90: { } late })
            yield return new WatchNumber("95 % strained after", Display.RoughTime(middle.Seconds), $"{Display.RoughTime(early.Seconds)} to {Display.RoughTime(late.Seconds)} in eight of ten{(times == answer.Strain ? string.Empty : ", at that opening")}");
    }
}
