using FlowSim.Planning;
using FlowSim.RunSheets;
using UnitsNet;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of a day's plan.</summary>
internal static class PlanSheet
{
    public static RunSheet Of(PlanStory story, Provenance made, UnitChoice units, IFigures figures)
    {
        SheetPage page = new();
        PlanText text = new(page, new Display(units), story);
        text.WriteResult();
        page.Blank();
        text.WriteDetails();
        return page.Sheet("The day: " + story.Name, [.. Watch(story, units)], [.. Drawn(story, units, figures)], made);
    }

    private static IEnumerable<WatchNumber> Watch(PlanStory story, UnitChoice units)
    {
        DayPlan plan = story.Plan;
        if (plan.Finish is not { } finish)
            yield break;
        ClockText clock = new(story.Date, units == UnitChoice.Us);
        yield return new WatchNumber("Begin", clock.Moment(plan.Entries.Min(entry => entry.From)));
        PlanEntry[] gates = [.. plan.Entries.Where(entry => entry.Task == PlanTask.Strain)];
        if (gates.Length > 0)
            yield return new WatchNumber("Gates open", FormattableString.Invariant($"{gates.Length} times"), "somebody beside each all the time");
        yield return new WatchNumber("All done by", clock.Moment(finish), plan.FinishSlow is { } slow ? $"{clock.Moment(slow)} if every step goes slowly" : "not within the hours if every step goes slowly");
    }

    private static IEnumerable<FigureBlock> Drawn(PlanStory story, UnitChoice units, IFigures figures)
    {
        if (story.Plan.Entries.Count == 0)
            yield break;
        yield return new FigureBlock(
            figures.Svg(new Figure.Day(story.Plan, story.Date), units, story.Name),
            "Who and what is at work when",
            "One row for each person and each piece of kit over the hours of the day, with bars for what is done. Every bar is a line of the tables on this page.");
    }
}
