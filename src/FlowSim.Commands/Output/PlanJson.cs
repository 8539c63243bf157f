using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.Planning;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>A plan as JSON: moments as local time, durations in seconds; null where something never happens.</summary>
internal static class PlanJson
{
    public static string Of(PlanStory story) => JsonText.Object(json =>
    {
        DayPlan plan = story.Plan;
        json.WriteString("status", plan.Conflicts.Count == 0 ? "planned" : plan.Ready.Count == 0 ? "nothing-planned" : "conflicts");
        json.WriteString("date", ClockGrammar.Date(story.Date));
        json.WriteString("pace", Words.Of(plan.Question.Pace));
        Moment(json, story, "finish", plan.Finish);
        Moment(json, story, "finishQuick", plan.FinishQuick);
        Moment(json, story, "finishSlow", plan.FinishSlow);
        Moment(json, story, "noSoonerThan", plan.NoSoonerThan);
        json.WriteBoolean("isProven", plan.IsProven);
        json.Objects("conflicts", plan.Conflicts, conflict =>
        {
            json.WriteString("code", conflict.Code);
            Strings(json, "batches", conflict.Batches);
            json.WriteString("what", conflict.What);
            json.WriteString("why", conflict.Why);
            json.WriteString("helps", conflict.Helps);
        });
        json.Objects("ready", plan.Ready, ready =>
        {
            json.WriteString("batch", ready.Batch);
            Moment(json, story, "at", ready.At);
            Moment(json, story, "quick", ready.Quick);
            Moment(json, story, "slow", ready.Slow);
            Moment(json, story, "due", ready.Due);
        });
        json.Objects("entries", plan.Entries, entry => Entry(json, story, entry));
        json.Notices(story.Notices);
        json.Cautions(plan.Cautions);
        ResultJson.Input(json, story.Journal);
    });

    private static void Entry(Utf8JsonWriter json, PlanStory story, PlanEntry entry)
    {
        json.WriteString("task", Words.Of(entry.Task));
        Strings(json, "batches", entry.Batches);
        Moment(json, story, "from", entry.From);
        Moment(json, story, "to", entry.To);
        json.WriteString("place", entry.Place);
        json.WriteString("strainer", entry.Strainer);
        json.WriteString("bottlingTank", entry.Tank);
        json.WriteString("who", entry.Who);
        json.Number("slackSeconds", entry.Slack?.Seconds);
        json.Objects("work", entry.Work, piece =>
        {
            Moment(json, story, "from", piece.From);
            Moment(json, story, "to", piece.To);
        });
        Strings(json, "scrapes", entry.Scrapes.Select(scrape => ClockText.Iso(story.Date, scrape)));
    }

    private static void Moment(Utf8JsonWriter json, PlanStory story, string name, Duration? moment) =>
        json.WriteString(name, moment is { } at ? ClockText.Iso(story.Date, at) : null);

    private static void Strings(Utf8JsonWriter json, string name, IEnumerable<string> values)
    {
        json.WriteStartArray(name);
        foreach (string value in values)
            json.WriteStringValue(value);
        json.WriteEndArray();
    }
}
