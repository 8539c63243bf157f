using FlowSim.Calibration;
using FlowSim.Commands.Output;
using UnitsNet;

namespace FlowSim.Commands.Input.Timed;

/// <summary>Takes a table row by row and keeps its readings by column.</summary>
/// <param name="path">Name of the file, for messages.</param>
/// <param name="delimiter">What parts its cells.</param>
/// <param name="problems">Takes what is wrong.</param>
internal sealed class RunTable(string path, char delimiter, Problems problems)
{
    /// <summary>Messages of one column; what is wrong in one row is mostly wrong in all.</summary>
    private const int MostOfAColumn = 3;

    private readonly List<RunNote> _notes = [];
    private readonly List<string> _echoes = [];
    private RunHeading[] _headings = [];
    private List<TimedReading>[] _readings = [];
    private List<Spot>[] _spots = [];
    private int[] _told = [];
    private RunClock? _clock;
    private int _time;
    private bool _commaTold;

    /// <summary>What was noted.</summary>
    public IReadOnlyList<RunNote> Notes => _notes;

    /// <summary>How the table was read where that is not plain.</summary>
    public IReadOnlyList<string> Echoes => [.. _echoes, .. _clock?.Echoes ?? []];

    /// <summary>Takes the headings.</summary>
    /// <param name="cells">Cells of the first row.</param>
    /// <returns>Whether rows can be read by them.</returns>
    public bool Begin(IReadOnlyList<CsvCell> cells)
    {
        int before = problems.Count;
        _headings = new RunHeading[cells.Count];
        for (int i = 0; i < cells.Count; i++)
        {
            if (HeadingGrammar.Read(cells[i], out _headings[i]) is { } wrong)
                problems.Add(At(cells[i]), wrong);
        }

        for (int i = 0; i < _headings.Length; i++)
        {
            int twin = Array.FindIndex(_headings, other => other.Kind == _headings[i].Kind && (other.Kind != ColumnKind.Readings || other.Quantity == _headings[i].Quantity));
            if (_headings[i].Kind != ColumnKind.None && twin < i)
                problems.Add(At(cells[i]), $"\"{_headings[i].Shown}\" stands beside \"{_headings[twin].Shown}\", which says the same; keep one column of the two");
        }

        _time = Array.FindIndex(_headings, heading => heading.Kind == ColumnKind.Time);
        if (problems.Count == before && _time < 0)
            problems.Add(At(cells[0]), $"no column gives the time; its heading is \"time [min]\" or \"clock [h:mm]\"; known: {HeadingGrammar.Known}");
        if (problems.Count == before && !Array.Exists(_headings, heading => heading.Kind == ColumnKind.Readings))
            problems.Add(At(cells[0]), $"no column gives readings; a heading is written as \"tank level [mm]\"; known: {HeadingGrammar.Known}");
        if (problems.Count > before)
            return false;

        _clock = new RunClock(_headings[_time]);
        _readings = [.. _headings.Select(_ => new List<TimedReading>())];
        _spots = [.. _headings.Select(_ => new List<Spot>())];
        _told = new int[_headings.Length];
        return true;
    }

    /// <summary>Takes a row.</summary>
    /// <param name="cells">Its cells.</param>
    public void Add(IReadOnlyList<CsvCell> cells)
    {
        if (IsTooLong(cells))
            return;
        if (_time >= cells.Count || cells[_time].IsEmpty)
        {
            Tell(_time, At(_time < cells.Count ? cells[_time] : cells[0]), "the row has no time");
            return;
        }

        if (_clock!.Read(cells[_time], out double seconds) is { } wrongTime)
        {
            Tell(_time, At(cells[_time]), wrongTime);
            return;
        }

        for (int i = 0; i < cells.Count; i++)
        {
            RunHeading heading = _headings[i];
            CsvCell cell = cells[i];
            if (cell.IsEmpty || heading.Kind == ColumnKind.Time)
                continue;
            string? wrong = heading.Kind switch
            {
                ColumnKind.Note => NoteGrammar.Read(cell, seconds, At(cell), _notes),
                ColumnKind.None => $"\"{Printable.Of(cell.Text.Trim())}\" stands in a column without a heading",
                _ => Take(i, cell, seconds),
            };
            if (wrong is not null)
                Tell(i, At(cell), wrong);
        }
    }

    /// <summary>The columns, once all rows are in. One that can tell nothing is left out as long as another can.</summary>
    /// <param name="goesOn">Whether the run goes on: then a column may be as short as it is, and one without readings is left out without a word.</param>
    public IReadOnlyList<RunColumn> End(bool goesOn)
    {
        List<RunColumn> columns = [];
        List<(RunHeading Heading, string What)> idle = [];
        for (int i = 0; i < _headings.Length; i++)
        {
            RunHeading heading = _headings[i];
            if (heading.Kind != ColumnKind.Readings)
                continue;

            // Rows that were told are not missing as well.
            List<TimedReading> readings = _readings[i];
            bool whole = _told[i] == 0 && _told[_time] == 0 && !_commaTold;
            if (goesOn ? readings.Count == 0 : whole && WhyIdle(heading, readings) is not null)
                idle.Add((heading, WhyIdle(heading, readings)!));
            else
                columns.Add(new RunColumn(heading.Shown, heading.Quantity, heading.Unit!, readings, _spots[i]));
        }

        if (goesOn)
            return columns;
        foreach ((RunHeading heading, string what) in idle)
        {
            if (columns.Count == 0)
                problems.Add(At(heading.Cell), what);
            else
                _echoes.Add(what.Split(';')[0] + ": left out");
        }

        return columns;
    }

    private static string? WhyIdle(RunHeading heading, List<TimedReading> readings)
    {
        if (readings.Count == 0)
            return $"\"{heading.Shown}\" has no reading below it";
        if (readings.Count < RunLimits.FewestReadings)
            return FormattableString.Invariant($"\"{heading.Shown}\" has {readings.Count} readings; at least {RunLimits.FewestReadings} are needed");
        return readings.TrueForAll(reading => reading.Value == readings[0].Value)
            ? $"\"{heading.Shown}\" does not change: nothing can be fitted to it; take the column out if the run says nothing more"
            : null;
    }

    private string? Take(int column, CsvCell cell, double seconds)
    {
        RunHeading heading = _headings[column];
        if (NumberCell.Read(cell.Text.Trim(), heading.Unit!, out double value) is { } wrong)
            return wrong;
        double si = value * heading.Unit!.Factor;
        _readings[column].Add(new TimedReading(Duration.FromSeconds(seconds), si));
        _spots[column].Add(At(cell));
        return null;
    }

    /// <summary>A row with more cells than headings: mostly a decimal comma.</summary>
    private bool IsTooLong(IReadOnlyList<CsvCell> cells)
    {
        int extra = cells.Count - 1;
        while (extra >= _headings.Length && cells[extra].IsEmpty)
            extra--;
        if (extra < _headings.Length)
            return cells.Count > _headings.Length && Trim(cells);
        if (!_commaTold)
        {
            string hint = delimiter == ',' ? "; is it a decimal comma? The decimal sign is a point, as in 12.5, unless a comma stands in quotes" : string.Empty;
            problems.Add(At(cells[_headings.Length]), FormattableString.Invariant($"the row has {extra + 1} cells under {_headings.Length} headings{hint}"));
        }

        _commaTold = true;
        return true;
    }

    /// <summary>Empty cells behind the last heading are no cells.</summary>
    private bool Trim(IReadOnlyList<CsvCell> cells)
    {
        Add([.. cells.Take(_headings.Length)]);
        return true;
    }

    private Spot At(CsvCell cell) => new(path, cell.Line, cell.Column);

    private void Tell(int column, Spot spot, string what)
    {
        if (_told[column]++ < MostOfAColumn)
            problems.Add(spot, (_headings[column].Kind is ColumnKind.None ? string.Empty : _headings[column].Shown + ": ") + what);
    }
}
