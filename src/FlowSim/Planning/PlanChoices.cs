namespace FlowSim.Planning;

/// <summary>What can be decided next. Of kit, spots and people that are alike one is enough.</summary>
internal static class PlanChoices
{
    /// <summary>Decisions with their times, those left out that cannot lead to a better plan than another here.</summary>
    public static List<TimedAction> Of(PlanState state)
    {
        List<TimedAction> choices = [];
        PlanProblem problem = state.Problem;
        int[] people = [.. Enumerable.Range(0, problem.People).Where(p => !Enumerable.Range(0, p).Any(q => IsAlike(state, p, q)))];
        int fillEnds = AddFills(choices, state, people);
        AddStrains(choices, state, people);
        AddCleanings(choices, state, people);

        // What begins after some filling could be over can as well begin after it: a filling only sets kit free.
        choices.RemoveAll(choice => choice.Start >= fillEnds);
        return choices;
    }

    private static bool IsAlike(PlanState state, int person, int other) =>
        Math.Max(state.PersonFree(person), state.Now) == Math.Max(state.PersonFree(other), state.Now) && state.Problem.Hours[person].Spans.SequenceEqual(state.Problem.Hours[other].Spans);

    private static int AddFills(List<TimedAction> choices, PlanState state, int[] people)
    {
        int ends = HourGrid.Never;
        for (int load = 0; load < state.Problem.Loads.Length; load++)
        {
            if (state.IsFilled(load) || state.MembersLeft(load) > 0)
                continue;
            foreach (int person in people)
            {
                if (state.Time(new PlanAction(ActionKind.Fill, load, person, Tank: state.LoadTank(load))) is not { } timed)
                    continue;
                choices.Add(timed);
                ends = Math.Min(ends, timed.End);
            }
        }

        return ends;
    }

    private static void AddStrains(List<TimedAction> choices, PlanState state, int[] people)
    {
        PlanProblem problem = state.Problem;
        int[] strainers = [.. Enumerable.Range(0, problem.Strainers).Where(s => !Enumerable.Range(0, s).Any(r =>
            state.StrainerHoney(s) == state.StrainerHoney(r) && Math.Max(state.StrainerFree(s), state.Now) == Math.Max(state.StrainerFree(r), state.Now)))];
        for (int b = 0; b < problem.Batches.Length; b++)
        {
            BatchNumbers batch = problem.Batches[b];
            if (state.IsStrained(b) || (batch.Twin >= 0 && !state.IsStrained(batch.Twin)))
                continue;
            int[] spots = batch.NeedsPlace ? Spots(state, batch) : [-1];
            foreach (int tank in Tanks(state, batch.Load))
            {
                foreach (int strainer in strainers.Where(s => state.StrainerSuits(s, batch.Honey)))
                {
                    foreach (int spot in spots)
                    {
                        foreach (int person in people)
                        {
                            if (state.Time(new PlanAction(ActionKind.Strain, b, person, spot, strainer, tank)) is { } timed)
                                choices.Add(timed);
                        }
                    }
                }
            }
        }
    }

    private static int[] Spots(PlanState state, BatchNumbers batch)
    {
        int[] suited = [.. Enumerable.Range(0, state.Problem.SpotPlaces.Length).Where(spot => state.PlaceSuits(spot, batch))];
        return [.. suited.DistinctBy(spot => (state.Problem.SpotPlaces[spot], state.SpotFree(spot)))];
    }

    private static int[] Tanks(PlanState state, int load)
    {
        int[] suited = [.. Enumerable.Range(0, state.Problem.Tanks).Where(tank => state.TankSuits(tank, load))];
        return suited.Length < 2 ? suited
            : [.. suited.DistinctBy(tank => (state.TankHoney(tank), Math.Max(state.TankFree(tank), state.Now), state.Problem.Question.Tanks[tank].Capacity, state.Problem.Question.Tanks[tank].KeptFree))];
    }

    private static void AddCleanings(List<TimedAction> choices, PlanState state, int[] people)
    {
        PlanProblem problem = state.Problem;
        bool atTheEnd = problem.Question.Cleaning.AtTheEnd;
        for (int s = 0; problem.CleanStrainer > 0 && s < problem.Strainers; s++)
        {
            int honey = state.StrainerHoney(s);
            BatchNumbers[] left = [.. problem.Batches.Where((_, b) => !state.IsStrained(b))];
            bool helps = left.Any(batch => batch.Honey != honey) || (atTheEnd && (left.Length == 0 || problem.Strainers > 1));
            if (honey >= 0 && helps)
                Add(new PlanAction(ActionKind.CleanStrainer, s, 0));
        }

        for (int t = 0; problem.CleanTank > 0 && t < problem.Tanks; t++)
        {
            int honey = state.TankHoney(t);
            LoadNumbers[] left = [.. problem.Loads.Where(load => state.LoadTank(load.Index) < 0)];
            bool helps = left.Any(load => load.Honey != honey) || (atTheEnd && (left.Length == 0 || problem.Tanks > 1));
            if (honey >= 0 && state.TankLoad(t) < 0 && helps)
                Add(new PlanAction(ActionKind.CleanTank, t, 0));
        }

        void Add(PlanAction action)
        {
            foreach (int person in people)
            {
                if (state.Time(action with { Person = person }) is { } timed)
                    choices.Add(timed);
            }
        }
    }
}
