namespace FlowSim.Planning;

/// <summary>When vessels are put to warm: late, so that honey is not kept hot for nothing, but early enough to be ready even if it warms slowly, as far as kit and hours allow.</summary>
internal static class WarmTimes
{
    /// <summary>Moments by the batches' numbers in the question; never for those that are not warmed.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="plan">The plan found.</param>
    public static int[] Of(PlanProblem problem, FoundPlan plan)
    {
        int[] from = new int[problem.Question.Batches.Count];
        Array.Fill(from, HourGrid.Never);
        PlanState state = new(problem);
        foreach (TimedAction timed in plan.Actions)
        {
            if (timed.Action is { Kind: ActionKind.Strain, Spot: >= 0 })
            {
                BatchNumbers batch = problem.Batches[timed.Action.Item];
                from[batch.Index] = Earlier(problem, plan, timed, batch, state.WarmNotBefore(batch, timed.Action.Spot));
            }

            state.Apply(timed);
        }

        return from;
    }

    /// <summary>Whether somebody is there and free to put a vessel to warm.</summary>
    public static bool SomebodyIsFree(PlanProblem problem, FoundPlan plan, int moment) => Enumerable.Range(0, problem.People).Any(person =>
        problem.Hours[person].FirstFrom(moment) == moment
        && !plan.Actions.Any(timed => timed.Action.Person == person && timed.Start < moment && moment < timed.End));

    private static int Earlier(PlanProblem problem, FoundPlan plan, in TimedAction timed, BatchNumbers batch, int notBefore)
    {
        int latest = timed.WarmFrom;
        int wanted = latest - (batch.ReadySlow - batch.Ready);
        int from = Math.Max(Math.Max(wanted, notBefore), timed.Start - batch.Ready - batch.LongestHold);
        if (from >= latest)
            return latest;
        if (problem.Question.Places[problem.SpotPlaces[timed.Action.Spot]].HasTimer)
            return from;

        IEnumerable<int> moments = plan.Actions.Select(other => other.End).Concat(problem.Anybody.Spans.Select(span => span.From)).Append(from).Append(latest);
        return moments.Where(moment => moment >= from && moment <= latest && SomebodyIsFree(problem, plan, moment)).DefaultIfEmpty(latest).Min();
    }
}
