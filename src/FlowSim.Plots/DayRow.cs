using FlowSim.Planning;

namespace FlowSim.Plots;

/// <summary>What one person or piece of kit does over the day; what overlaps, as vessels in one cabinet do, is in lanes under each other.</summary>
/// <param name="Name">Name of the row.</param>
/// <param name="Lanes">Number of lanes, at least 1.</param>
/// <param name="Bars">Bars: lane, what is done, from and to in minutes.</param>
internal sealed record DayRow(string Name, int Lanes, IReadOnlyList<(int Lane, PlanEntry Entry, double From, double To)> Bars)
{
    /// <summary>Rows of a plan: people first, then kit in the order that honey takes. Those with nothing to do are left out.</summary>
    public static DayRow[] Of(DayPlan plan)
    {
        PlanEntry[] entries = [.. plan.Entries];
        IEnumerable<DayRow> people = plan.Question.People.Select(p => OneThingAtATime(p.Name, entries.Where(e => e.Who == p.Name).SelectMany(e => e.Work.Select(w => (e, w.From.Minutes, w.To.Minutes)))));
        IEnumerable<DayRow> places = plan.Question.Places.Select(p => SideBySide(p.Name, [.. entries.Where(e => e.Place == p.Name)]));
        IEnumerable<DayRow> strainers = plan.Question.Strainers.Select(s => OneThingAtATime(s.Name, entries.Where(e => e.Strainer == s.Name).Select(Whole)));
        IEnumerable<DayRow> tanks = plan.Question.Tanks.Select(t => OneThingAtATime(t.Name, entries.Where(e => e.Tank == t.Name).Select(Whole)));
        return [.. people.Concat(places).Concat(strainers).Concat(tanks).Where(row => row.Bars.Count > 0)];
    }

    private static (PlanEntry Entry, double From, double To) Whole(PlanEntry entry) => (entry, entry.From.Minutes, entry.To.Minutes);

    private static DayRow OneThingAtATime(string name, IEnumerable<(PlanEntry Entry, double From, double To)> bars) =>
        new(name, 1, [.. bars.Select(bar => (0, bar.Entry, bar.From, bar.To))]);

    /// <summary>Vessels in one place: all of a vessel's stay is in one lane, and a lane is taken again when it is free.</summary>
    private static DayRow SideBySide(string name, PlanEntry[] entries)
    {
        List<double> ends = [];
        List<(int Lane, PlanEntry Entry, double From, double To)> bars = [];
        foreach (IGrouping<string, PlanEntry> stay in entries.GroupBy(e => string.Join('\n', e.Batches), StringComparer.Ordinal).OrderBy(g => g.Min(e => e.From.Minutes)))
        {
            double from = stay.Min(e => e.From.Minutes);
            int lane = ends.FindIndex(end => end <= from);
            if (lane < 0)
            {
                lane = ends.Count;
                ends.Add(from);
            }

            ends[lane] = stay.Max(e => e.To.Minutes);
            bars.AddRange(stay.Select(e => (lane, e, e.From.Minutes, e.To.Minutes)));
        }

        return new DayRow(name, Math.Max(1, ends.Count), bars);
    }
}
