using FlowSim.RunSheets;
using FlowSim.Settling;
using UnitsNet;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of honey that stands.</summary>
internal static class SettleSheet
{
    public static RunSheet Of(SettleStory story, Provenance made, UnitChoice units, IFigures figures)
    {
        Display display = new(units);
        SheetPage page = new();
        SettlingText text = new(page, display);
        text.WriteOutcome(story);
        page.Blank();
        text.WriteDetails(story);
        FigureBlock figure = new(
            figures.Svg(new Figure.Settling(story.Result, story.Band), units, story.Name),
            "What is left over time and depth",
            "Bubbles and debris that are left in the honey over the time that it stands, and over its depth. What is left at the end stands in the table of this page.");
        return page.Sheet("Settling: " + story.Name, [.. Watch(story, display)], [figure], made);
    }

    private static IEnumerable<WatchNumber> Watch(SettleStory story, Display display)
    {
        SettlingResult result = story.Result;
        yield return new WatchNumber("It stands for", Display.Time(result.Setup.StandsFor.Seconds));
        if (result.ClearAfter is { } clear)
        {
            string band = story.Band is { Quick: { } quick, Slow: { } slow } ? $"{Display.RoughTime(quick.Seconds)} to {Display.RoughTime(slow.Seconds)}" : string.Empty;
            yield return new WatchNumber("Clear after", Display.RoughTime(clear.Seconds), band);
        }

        if (result.Scum.Thickness > Length.Zero)
            yield return new WatchNumber("Scum to skim", display.Length(result.Scum.Thickness.Meters), "when it has stood");
    }
}
