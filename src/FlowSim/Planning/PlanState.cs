namespace FlowSim.Planning;

/// <summary>A plan in the making: what has been decided so far, each decision begun no earlier than the one before it.</summary>
/// <remarks>
/// Decisions taken by their begin, each as early as the ones before it allow, lead to a best plan: taken in that order, no decision of a best plan is
/// put later by its predecessors being moved earlier. That holds because a warming ends where its straining begins and its spot is part of the decision.
/// </remarks>
internal sealed class PlanState
{
    private const int Clean = -1;
    private const int None = -1;

    private readonly PlanProblem _problem;
    private readonly int[] _personFree;
    private readonly int[] _strainerFree;
    private readonly int[] _strainerHoney;
    private readonly int[] _tankFree;
    private readonly int[] _tankHoney;
    private readonly int[] _tankLoad;
    private readonly int[] _spotFree;
    private readonly int[] _settingEnd;
    private readonly bool[] _strained;
    private readonly int[] _loadTank;
    private readonly int[] _loadStrained;
    private readonly int[] _loadLeft;
    private readonly bool[] _filled;

    public PlanState(PlanProblem problem)
    {
        _problem = problem;
        _personFree = Filled(problem.People, -HourGrid.Never);
        _strainerFree = Filled(problem.Strainers, -HourGrid.Never);
        _strainerHoney = Filled(problem.Strainers, Clean);
        _tankFree = Filled(problem.Tanks, -HourGrid.Never);
        _tankHoney = Filled(problem.Tanks, Clean);
        _tankLoad = Filled(problem.Tanks, None);
        _spotFree = Filled(problem.SpotPlaces.Length, -HourGrid.Never);
        _settingEnd = Filled(problem.Question.Places.Count * problem.Settings, -HourGrid.Never);
        _strained = new bool[problem.Batches.Length];
        _loadTank = Filled(problem.Loads.Length, None);
        _loadStrained = Filled(problem.Loads.Length, -HourGrid.Never);
        _loadLeft = [.. problem.Loads.Select(load => load.Members.Length)];
        _filled = [.. problem.Loads.Select(load => load.Fill == 0)];
    }

    private PlanState(PlanState other)
    {
        _problem = other._problem;
        _personFree = [.. other._personFree];
        _strainerFree = [.. other._strainerFree];
        _strainerHoney = [.. other._strainerHoney];
        _tankFree = [.. other._tankFree];
        _tankHoney = [.. other._tankHoney];
        _tankLoad = [.. other._tankLoad];
        _spotFree = [.. other._spotFree];
        _settingEnd = [.. other._settingEnd];
        _strained = [.. other._strained];
        _loadTank = [.. other._loadTank];
        _loadStrained = [.. other._loadStrained];
        _loadLeft = [.. other._loadLeft];
        _filled = [.. other._filled];
        (Now, Finish, Late) = (other.Now, other.Finish, other.Late);
    }

    public PlanProblem Problem => _problem;

    /// <summary>Begin of the latest decision.</summary>
    public int Now { get; private set; } = -HourGrid.Never;

    /// <summary>When all decided so far is done.</summary>
    public int Finish { get; private set; } = -HourGrid.Never;

    /// <summary>Minutes that loads are late, together.</summary>
    public int Late { get; private set; }

    public bool IsDone => Array.TrueForAll(_loadLeft, left => left == 0) && Array.TrueForAll(_filled, filled => filled)
        && (!_problem.Question.Cleaning.AtTheEnd || (DirtyStrainers == 0 && DirtyTanks == 0));

    public int DirtyStrainers => _problem.CleanStrainer == 0 ? 0 : _strainerHoney.Count(honey => honey != Clean);

    /// <summary>Tanks to be cleaned, those among them that are still to be filled from.</summary>
    public int DirtyTanks => _problem.CleanTank == 0 ? 0 : Enumerable.Range(0, _tankHoney.Length).Count(t => _tankHoney[t] != Clean && !StaysFull(t));

    public bool IsStrained(int batch) => _strained[batch];

    public bool IsFilled(int load) => _filled[load];

    public int MembersLeft(int load) => _loadLeft[load];

    /// <summary>When the members strained so far were through.</summary>
    public int StrainedAt(int load) => _loadStrained[load];

    public int PersonFree(int person) => _personFree[person];

    public int StrainerFree(int strainer) => _strainerFree[strainer];

    public int StrainerHoney(int strainer) => _strainerHoney[strainer];

    public int TankFree(int tank) => _tankFree[tank];

    public int TankHoney(int tank) => _tankHoney[tank];

    public int TankLoad(int tank) => _tankLoad[tank];

    public int LoadTank(int load) => _loadTank[load];

    public int SpotFree(int spot) => _spotFree[spot];

    public PlanState Copy() => new(this);

    /// <summary>When a load may be filled.</summary>
    public int ReadyToFill(int load) => _loadLeft[load] > 0 ? HourGrid.Never : _loadStrained[load] + _problem.Loads[load].Stand;

    /// <summary>Whether a load may go into a tank as it is.</summary>
    public bool TankSuits(int tank, int load) => _loadTank[load] == tank
        || (_loadTank[load] == None && _tankLoad[tank] == None && _problem.TankTakes(tank, load) && IsCleanFor(_tankHoney[tank], _problem.Loads[load].Honey, _problem.CleanTank));

    public bool StrainerSuits(int strainer, int honey) => IsCleanFor(_strainerHoney[strainer], honey, _problem.CleanStrainer);

    public bool PlaceSuits(int spot, BatchNumbers batch) =>
        batch.Places is null || batch.Places.Contains(_problem.Question.Places[_problem.SpotPlaces[spot]].Name, StringComparer.OrdinalIgnoreCase);

    /// <summary>The earliest time that a decision can be carried out.</summary>
    /// <param name="action">The decision.</param>
    /// <param name="inOrder">Whether it begins no earlier than the one before it.</param>
    /// <returns>The time; null when it cannot be.</returns>
    public TimedAction? Time(in PlanAction action, bool inOrder = true)
    {
        int from = Math.Max(inOrder ? Now : -HourGrid.Never, _personFree[action.Person]);
        HourGrid hours = _problem.Hours[action.Person];
        switch (action.Kind)
        {
            case ActionKind.Strain:
                return Straining(action, from, hours);
            case ActionKind.Fill:
                int begin = hours.Begin(Math.Max(from, ReadyToFill(action.Item)));
                int end = begin >= HourGrid.Never ? HourGrid.Never : hours.EndOf(begin, _problem.Loads[action.Item].Fill);
                return end >= HourGrid.Never ? null : new TimedAction(action, begin, end, HourGrid.Never);
            case ActionKind.CleanStrainer:
                return Cleaning(action, Math.Max(from, _strainerFree[action.Item]), hours, _problem.CleanStrainer);
            default:
                return Cleaning(action, Math.Max(from, _tankFree[action.Item]), hours, _problem.CleanTank);
        }
    }

    /// <summary>Takes a decision.</summary>
    /// <param name="timed">Decision with its time, by <see cref="Time"/>.</param>
    public void Apply(in TimedAction timed)
    {
        PlanAction action = timed.Action;
        Now = Math.Max(Now, timed.Start);
        Finish = Math.Max(Finish, timed.End);
        _personFree[action.Person] = timed.End;
        switch (action.Kind)
        {
            case ActionKind.Strain:
                ApplyStrain(timed);
                break;
            case ActionKind.Fill:
                _filled[action.Item] = true;
                _tankFree[action.Tank] = timed.End;
                _tankLoad[action.Tank] = None;
                Late += Math.Max(0, timed.End - _problem.Loads[action.Item].Due);
                break;
            case ActionKind.CleanStrainer:
                _strainerFree[action.Item] = timed.End;
                _strainerHoney[action.Item] = Clean;
                break;
            default:
                _tankFree[action.Item] = timed.End;
                _tankHoney[action.Item] = Clean;
                break;
        }
    }

    /// <summary>A mark of all that matters for what comes next, in 128 bits: two states of one mark have the same future.</summary>
    public UInt128 Mark()
    {
        ulong low = 0x9E3779B97F4A7C15;
        ulong high = 0xC2B2AE3D27D4EB4F;
        Mix(Now);
        foreach (int free in _personFree)
            Mix(Math.Max(free, Now));
        for (int s = 0; s < _strainerFree.Length; s++)
            Mix((Math.Max(_strainerFree[s], Now) * 64) + _strainerHoney[s] + 1);
        for (int t = 0; t < _tankFree.Length; t++)
            Mix((((Math.Max(_tankFree[t], Now) * 64) + _tankHoney[t] + 1) * 64) + _tankLoad[t] + 1);
        foreach (int free in _spotFree)
            Mix(free);
        foreach (int end in _settingEnd)
            Mix(end);
        for (int b = 0; b < _strained.Length; b++)
            Mix(_strained[b] ? 1 : 0);
        for (int l = 0; l < _filled.Length; l++)
            Mix(_filled[l] ? -1 : Math.Max(_loadStrained[l], Now - _problem.Loads[l].Stand));
        return new UInt128(high, low);

        void Mix(long value)
        {
            low = (low ^ (ulong)value) * 0xBF58476D1CE4E5B9;
            low ^= low >> 29;
            high = (high + (ulong)value) * 0x94D049BB133111EB;
            high ^= high >> 32;
        }
    }

    private static int[] Filled(int count, int value)
    {
        int[] all = new int[count];
        Array.Fill(all, value);
        return all;
    }

    private static bool IsCleanFor(int carries, int honey, int cleaningTime) => carries == Clean || carries == honey || cleaningTime == 0;

    private static TimedAction? Cleaning(in PlanAction action, int from, HourGrid hours, int minutes)
    {
        int begin = hours.Fit(from, minutes);
        return begin >= HourGrid.Never ? null : new TimedAction(action, begin, begin + minutes, HourGrid.Never);
    }

    private bool StaysFull(int tank) => _tankLoad[tank] != None && _problem.Loads[_tankLoad[tank]].Fill == 0;

    private TimedAction? Straining(in PlanAction action, int from, HourGrid hours)
    {
        BatchNumbers batch = _problem.Batches[action.Item];
        int start = Math.Max(Math.Max(from, _strainerFree[action.Strainer]), Math.Max(_tankFree[action.Tank], batch.Earliest + batch.Ready));
        while (true)
        {
            int fits = hours.Fit(start, batch.Strain);
            if (fits >= HourGrid.Never)
                return null;
            (int ready, int warmFrom) = action.Spot < 0 ? (fits, HourGrid.Never) : WarmBefore(batch, action.Spot, fits);
            if (ready >= HourGrid.Never)
                return null;
            if (ready == fits)
                return new TimedAction(action, fits, fits + batch.Strain, warmFrom);
            start = ready;
        }
    }

    /// <summary>The earliest straining from a moment on that a warming in a spot can precede, and when the vessel is put there: as late as will do.</summary>
    private (int Strain, int WarmFrom) WarmBefore(BatchNumbers batch, int spot, int strain)
    {
        int from = WarmNotBefore(batch, spot);
        bool timer = _problem.Question.Places[_problem.SpotPlaces[spot]].HasTimer;
        if (_problem.WarmFrom is { } planned)
        {
            int put = Math.Max(planned[batch.Index], from);
            if (!timer && put > planned[batch.Index])
                put = _problem.Anybody.FirstFrom(put);
            return put >= HourGrid.Never ? (HourGrid.Never, put) : (Math.Max(strain, put + batch.Ready), put);
        }

        while (true)
        {
            int latest = Math.Max(strain, from + batch.Ready) - batch.Ready;
            int put = timer ? latest : _problem.Anybody.LastUpTo(latest);
            if (put >= from && latest - put <= batch.LongestHold)
                return (latest + batch.Ready, put);
            int next = _problem.Anybody.FirstFrom(latest + 1);
            if (next >= HourGrid.Never)
                return (HourGrid.Never, HourGrid.Never);
            strain = next + batch.Ready;
        }
    }

    /// <summary>When a batch can be put to a spot at the earliest: it is there, the spot is free, and what needs another setting is out.</summary>
    public int WarmNotBefore(BatchNumbers batch, int spot)
    {
        int from = Math.Max(_spotFree[spot], batch.Earliest);
        for (int setting = 0; batch.Setting >= 0 && setting < _problem.Settings; setting++)
        {
            if (setting != batch.Setting)
                from = Math.Max(from, _settingEnd[(_problem.SpotPlaces[spot] * _problem.Settings) + setting]);
        }

        return from;
    }

    private void ApplyStrain(in TimedAction timed)
    {
        PlanAction action = timed.Action;
        BatchNumbers batch = _problem.Batches[action.Item];
        LoadNumbers load = _problem.Loads[batch.Load];
        _strained[action.Item] = true;
        _strainerFree[action.Strainer] = timed.End;
        _strainerHoney[action.Strainer] = batch.Honey;
        _loadTank[batch.Load] = action.Tank;
        _tankLoad[action.Tank] = batch.Load;
        _tankHoney[action.Tank] = load.Honey;
        _tankFree[action.Tank] = timed.End;
        _loadStrained[batch.Load] = Math.Max(_loadStrained[batch.Load], timed.End);
        _loadLeft[batch.Load]--;
        if (load.Fill == 0 && _loadLeft[batch.Load] == 0)
        {
            int ready = _loadStrained[batch.Load] + load.Stand;
            Finish = Math.Max(Finish, ready);
            Late += Math.Max(0, ready - load.Due);
        }

        if (action.Spot < 0)
            return;
        int place = _problem.SpotPlaces[action.Spot];
        int leaves = _problem.Question.Places[place].DrainedInPlace ? timed.End : timed.Start;
        _spotFree[action.Spot] = leaves;
        if (batch.Setting >= 0)
        {
            ref int end = ref _settingEnd[(place * _problem.Settings) + batch.Setting];
            end = Math.Max(end, leaves);
        }
    }
}
