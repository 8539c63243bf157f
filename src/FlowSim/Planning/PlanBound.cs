namespace FlowSim.Planning;

/// <summary>How late and how long any plan becomes that begins with what has been decided: each figure of some rules alone, the others left out.</summary>
internal static class PlanBound
{
    /// <summary>Least minutes late and soonest finish; the finish is never when no plan can be.</summary>
    /// <param name="state">What has been decided.</param>
    public static (int Late, int Finish) Of(PlanState state)
    {
        PlanProblem problem = state.Problem;
        int late = state.Late;
        int finish = state.Finish;
        foreach (LoadNumbers load in problem.Loads)
        {
            if (state.MembersLeft(load.Index) == 0 && state.IsFilled(load.Index))
                continue;
            int ready = Ready(state, load);
            if (ready >= HourGrid.Never)
                return (late, HourGrid.Never);
            late += Math.Max(0, ready - load.Due);
            finish = Math.Max(finish, ready);
        }

        finish = Math.Max(finish, ByPeople(state));
        return (late, Math.Max(finish, ByKit(state)));
    }

    /// <summary>Minutes that people were there without work before the end of their last: the less the better.</summary>
    /// <param name="state">What has been decided.</param>
    public static int Idle(PlanState state)
    {
        int idle = 0;
        for (int p = 0; p < state.Problem.People; p++)
        {
            if (state.PersonFree(p) > -HourGrid.Never)
                idle += state.Problem.Hours[p].Before(state.PersonFree(p));
        }

        return idle - Worked(state);
    }

    /// <summary>A load by itself, with anybody at any time.</summary>
    private static int Ready(PlanState state, LoadNumbers load)
    {
        PlanProblem problem = state.Problem;
        int through = state.StrainedAt(load.Index);
        int first = HourGrid.Never;
        int work = 0;
        for (int b = 0; b < problem.Batches.Length; b++)
        {
            BatchNumbers batch = problem.Batches[b];
            if (batch.Load != load.Index || state.IsStrained(b))
                continue;
            int begin = problem.Anybody.Fit(Math.Max(state.Now, batch.Earliest + batch.Ready), batch.Strain);
            if (begin >= HourGrid.Never)
                return HourGrid.Never;
            first = Math.Min(first, begin);
            work += batch.Strain;
            through = Math.Max(through, begin + batch.Strain);
        }

        if (work > 0)
            through = Math.Max(through, first + work);
        if (load.Fill == 0)
            return through + load.Stand;
        int fill = problem.Anybody.Begin(Math.Max(state.Now, through + load.Stand));
        return fill >= HourGrid.Never ? fill : problem.Anybody.EndOf(fill, load.Fill);
    }

    private static int Worked(PlanState state)
    {
        PlanProblem problem = state.Problem;
        int work = 0;
        for (int b = 0; b < problem.Batches.Length; b++)
            work += state.IsStrained(b) ? problem.Batches[b].Strain : 0;
        foreach (LoadNumbers load in problem.Loads)
            work += state.IsFilled(load.Index) ? load.Fill : 0;
        return work;
    }

    /// <summary>All work still to do, shared evenly among the hours that people have left.</summary>
    private static int ByPeople(PlanState state)
    {
        PlanProblem problem = state.Problem;
        int work = -Worked(state);
        foreach (BatchNumbers batch in problem.Batches)
            work += batch.Strain;
        foreach (LoadNumbers load in problem.Loads)
            work += load.Fill;
        work += (Cleanings(state, tanks: false) * problem.CleanStrainer) + (Cleanings(state, tanks: true) * problem.CleanTank);
        if (work <= 0)
            return state.Finish;

        int used = 0;
        int low = state.Now;
        int high = -HourGrid.Never;
        for (int p = 0; p < problem.People; p++)
        {
            used += problem.Hours[p].Before(Math.Max(state.PersonFree(p), state.Now));
            high = Math.Max(high, problem.Hours[p].End);
        }

        if (Available(high) - used < work)
            return HourGrid.Never;
        low = Math.Max(low, -DayQuestionMinutes);
        while (low < high)
        {
            int middle = low + ((high - low) / 2);
            if (Available(middle) - used >= work)
                high = middle;
            else
                low = middle + 1;
        }

        return high;

        // What a person has had counts as used even where it lies after the moment asked for.
        int Available(int moment)
        {
            int sum = 0;
            for (int p = 0; p < problem.People; p++)
                sum += Math.Max(problem.Hours[p].Before(moment), problem.Hours[p].Before(Math.Max(state.PersonFree(p), state.Now)));
            return sum;
        }
    }

    private const int DayQuestionMinutes = (int)(DayQuestionCheck.FurthestHours * 60);

    /// <summary>Cleanings that are still needed at least: one for each honey that gets onto kit, but for what may stay dirty.</summary>
    private static int Cleanings(PlanState state, bool tanks)
    {
        PlanProblem problem = state.Problem;
        if ((tanks ? problem.CleanTank : problem.CleanStrainer) == 0)
            return 0;
        int kit = tanks ? problem.Tanks : problem.Strainers;
        Span<bool> coming = stackalloc bool[64];
        coming.Clear();
        foreach (LoadNumbers load in problem.Loads)
            coming[load.Honey] |= tanks ? state.LoadTank(load.Index) < 0 && load.Fill > 0 : state.MembersLeft(load.Index) > 0;
        int clean = 0;
        for (int k = 0; k < kit; k++)
        {
            int honey = tanks ? state.TankHoney(k) : state.StrainerHoney(k);
            if (honey < 0)
                clean++;
            else
                coming[honey] = false;
        }

        int fresh = 0;
        foreach (bool one in coming)
            fresh += one ? 1 : 0;
        int dirty = tanks ? state.DirtyTanks : state.DirtyStrainers;
        return problem.Question.Cleaning.AtTheEnd ? dirty + fresh : Math.Max(0, fresh - clean);
    }

    /// <summary>What strainers still have to hold, shared evenly among them, and then the shortest rest of any load; and the same of spots and tanks, turn by turn.</summary>
    private static int ByKit(PlanState state)
    {
        PlanProblem problem = state.Problem;
        Shortest least = new() { Rest = HourGrid.Never, Strain = HourGrid.Never, Ready = HourGrid.Never, Earliest = HourGrid.Never };
        long sum = 0;
        int inPlaces = 0;
        for (int b = 0; b < problem.Batches.Length; b++)
        {
            if (state.IsStrained(b))
                continue;
            BatchNumbers batch = problem.Batches[b];
            LoadNumbers load = problem.Loads[batch.Load];
            least.Rest = Math.Min(least.Rest, load.Stand + load.Fill);
            least.Strain = Math.Min(least.Strain, batch.Strain);
            least.Earliest = Math.Min(least.Earliest, batch.Earliest);
            sum += batch.Strain;
            if (!batch.NeedsPlace)
                continue;
            inPlaces++;
            least.Ready = Math.Min(least.Ready, batch.Ready);
        }

        if (least.Rest >= HourGrid.Never)
            return state.Finish;

        // The kit that is done last is done no sooner than on the average.
        for (int s = 0; s < problem.Strainers; s++)
            sum += Math.Max(state.StrainerFree(s), state.Now > -HourGrid.Never ? state.Now : least.Earliest);
        int finish = least.Rest + (int)Math.Ceiling(sum / (double)problem.Strainers);
        finish = Math.Max(finish, BySpots(state, inPlaces, least));
        return Math.Max(finish, ByTanks(state, least.Earliest));
    }

    /// <summary>As if every vessel were as quickly warm and strained as the quickest: the spot that has the next one ready first takes it.</summary>
    private static int BySpots(PlanState state, int vessels, in Shortest least)
    {
        PlanProblem problem = state.Problem;
        if (vessels == 0)
            return state.Finish;
        Span<int> next = stackalloc int[problem.SpotPlaces.Length];
        for (int spot = 0; spot < next.Length; spot++)
            next[spot] = Strained(state, spot, Math.Max(state.SpotFree(spot), least.Earliest), least);
        int last = HourGrid.Never;
        for (int vessel = 0; vessel < vessels; vessel++)
        {
            int spot = IndexOfLeast(next);
            last = next[spot];
            if (last >= HourGrid.Never)
                return HourGrid.Never;
            next[spot] = Strained(state, spot, last, least);
        }

        return last + least.Strain + least.Rest;
    }

    /// <summary>When the quickest vessel, put to a spot from a moment on, is strained at the soonest.</summary>
    private static int Strained(PlanState state, int spot, int free, in Shortest least)
    {
        PlanProblem problem = state.Problem;
        int put = problem.Question.Places[problem.SpotPlaces[spot]].HasTimer ? free : problem.Anybody.FirstFrom(free);
        return put >= HourGrid.Never ? HourGrid.Never : problem.Anybody.Fit(Math.Max(state.Now, put + least.Ready), least.Strain);
    }

    /// <summary>As if every load to come were as quickly strained, settled and filled as the quickest: the tank that is free first takes the next.</summary>
    private static int ByTanks(PlanState state, int earliest)
    {
        PlanProblem problem = state.Problem;
        int loads = 0, strain = HourGrid.Never, stand = HourGrid.Never, fill = HourGrid.Never;
        foreach (LoadNumbers load in problem.Loads)
        {
            if (state.LoadTank(load.Index) >= 0)
                continue;
            loads++;
            strain = Math.Min(strain, load.StrainAll);
            stand = Math.Min(stand, load.Stand);
            fill = Math.Min(fill, load.Fill);
        }

        if (loads == 0 || fill == 0)
            return state.Finish;
        Span<int> free = stackalloc int[problem.Tanks];
        for (int tank = 0; tank < free.Length; tank++)
            free[tank] = Freed(state, tank, earliest);
        int last = 0;
        for (int load = 0; load < loads; load++)
        {
            int tank = IndexOfLeast(free);
            int begin = problem.Anybody.Begin(Math.Max(free[tank], state.Now > -HourGrid.Never ? state.Now : earliest));
            int jars = begin >= HourGrid.Never ? HourGrid.Never : problem.Anybody.Begin(begin + strain + stand);
            last = jars >= HourGrid.Never ? HourGrid.Never : problem.Anybody.EndOf(jars, fill);
            if (last >= HourGrid.Never)
                return HourGrid.Never;
            free[tank] = last;
        }

        return last;
    }

    /// <summary>When a tank is free of what is in it, at the soonest; never where that stays.</summary>
    private static int Freed(PlanState state, int tank, int earliest)
    {
        PlanProblem problem = state.Problem;
        if (state.TankLoad(tank) < 0)
            return Math.Max(state.TankFree(tank), earliest);
        LoadNumbers load = problem.Loads[state.TankLoad(tank)];
        if (load.Fill == 0)
            return HourGrid.Never;
        int jars = problem.Anybody.Begin(Math.Max(state.Now, state.StrainedAt(load.Index) + load.Stand));
        return jars >= HourGrid.Never ? jars : problem.Anybody.EndOf(jars, load.Fill);
    }

    private static int IndexOfLeast(Span<int> values)
    {
        int least = 0;
        for (int i = 1; i < values.Length; i++)
            least = values[i] < values[least] ? i : least;
        return least;
    }

    private struct Shortest
    {
        public int Rest;
        public int Strain;
        public int Ready;
        public int Earliest;
    }
}
