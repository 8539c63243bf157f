using System.Text;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Watching;

/// <summary>
/// A block of lines at the end of what a terminal shows, drawn over in place; what is said for good scrolls by above it. The line that is being typed is the last of the block, so a redraw does
/// not disturb it. Each redraw is one write, without clearing first, so nothing flickers.
/// </summary>
/// <param name="output">Terminal.</param>
/// <param name="colour">Whether colour may be used.</param>
/// <param name="size">Columns and rows of the window.</param>
internal sealed class LiveScreen(TextWriter output, bool colour, Func<(int Columns, int Rows)> size)
{
    private const string Prompt = "> ";
    private const string ToLineEnd = "\u001b[K", ToScreenEnd = "\u001b[J", Reset = "\u001b[0m";

    private int _above;
    private int _columns;
    private (string Drawn, string Typed) _shown;

    /// <summary>Draws the block.</summary>
    /// <param name="lines">Lines, not folded.</param>
    /// <param name="typed">What is being typed.</param>
    public void Draw(IReadOnlyList<ScreenLine> lines, string typed) => Draw([], lines, typed);

    /// <summary>Says something for good and draws the block below it.</summary>
    /// <param name="said">What is said.</param>
    /// <param name="lines">Lines of the block.</param>
    /// <param name="typed">What is being typed.</param>
    public void Draw(IReadOnlyList<ScreenLine> said, IReadOnlyList<ScreenLine> lines, string typed)
    {
        (int columns, int rows) = size();
        columns = Math.Max(20, columns);
        StringBuilder frame = new();

        // In another width the old lines have been folded anew, so nobody knows where the block began.
        if (_columns != 0 && columns != _columns)
            frame.Append("\u001b[H\u001b[2J");
        else if (_above > 0)
            frame.Append("\r\u001b[").Append(_above).Append('A');
        else
            frame.Append('\r');

        bool moved = columns != _columns;
        _columns = columns;
        foreach ((string text, Tone tone) in Fold(said, columns))
            Write(frame, text, tone).Append("\r\n");
        (string Text, Tone Tone)[] block = [.. Fold(lines, columns).Take(Math.Max(1, rows - 2))];
        StringBuilder body = new();
        foreach ((string text, Tone tone) in block)
            Write(body, text, tone).Append("\r\n");
        if (said.Count == 0 && !moved && _shown == (body.ToString(), typed))
            return;
        _shown = (body.ToString(), typed);
        frame.Append(body);

        // Of a long line its end is shown, so that it stays one row.
        int room = columns - Prompt.Length - 1;
        frame.Append(Prompt).Append(typed.Length > room ? "…" + typed[^(room - 1)..] : typed).Append(ToScreenEnd);
        _above = block.Length;
        output.Write(frame.ToString());
        output.Flush();
    }

    /// <summary>Leaves the block as it stands and goes below it.</summary>
    public void End()
    {
        output.Write("\r\n");
        output.Flush();
    }

    /// <summary>Rings the bell.</summary>
    public void Ring()
    {
        output.Write('\a');
        output.Flush();
    }

    /// <summary>Folds lines; what stands behind a short word in front stays in its column.</summary>
    /// <param name="lines">Lines.</param>
    /// <param name="columns">Columns of the window.</param>
    public static IEnumerable<(string Text, Tone Tone)> Fold(IReadOnlyList<ScreenLine> lines, int columns)
    {
        const int Lead = 6;
        foreach (ScreenLine line in lines)
        {
            // A short word in front stands in a column of its own.
            if (line.Text.Length == 0)
                yield return (string.Empty, line.Tone);
            bool led = line.Text.Length > Lead && line.Text[Lead - 1] == ' ' && line.Text[Lead - 2] == ' ';
            string lead = led ? line.Text[..Lead] : string.Empty;
            foreach (string part in Page.Fold(line.Text[lead.Length..], columns - 1 - lead.Length))
            {
                yield return (lead + part, line.Tone);
                lead = led ? new string(' ', Lead) : string.Empty;
            }
        }
    }

    private StringBuilder Write(StringBuilder frame, string text, Tone tone)
    {
        string look = !colour ? string.Empty : tone switch
        {
            Tone.Next => "\u001b[1m",
            Tone.Soon => "\u001b[1;33m",
            Tone.Due => "\u001b[1;31m",
            _ => string.Empty,
        };
        return frame.Append(look).Append(text).Append(look.Length > 0 ? Reset : string.Empty).Append(ToLineEnd);
    }
}
