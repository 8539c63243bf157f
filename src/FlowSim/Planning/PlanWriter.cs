using UnitsNet;

namespace FlowSim.Planning;

/// <summary>Writes a plan found as one that people can read.</summary>
/// <param name="problem">The problem of the loads that are planned.</param>
/// <param name="loads">Their numbers among all loads of the question.</param>
/// <param name="search">The search that found the plan.</param>
/// <param name="plan">The plan.</param>
internal sealed class PlanWriter(PlanProblem problem, IReadOnlyCollection<int> loads, PlanSearch search, FoundPlan plan)
{
    private readonly FoundPlan _plan = plan;
    private readonly DayQuestion _question = problem.Question;
    private readonly int[] _warmFrom = WarmTimes.Of(problem, plan);

    /// <summary>A plan in which nothing is done.</summary>
    public static DayPlan Nothing(DayQuestion question, IReadOnlyList<PlanConflict> conflicts) => new()
    {
        Question = question,
        Entries = [],
        Ready = [],
        Finish = null,
        FinishQuick = null,
        FinishSlow = null,
        NoSoonerThan = null,
        IsProven = false,
        Conflicts = conflicts,
        Notices = [],
        Cautions = [],
    };

    public DayPlan Write(IReadOnlyList<PlanConflict> conflicts)
    {
        (int[] Ready, int Finish) planned = (ReadyAsPlanned(), _plan.Finish);
        (int[] Ready, int Finish)? quick = At(Pace.Quick);
        (int[] Ready, int Finish)? slow = At(Pace.Slow);
        PlanConflict[] late = [.. problem.Loads.Where(load => planned.Ready[load.Index] > load.Due).Select(load => LoadConflicts.Late(load, planned.Ready[load.Index]))];
        BatchReady[] ready = [.. _question.Batches
            .Select(batch => (Batch: batch, Load: Array.Find(problem.Loads, load => load.Members.Contains(batch))))
            .Where(one => one.Load is not null)
            .Select(one => new BatchReady(one.Batch.Name, Time(planned.Ready[one.Load!.Index]), Time((quick ?? planned).Ready[one.Load.Index]), slow is { } at ? Time(at.Ready[one.Load.Index]) : null, one.Batch.Due))];
        DayPlan written = new()
        {
            Question = _question,
            Entries = [.. Entries().OrderBy(entry => entry.From).ThenBy(entry => entry.To)],
            Ready = ready,
            Finish = Time(planned.Finish),
            FinishQuick = Time((quick ?? planned).Finish),
            FinishSlow = slow is { } end ? Time(end.Finish) : null,
            NoSoonerThan = Time(search.Bound.Finish),
            IsProven = search.IsProven,
            Conflicts = [.. conflicts, .. late],
            Notices = [],
            Cautions = PlanNotices.CautionsFor(problem),
        };
        return written with { Notices = PlanNotices.For(written, BusyWhenPutToWarm()) };
    }

    private (int[] Ready, int Finish)? At(Pace pace)
    {
        PlanProblem other = new(_question, pace, loads) { WarmFrom = _warmFrom };
        return PlanReplay.Of(other, _plan.Actions.Select(timed => timed.Action));
    }

    private int[] ReadyAsPlanned()
    {
        int[] ready = [.. problem.Loads.Select(Stood)];
        foreach (TimedAction timed in _plan.Actions.Where(timed => timed.Action.Kind == ActionKind.Fill))
            ready[timed.Action.Item] = timed.End;
        return ready;
    }

    /// <summary>When the bubbles of a load are up.</summary>
    private int Stood(LoadNumbers load) =>
        load.Stand + _plan.Actions.Where(timed => timed.Action.Kind == ActionKind.Strain && problem.Batches[timed.Action.Item].Load == load.Index).Max(timed => timed.End);

    private string[] BusyWhenPutToWarm() =>
        [.. _plan.Actions
            .Where(timed => timed.Action is { Kind: ActionKind.Strain, Spot: >= 0 and int spot } && !_question.Places[problem.SpotPlaces[spot]].HasTimer)
            .Select(timed => problem.Batches[timed.Action.Item].Index)
            .Where(index => !WarmTimes.SomebodyIsFree(problem, _plan, _warmFrom[index]))
            .Select(index => _question.Batches[index].Name)];

    private IEnumerable<PlanEntry> Entries()
    {
        PlanSlack slack = new(problem, _plan.Actions, _warmFrom);
        for (int i = 0; i < _plan.Actions.Count; i++)
        {
            TimedAction timed = _plan.Actions[i];
            Duration free = Time(slack.Of(i));
            PlanAction action = timed.Action;
            switch (action.Kind)
            {
                case ActionKind.Strain:
                    foreach (PlanEntry before in BeforeStraining(timed))
                        yield return before;
                    PlannedBatch batch = _question.Batches[problem.Batches[action.Item].Index];
                    yield return Entry(PlanTask.Strain, [batch.Name], timed, free) with
                    {
                        Place = action.Spot < 0 ? null : PlaceOf(action.Spot).DrainedInPlace ? PlaceOf(action.Spot).Name : null,
                        Strainer = _question.Strainers[action.Strainer].Name,
                        Tank = _question.Tanks[action.Tank].Name,
                        Scrapes = [.. batch.Steps.Scrapes.Select(after => Time(timed.Start) + after).Where(at => at < Time(timed.End))],
                    };
                    break;
                case ActionKind.Fill:
                    yield return Entry(PlanTask.Fill, NamesOf(problem.Loads[action.Item]), timed, free) with { Tank = _question.Tanks[action.Tank].Name };
                    break;
                case ActionKind.CleanStrainer:
                    yield return Entry(PlanTask.CleanStrainer, [], timed, free) with { Strainer = _question.Strainers[action.Item].Name };
                    break;
                default:
                    yield return Entry(PlanTask.CleanTank, [], timed, free) with { Tank = _question.Tanks[action.Item].Name };
                    break;
            }
        }

        foreach (LoadNumbers load in problem.Loads.Where(load => load.Stand > 0))
        {
            int to = Stood(load);
            int tank = _plan.Actions.First(timed => timed.Action.Kind == ActionKind.Strain && problem.Batches[timed.Action.Item].Load == load.Index).Action.Tank;
            int? free = slack.OfStanding(load.Index, to);
            yield return Alone(PlanTask.Stand, NamesOf(load), to - load.Stand, to, free is { } minutes ? Time(minutes) : null) with { Tank = _question.Tanks[tank].Name };
        }
    }

    /// <summary>What goes by itself until a vessel is strained.</summary>
    private IEnumerable<PlanEntry> BeforeStraining(TimedAction timed)
    {
        BatchNumbers numbers = problem.Batches[timed.Action.Item];
        PlannedBatch batch = _question.Batches[numbers.Index];
        int settle = PlanProblem.Up(batch.Steps.Settle, _question.Pace);
        bool warmed = timed.Action.Spot >= 0;
        int from = warmed ? _warmFrom[numbers.Index] : numbers.Earliest;
        int ready = from + numbers.Ready;
        string? place = warmed ? PlaceOf(timed.Action.Spot).Name : null;
        Duration slack = Time(timed.Start - ready);
        if (warmed)
            yield return Alone(PlanTask.Warm, [batch.Name], from, ready - settle, slack) with { Place = place };
        if (settle > 0)
            yield return Alone(PlanTask.Settle, [batch.Name], ready - settle, ready, slack) with { Place = place };
        if (warmed && ready < timed.Start)
            yield return Alone(PlanTask.Hold, [batch.Name], ready, timed.Start, null) with { Place = place };
    }

    private WarmingPlace PlaceOf(int spot) => _question.Places[problem.SpotPlaces[spot]];

    private static string[] NamesOf(LoadNumbers load) => [.. load.Members.Select(member => member.Name)];

    private PlanEntry Entry(PlanTask task, IReadOnlyList<string> batches, in TimedAction timed, Duration slack)
    {
        int person = timed.Action.Person;
        return new PlanEntry
        {
            Task = task,
            Batches = batches,
            From = Time(timed.Start),
            To = Time(timed.End),
            Work = [.. problem.Hours[person].Pieces(timed.Start, timed.End).Select(piece => new WorkSpan(Time(piece.From), Time(piece.To)))],
            Who = _question.People[person].Name,
            Slack = slack,
        };
    }

    private static PlanEntry Alone(PlanTask task, IReadOnlyList<string> batches, int from, int to, Duration? slack) =>
        new() { Task = task, Batches = batches, From = Time(from), To = Time(to), Work = [], Slack = slack };

    private static Duration Time(int minutes) => Duration.FromMinutes(minutes);
}
