using FlowSim.Planning;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Commands.Output;

/// <summary>A day's plan as text: conflicts, what is done in order of time, when each batch is ready, and last the result.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
/// <param name="story">The plan.</param>
internal sealed class PlanText(IPage page, Display display, PlanStory story)
{
    private const string Alone = "-";
    private const int WidestName = 14;

    private readonly ClockText _clock = new(story.Date, display.System == UnitChoice.Us);
    private readonly DayPlan _plan = story.Plan;

    public void Write()
    {
        WriteDetails();
        WriteResult();
    }

    /// <summary>All but the result.</summary>
    public void WriteDetails()
    {
        page.Heading(Printable.Of(story.Name, 70), PagePart.Setup);
        page.Item("", Invariant($"{Count(story.Plan.Question.Batches.Count, "vessel")}, {Count(_plan.Question.People.Count, "person", "people")}, {Count(_plan.Question.Strainers.Count, "strainer")}, {Count(_plan.Question.Tanks.Count, "bottling tank")}; times: {Input.Words.Of(_plan.Question.Pace)}"));
        page.Blank();
        WriteConflicts();
        WriteLines();
        WriteReady();
        ResultText.WriteAssumptions(page, display, story.Journal);
        ResultText.WriteNotices(page, display, story.Notices);
        ResultText.WriteCautions(page, display, _plan.Cautions);
    }

    /// <summary>Conflicts and the result alone.</summary>
    public void WriteOutcome()
    {
        WriteConflicts();
        WriteResult();
    }

    private static string Count(int count, string one, string? many = null) => Invariant($"{count} {(count == 1 ? one : many ?? one + "s")}");

    private void WriteConflicts()
    {
        if (_plan.Conflicts.Count == 0)
            return;
        page.Heading("Conflicts", PagePart.Next);
        foreach (PlanConflict conflict in _plan.Conflicts)
            page.Item("! ", display.Words(Printable.Of(conflict.ToString(), 1000)));
        page.Blank();
    }

    private void WriteLines()
    {
        IReadOnlyList<PlanEntry> lines = story.Lines;
        if (lines.Count == 0)
            return;
        foreach (IGrouping<string, PlanEntry> day in lines.GroupBy(line => _clock.Day(line.From), StringComparer.Ordinal))
        {
            page.Heading(day.Key, PagePart.Next);
            page.Agenda($"What is done on {day.Key}", [.. day.Select(line => new AgendaLine(_clock.Time(line.From), Until(line), Printable.Of(line.Who ?? Alone, WidestName), Said(line), line.Slack is { } free ? Short(free) : string.Empty))]);
            page.Blank();
        }

        page.Item("", $"A line with {Alone} for a name goes by itself. The time at the end of a line is its slack: how much later it may end before something else has to move or the hours of whoever does it end.");
        page.Blank();
    }

    /// <summary>Its end, with the day where that is another than its begin's.</summary>
    private string Until(PlanEntry line) => _clock.IsSameDay(line.From, line.To) ? _clock.Time(line.To) : $"{_clock.Day(line.To)[..3]} {_clock.Time(line.To)}";

    private string Said(PlanEntry line)
    {
        string batches = Names(line.Batches);
        return line.Task switch
        {
            PlanTask.Warm => $"warm {batches} in {Name(line.Place)}",
            PlanTask.Settle => $"{batches} {(line.Batches.Count == 1 ? "settles" : "settle")}{(line.Place is null ? string.Empty : " in " + Name(line.Place))}",
            PlanTask.Hold => $"{batches} {(line.Batches.Count == 1 ? "waits" : "wait")} warm in {Name(line.Place)}",
            PlanTask.Strain => $"strain {batches}{(line.Place is null ? string.Empty : " from " + Name(line.Place))} through {Name(line.Strainer)} into {Name(line.Tank)}{Scrapes(line)}",
            PlanTask.Stand => $"{batches}: bubbles rise in {Name(line.Tank)}",
            PlanTask.Fill => $"fill {batches} from {Name(line.Tank)}{Pauses(line)}",
            PlanTask.CleanStrainer => $"clean {Name(line.Strainer)}",
            _ => $"clean {Name(line.Tank)}",
        };
    }

    private string Scrapes(PlanEntry line) => line.Scrapes.Count == 0 ? string.Empty
        : line.Scrapes.Count > 4 ? Invariant($"; scrape {line.Scrapes.Count} times, first at {_clock.Time(line.Scrapes[0])}")
        : "; scrape at " + string.Join(", ", line.Scrapes.Select(_clock.Time));

    private string Pauses(PlanEntry line) => line.Work.Count < 2 ? string.Empty
        : "; pause " + string.Join(", ", line.Work.Zip(line.Work.Skip(1), (one, next) => $"{_clock.Time(one.To)} to {_clock.Moment(next.From)}"));

    private void WriteReady()
    {
        if (_plan.Ready.Count == 0)
            return;
        page.Heading("Ready", PagePart.Result);
        int column = Math.Min(30, 2 + _plan.Ready.Max(ready => Printable.Of(ready.Batch).Length));
        foreach (BatchReady ready in _plan.Ready)
        {
            string slow = ready.Slow is { } late ? _clock.Moment(late) : "not within the hours";
            string due = ready.Due is { } by ? $"; due {_clock.Moment(by)}" : string.Empty;
            page.Pair(Printable.Of(ready.Batch), $"{_clock.Moment(ready.At)} (if quick {_clock.Moment(ready.Quick)}, if slow {slow}){due}", column);
        }

        page.Blank();
    }

    public void WriteResult()
    {
        page.Heading("Result", PagePart.Result);
        int left = _plan.Question.Batches.Count - _plan.Ready.Count;
        if (_plan.Finish is not { } finish)
        {
            page.Outcome("NOTHING CAN BE PLANNED: see the conflicts.", bad: true);
            return;
        }

        bool late = _plan.Conflicts.Any(conflict => conflict.Code == "late");
        string verdict = left > 0 ? Invariant($"PLANNED BUT FOR {Count(left, "vessel")}") : late ? "PLANNED, BUT LATE" : "PLANNED";
        page.Outcome($"{verdict}: all that is planned is done by {_clock.Moment(finish)}.", bad: left > 0 || late);
        string slow = _plan.FinishSlow is { } end ? $"by {_clock.Moment(end)}" : "not within the hours";
        page.Item("", $"In the same order: by {_clock.Moment(_plan.FinishQuick!.Value)} if every step goes quickly, {slow} if every step goes slowly.");
        if (_plan.IsProven)
            page.Item("", "No plan of these steps is sooner done.");
        Duration begin = _plan.Entries.Min(entry => entry.From);
        PlanEntry[] first = [.. story.Lines.Where(line => line.From.Equals(begin, Duration.FromSeconds(1)))];
        page.Item("", $"Begin: {_clock.Moment(begin)}, {string.Join("; ", first.Select(Said))}.");
    }

    private static string Short(Duration time) => time.Minutes < 0.5 ? "0 min" : Display.Time(60 * Math.Round(time.Minutes)).Replace(" 00 s", string.Empty, StringComparison.Ordinal).Replace(" 00 min", string.Empty, StringComparison.Ordinal);

    private static string Name(string? name) => Printable.Of(name ?? string.Empty);

    private static string Names(IReadOnlyList<string> names) => string.Join(", ", names.Select(name => Printable.Of(name)));
}
