using FlowSim.Commands.Input;
using FlowSim.RunSheets;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>The run sheet of a warming run.</summary>
internal static class WarmSheet
{
    public static RunSheet Of(WarmStory story, WarmingResult mapped, Provenance made, UnitChoice units, IFigures figures)
    {
        Display display = new(units);
        SheetPage page = new();
        WarmingText text = new(page, display);
        text.WriteOutcome(story);
        page.Blank();
        text.WriteDetails(story);
        return page.Sheet("Warming: " + story.Name, [.. Watch(story, display)], [.. Drawn(story, mapped, units, figures)], made);
    }

    private static IEnumerable<WatchNumber> Watch(WarmStory story, Display display)
    {
        WarmingResult result = story.Result;
        IReadOnlyList<SetpointStep> schedule = result.Setup.Heating.Thermostat.Schedule;
        yield return schedule.Count == 1
            ? new WatchNumber("Set the thermostat at", display.Temperature(schedule[0].Setpoint.Kelvins))
            : new WatchNumber("Set the thermostat at", $"{display.Temperature(schedule[0].Setpoint.Kelvins)} first", "then by the schedule below");
        if (result.TimeToTarget is { } reached)
            yield return new WatchNumber("Stir and measure after", Display.RoughTime(reached.Seconds), Between(story.Bounds));
        if (result.Setup.Targets.Count > 0)
            yield return new WatchNumber("Until", string.Join(", ", result.Setup.Targets.Select(target => TargetText.Of(target, display))));
        yield return new WatchNumber("Coldest honey then", display.Temperature(result.End.Coldest.Kelvins), $"mean {display.Temperature(result.End.Mean.Kelvins)}");
        Temperature ceiling = story.Limits.Limits.Ceiling;
        yield return new WatchNumber(
            "Hottest honey", display.Temperature(result.HottestHoney.Kelvins), $"{(result.HottestHoney > ceiling ? "above" : "within")} the ceiling of {display.Temperature(ceiling.Kelvins)} ({Keys.Limits.Ceiling})");
        yield return new WatchNumber("Hottest wall", display.Temperature(result.HottestWall.Temperature.Kelvins), "where it touches honey");
    }

    private static string Between(WarmingBounds bounds) => (bounds.TimeToTargetLow, bounds.TimeToTargetHigh) switch
    {
        ({ } low, { } high) => $"{Display.RoughTime(low.Seconds)} to {Display.RoughTime(high.Seconds)}, as it is stirred",
        _ => string.Empty,
    };

    private static IEnumerable<FigureBlock> Drawn(WarmStory story, WarmingResult mapped, UnitChoice units, IFigures figures)
    {
        yield return new FigureBlock(
            figures.Svg(new Figure.Warming(story.Bounds), units, story.Name),
            "Temperatures and heater over time",
            "Temperatures of the coldest honey, the mean, the wall and the heating body over time, with the bounds if it is stirred all the time and if heat only creeps through it; below, the power of the heater. The table of temperatures stands on this page.");
        if (mapped.Maps.Count > 0)
        {
            yield return new FigureBlock(
                figures.Svg(new Figure.VesselMap(mapped), units, story.Name),
                "Maps of the vessel",
                "Cuts through the vessel at a few times, coloured by temperature: where the honey is cold and where it is warm.");
        }

        if (story.Result.Series.TimeS.Count > 1)
        {
            yield return new FigureBlock(
                figures.Svg(new Figure.Damage(story.Result, story.Limits.Limits.Heat), units, story.Name),
                "What the heat costs, against the limit",
                "HMF gained and diastase left over time as bands, with the limit that was asked for. The values at the end stand in the tables of this page.");
        }
    }
}
