using FlowSim.Planning;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Tests.Planning;

/// <summary>Holds a plan to every rule, from the question and the plan's lines alone: nothing here is shared with the search.</summary>
internal sealed class DayPlanRules(DayPlan plan, string said)
{
    private const double RoundingMin = 1e-6;

    private readonly DayQuestion _question = plan.Question;

    public void Check()
    {
        EveryBatchIsPlannedOrNamed();
        foreach (PlannedBatch batch in Planned())
            StepsFollow(batch);
        foreach (Worker person in _question.People)
            OneThingAtATime(person);
        foreach (PlannedStrainer strainer in _question.Strainers)
            CleanBetweenHoneys([.. plan.Entries.Where(e => e.Strainer == strainer.Name)], PlanTask.CleanStrainer, _question.Cleaning.Strainer);
        foreach (BottlingTank tank in _question.Tanks)
            OneLoadAtATime(tank);
        foreach (WarmingPlace place in _question.Places)
            PlaceHolds(place);
        foreach (PlanEntry entry in plan.Entries)
            That(entry.Slack is null || M(entry.Slack.Value) >= 0, "slack below zero", entry);
        FinishIsTheEnd();
    }

    private IEnumerable<PlannedBatch> Planned() => _question.Batches.Where(b => plan.Ready.Any(r => r.Batch == b.Name));

    private void EveryBatchIsPlannedOrNamed()
    {
        string[] named = [.. plan.Conflicts.Where(c => c.Code != "late").SelectMany(c => c.Batches)];
        That(named.Concat(plan.Ready.Select(r => r.Batch)).Order(StringComparer.Ordinal).SequenceEqual(_question.Batches.Select(b => b.Name).Order(StringComparer.Ordinal)), "each batch is either planned or named in a conflict");
        string[] late = [.. plan.Ready.Where(r => Load(r.Batch).Min(b => b.Due) is { } due && M(r.At) > Math.Floor(M(due) + RoundingMin)).Select(r => r.Batch).Order(StringComparer.Ordinal)];
        That(late.SequenceEqual(plan.Conflicts.Where(c => c.Code == "late").SelectMany(c => c.Batches).Order(StringComparer.Ordinal)), "what is late is named");
    }

    private void StepsFollow(PlannedBatch batch)
    {
        PlanEntry strain = Only(PlanTask.Strain, batch.Name);
        PlanEntry? warm = Maybe(PlanTask.Warm, batch.Name);
        PlanEntry? settle = Maybe(PlanTask.Settle, batch.Name);
        That(warm is null == batch.Steps.Warm is null && settle is null == batch.Steps.Settle is null, "steps are there if they are asked for", strain);
        That(Length(strain) == Minutes(batch.Steps.Strain), "straining takes its time", strain);
        double ready = warm is null ? Math.Ceiling(M(batch.Earliest) - RoundingMin) : M(warm.From);
        if (warm is not null)
        {
            That(M(warm.From) >= M(batch.Earliest), "not before the honey is there", warm);
            That(batch.Places is null || batch.Places.Contains(warm.Place), "a place that will do", warm);
            ready += Minutes(batch.Steps.Warm!);
            WarmingPlace place = _question.Places.Single(p => p.Name == warm.Place);
            That(place.HasTimer || _question.People.Any(p => Hours(p).Any(h => M(h.From) <= M(warm.From) && M(warm.From) <= M(h.To))), "switched on while somebody is there", warm);
        }

        ready += batch.Steps.Settle is null ? 0 : Minutes(batch.Steps.Settle);
        That(M(strain.From) >= ready, "strained when warm and settled", strain);
        That(warm is null || M(strain.From) - ready <= M(batch.LongestHold), "not held too long", strain);
        That((Maybe(PlanTask.Hold, batch.Name) is not null) == (warm is not null && M(strain.From) > ready), "a hold is shown", strain);
        Attended(strain, inOnePiece: true);

        PlannedBatch[] load = Load(batch.Name);
        double through = load.Max(b => M(Only(PlanTask.Strain, b.Name).To));
        double stands = load.Max(b => b.Steps.Stand is null ? 0 : Minutes(b.Steps.Stand));
        BatchReady told = plan.Ready.Single(r => r.Batch == batch.Name);
        That(M(told.Quick) <= M(told.At) && (told.Slow is null || M(told.At) <= M(told.Slow.Value)), "quick before slow");
        if (batch.Steps.Fill is null)
        {
            That(M(told.At) == through + stands, "ready when it has stood");
            return;
        }

        PlanEntry fill = Only(PlanTask.Fill, batch.Name);
        double jars = Math.Ceiling(load.Sum(b => M(At(b.Steps.Fill!))) - RoundingMin);
        That(M(fill.From) >= through + stands, "filled when the bubbles are up", fill);
        That(fill.Work.Sum(w => M(w.To) - M(w.From)) == jars, "filling takes its time", fill);
        That(M(told.At) == M(fill.To), "ready when filled");
        Attended(fill, inOnePiece: false);
    }

    private void Attended(PlanEntry entry, bool inOnePiece)
    {
        That(entry.Who is not null && entry.Work.Count > 0, "somebody does it", entry);
        Worker person = _question.People.Single(p => p.Name == entry.Who);
        That(!inOnePiece || entry.Work is [{ } whole] && M(whole.From) == M(entry.From) && M(whole.To) == M(entry.To), "without a pause", entry);
        foreach (WorkSpan piece in entry.Work)
            That(Hours(person).Any(h => M(h.From) <= M(piece.From) && M(piece.To) <= M(h.To)), "within the hours", entry);
        WorkSpan last = Hours(person).Single(h => M(h.From) <= M(entry.To) - 1 && M(entry.To) <= M(h.To));
        That(M(entry.To) + M(entry.Slack!.Value) <= M(last.To), "slack ends with the hours", entry);
    }

    private void OneThingAtATime(Worker person)
    {
        PlanEntry[] mine = [.. plan.Entries.Where(e => e.Who == person.Name).OrderBy(e => M(e.From))];
        foreach (PlanEntry clean in mine.Where(e => e.Task is PlanTask.CleanStrainer or PlanTask.CleanTank))
            Attended(clean, inOnePiece: true);
        for (int i = 1; i < mine.Length; i++)
            That(M(mine[i - 1].To) + M(mine[i - 1].Slack!.Value) <= M(mine[i].From), $"one thing at a time, slack and all, before {mine[i]}", mine[i - 1]);
    }

    private void CleanBetweenHoneys(PlanEntry[] uses, PlanTask cleaning, Duration takes)
    {
        string? on = null;
        double free = double.NegativeInfinity;
        foreach (PlanEntry use in uses.OrderBy(e => M(e.From)))
        {
            That(M(use.From) >= free, "kit does one thing at a time", use);
            free = M(use.To);
            if (use.Task == cleaning)
            {
                That(Length(use) == Math.Ceiling(M(takes) - RoundingMin), "cleaning takes its time", use);
                on = null;
                continue;
            }

            string honey = Honey(_question.Batches.First(b => b.Name == use.Batches[0]));
            That(on is null || on == honey || M(takes) == 0, "clean between honeys", use);
            on = honey;
        }

        bool stays = cleaning == PlanTask.CleanTank && uses.Length > 0 && uses[^1].Task != cleaning && _question.Batches.First(b => b.Name == uses[^1].Batches[0]).Steps.Fill is null;
        That(on is null || !_question.Cleaning.AtTheEnd || M(takes) == 0 || stays, "clean at the end");
    }

    private void OneLoadAtATime(BottlingTank tank)
    {
        PlanEntry[] here = [.. plan.Entries.Where(e => e.Tank == tank.Name).OrderBy(e => M(e.From))];
        CleanBetweenHoneys([.. here.Where(e => e.Task != PlanTask.Stand)], PlanTask.CleanTank, _question.Cleaning.Tank);
        PlannedBatch[] load = [];
        foreach (PlanEntry use in here.Where(e => e.Task is not PlanTask.Stand))
        {
            if (load.Length == 0 && use.Task == PlanTask.Strain)
            {
                load = Load(use.Batches[0]);
                That(load.Sum(b => b.Volume.Liters) <= tank.Capacity.Liters - tank.KeptFree.Liters + RoundingMin, "not over the brim", use);
            }

            That(use.Task == PlanTask.CleanTank ? load.Length == 0 : use.Batches.All(name => load.Any(b => b.Name == name)), "one load in a tank", use);
            if (use.Task == PlanTask.Fill)
            {
                That(use.Batches.Count == load.Length, "all of a load is filled together", use);
                load = [];
            }
        }

        That(load.Length == 0 || load[0].Steps.Fill is null, "what is strained is filled");
    }

    private void PlaceHolds(WarmingPlace place)
    {
        (double From, double To, PlannedBatch Batch)[] stays = [.. plan.Entries.Where(e => e.Task == PlanTask.Warm && e.Place == place.Name).Select(e =>
        {
            PlanEntry strain = Only(PlanTask.Strain, e.Batches[0]);
            return (M(e.From), M(place.DrainedInPlace ? strain.To : strain.From), _question.Batches.Single(b => b.Name == e.Batches[0]));
        })];
        foreach ((double from, double to, PlannedBatch batch) in stays)
        {
            (double From, double To, PlannedBatch Batch)[] beside = [.. stays.Where(s => s.From <= from && from < s.To)];
            That(beside.Length <= place.Vessels, $"no more than {place.Vessels} in {place.Name} at {from}");
            That(stays.Where(s => s.From < to && from < s.To).All(s => s.Batch.Setting is null || batch.Setting is null || s.Batch.Setting == batch.Setting), $"one setting in {place.Name} at {from}");
        }
    }

    private void FinishIsTheEnd()
    {
        if (plan.Ready.Count == 0)
        {
            That(plan.Finish is null && plan.Entries.Count == 0, "nothing is planned");
            return;
        }

        That(M(plan.Finish!.Value) == plan.Entries.Max(e => M(e.To)), "the finish is the end of the last line");
        That(M(plan.NoSoonerThan!.Value) <= M(plan.Finish.Value) && (plan.IsProven is false || M(plan.NoSoonerThan.Value) == M(plan.Finish.Value)), "the bound is below the finish");
        That(M(plan.FinishQuick!.Value) <= M(plan.Finish.Value) && (plan.FinishSlow is null || M(plan.Finish.Value) <= M(plan.FinishSlow.Value)), "quick before slow");
    }

    private PlannedBatch[] Load(string name)
    {
        PlannedBatch batch = _question.Batches.Single(b => b.Name == name);
        return batch.Joined is null ? [batch] : [.. _question.Batches.Where(b => b.Joined == batch.Joined)];
    }

    private IEnumerable<WorkSpan> Hours(Worker person) => person.Hours.SelectMany(mine => (_question.Open ?? [mine])
        .Select(open => new WorkSpan(Max(mine.From, open.From), mine.To < open.To ? mine.To : open.To))
        .Where(span => span.To > span.From));

    private static Duration Max(Duration one, Duration other) => one > other ? one : other;

    private static string Honey(PlannedBatch batch) => batch.Honey ?? "its own " + batch.Name;

    private PlanEntry Only(PlanTask task, string batch)
    {
        PlanEntry[] found = [.. plan.Entries.Where(e => e.Task == task && e.Batches.Contains(batch))];
        That(found.Length == 1, $"{batch}: one {task}, not {found.Length}");
        return found[0];
    }

    private PlanEntry? Maybe(PlanTask task, string batch) => plan.Entries.SingleOrDefault(e => e.Task == task && e.Batches.Contains(batch));

    private Duration At(StepTimes times) => _question.Pace == Pace.Quick ? times.Quick : _question.Pace == Pace.Slow ? times.Slow : times.Likely;

    private double Minutes(StepTimes times) => Math.Ceiling(M(At(times)) - RoundingMin);

    private static double Length(PlanEntry entry) => M(entry.To) - M(entry.From);

    private static double M(Duration time) => time.Minutes;

    private void That(bool holds, string rule, PlanEntry? entry = null) => Assert.True(holds, $"{said}: {rule} {entry}");
}
