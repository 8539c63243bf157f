using FlowSim.Commands.Quantities;
using FlowSim.Planning;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>A day as it was read.</summary>
/// <param name="Question">What is to be done.</param>
/// <param name="Date">The day that its moments count from.</param>
/// <param name="Notices">What the models say of the batches.</param>
internal sealed record DayInput(DayQuestion Question, DateOnly Date, IReadOnlyList<Notice> Notices);

/// <summary>Turns a day's file into a question. What can be planned is decided by the library.</summary>
internal static class DayReader
{
    private const int DayMin = 24 * 60;
    private const int MostDays = 7;

    /// <summary>Reads a day.</summary>
    /// <param name="files">Files.</param>
    /// <param name="loaded">The file.</param>
    /// <param name="path">Its path; null for the example.</param>
    /// <param name="pace">Pace in place of the file's; null for that.</param>
    /// <param name="cancellation">Ends the models early.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    public static DayInput Read(IFiles files, Loaded loaded, string? path, Pace? pace, CancellationToken cancellation)
    {
        InputDocument document = loaded.Document;
        foreach ((string name, Spot spot) in document.SectionSpots.Where(section => !IsKnown(section.Key)))
            loaded.Problems.Add(spot, $"[{Output.Printable.Of(name)}] is not a section of a day; nearest: {Spelling.Nearest(name, [.. Dialect.Day.Sections, .. Dialect.Day.Lists])}; known: {Dialect.Day.Written}");

        Section day = Of("day");
        DateOnly date = ReadDate(day);
        (int begin, int end, IReadOnlyList<WorkSpan> open) = ReadOpen(day, date, loaded.Journal);
        Pace inFile = day.Word(DayKeys.Day.Pace, Words.All<Pace>(), "pace") is { } word ? Words.Value<Pace>(word) : Pace.Likely;
        day.RefuseStrangers();
        Cleaning cleaning = ReadCleaning(Of("changeover"), loaded.Journal);
        Worker[] people = [.. All("person").Select(section => ReadPerson(section, begin, end, loaded)).OfType<Worker>()];
        WarmingPlace[] places = [.. All("warming_place").Select(ReadPlace).OfType<WarmingPlace>()];
        PlannedStrainer[] strainers = [.. All("strainer").Select(ReadStrainer).OfType<PlannedStrainer>()];
        BottlingTank[] tanks = [.. All("bottling_tank").Select(ReadTank).OfType<BottlingTank>()];
        DayBatchReader reader = new(files, loaded, path, date, begin);
        DayBatch[] batches = [.. All("batch").Select(section => reader.Read(section, [.. places.Select(place => place.Name)])).OfType<DayBatch>()];
        foreach (string list in DayKeys.Lists.Where(list => list != "warming_place" && !All(list).Any()))
            loaded.Problems.Add(loaded.Journal.FileSpot, $"[[{list}]] is missing; write one for each {list.Replace('_', ' ')}");
        if (loaded.Problems.Any)
            throw new BadInputException(loaded.Problems);

        List<Notice> notices = [];
        PlannedBatch[] planned = [.. batches.SelectMany(batch => reader.Plan(batch, notices, cancellation))];
        if (loaded.Problems.Any)
            throw new BadInputException(loaded.Problems);
        DayQuestion question = new()
        {
            Batches = planned,
            Places = places,
            Strainers = strainers,
            Tanks = tanks,
            People = people,
            Open = open,
            Cleaning = cleaning,
            Pace = pace ?? inFile,
        };
        return new DayInput(question, date, notices);

        Section Of(string name) => new(name, document, loaded.Problems, loaded.Journal);

        IEnumerable<Section> All(string list) => Enumerable.Range(1, document.SectionSpots.Count)
            .Select(number => Dialect.Numbered(list, number))
            .Where(document.SectionSpots.ContainsKey)
            .Select(Of);
    }

    /// <summary>The text of a key; null when it is missing or none.</summary>
    public static string? TextOf(Section section, Key key) => section.Entry(key.Name) is { } entry ? section.Text(key.Name, entry.Value)?.Trim() : null;

    /// <summary>A moment; null when it is missing or wrong.</summary>
    public static int? MomentOf(Section section, Key key, DateOnly date)
    {
        if (TextOf(section, key) is not { } text)
            return null;
        if (ClockGrammar.ReadMoment(text, date, out int minutes) is not { } wrong)
            return minutes;
        section.Wrong(key.Name, section.Entry(key.Name)!.Value.Spot, wrong);
        return null;
    }

    private static bool IsKnown(string section) =>
        DayKeys.Sections.Contains(section, StringComparer.Ordinal) || DayKeys.Lists.Any(list => section.StartsWith(list + " ", StringComparison.Ordinal));

    private static DateOnly ReadDate(Section day)
    {
        if (TextOf(day, DayKeys.Day.Date) is not { } text)
        {
            if (!day.Has(DayKeys.Day.Date))
                day.Missing(DayKeys.Day.Date, "\"2026-03-14\"");
            return new DateOnly(2026, 1, 1);
        }

        if (ClockGrammar.ReadDate(text, out DateOnly date) is { } wrong)
            day.Wrong(DayKeys.Day.Date.Name, day.Entry(DayKeys.Day.Date.Name)!.Value.Spot, wrong);
        return date.Year is > 1 and < 9999 ? date : new DateOnly(2026, 1, 1);
    }

    private static int? TimeOf(Section section, Key key)
    {
        if (TextOf(section, key) is not { } text)
            return null;
        if (ClockGrammar.ReadTime(text, out int minutes) is not { } wrong)
            return minutes;
        section.Wrong(key.Name, section.Entry(key.Name)!.Value.Spot, wrong);
        return null;
    }

    /// <summary>When the house is open, from the first moment that anything may be done.</summary>
    private static (int Begin, int End, IReadOnlyList<WorkSpan> Open) ReadOpen(Section day, DateOnly date, Journal journal)
    {
        int opens = TimeOf(day, DayKeys.Day.Opens) ?? 0;
        int closes = TimeOf(day, DayKeys.Day.Closes) ?? DayMin;
        if (closes <= opens)
            day.Wrong(DayKeys.Day.Closes.Name, day.Entry(DayKeys.Day.Closes.Name)?.Value.Spot ?? day.Spot, "the house closes before it opens");
        int days = day.WholeNumber(DayKeys.Day.Days) ?? 1;
        if (days is < 1 or > MostDays)
        {
            day.Wrong(DayKeys.Day.Days.Name, day.Entry(DayKeys.Day.Days.Name)!.Value.Spot, FormattableString.Invariant($"{days} is outside what is allowed, 1 to {MostDays}"));
            days = 1;
        }

        int begin = MomentOf(day, DayKeys.Day.Begin, date) ?? opens;
        if (!day.Has(DayKeys.Day.Begin))
            journal.Assume(DayKeys.Day.Begin.ToString(), "nothing is done before the house opens on that day", Standing.EngineeringChoice);
        if (begin >= ((days - 1) * DayMin) + closes)
            day.Wrong(DayKeys.Day.Begin.Name, day.Entry(DayKeys.Day.Begin.Name)?.Value.Spot ?? day.Spot, "nothing may be done before the house has closed for the last time; begin earlier");
        return (begin, days * DayMin, Daily(begin, days * DayMin, [(opens, Math.Max(closes, opens + 1))]));
    }

    /// <summary>Spans of each day, between two moments.</summary>
    private static List<WorkSpan> Daily(int begin, int end, IReadOnlyList<(int From, int To)> spans)
    {
        List<WorkSpan> all = [];
        for (int midnight = (int)Math.Floor(begin / (double)DayMin) * DayMin; midnight < end; midnight += DayMin)
        {
            foreach ((int from, int to) in spans)
            {
                int late = Math.Max(begin, midnight + from);
                if (late < midnight + to)
                    all.Add(new WorkSpan(Duration.FromMinutes(late), Duration.FromMinutes(midnight + to)));
            }
        }

        return all;
    }

    private static Cleaning ReadCleaning(Section section, Journal journal)
    {
        Cleaning cleaning = new();
        if (section.Quantity(DayKeys.Changeover.Strainer) is { } strainer)
            cleaning = cleaning with { Strainer = Duration.FromSeconds(strainer) };
        if (section.Quantity(DayKeys.Changeover.Tank) is { } tank)
            cleaning = cleaning with { Tank = Duration.FromSeconds(tank) };
        if (section.Flag(DayKeys.Changeover.AtTheEnd) is { } atTheEnd)
            cleaning = cleaning with { AtTheEnd = atTheEnd };
        if (!section.Has(DayKeys.Changeover.Strainer))
            journal.Assume(DayKeys.Changeover.Strainer.ToString(), FormattableString.Invariant($"a strainer is cleaned in {cleaning.Strainer.Minutes:0} min"), Standing.EngineeringChoice);
        if (!section.Has(DayKeys.Changeover.Tank))
            journal.Assume(DayKeys.Changeover.Tank.ToString(), FormattableString.Invariant($"a bottling tank is cleaned in {cleaning.Tank.Minutes:0} min"), Standing.EngineeringChoice);
        section.RefuseStrangers();
        return cleaning;
    }

    private static Worker? ReadPerson(Section section, int begin, int end, Loaded loaded)
    {
        string? name = NameOf(section, DayKeys.Person.Name, "\"A\"");
        int? from = TimeOf(section, DayKeys.Person.From);
        int? to = TimeOf(section, DayKeys.Person.To);
        if (!section.Has(DayKeys.Person.From))
            section.Missing(DayKeys.Person.From, "\"07:30\"");
        if (!section.Has(DayKeys.Person.To))
            section.Missing(DayKeys.Person.To, "\"16:00\"");
        List<(int From, int To)> breaks = [.. (section.List(DayKeys.Person.Breaks, "[\"12:00 to 12:30\"]") ?? []).Select(item => ReadBreak(section, item)).OfType<(int, int)>().OrderBy(one => one.Item1)];
        section.RefuseStrangers();
        if (name is null || from is not { } comes || to is not { } goes)
            return null;
        if (goes <= comes)
        {
            section.Wrong(DayKeys.Person.To.Name, section.Entry(DayKeys.Person.To.Name)!.Value.Spot, "goes before coming; hours lie within one day");
            return null;
        }

        List<(int From, int To)> spans = [];
        int at = comes;
        foreach ((int away, int back) in breaks)
        {
            if (away > at && away < goes)
                spans.Add((at, away));
            at = Math.Max(at, back);
        }

        if (at < goes)
            spans.Add((at, goes));
        List<WorkSpan> hours = Daily(begin, end, spans);
        if (hours.Count > 0)
            return new Worker { Name = name, Hours = hours };
        loaded.Problems.Add(section.Spot, $"{section.Name}: \"{Output.Printable.Of(name)}\" is never there between the begin and the end of the plan");
        return null;
    }

    private static (int From, int To)? ReadBreak(Section section, InputValue item)
    {
        if (section.Text(DayKeys.Person.Breaks.Name, item) is not { } text)
            return null;
        string[] ends = text.Split(" to ", StringSplitOptions.TrimEntries);
        if (ends.Length == 2 && ClockGrammar.ReadTime(ends[0], out int from) is null && ClockGrammar.ReadTime(ends[1], out int to) is null && to > from)
            return (from, to);
        section.Wrong(DayKeys.Person.Breaks.Name, item.Spot, $"\"{Output.Printable.Of(text)}\" is not a break; write \"12:00 to 12:30\"");
        return null;
    }

    private static WarmingPlace? ReadPlace(Section section)
    {
        string? name = NameOf(section, DayKeys.Place.Name, "\"warm cabinet\"");
        int? vessels = section.WholeNumber(DayKeys.Place.Vessels);
        bool? timer = section.Flag(DayKeys.Place.Timer);
        bool? inPlace = section.Flag(DayKeys.Place.DrainedInPlace);
        section.RefuseStrangers();
        return name is null ? null : new WarmingPlace { Name = name, Vessels = vessels ?? 1, HasTimer = timer ?? false, DrainedInPlace = inPlace ?? false };
    }

    private static PlannedStrainer? ReadStrainer(Section section)
    {
        string? name = NameOf(section, DayKeys.Strainer.Name, "\"cone\"");
        section.RefuseStrangers();
        return name is null ? null : new PlannedStrainer(name);
    }

    private static BottlingTank? ReadTank(Section section)
    {
        string? name = NameOf(section, DayKeys.Tank.Name, "\"tank 1\"");
        double? capacity = section.Quantity(DayKeys.Tank.Capacity);
        if (!section.Has(DayKeys.Tank.Capacity))
            section.Missing(DayKeys.Tank.Capacity, "\"60 L\"");
        double? free = section.Quantity(DayKeys.Tank.KeepFree);
        section.RefuseStrangers();
        return name is null || capacity is not { } m3 ? null : new BottlingTank { Name = name, Capacity = Volume.FromCubicMeters(m3), KeptFree = Volume.FromCubicMeters(free ?? 0) };
    }

    /// <summary>The name of a thing, which it must have.</summary>
    public static string? NameOf(Section section, Key key, string example)
    {
        if (!section.Has(key))
        {
            section.Missing(key, example);
            return null;
        }

        string? name = TextOf(section, key);
        if (name is not { Length: 0 or > 40 })
            return name;
        section.Wrong(key.Name, section.Entry(key.Name)!.Value.Spot, "a name has 1 to 40 characters");
        return null;
    }
}
