using FlowSim.Planning;

namespace FlowSim.Plots;

/// <summary>What one person or piece of kit does over the day; what overlaps, as vessels in one cabinet do, is in lanes under each other.</summary>
/// <param name="Name">Name of the row.</param>
/// <param name="Lanes">Number of lanes, at least 1.</param>
/// <param name="Bars">Bars: lane, what is done, from and to in minutes.</param>
internal sealed record DayRow(string Name, int Lanes, IReadOnlyList<(int Lane, PlanEntry Entry, double From, double To)> Bars)
{
    // More would make the sheet longer than anybody reads.
    private const int MostLanes = 12;

    /// <summary>Rows of a plan: people first, then kit in the order that honey takes. Those with nothing to do are left out.</summary>
    public static DayRow[] Of(DayPlan plan)
    {
        PlanEntry[] entries = [.. plan.Entries];
        IEnumerable<DayRow> people = plan.Question.People.Select(p => Row(p.Name, [.. entries.Where(e => e.Who == p.Name)], byWork: true));
        IEnumerable<DayRow> places = plan.Question.Places.Select(p => Row(p.Name, [.. entries.Where(e => e.Place == p.Name && e.Strainer is null)]));
        IEnumerable<DayRow> strainers = plan.Question.Strainers.Select(s => Row(s.Name, [.. entries.Where(e => e.Strainer == s.Name)]));
        IEnumerable<DayRow> tanks = plan.Question.Tanks.Select(t => Row(t.Name, [.. entries.Where(e => e.Tank == t.Name)]));
        return [.. people.Concat(places).Concat(strainers).Concat(tanks).Where(row => row.Bars.Count > 0)];
    }

    private static DayRow Row(string name, PlanEntry[] entries, bool byWork = false)
    {
        List<double> ends = [];
        List<(int Lane, PlanEntry Entry, double From, double To)> bars = [];

        // All of one vessel's stay is in one lane.
        foreach (IGrouping<string, PlanEntry> stay in entries.GroupBy(e => e.Place is null ? "" : string.Join('\n', e.Batches), StringComparer.Ordinal).OrderBy(g => g.Min(e => e.From.Minutes)))
        {
            foreach (IGrouping<bool, PlanEntry> part in stay.GroupBy(e => e.Place is not null))
            {
                double from = part.Min(e => e.From.Minutes);
                double to = part.Max(e => e.To.Minutes);
                int lane = part.Key ? ends.FindIndex(end => end <= from) : 0;
                if (lane < 0 && ends.Count < MostLanes)
                    lane = ends.Count;
                if (lane < 0)
                    continue;
                while (ends.Count <= lane)
                    ends.Add(double.NegativeInfinity);
                ends[lane] = Math.Max(ends[lane], to);
                bars.AddRange(part.SelectMany(e => byWork ? e.Work.Select(w => (lane, e, w.From.Minutes, w.To.Minutes)) : [(lane, e, e.From.Minutes, e.To.Minutes)]));
            }
        }

        return new DayRow(name, Math.Max(1, ends.Count), bars);
    }
}
