using FlowSim.Commands.Input;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>The lines of a plan as CSV, one for each vessel and step.</summary>
internal static class PlanCsv
{
    public static string Of(PlanStory story) => CsvText.OfRows(
        ["from", "to", "task", "batches", "place", "strainer", "bottling_tank", "who", "slack_s"],
        story.Plan.Entries.Select(entry => (IReadOnlyList<object?>)
        [
            ClockText.Iso(story.Date, entry.From),
            ClockText.Iso(story.Date, entry.To),
            Words.Of(entry.Task),
            string.Join("; ", entry.Batches),
            entry.Place,
            entry.Strainer,
            entry.Tank,
            entry.Who,
            entry.Slack is { } slack ? slack.Seconds : null,
        ]));
}
