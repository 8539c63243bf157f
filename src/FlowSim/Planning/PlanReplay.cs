namespace FlowSim.Planning;

/// <summary>A plan carried out in its order, but at another pace: vessels are put to warm when the plan says, and each step begins as soon as it can.</summary>
internal static class PlanReplay
{
    /// <summary>The same plan with each step as early as its kit and its people allow, whatever else has begun by then.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="plan">The plan found.</param>
    public static FoundPlan Early(PlanProblem problem, FoundPlan plan)
    {
        PlanState state = new(problem);
        List<TimedAction> actions = [];
        foreach (TimedAction planned in plan.Actions)
        {
            TimedAction timed = state.Time(planned.Action, inOrder: false) ?? planned;
            state.Apply(timed);
            actions.Add(timed);
        }

        return new FoundPlan(actions, state.Late, state.Finish);
    }

    /// <summary>Carries out a plan.</summary>
    /// <param name="problem">The problem at the pace wanted, with the times of putting to warm.</param>
    /// <param name="actions">Decisions in order.</param>
    /// <returns>When each load is ready and when all is done; null when it does not fit the hours.</returns>
    public static (int[] Ready, int Finish)? Of(PlanProblem problem, IEnumerable<PlanAction> actions)
    {
        PlanState state = new(problem);
        int[] ready = new int[problem.Loads.Length];
        foreach (PlanAction action in actions)
        {
            if (state.Time(action, inOrder: false) is not { } timed)
                return null;
            state.Apply(timed);
            if (action.Kind == ActionKind.Fill)
                ready[action.Item] = timed.End;
        }

        foreach (LoadNumbers load in problem.Loads.Where(load => load.Fill == 0))
            ready[load.Index] = state.ReadyToFill(load.Index);
        return (ready, state.Finish);
    }
}
