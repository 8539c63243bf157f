using FlowSim.Bottling;
using FlowSim.RunSheets;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of a filling.</summary>
internal static class FillSheet
{
    public static RunSheet Of(FillingStory story, Provenance made, UnitChoice units, IFigures figures)
    {
        Display display = new(units);
        SheetPage page = new();
        FillingText text = new(page, display);
        text.WriteOutcome(story);
        page.Blank();
        text.WriteDetails(story);
        FigureBlock figure = new(
            figures.Svg(new Figure.Filling(story.Band), units, story.Name),
            "The filling jar by jar",
            "Time to fill each jar, between thinner and thicker honey, and the honey above the gate. First, middle and last jar stand in the table of this page.");
        return page.Sheet("Filling: " + story.Name, [.. Watch(story.Band.Likely, display)], [figure], made);
    }

    private static IEnumerable<WatchNumber> Watch(FillingResult result, Display display)
    {
        if (result.CutOffs is not { } cut || result.FillTimes is not { } times)
            yield break;
        yield return new WatchNumber("Aim for", display.SmallMass(result.Target.Target.Kilograms), $"label {display.SmallMass(result.Target.Question.Label.Kilograms)}");
        yield return new WatchNumber("Begin to shut at", display.SmallMass((result.Target.Target - cut.First.LeadOnScale).Kilograms), $"on the scale; {display.SmallMass((result.Target.Target - cut.Last.LeadOnScale).Kilograms)} at the last jars");
        yield return new WatchNumber("A jar fills in", Display.Time(times.First.Seconds), $"{Display.Time(times.Last.Seconds)} at the last");
        yield return new WatchNumber("Let it drip for", Display.Time(cut.First.Wait.Seconds));
        yield return new WatchNumber("At most in a jar", display.SmallMass(result.Headspace.Most.Kilograms));
    }
}
