namespace FlowSim.Planning;

/// <summary>A whole plan as decisions in order, and how good it is.</summary>
/// <param name="Actions">Decisions with their times, by their begin.</param>
/// <param name="Late">Minutes that loads are late, together.</param>
/// <param name="Finish">When all is done.</param>
internal sealed record FoundPlan(IReadOnlyList<TimedAction> Actions, int Late, int Finish)
{
    /// <summary>Whether something is better: less late, or as late and sooner done.</summary>
    public bool IsWorseThan((int Late, int Finish) other) => other.Late < Late || (other.Late == Late && other.Finish < Finish);
}

/// <summary>Searches for a plan: first some partial plans side by side, then one after the other until all are seen or the effort is spent.</summary>
internal sealed class PlanSearch
{
    private static readonly int[] s_breadths = [1, 10];

    private readonly PlanProblem _problem;
    private readonly CancellationToken _cancellation;
    private readonly Dictionary<UInt128, (int Late, int Finish)> _seen = [];
    private readonly Stack<TimedAction> _path = [];
    private int _left;

    private PlanSearch(PlanProblem problem, CancellationToken cancellation)
    {
        _problem = problem;
        _cancellation = cancellation;
        Bound = PlanBound.Of(new PlanState(problem));
    }

    /// <summary>No plan is better than this.</summary>
    public (int Late, int Finish) Bound { get; private set; }

    /// <summary>The best plan found; null for none.</summary>
    public FoundPlan? Best { get; private set; }

    /// <summary>Whether no plan is better; or, without one, whether there is none.</summary>
    public bool IsProven { get; private set; }

    /// <summary>Searches.</summary>
    /// <param name="problem">What is to be planned.</param>
    /// <param name="effort">How long.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    public static PlanSearch Of(PlanProblem problem, PlanEffort effort, CancellationToken cancellation)
    {
        PlanSearch search = new(problem, cancellation);
        if (search.Bound.Finish >= HourGrid.Never)
        {
            search.IsProven = true;
            return search;
        }

        foreach (int breadth in s_breadths.Where(b => b < effort.Breadth).Append(effort.Breadth))
        {
            search.SideBySide(breadth);
            if (search.ReachesBound)
                return search;
        }

        search._left = effort.Proof;
        search.OneByOne(new PlanState(problem));
        if (search._left > 0)
        {
            search.IsProven = true;
            if (search.Best is { } best)
                search.Bound = (best.Late, best.Finish);
        }

        return search;
    }

    private bool ReachesBound
    {
        get
        {
            IsProven |= Best is { } best && !best.IsWorseThan(Bound);
            return IsProven;
        }
    }

    /// <summary>Keeps the most promising partial plans of as many decisions.</summary>
    private void SideBySide(int breadth)
    {
        List<Partial> level = [new(new PlanState(_problem), null, default, Bound, 0)];
        while (level.Count > 0)
        {
            _cancellation.ThrowIfCancellationRequested();
            List<Partial> next = [];
            HashSet<UInt128> marks = [];
            foreach (Partial partial in level)
            {
                foreach (TimedAction choice in PlanChoices.Of(partial.State))
                {
                    PlanState state = partial.State.Copy();
                    state.Apply(choice);
                    (int Late, int Finish) bound = PlanBound.Of(state);
                    if (!IsPromising(bound))
                        continue;
                    Partial longer = new(state, partial, choice, bound, PlanBound.Idle(state));
                    if (state.IsDone)
                        Keep(longer.Path(), state);
                    else if (marks.Add(state.Mark()))
                        next.Add(longer);
                }
            }

            level = [.. next.OrderBy(p => p.Bound.Late).ThenBy(p => p.Bound.Finish).ThenBy(p => p.Idle).ThenBy(p => p.State.Now).Take(breadth)];
        }
    }

    /// <summary>Looks at every way on, the most promising first.</summary>
    private void OneByOne(PlanState state)
    {
        if (_left % 1024 == 0)
            _cancellation.ThrowIfCancellationRequested();
        List<(TimedAction Choice, PlanState State, (int Late, int Finish) Bound)> ways = [];
        foreach (TimedAction choice in PlanChoices.Of(state))
        {
            PlanState longer = state.Copy();
            longer.Apply(choice);
            (int Late, int Finish) bound = PlanBound.Of(longer);
            if (IsPromising(bound))
                ways.Add((choice, longer, bound));
        }

        foreach ((TimedAction choice, PlanState longer, (int Late, int Finish) bound) in ways.OrderBy(way => way.Bound.Late).ThenBy(way => way.Bound.Finish).ThenBy(way => way.Choice.Start))
        {
            if (_left <= 0)
                return;
            if (!IsPromising(bound) || WasSeen(longer))
                continue;
            _left--;
            _path.Push(choice);
            if (longer.IsDone)
                Keep([.. _path.Reverse()], longer);
            else
                OneByOne(longer);
            _path.Pop();
        }
    }

    /// <summary>Whether the same has been reached before and no worse; if not it is noted.</summary>
    private bool WasSeen(PlanState state)
    {
        UInt128 mark = state.Mark();
        if (_seen.TryGetValue(mark, out (int Late, int Finish) before) && before.Late <= state.Late && before.Finish <= state.Finish)
            return true;
        _seen[mark] = (state.Late, state.Finish);
        return false;
    }

    private bool IsPromising((int Late, int Finish) bound) => bound.Finish < HourGrid.Never && (Best is null || Best.IsWorseThan(bound));

    private void Keep(IReadOnlyList<TimedAction> actions, PlanState state)
    {
        if (IsPromising((state.Late, state.Finish)))
            Best = new FoundPlan(actions, state.Late, state.Finish);
    }

    private sealed record Partial(PlanState State, Partial? Before, TimedAction Choice, (int Late, int Finish) Bound, int Idle)
    {
        public List<TimedAction> Path()
        {
            List<TimedAction> path = [];
            for (Partial at = this; at.Before is { } before; at = before)
                path.Insert(0, at.Choice);
            return path;
        }
    }
}
