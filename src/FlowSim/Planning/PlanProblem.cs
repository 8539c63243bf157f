using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Planning;

/// <summary>A question as whole minutes and indices: what the search works on.</summary>
internal sealed class PlanProblem
{
    private const double Rounding = 1e-6;

    /// <param name="question">Question, checked.</param>
    /// <param name="pace">Which times count.</param>
    /// <param name="loads">Loads to plan, by their numbers among all of the question; null for all.</param>
    public PlanProblem(DayQuestion question, Pace pace, IReadOnlyCollection<int>? loads = null)
    {
        Question = question;
        string[] honeys = [.. question.Batches.Select(HoneyOf).Distinct(StringComparer.Ordinal)];
        string[] settings = [.. question.Batches.Select(b => b.Setting).OfType<string>().Distinct(StringComparer.Ordinal)];
        PlannedBatch[][] all = LoadsOf(question);
        int[] kept = [.. Enumerable.Range(0, all.Length).Where(l => loads is null || loads.Contains(l))];

        Batches = [.. question.Batches
            .Select((batch, index) => (Batch: batch, Index: index, Load: Array.FindIndex(kept, l => all[l].Contains(batch))))
            .Where(one => one.Load >= 0)
            .Select(one => BatchOf(one.Batch, one.Index, one.Load, pace, honeys, settings))];
        Loads = [.. kept.Select((l, at) => LoadOf(all[l], at, pace, honeys))];
        HourGrid? open = question.Open is { } spans ? GridOf(spans) : null;
        Hours = [.. question.People.Select(person => open is null ? GridOf(person.Hours) : GridOf(person.Hours).Within(open))];
        Anybody = new HourGrid(Hours.SelectMany(grid => grid.Spans));
        SpotPlaces = [.. question.Places.SelectMany((place, p) => Enumerable.Repeat(p, place.Vessels))];
        Settings = settings.Length;
        CleanStrainer = Up(question.Cleaning.Strainer);
        CleanTank = Up(question.Cleaning.Tank);
        for (int b = 1; b < Batches.Length; b++)
            Batches[b].Twin = Enumerable.Range(0, b).LastOrDefault(earlier => AreAlike(Batches[earlier], Batches[b]), -1);
    }

    public DayQuestion Question { get; }

    public BatchNumbers[] Batches { get; }

    public LoadNumbers[] Loads { get; }

    /// <summary>Hours of each person, inside those of the house.</summary>
    public HourGrid[] Hours { get; }

    /// <summary>When anybody is there.</summary>
    public HourGrid Anybody { get; }

    /// <summary>The warming place that each spot for a vessel belongs to.</summary>
    public int[] SpotPlaces { get; }

    public int Settings { get; }

    public int CleanStrainer { get; }

    public int CleanTank { get; }

    public int Strainers => Question.Strainers.Count;

    public int Tanks => Question.Tanks.Count;

    public int People => Hours.Length;

    /// <summary>When each batch is put to warm, whatever comes of it; null where it is put there as late as will do.</summary>
    public int[]? WarmFrom { get; init; }

    /// <summary>Batches of a question that share a tank, by their first.</summary>
    public static PlannedBatch[][] LoadsOf(DayQuestion question) =>
        [.. question.Batches.GroupBy(b => b.Joined is { } joined ? "j" + joined : "n" + b.Name, StringComparer.Ordinal).Select(group => group.ToArray())];

    /// <summary>Whole minutes, rounded up; a rounding error of the conversion does not count.</summary>
    public static int Up(Duration time) => (int)Math.Ceiling(time.Minutes - Rounding);

    /// <summary>Minutes that a step takes; 0 where it is none.</summary>
    public static int Up(StepTimes? times, Pace pace) => times is null ? 0 : Up(times.At(pace));

    public bool TankTakes(int tank, int load) =>
        Loads[load].VolumeL <= Question.Tanks[tank].Capacity.Liters - Question.Tanks[tank].KeptFree.Liters + Rounding;

    private static string HoneyOf(PlannedBatch batch) => batch.Honey is { } honey ? "h" + honey : "n" + batch.Name;

    private static HourGrid GridOf(IReadOnlyList<WorkSpan> spans) =>
        new(spans.Select(span => (Up(span.From), (int)Math.Floor(span.To.Minutes + Rounding))));

    private static BatchNumbers BatchOf(PlannedBatch batch, int index, int load, Pace pace, string[] honeys, string[] settings) => new()
    {
        Index = index,
        Load = load,
        Honey = Array.IndexOf(honeys, HoneyOf(batch)),
        Setting = batch.Setting is { } setting ? Array.IndexOf(settings, setting) : -1,
        NeedsPlace = batch.Steps.Warm is not null,
        Ready = Up(batch.Steps.Warm, pace) + Up(batch.Steps.Settle, pace),
        ReadySlow = Up(batch.Steps.Warm, Pace.Slow) + Up(batch.Steps.Settle, Pace.Slow),
        LongestHold = (int)Math.Floor(batch.LongestHold.Minutes + Rounding),
        Strain = Up(batch.Steps.Strain, pace),
        Earliest = Up(batch.Earliest),
        Places = batch.Places,
    };

    private static LoadNumbers LoadOf(PlannedBatch[] members, int at, Pace pace, string[] honeys) => new()
    {
        Index = at,
        Members = members,
        Honey = Array.IndexOf(honeys, HoneyOf(members[0])),
        Stand = members.Max(b => Up(b.Steps.Stand, pace)),
        Fill = members[0].Steps.Fill is null ? 0 : Up(Duration.FromMinutes(members.Sum(b => b.Steps.Fill!.At(pace).Minutes))),
        Due = members.Min(b => b.Due is { } due ? (int)Math.Floor(due.Minutes + Rounding) : HourGrid.Never),
        StrainAll = members.Sum(b => Up(b.Steps.Strain, pace)),
        VolumeL = members.Sum(b => b.Volume.Liters),
    };

    /// <summary>Whether two batches can take each other's place in any plan, so that only one order need be looked at.</summary>
    private bool AreAlike(BatchNumbers one, BatchNumbers other)
    {
        LoadNumbers load = Loads[one.Load];
        LoadNumbers its = Loads[other.Load];
        bool sameLoad = one.Load == other.Load
            || (load.Members.Length == 1 && its.Members.Length == 1 && (load.Stand, load.Fill, load.Due, load.VolumeL, load.Honey) == (its.Stand, its.Fill, its.Due, its.VolumeL, its.Honey));
        return sameLoad
            && (one.Honey, one.Setting, one.NeedsPlace, one.Ready, one.LongestHold, one.Strain, one.Earliest) == (other.Honey, other.Setting, other.NeedsPlace, other.Ready, other.LongestHold, other.Strain, other.Earliest)
            && (one.Places ?? []).SequenceEqual(other.Places ?? [], StringComparer.OrdinalIgnoreCase)
            && one.Places is null == other.Places is null;
    }
}

/// <summary>A batch in whole minutes.</summary>
internal sealed class BatchNumbers
{
    /// <summary>Its number in the question.</summary>
    public required int Index { get; init; }

    /// <summary>The load it belongs to.</summary>
    public required int Load { get; init; }

    public required int Honey { get; init; }

    /// <summary>What its place is set to; -1 for whatever.</summary>
    public required int Setting { get; init; }

    public required bool NeedsPlace { get; init; }

    /// <summary>Warming and settling.</summary>
    public required int Ready { get; init; }

    /// <summary>The same if it goes slowly.</summary>
    public required int ReadySlow { get; init; }

    public required int LongestHold { get; init; }

    public required int Strain { get; init; }

    public required int Earliest { get; init; }

    public required IReadOnlyList<string>? Places { get; init; }

    /// <summary>The batch before it that is just like it; -1 for none.</summary>
    public int Twin { get; set; } = -1;
}

/// <summary>The batches that share a tank, in whole minutes.</summary>
internal sealed class LoadNumbers
{
    public required int Index { get; init; }

    public required PlannedBatch[] Members { get; init; }

    public required int Honey { get; init; }

    public required int Stand { get; init; }

    /// <summary>Straining of all of them, one after the other.</summary>
    public required int StrainAll { get; init; }

    /// <summary>Filling of all of them; 0 when they are not filled.</summary>
    public required int Fill { get; init; }

    public required int Due { get; init; }

    public required double VolumeL { get; init; }
}
