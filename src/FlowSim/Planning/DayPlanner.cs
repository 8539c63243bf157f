namespace FlowSim.Planning;

/// <summary>Plans a day: what cannot be is set aside and named, the rest is searched for, and the plan found is written.</summary>
internal static class DayPlanner
{
    public static DayPlan Plan(DayQuestion question, CancellationToken cancellation)
    {
        List<PlanConflict> conflicts = [];
        PlanProblem all = new(question, question.Pace);
        List<int> loads = [];
        foreach (LoadNumbers load in all.Loads)
        {
            if (LoadConflicts.Of(all, load, cancellation) is { } conflict)
                conflicts.Add(conflict);
            else
                loads.Add(load.Index);
        }

        PlanSearch? search = loads.Count == 0 ? null : Search(loads, question.Effort);
        while (search is { Best: null })
        {
            (int load, bool known) = (Dispensable(loads), search.IsProven);
            loads.Remove(load);
            conflicts.Add(LoadConflicts.TooMuch(all, all.Loads[load], loads.Count, known));
            search = loads.Count == 0 ? null : Search(loads, question.Effort);
        }

        if (search is null)
            return PlanWriter.Nothing(question, conflicts);
        PlanProblem problem = new(question, question.Pace, loads);
        return new PlanWriter(problem, loads, search, PlanReplay.Early(problem, search.Best!)).Write(conflicts);

        PlanSearch Search(IReadOnlyCollection<int> some, PlanEffort effort) => PlanSearch.Of(new PlanProblem(question, question.Pace, some), effort, cancellation);

        // The load without which the others fare best; if none helps alone, the one that takes most of people's time.
        int Dispensable(List<int> among)
        {
            PlanEffort brief = new() { Breadth = Math.Min(20, question.Effort.Breadth), Proof = 0 };
            (int Load, FoundPlan Plan)[] without = [.. among
                .Select(load => (Load: load, Search([.. among.Where(other => other != load)], brief).Best))
                .Where(one => one.Best is not null)
                .Select(one => (one.Load, one.Best!))];
            return without.Length > 0
                ? without.OrderBy(one => one.Plan.Late).ThenBy(one => one.Plan.Finish).First().Load
                : among.MaxBy(load => all.Loads[load].Fill + all.Batches.Where(batch => batch.Load == load).Sum(batch => batch.Strain));
        }
    }
}
