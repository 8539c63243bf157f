using System.Globalization;
using System.Text;
using FlowSim.Planning;

namespace FlowSim.Tests.Planning;

/// <summary>
/// The best plan of a small day by trying everything: minute by minute, anything that may begin now is begun or left. Vessels are put to warm as decisions
/// of their own and places count their vessels; nothing is derived from the order of decisions.
/// </summary>
internal sealed class TriedDays
{
    private readonly DayQuestion _day;
    private readonly PlannedBatch[][] _loads;
    private readonly bool[][] _there;
    private readonly int _horizon;
    private readonly Dictionary<string, List<(int Late, int Finish)>> _seen = new(StringComparer.Ordinal);
    private (int Late, int Finish)? _best;

    private TriedDays(DayQuestion day)
    {
        _day = day;
        _loads = [.. day.Batches.GroupBy(b => b.Joined ?? "alone " + b.Name).Select(g => g.ToArray())];
        _horizon = day.People.SelectMany(p => p.Hours).Max(h => Whole(h.To));
        _there = [.. day.People.Select(p => Enumerable.Range(0, _horizon).Select(t =>
            p.Hours.Any(h => Whole(h.From) <= t && t < Whole(h.To)) && (day.Open is null || day.Open.Any(h => Whole(h.From) <= t && t < Whole(h.To)))).ToArray())];
    }

    /// <summary>Least minutes late and soonest finish; null when there is no plan.</summary>
    public static (int Late, int Finish)? Best(DayQuestion day)
    {
        TriedDays tried = new(day);
        tried.Try(new State(day, tried._loads.Length));
        return tried._best;
    }

    private void Try(State now)
    {
        if (_best is { } best && (now.Late > best.Late || (now.Late == best.Late && now.Finish >= best.Finish)))
            return;
        if (IsDone(now))
        {
            _best = (now.Late, now.Finish);
            return;
        }

        int least = Least(now);
        if (least > _horizon || (_best is { } known && now.Late >= known.Late && least >= known.Finish))
            return;
        List<(int Late, int Finish)> before = _seen.TryGetValue(now.Key(), out var list) ? list : _seen[now.Key()] = [];
        if (before.Any(b => b.Late <= now.Late && b.Finish <= now.Finish))
            return;
        before.Add((now.Late, now.Finish));

        foreach (State next in Begun(now))
            Try(next);
        State later = now.Copy();
        later.T++;
        Try(later);
    }

    /// <summary>What is left of the longest load by itself, from now on; never when a vessel has been kept warm too long.</summary>
    private int Least(State now)
    {
        int least = now.T;
        for (int load = 0; load < _loads.Length; load++)
        {
            if (now.Filled[load])
                continue;
            int left = _loads[load].Sum(m => Whole(m.Steps.Fill!.Likely));
            foreach (PlannedBatch batch in _loads[load])
            {
                int b = _day.Batches.ToList().IndexOf(batch);
                if (now.Strained[b] >= 0)
                    continue;
                left += Whole(batch.Steps.Strain.Likely);
                int settle = batch.Steps.Settle is null ? 0 : Whole(batch.Steps.Settle.Likely);
                if (now.Put[b] >= 0 && now.T - now.Put[b] - Whole(batch.Steps.Warm!.Likely) - settle > Whole(batch.LongestHold))
                    return int.MaxValue;
            }

            least = Math.Max(least, now.T + left);
        }

        return least;
    }

    private IEnumerable<State> Begun(State now) => Fills(now).Concat(Strains(now)).Concat(Puts(now)).Concat(Cleanings(now));

    private IEnumerable<int> Free(State now) => Enumerable.Range(0, _there.Length).Where(p => now.Person[p] <= now.T);

    private bool Stays(int person, int from, int minutes) => Enumerable.Range(from, minutes).All(t => t < _horizon && _there[person][t]);

    private IEnumerable<State> Puts(State now)
    {
        for (int b = 0; b < _day.Batches.Count; b++)
        {
            PlannedBatch batch = _day.Batches[b];
            if (batch.Steps.Warm is null || now.Put[b] >= 0 || now.T < Whole(batch.Earliest))
                continue;
            for (int p = 0; p < _day.Places.Count; p++)
            {
                WarmingPlace place = _day.Places[p];

                // Closing time itself still counts as being there.
                bool on = place.HasTimer || Enumerable.Range(0, _there.Length).Any(a => (now.T < _horizon && _there[a][now.T]) || (now.T > 0 && _there[a][now.T - 1]));
                int[] inside = [.. Enumerable.Range(0, _day.Batches.Count).Where(c => now.Place[c] == p && (now.Strained[c] < 0 || (place.DrainedInPlace && now.Strained[c] > now.T)))];
                bool fits = inside.Length < place.Vessels && inside.All(c => _day.Batches[c].Setting is null || batch.Setting is null || _day.Batches[c].Setting == batch.Setting);
                if (!on || !fits || (batch.Places is not null && !batch.Places.Contains(place.Name)))
                    continue;
                State next = now.Copy();
                next.Put[b] = now.T;
                next.Place[b] = p;
                yield return next;
            }
        }
    }

    private IEnumerable<State> Strains(State now)
    {
        for (int b = 0; b < _day.Batches.Count; b++)
        {
            PlannedBatch batch = _day.Batches[b];
            int warm = batch.Steps.Warm is null ? Whole(batch.Earliest) : now.Put[b] < 0 ? int.MaxValue / 2 : now.Put[b] + Whole(batch.Steps.Warm.Likely);
            int ready = warm + (batch.Steps.Settle is null ? 0 : Whole(batch.Steps.Settle.Likely));
            if (now.Strained[b] >= 0 || now.T < ready || (batch.Steps.Warm is not null && now.T - ready > Whole(batch.LongestHold)))
                continue;
            int load = Array.FindIndex(_loads, l => l.Contains(batch));
            int takes = Whole(batch.Steps.Strain.Likely);
            foreach (int person in Free(now).Where(p => Stays(p, now.T, takes)))
            {
                for (int s = 0; s < _day.Strainers.Count; s++)
                {
                    if (now.Strainer[s] > now.T || !Suits(now.StrainerHoney[s], batch.Honey, _day.Cleaning.Strainer))
                        continue;
                    for (int k = 0; k < _day.Tanks.Count; k++)
                    {
                        bool mine = now.InTank[k] == load;
                        bool free = now.InTank[k] < 0 && !now.InTank.Contains(load) && Suits(now.TankHoney[k], batch.Honey, _day.Cleaning.Tank)
                            && _loads[load].Sum(m => m.Volume.Liters) <= _day.Tanks[k].Capacity.Liters - _day.Tanks[k].KeptFree.Liters;
                        if (now.Tank[k] > now.T || !(mine || free))
                            continue;
                        State next = now.Copy();
                        next.Person[person] = next.Strainer[s] = next.Tank[k] = next.Strained[b] = now.T + takes;
                        next.StrainerHoney[s] = next.TankHoney[k] = batch.Honey;
                        next.InTank[k] = load;
                        next.Finish = Math.Max(next.Finish, now.T + takes);
                        yield return next;
                    }
                }
            }
        }
    }

    private IEnumerable<State> Fills(State now)
    {
        for (int load = 0; load < _loads.Length; load++)
        {
            int[] members = [.. _loads[load].Select(m => _day.Batches.ToList().IndexOf(m))];
            if (now.Filled[load] || members.Any(m => now.Strained[m] < 0)
                || now.T < members.Max(m => now.Strained[m]) + _loads[load].Max(m => m.Steps.Stand is null ? 0 : Whole(m.Steps.Stand.Likely)))
                continue;
            int left = _loads[load].Sum(m => Whole(m.Steps.Fill!.Likely));
            foreach (int person in Free(now).Where(p => now.T < _horizon && _there[p][now.T]))
            {
                int end = now.T;
                for (int work = left; work > 0 && end < _horizon; end++)
                    work -= _there[person][end] ? 1 : 0;
                if (Enumerable.Range(now.T, end - now.T).Count(t => _there[person][t]) < left)
                    continue;
                State next = now.Copy();
                int tank = Array.IndexOf(now.InTank, load);
                next.Filled[load] = true;
                next.InTank[tank] = -1;
                next.Person[person] = next.Tank[tank] = end;
                next.Finish = Math.Max(next.Finish, end);
                next.Late += _loads[load].Max(m => m.Due is { } due ? Math.Max(0, end - Whole(due)) : 0);
                yield return next;
            }
        }
    }

    private IEnumerable<State> Cleanings(State now)
    {
        for (int s = 0; s < _day.Strainers.Count; s++)
        {
            int takes = Whole(_day.Cleaning.Strainer);
            if (takes == 0 || now.StrainerHoney[s] is null || now.Strainer[s] > now.T)
                continue;
            foreach (int person in Free(now).Where(p => Stays(p, now.T, takes)))
            {
                State next = now.Copy();
                next.Person[person] = next.Strainer[s] = now.T + takes;
                next.StrainerHoney[s] = null;
                next.Finish = Math.Max(next.Finish, now.T + takes);
                yield return next;
            }
        }

        for (int k = 0; k < _day.Tanks.Count; k++)
        {
            int takes = Whole(_day.Cleaning.Tank);
            if (takes == 0 || now.TankHoney[k] is null || now.InTank[k] >= 0 || now.Tank[k] > now.T)
                continue;
            foreach (int person in Free(now).Where(p => Stays(p, now.T, takes)))
            {
                State next = now.Copy();
                next.Person[person] = next.Tank[k] = now.T + takes;
                next.TankHoney[k] = null;
                next.Finish = Math.Max(next.Finish, now.T + takes);
                yield return next;
            }
        }
    }

    private bool IsDone(State now) => now.Filled.All(f => f)
        && (!_day.Cleaning.AtTheEnd || ((now.StrainerHoney.All(h => h is null) || Whole(_day.Cleaning.Strainer) == 0) && (now.TankHoney.All(h => h is null) || Whole(_day.Cleaning.Tank) == 0)));

    private static bool Suits(string? carries, string? honey, UnitsNet.Duration cleaning) => carries is null || carries == honey || Whole(cleaning) == 0;

    private static int Whole(UnitsNet.Duration time) => (int)Math.Round(time.Minutes);

    private sealed class State
    {
        private State()
        {
        }

        public State(DayQuestion day, int loads)
        {
            Person = new int[day.People.Count];
            Strainer = new int[day.Strainers.Count];
            StrainerHoney = new string?[day.Strainers.Count];
            Tank = new int[day.Tanks.Count];
            TankHoney = new string?[day.Tanks.Count];
            InTank = [.. day.Tanks.Select(_ => -1)];
            Put = [.. day.Batches.Select(_ => -1)];
            Place = [.. day.Batches.Select(_ => -1)];
            Strained = [.. day.Batches.Select(_ => -1)];
            Filled = new bool[loads];
        }

        public int T { get; set; }

        public int Finish { get; set; }

        public int Late { get; set; }

        public int[] Person { get; private init; } = [];

        public int[] Strainer { get; private init; } = [];

        public string?[] StrainerHoney { get; private init; } = [];

        public int[] Tank { get; private init; } = [];

        public string?[] TankHoney { get; private init; } = [];

        public int[] InTank { get; private init; } = [];

        public int[] Put { get; private init; } = [];

        public int[] Place { get; private init; } = [];

        public int[] Strained { get; private init; } = [];

        public bool[] Filled { get; private init; } = [];

        public State Copy() => new()
        {
            T = T,
            Finish = Finish,
            Late = Late,
            Person = [.. Person],
            Strainer = [.. Strainer],
            StrainerHoney = [.. StrainerHoney],
            Tank = [.. Tank],
            TankHoney = [.. TankHoney],
            InTank = [.. InTank],
            Put = [.. Put],
            Place = [.. Place],
            Strained = [.. Strained],
            Filled = [.. Filled],
        };

        public string Key()
        {
            StringBuilder key = new();
            key.Append(CultureInfo.InvariantCulture, $"{T};");
            foreach (int free in Person.Concat(Strainer).Concat(Tank))
                key.Append(Math.Max(0, free - T)).Append(',');
            key.AppendJoin(',', StrainerHoney).Append(';').AppendJoin(',', TankHoney).Append(';').AppendJoin(',', InTank).Append(';');
            for (int b = 0; b < Put.Length; b++)
                key.Append(Strained[b] >= 0 ? "s" + Strained[b] : "w" + Put[b] + "p" + Place[b]).Append(',');
            return key.AppendJoin(',', Filled).Append(';').AppendJoin(',', Place).ToString();
        }
    }
}
