namespace FlowSim.Planning;

/// <summary>How much later each decision may end before something else has to move or the hours of whoever does it end.</summary>
/// <param name="problem">The problem.</param>
/// <param name="actions">The plan.</param>
/// <param name="warmFrom">When vessels are put to warm, by the batches' numbers in the question.</param>
internal sealed class PlanSlack(PlanProblem problem, IReadOnlyList<TimedAction> actions, int[] warmFrom)
{
    /// <summary>Slack of a decision, min.</summary>
    /// <param name="index">Its number in the plan.</param>
    public int Of(int index)
    {
        TimedAction mine = actions[index];
        int slack = problem.Hours[mine.Action.Person].EndOfSpan(mine.End) - mine.End;
        for (int i = index + 1; i < actions.Count; i++)
            slack = Math.Min(slack, Gap(mine, actions[i]));
        return Math.Max(0, slack);
    }

    /// <summary>How much later a load may be ready to be filled; null when it is not filled.</summary>
    /// <param name="load">The load.</param>
    /// <param name="ready">When its bubbles are up.</param>
    public int? OfStanding(int load, int ready) =>
        actions.Where(other => other.Action.Kind == ActionKind.Fill && other.Action.Item == load).Select(fill => (int?)(fill.Start - ready)).FirstOrDefault();

    private int Gap(in TimedAction mine, in TimedAction later)
    {
        int gap = later.Action.Person == mine.Action.Person || StrainerOf(mine.Action) is >= 0 and int strainer && strainer == StrainerOf(later.Action)
            ? later.Start - mine.End
            : HourGrid.Never;
        if (TankOf(mine.Action) is >= 0 and int tank && tank == TankOf(later.Action))
        {
            int stands = mine.Action.Kind == ActionKind.Strain && later.Action.Kind == ActionKind.Fill ? problem.Loads[later.Action.Item].Stand : 0;
            gap = Math.Min(gap, later.Start - mine.End - stands);
        }

        return Math.Min(gap, SpotGap(mine, later));
    }

    /// <summary>The time between one vessel leaving a spot, or a place set otherwise, and the next being put there.</summary>
    private int SpotGap(in TimedAction mine, in TimedAction later)
    {
        if (mine.Action is not { Kind: ActionKind.Strain, Spot: >= 0 and int left } || later.Action is not { Kind: ActionKind.Strain, Spot: >= 0 and int taken } || problem.SpotPlaces[left] != problem.SpotPlaces[taken])
            return HourGrid.Never;
        BatchNumbers one = problem.Batches[mine.Action.Item];
        BatchNumbers other = problem.Batches[later.Action.Item];
        bool otherwise = one.Setting >= 0 && other.Setting >= 0 && one.Setting != other.Setting;
        if (left != taken && !otherwise)
            return HourGrid.Never;
        int leaves = problem.Question.Places[problem.SpotPlaces[left]].DrainedInPlace ? mine.End : mine.Start;
        return warmFrom[other.Index] - leaves;
    }

    private static int StrainerOf(in PlanAction action) => action.Kind == ActionKind.CleanStrainer ? action.Item : action.Strainer;

    private static int TankOf(in PlanAction action) => action.Kind == ActionKind.CleanTank ? action.Item : action.Tank;
}
