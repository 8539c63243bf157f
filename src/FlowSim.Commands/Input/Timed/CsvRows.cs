using System.Text;

namespace FlowSim.Commands.Input.Timed;

/// <summary>A cell of a table.</summary>
/// <param name="Text">What stands in it, quotes taken off.</param>
/// <param name="Line">Line it begins in, from 1.</param>
/// <param name="Column">Character it begins at, from 1.</param>
internal readonly record struct CsvCell(string Text, int Line, int Column)
{
    public bool IsEmpty => string.IsNullOrWhiteSpace(Text);
}

/// <summary>Walks through the rows of a table by RFC 4180: cells in quotes may hold delimiters, line ends and doubled quotes. One row at a time, so that a long table takes no more room than it must.</summary>
/// <param name="text">The whole file.</param>
internal sealed class CsvRows(string text)
{
    private int _at;

    /// <summary>The line that comes next, from 1.</summary>
    public int Line { get; private set; } = 1;

    public bool AtEnd => _at >= text.Length;

    /// <summary>The line that comes next as it stands, without its end; nothing is taken.</summary>
    public ReadOnlySpan<char> Peek()
    {
        ReadOnlySpan<char> rest = text.AsSpan(_at);
        int end = rest.IndexOfAny('\r', '\n');
        return end < 0 ? rest : rest[..end];
    }

    /// <summary>Takes the line that comes next, whatever it holds.</summary>
    public void SkipLine()
    {
        _at += Peek().Length;
        TakeLineEnd();
    }

    /// <summary>Takes a row.</summary>
    /// <param name="delimiter">What stands between cells.</param>
    /// <param name="cells">Takes its cells.</param>
    /// <returns>Null, or what is wrong with the row.</returns>
    public (int Line, int Column, string What)? Take(char delimiter, List<CsvCell> cells)
    {
        cells.Clear();
        int begin = _at;
        int lineBegin = _at;
        int firstLine = Line;
        while (true)
        {
            int column = _at - lineBegin + 1;
            int line = Line;
            if (cells.Count == RunLimits.Columns)
                return (line, column, FormattableString.Invariant($"has more than {RunLimits.Columns} columns, the most that are read"));
            if (!AtEnd && text[_at] == '"')
            {
                if (TakeQuoted(begin, ref lineBegin, out string quoted) is { } what)
                    return (line, column, what);
                cells.Add(new CsvCell(quoted, line, column));
                if (!AtEnd && text[_at] != delimiter && text[_at] is not ('\r' or '\n'))
                    return (Line, _at - lineBegin + 1, "goes on after a closing quote; a quote inside a cell is written twice");
            }
            else
            {
                int start = _at;
                while (!AtEnd && text[_at] != delimiter && text[_at] is not ('\r' or '\n') && _at - begin <= RunLimits.RowLength)
                    _at++;
                cells.Add(new CsvCell(_at == start ? string.Empty : text[start.._at], line, column));
            }

            if (_at - begin > RunLimits.RowLength)
                return (firstLine, 1, FormattableString.Invariant($"has a row longer than {RunLimits.RowLength} characters, the most that are read"));
            if (AtEnd || text[_at] != delimiter)
                break;
            _at++;
        }

        TakeLineEnd();
        return null;
    }

    private string? TakeQuoted(int begin, ref int lineBegin, out string content)
    {
        StringBuilder taken = new();
        content = string.Empty;
        _at++;
        while (true)
        {
            if (AtEnd || _at - begin > RunLimits.RowLength)
                return FormattableString.Invariant($"begins with a quote that is not closed within {RunLimits.RowLength} characters");
            char c = text[_at];
            if (c == '"' && _at + 1 < text.Length && text[_at + 1] == '"')
            {
                taken.Append('"');
                _at += 2;
            }
            else if (c == '"')
            {
                _at++;
                content = taken.ToString();
                return null;
            }
            else if (c is '\r' or '\n')
            {
                taken.Append('\n');
                TakeLineEnd();
                lineBegin = _at;
            }
            else
            {
                taken.Append(c);
                _at++;
            }
        }
    }

    private void TakeLineEnd()
    {
        if (AtEnd)
            return;
        bool pair = text[_at] == '\r' && _at + 1 < text.Length && text[_at + 1] == '\n';
        _at += pair ? 2 : 1;
        Line++;
    }
}
