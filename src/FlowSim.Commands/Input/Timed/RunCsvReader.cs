using FlowSim.Commands.Output;

namespace FlowSim.Commands.Input.Timed;

/// <summary>Reads a table of timed readings: time against levels, masses and volumes of tank, pond and receiver.</summary>
internal static class RunCsvReader
{
    private static readonly char[] s_delimiters = ['\t', ';', ','];

    /// <summary>Reads a text.</summary>
    /// <param name="path">Name of the file, for messages.</param>
    /// <param name="text">Text.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="goesOn">Whether the run goes on, so that it may hold as little as it does.</param>
    /// <returns>The table; null when something is wrong with it.</returns>
    public static RunFile? Read(string path, string text, Problems problems, bool goesOn = false)
    {
        int before = problems.Count;
        CsvRows rows = new(text);
        List<RunSetting> settings = [];
        DateOnly? date = null;
        while (!rows.AtEnd && (RunComment.IsComment(rows.Peek()) || rows.Peek().Trim(" \t,;").IsEmpty))
        {
            Spot spot = new(path, rows.Line, 1);
            if (RunComment.IsComment(rows.Peek()))
                Say(spot, RunComment.Read(Printed(rows.Peek()), spot, settings, ref date));
            rows.SkipLine();
        }

        if (rows.AtEnd)
        {
            problems.Add(new Spot(path, 1, 1), $"holds no table; it begins with a line of headings, as in \"time [min],tank level [mm]\"; known headings: {HeadingGrammar.Known}");
            return null;
        }

        char delimiter = DelimiterOf(rows.Peek());
        List<CsvCell> cells = [];
        if (rows.Take(delimiter, cells) is { } broken)
        {
            problems.Add(new Spot(path, broken.Line, broken.Column), broken.What);
            return null;
        }

        RunTable table = new(path, delimiter, problems);
        if (!table.Begin(cells))
            return null;
        int count = 0;
        while (!rows.AtEnd)
        {
            int line = rows.Line;
            if (RunComment.IsComment(rows.Peek()))
            {
                if (RunComment.IsSetting(Printed(rows.Peek())))
                    Say(new Spot(path, line, 1), "sets a key below the headings, where comments are for people alone; write it above them");
                rows.SkipLine();
                continue;
            }

            if (rows.Take(delimiter, cells) is { } wrong)
            {
                problems.Add(new Spot(path, wrong.Line, wrong.Column), wrong.What);
                return null;
            }

            if (cells.TrueForAll(cell => cell.IsEmpty))
                continue;
            if (++count > RunLimits.Rows)
            {
                problems.Add(new Spot(path, line, 1), FormattableString.Invariant($"is row {RunLimits.Rows + 1}; at most {RunLimits.Rows} rows are read: leave out every second reading, or more"));
                return null;
            }

            table.Add(cells);
        }

        IReadOnlyList<RunColumn> columns = table.End(goesOn);
        return problems.Count > before ? null : new RunFile { Path = path, Date = date, Settings = settings, Columns = columns, Notes = table.Notes, Echoes = table.Echoes };

        void Say(Spot spot, string? what)
        {
            if (what is not null)
                problems.Add(spot, what);
        }
    }

    /// <summary>What parts the cells: a tab or a semicolon where the headings hold one, else a comma.</summary>
    private static char DelimiterOf(ReadOnlySpan<char> headings)
    {
        foreach (char delimiter in s_delimiters)
        {
            bool quoted = false;
            foreach (char c in headings)
            {
                quoted ^= c == '"';
                if (c == delimiter && !quoted)
                    return delimiter;
            }
        }

        return ',';
    }

    private static string Printed(ReadOnlySpan<char> line) => line[..Math.Min(line.Length, RunLimits.RowLength)].ToString();
}
