using System.Globalization;
using FlowSim.Attending;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Straining;

namespace FlowSim.Commands.Watching;

/// <summary>What came of a line that was typed.</summary>
/// <param name="Said">What to say.</param>
/// <param name="Word">The word that is for the caller; <see cref="WatchWord.Nothing"/> for none.</param>
internal sealed record Reply(string Said, WatchWord Word = WatchWord.Nothing)
{
    /// <summary>Whether it was refused.</summary>
    public bool Refused { get; init; }

    /// <summary>Whether the run is now another.</summary>
    public bool Changed { get; init; }
}

/// <summary>A run that is watched: takes what is typed, keeps it in the log, and knows the time since the opening. It knows no terminal.</summary>
internal sealed class WatchSession : IDisposable
{
    /// <summary>Least distance of two things that were done, s.</summary>
    private const double Apart = 0.1;

    private readonly string _path;
    private readonly BatchSource _batch;
    private readonly Display _display;
    private readonly IFiles _files;
    private readonly TimeProvider _clock;
    private readonly bool _scripted;
    private readonly string[] _newHeadings;
    private WatchLog? _log;
    private RunFile _file;
    private RunHeading[] _headings;

    /// <summary>Begins a session: goes on with the log if there is one.</summary>
    /// <param name="files">Files.</param>
    /// <param name="path">Path of the log.</param>
    /// <param name="batch">Batch.</param>
    /// <param name="display">Units of a new log and of messages.</param>
    /// <param name="clock">Clock.</param>
    /// <param name="scripted">Whether the lines come from a script, whose moments may lie ahead of the clock.</param>
    /// <exception cref="FileTroubleException">The log cannot be read or written.</exception>
    /// <exception cref="BadInputException">Batch or log are wrong.</exception>
    public WatchSession(IFiles files, string path, BatchSource batch, Display display, TimeProvider clock, bool scripted)
    {
        (_files, _path, _batch, _display, _clock, _scripted) = (files, path, batch, display, clock, scripted);
        string length = display.System == UnitChoice.Us ? "in" : "mm", mass = display.System == UnitChoice.Us ? "lb" : "kg";
        _newHeadings = [$"tank level [{length}]", $"pond depth [{length}]", $"receiver mass [{mass}]"];
        if (files.IsThere(path))
        {
            _log = WatchLog.Continue(files, path, out string? torn);
            try
            {
                SetAside = torn;
                if (_log.OpenedAt is null)
                    throw new FileTroubleException($"{Printable.Of(path, 200)} does not say when the gate was opened, so it was not begun by flowsim watch; give another name, or look at it with --at");
                _headings = HeadingsOf(path, _log.Text);
                _file = Parse();
                Plan = WatchPlan.Read(batch, _file);
                Run = Plan.RunOf(_file);
            }
            catch
            {
                _log.Dispose();
                throw;
            }
        }
        else
        {
            files.RequireFree(path, force: false);
            string empty = "time [s]," + string.Join(',', _newHeadings) + ",note\n";
            _headings = HeadingsOf(path, empty);
            _file = new RunFile { Path = path };
            Plan = WatchPlan.Read(batch, _file);
            Run = Plan.RunOf(_file);
        }

        Grammar = new EntryGrammar(_headings);
    }

    /// <summary>The plan.</summary>
    public WatchPlan Plan { get; }

    /// <summary>The run so far.</summary>
    public AttendedRun Run { get; private set; }

    /// <summary>What can be typed.</summary>
    public EntryGrammar Grammar { get; }

    /// <summary>A last line of the log that was cut short, and was set aside; null for none.</summary>
    public string? SetAside { get; }

    /// <summary>Whether the gate is open.</summary>
    public bool IsOpened => _log is not null;

    /// <summary>When it was opened.</summary>
    public DateTimeOffset OpenedAt => _log?.OpenedAt ?? _clock.GetUtcNow();

    /// <summary>The time zone that moments are told in.</summary>
    public TimeZoneInfo Zone => _clock.LocalTimeZone;

    /// <summary>Time since the opening, s: never before the last entry, should somebody set the clock back.</summary>
    public double ElapsedS => Math.Max(LastRowS, _log is null ? 0 : (_clock.GetUtcNow() - OpenedAt).TotalSeconds);

    /// <summary>Number of rows that were read or done.</summary>
    public int Entries => _file.Columns.Sum(column => column.Readings.Count) + _file.Notes.Count;

    private double LastRowS { get; set; }

    /// <summary>Takes a line.</summary>
    /// <param name="line">What was typed.</param>
    public Reply Take(string line)
    {
        if (Grammar.Read(line, out Entry entry) is { } wrong)
            return new Reply(wrong) { Refused = true };
        try
        {
            return entry switch
            {
                WordEntry { Word: WatchWord.Opened } => IsOpened ? new Reply($"the gate is open since {Moment(OpenedAt)}") { Refused = true } : Open(),
                WordEntry { Word: WatchWord.Undo } => Undo(),
                WordEntry word => new Reply(string.Empty, word.Word),
                _ => Keep(entry),
            };
        }
        catch (FileTroubleException trouble)
        {
            return new Reply(trouble.Message) { Refused = true };
        }
    }

    /// <summary>A moment, as the clock on the wall shows it.</summary>
    /// <param name="moment">Moment.</param>
    public string Moment(DateTimeOffset moment) => TimeZoneInfo.ConvertTime(moment, Zone).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    public void Dispose() => _log?.Dispose();

    private Reply Open()
    {
        DateTimeOffset now = _clock.GetUtcNow();

        // The log keeps whole seconds.
        DateTimeOffset whole = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond));
        _log = WatchLog.Begin(_files, _path, whole, _batch.Path, _newHeadings);
        return new Reply($"gate opened at {Moment(whole)}; kept in {Printable.Of(_path, 200)}") { Changed = true };
    }

    private Reply Keep(Entry entry)
    {
        string opened = string.Empty;
        if (!IsOpened)
        {
            if (!_scripted && entry is not StepEntry { Opening: > 0 })
                return new Reply("the gate is not open yet: type \"open\" at the moment it is, or press Enter") { Refused = true };
            opened = Open().Said + "; ";
        }

        double now = Math.Max(0, ElapsedS), at = entry.AtS ?? now;
        if (!_scripted && at > now + 1)
            return new Reply($"{Display.Time(at)} is still to come: it is {Display.Time(now)} after the opening") { Refused = true };
        if (at < LastRowS - 1e-6)
            return new Reply($"{Display.Time(at)} lies before the last entry, at {Display.Time(LastRowS)}; entries go forward in time (\"undo\" takes the last one back)") { Refused = true };
        if (at > 30 * 86400.0)
            return new Reply("a run is at most 30 days long") { Refused = true };
        if (entry is StepEntry step)
        {
            if (step.Opening is null && at < Apart)
                return new Reply("at the opening of the gate nothing is on the cloth to be scraped") { Refused = true };
            if (Run.Steps.Count > 0 && at < Run.Steps[^1].At.Seconds + Apart)
                at = Run.Steps[^1].At.Seconds + Apart;
        }

        if (entry is ReadingEntry reading && TooMuch(reading) is { } impossible)
            return new Reply(impossible) { Refused = true };
        _log!.Append(Row(entry, at));
        Reload();
        return new Reply($"{opened}kept: {Said(entry)} at {Display.Time(at)}") { Changed = true };
    }

    private Reply Undo()
    {
        if (_log?.Undo() is not { } row)
            return new Reply("there is no entry to take back") { Refused = true };
        Reload();
        return new Reply($"taken back: {Printable.Of(row)}; it stays in {Printable.Of(_path, 200)} as a remark") { Changed = true };
    }

    /// <summary>What is impossible is not kept; what is only unlikely is.</summary>
    private string? TooMuch(ReadingEntry reading)
    {
        (double limit, string what) = TimedRunReader.LimitOf(reading.Quantity, Plan.Setup);
        double allowed = limit + (5 * Plan.Scales.ZeroOf(reading.Quantity));
        if (reading.Si <= allowed)
            return null;
        string nearest = reading.Si / 10 <= allowed ? $"; nearest that can be: {Amount(reading.Quantity, reading.Si / 10)} (a digit too many?) or {Amount(reading.Quantity, limit)}" : $"; at most {Amount(reading.Quantity, limit)}";
        return $"{Amount(reading.Quantity, reading.Si)} is above {what}, {Amount(reading.Quantity, limit)}{nearest}; it is not kept";
    }

    private string Said(Entry entry) => entry switch
    {
        ReadingEntry reading => $"{EntryGrammar.NameOf(reading.Quantity)} {Amount(reading.Quantity, reading.Si)}",
        StepEntry { Opening: { } opening } => opening > 0 ? $"gate {Display.Share(opening)}" : "gate shut",
        StepEntry => "scrape",
        RemarkEntry remark => $"note {Printable.Of(remark.Text)}",
        _ => string.Empty,
    };

    private string Amount(StrainingObservable quantity, double si) => OutlookText.Amount(_display, quantity, si);

    private string Row(Entry entry, double at)
    {
        string[] cells = new string[_headings.Length];
        for (int i = 0; i < cells.Length; i++)
        {
            RunHeading heading = _headings[i];
            cells[i] = heading.Kind switch
            {
                ColumnKind.Time => (at / heading.Unit!.Factor).ToString(heading.Unit.Factor < 2 ? "0.0" : "0.0000", CultureInfo.InvariantCulture),
                ColumnKind.Readings when entry is ReadingEntry reading && reading.Quantity == heading.Quantity => (reading.Si / heading.Unit!.Factor).ToString("0.######", CultureInfo.InvariantCulture),
                ColumnKind.Note => entry switch
                {
                    StepEntry { Opening: null } => "scrape",
                    StepEntry { Opening: 0 } => "shut",
                    StepEntry step => string.Create(CultureInfo.InvariantCulture, $"gate {100 * step.Opening:0.####} %"),
                    RemarkEntry remark => Quoted(Printable.Of(remark.Text, 200)),
                    _ => string.Empty,
                },
                _ => string.Empty,
            };
        }

        return string.Join(',', cells);
    }

    private static string Quoted(string text) => "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";

    private void Reload()
    {
        _file = Parse();
        Run = Plan.RunOf(_file);
    }

    private RunFile Parse()
    {
        Problems problems = new();
        RunFile? file = RunCsvReader.Read(_path, _log!.Text, problems, goesOn: true);
        if (file is null || problems.Any)
            throw new BadInputException(problems);
        LastRowS = Math.Max(file.Columns.SelectMany(column => column.Readings).Select(reading => reading.At.Seconds).DefaultIfEmpty(0).Max(), file.Notes.Select(note => note.TimeS).DefaultIfEmpty(0).Max());
        return file;
    }

    private static RunHeading[] HeadingsOf(string path, string text)
    {
        CsvRows rows = new(text);
        while (!rows.AtEnd && (RunComment.IsComment(rows.Peek()) || rows.Peek().Trim().IsEmpty))
            rows.SkipLine();
        List<CsvCell> cells = [];
        RunHeading[] headings = [];
        if (!rows.AtEnd && rows.Take(',', cells) is null)
        {
            headings = new RunHeading[cells.Count];
            for (int i = 0; i < cells.Count; i++)
                HeadingGrammar.Read(cells[i], out headings[i]);
        }

        bool whole = headings.Any(heading => heading is { Kind: ColumnKind.Time, Form: TimeForm.Number, Unit: not null }) && headings.Any(heading => heading.Kind == ColumnKind.Note)
            && headings.Any(heading => heading is { Kind: ColumnKind.Readings, Unit: not null });
        return whole ? headings : throw new FileTroubleException($"{Printable.Of(path, 200)} cannot be gone on with: its headings are not those of flowsim watch, time in seconds, readings and a note, parted by commas; give another name");
    }
}
