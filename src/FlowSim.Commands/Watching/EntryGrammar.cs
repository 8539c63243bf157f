using System.Globalization;
using System.Text.RegularExpressions;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Straining;

namespace FlowSim.Commands.Watching;

/// <summary>
/// Reads what somebody types beside a tank, with sticky fingers: <c>level 247</c>, <c>l 24.7 cm</c>, <c>pond 40</c>, <c>mass 3.9 kg</c>, <c>scrape</c>, <c>gate 40 %</c>, <c>shut</c>. With <c>@4:30</c> in front it was then.
/// </summary>
/// <param name="columns">Headings of the log: what can be entered, and the unit where none is typed.</param>
internal sealed partial class EntryGrammar(IReadOnlyList<RunHeading> columns)
{
    private static readonly (string[] Names, StrainingObservable[] Quantities)[] s_readings =
    [
        (["level", "l", "tank", "t"], [StrainingObservable.TankLevel, StrainingObservable.TankMass, StrainingObservable.TankVolume]),
        (["pond", "p"], [StrainingObservable.PondDepth]),
        (["mass", "m", "weight", "receiver", "r"], [StrainingObservable.ReceiverMass, StrainingObservable.ReceiverLevel, StrainingObservable.ReceiverVolume]),
    ];

    private static readonly (string[] Names, WatchWord Word)[] s_words =
    [
        (["opened", "open"], WatchWord.Opened), (["undo", "u"], WatchWord.Undo), (["why", "w"], WatchWord.Why), (["help", "h"], WatchWord.Help), (["quit", "q", "exit"], WatchWord.Quit),
    ];

    private static readonly string[] s_scrapes = ["scrape", "scraped", "s"], s_shut = ["shut", "close", "closed"], s_gate = ["gate", "g", "open", "opened"], s_note = ["note", "n"];

    /// <summary>What can be typed, each in one line.</summary>
    public IReadOnlyList<string> Help =>
    [
        .. columns.Where(column => column.Kind == ColumnKind.Readings).Select(column => $"{NameOf(column.Quantity)} {Example(column)}  {column.Shown}; another unit may follow"),
        "scrape  the cloth was scraped",
        "gate 40 %  the gate stands at 40 % of the bore; \"shut\" for 0",
        "note hose slipped  a remark for people",
        "undo  takes the last entry back (it stays in the log as a remark)",
        "why  what the advice rests on",
        "quit  ends; the same command goes on later",
        "@4:30 level 247  it was read at 4 min 30 s after the opening",
    ];

    /// <summary>The same, for one line.</summary>
    public string Hint => string.Join(", ", [.. columns.Where(column => column.Kind == ColumnKind.Readings).Select(column => $"{NameOf(column.Quantity)} [{column.Unit!.Symbol}]"), "scrape", "gate %", "shut", "undo", "why", "help", "quit"]);

    /// <summary>Reads a line.</summary>
    /// <param name="line">Line.</param>
    /// <param name="entry">What it says.</param>
    /// <returns>Null, or what is wrong with it and what would be right.</returns>
    public string? Read(string line, out Entry entry)
    {
        entry = new WordEntry(WatchWord.Nothing);
        string text = line.Trim();
        if (text.Length == 0)
            return null;
        if (text.Length > QuantityGrammar.Longest && !StartsWith(text, s_note))
            return FormattableString.Invariant($"that is {text.Length} characters long; an entry is short, as in \"level 247\"");
        double? at = null;
        if (text[0] == '@')
        {
            string moment = text.Split(' ')[0];
            if (ReadMoment(moment[1..], out double seconds) is { } wrong)
                return wrong;
            at = seconds;
            text = text[moment.Length..].Trim();
            if (text.Length == 0)
                return $"what was at {Printable.Of(moment[1..])}? As in \"@4:30 level 247\"";
        }

        string? fault = ReadEntry(text, out entry);
        entry = entry with { AtS = at };
        return fault is null && at is not null && entry is WordEntry ? "a time in front goes with a reading, a scrape or a move of the gate only" : fault;
    }

    private string? ReadEntry(string text, out Entry entry)
    {
        entry = new WordEntry(WatchWord.Nothing);
        if (text == "?")
            text = "help";
        Match parts = Parts().Match(text);
        string word = parts.Groups["word"].Value.ToLowerInvariant();
        string rest = parts.Groups["rest"].Value.Trim().TrimStart('=', ':').Trim();
        if (word.Length == 0)
            return $"\"{Printable.Of(text)}\": say what it is, as in \"{NameOf(columns.First(column => column.Kind == ColumnKind.Readings).Quantity)} {Printable.Of(text, 20)}\"";
        if (s_note.Contains(word, StringComparer.Ordinal))
            return ReadRemark(rest, out entry);
        if (rest.Length == 0)
        {
            if (Array.FindIndex(s_words, one => one.Names.Contains(word, StringComparer.Ordinal)) is >= 0 and int found)
                entry = new WordEntry(s_words[found].Word);
            else if (s_scrapes.Contains(word, StringComparer.Ordinal))
                entry = new StepEntry(Opening: null);
            else if (s_shut.Contains(word, StringComparer.Ordinal))
                entry = new StepEntry(0);
            else if (s_gate.Contains(word, StringComparer.Ordinal))
                return "how far? As in \"gate 40 %\"";
            else if (Array.Exists(s_readings, one => one.Names.Contains(word, StringComparer.Ordinal)))
                return $"how much? As in \"{word} 247\"";
            else
                return Strange(text, word);
            return null;
        }

        if (s_gate.Contains(word, StringComparer.Ordinal))
            return ReadGate(rest, out entry);
        foreach ((string[] names, StrainingObservable[] quantities) in s_readings)
        {
            if (names.Contains(word, StringComparer.Ordinal))
                return ReadReading(word, rest, quantities, out entry);
        }

        return s_scrapes.Contains(word, StringComparer.Ordinal) || s_shut.Contains(word, StringComparer.Ordinal)
            ? $"\"{Printable.Of(rest)}\" stands behind \"{word}\", which says all by itself"
            : Strange(text, word);
    }

    private string? ReadReading(string word, string rest, StrainingObservable[] quantities, out Entry entry)
    {
        entry = new WordEntry(WatchWord.Nothing);
        if (word is "tank" or "receiver" or "pond" && Parts().Match(rest) is { } more && more.Groups["word"].Value.ToLowerInvariant() is "level" or "mass" or "weight" or "depth" or "volume")
            rest = Parts().Match(rest).Groups["rest"].Value.Trim();
        RunHeading[] mine = [.. columns.Where(column => column.Kind == ColumnKind.Readings && quantities.Contains(column.Quantity))];
        if (mine.Length == 0)
            return $"the log has no column for \"{word}\"; it has: {Hint}";
        if (NumberCell.IsDecimalComma(rest.Split(' ')[0]))
            return $"the decimal sign is a point: \"{word} {Printable.Of(rest.Replace(',', '.'))}\"";
        RunHeading column = mine[0];
        if (QuantityGrammar.ReadNumber(rest, out double number) is null)
        {
            if (number < 0)
                return $"{Printable.Of(rest)} is below 0, which no {word} can be";
            entry = new ReadingEntry(column.Quantity, number * column.Unit!.Factor);
            return null;
        }

        QuantityFault? fault = null;
        foreach (RunHeading one in mine)
        {
            QuantityFault? wrong = QuantityGrammar.Read(rest, HeadingGrammar.DimensionOf(one.Quantity), out Quantity quantity);
            fault ??= wrong;
            if (wrong is not null)
                continue;
            entry = new ReadingEntry(one.Quantity, quantity.Si);
            return null;
        }

        return $"\"{Printable.Of(rest)}\" {fault!.What}";
    }

    private static string? ReadGate(string rest, out Entry entry)
    {
        entry = new WordEntry(WatchWord.Nothing);
        string written = rest.StartsWith("to ", StringComparison.OrdinalIgnoreCase) || rest.StartsWith("at ", StringComparison.OrdinalIgnoreCase) ? rest[3..] : rest;
        bool bare = QuantityGrammar.ReadNumber(written, out double number) is null;
        if (bare && number is > 0 and < 1)
            return string.Create(CultureInfo.InvariantCulture, $"{number} of what? \"gate {100 * number:0.#} %\" is {100 * number:0.#} % of the bore, \"gate {number} %\" next to nothing");
        QuantityFault? fault = QuantityGrammar.Read(bare ? written + " %" : written, Dimension.Share, out Quantity share);
        if (fault is not null)
            return $"\"{Printable.Of(rest)}\" {fault.What}; an opening is typed as \"gate 40 %\"";
        if (share.Si > 1)
            return $"{Printable.Of(written)} opens the gate further than it goes; allowed: 0 to 100 %";
        entry = new StepEntry(share.Si);
        return null;
    }

    /// <summary>A remark must not be read as something that was done.</summary>
    private static string? ReadRemark(string rest, out Entry entry)
    {
        entry = new RemarkEntry(rest);
        List<RunNote> read = [];
        if (rest.Length is 0 or > 200)
            return "a remark is 1 to 200 characters long, as in \"note hose slipped\"";
        return NoteGrammar.Read(new CsvCell(rest, 1, 1), 0, new Input.Spot("note", 0, 0), read) ?? (read.Count > 0 ? $"\"{Printable.Of(rest)}\" is more than a remark; type it without \"note\"" : null);
    }

    private static string? ReadMoment(string text, out double seconds)
    {
        seconds = 0;
        Match match = Moment().Match(text);
        if (match.Success)
        {
            double hours = match.Groups["h"].Success ? double.Parse(match.Groups["h"].Value, CultureInfo.InvariantCulture) : 0;
            seconds = (3600 * hours) + (60 * double.Parse(match.Groups["m"].Value, CultureInfo.InvariantCulture)) + double.Parse(match.Groups["s"].Value, CultureInfo.InvariantCulture);
            return null;
        }

        if (QuantityGrammar.Read(text, Dimension.Duration, out Quantity quantity) is { } fault)
            return $"\"@{Printable.Of(text)}\": \"{Printable.Of(text)}\" {fault.What}; a moment is minutes and seconds since the opening, as in \"@4:30\", or \"@270s\"";
        seconds = quantity.Si;
        return null;
    }

    private string Strange(string text, string word)
    {
        string[] known = [.. columns.Where(column => column.Kind == ColumnKind.Readings).Select(column => NameOf(column.Quantity)), s_scrapes[0], s_gate[0], s_shut[0], s_note[0], .. s_words.Select(one => one.Names[0])];
        return $"\"{Printable.Of(text)}\" is not understood; nearest: \"{Spelling.Nearest(word, known)}\"; \"help\" lists what can be typed";
    }

    /// <summary>The word for a quantity.</summary>
    /// <param name="quantity">Quantity.</param>
    public static string NameOf(StrainingObservable quantity) => quantity switch
    {
        StrainingObservable.PondDepth => "pond",
        StrainingObservable.TankLevel => "level",
        StrainingObservable.TankMass or StrainingObservable.TankVolume => "tank",
        StrainingObservable.ReceiverMass => "mass",
        _ => "receiver",
    };

    private static bool StartsWith(string text, string[] words) => words.Contains(text.Split(' ')[0].ToLowerInvariant(), StringComparer.Ordinal);

    private static string Example(RunHeading column) => column.Unit!.Symbol switch
    {
        "mm" => column.Quantity == StrainingObservable.PondDepth ? "40" : "247",
        "in" => "9.7",
        _ => "3.9",
    };

    [GeneratedRegex(@"^(?<word>[A-Za-z]*)(?<rest>.*)$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture | RegexOptions.Singleline, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Parts();

    [GeneratedRegex(@"^((?<h>[0-9]{1,3}):)?(?<m>[0-9]{1,3}):(?<s>[0-5][0-9](\.[0-9])?)$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Moment();
}
