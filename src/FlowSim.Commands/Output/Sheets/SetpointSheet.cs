using FlowSim.RunSheets;
using FlowSim.Setpoints;
using UnitsNet;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of a search for a setpoint.</summary>
internal static class SetpointSheet
{
    public static RunSheet Of(SetpointStory story, Provenance made, UnitChoice units, IFigures figures)
    {
        Display display = new(units);
        SheetPage page = new();
        SetpointText text = new(page, display);
        text.WriteOutcome(story);
        page.Blank();
        text.WriteDetails(story);
        FigureBlock figure = new(
            figures.Svg(new Figure.Setpoint(story.Answer), units, story.Name),
            "What each setpoint would bring",
            "Time of the whole job and HMF gained over the setpoints that were tried, those that break a limit marked. The same values stand in the table of this page.");
        return page.Sheet("Setpoint: " + story.Name, story.Answer.Choice is { } choice ? [.. Watch(choice, display)] : [], [figure], made);
    }

    private static IEnumerable<WatchNumber> Watch(SetpointPlan choice, Display display)
    {
        yield return new WatchNumber("Set the thermostat at", display.Temperature(choice.Setpoint.Kelvins));
        yield return new WatchNumber("Stir and measure after", Display.RoughTime(choice.WarmTime.Seconds));
        yield return new WatchNumber("Begin to strain at", display.Temperature(choice.StrainAt.Kelvins), "the mean, after stirring");
        if (choice.Opening > Ratio.Zero)
        {
            yield return new WatchNumber("Open the gate", $"{SetpointText.OpeningOf(choice)} at most", "and rather less");
            yield return new WatchNumber("Stand by for", Display.RoughTime(choice.StrainTime.Seconds), "an open gate makes no sound");
        }

        yield return new WatchNumber("In all", Display.RoughTime(choice.Total.Seconds));
        yield return new WatchNumber("Hottest honey", display.Temperature(choice.HottestHoney.Kelvins), $"wall {display.Temperature(choice.HottestWall.Kelvins)}");
    }
}
