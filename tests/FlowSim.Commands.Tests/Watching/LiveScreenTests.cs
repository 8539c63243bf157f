using FlowSim.Commands.Output;
using FlowSim.Commands.Watching;

namespace FlowSim.Commands.Tests.Watching;

/// <summary>Frames, played on a small terminal of the test's own; a real one is driven by <c>tests/terminal/run</c>.</summary>
public class LiveScreenTests
{
    private static readonly ScreenLine[] s_block = [new("head"), new("NEXT  scrape in 4 min 10 s (3 to 6 min)", Tone.Next), new("done  95 % through in 13 min")];

    [Fact]
    public void A_redraw_changes_the_block_alone_and_keeps_what_is_typed()
    {
        Played played = new(60);
        LiveScreen screen = new(played, colour: true, () => (60, 24));
        screen.Draw([new ScreenLine("said once")], s_block, "lev");
        Assert.Equal(["said once", "head", "NEXT  scrape in 4 min 10 s (3 to 6 min)", "done  95 % through in 13 min", "> lev"], played.Lines);
        screen.Draw([new("head"), new("NEXT  scrape in 4 min 09 s", Tone.Soon), new("done  95 % through in 13 min")], "level");
        Assert.Equal(["said once", "head", "NEXT  scrape in 4 min 09 s", "done  95 % through in 13 min", "> level"], played.Lines);
        screen.Draw([new ScreenLine("and this")], [new("head")], string.Empty);
        Assert.Equal(["said once", "and this", "head", "> "], played.Lines);
        screen.Draw(s_block, "x");
        Assert.Equal(6, played.Lines.Count);
    }

    [Fact]
    public void What_has_not_changed_is_not_written_again()
    {
        StringWriter output = new();
        LiveScreen screen = new(output, colour: false, () => (60, 24));
        screen.Draw(s_block, "a");
        int written = output.ToString().Length;
        screen.Draw(s_block, "a");
        Assert.Equal(written, output.ToString().Length);
        Assert.DoesNotContain("\u001b[1", output.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(40)]
    [InlineData(25)]
    public void No_row_is_wider_than_the_window_and_a_long_line_shows_its_end(int columns)
    {
        Played played = new(columns);
        LiveScreen screen = new(played, colour: false, () => (columns, 24));
        screen.Draw(s_block, new string('a', 60) + "end");
        Assert.All(played.Lines, line => Assert.InRange(line.Length, 0, columns - 1));
        Assert.StartsWith("> …", played.Lines[^1], StringComparison.Ordinal);
        Assert.EndsWith("end", played.Lines[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_low_window_shows_the_most_urgent_lines()
    {
        Played played = new(40);
        new LiveScreen(played, colour: false, () => (40, 4)).Draw(s_block, string.Empty);
        Assert.Equal(["head", "NEXT  scrape in 4 min 10 s (3 to 6 min)", "> "], played.Lines);
    }

    [Fact]
    public void Another_width_begins_anew()
    {
        Played played = new(80);
        int columns = 80;
        LiveScreen screen = new(played, colour: false, () => (columns, 24));
        screen.Draw(s_block, "x");
        columns = 40;
        screen.Draw(s_block, "x");
        Assert.Equal(["head", "NEXT  scrape in 4 min 10 s (3 to 6 min)", "done  95 % through in 13 min", "> x"], played.Lines);
    }

    [Fact]
    public void Typing_is_edited()
    {
        LineEditor editor = new();
        foreach (char c in "levwl")
            Assert.Null(editor.Take(Key(c)));
        editor.Take(new ConsoleKeyInfo('\b', ConsoleKey.Backspace, false, false, false));
        editor.Take(new ConsoleKeyInfo('\b', ConsoleKey.Backspace, false, false, false));
        foreach (char c in "el 3\u0007\u001b")
            editor.Take(Key(c));
        Assert.Equal("level 3", editor.Text);
        Assert.Equal("level 3", editor.Take(new ConsoleKeyInfo('\r', ConsoleKey.Enter, false, false, false)));
        Assert.Equal(string.Empty, editor.Text);
        editor.Take(new ConsoleKeyInfo('\0', ConsoleKey.UpArrow, false, false, false));
        Assert.Equal("level 3", editor.Text);
        editor.Take(new ConsoleKeyInfo('\u0015', ConsoleKey.U, false, false, control: true));
        Assert.Equal(string.Empty, editor.Text);
        for (int i = 0; i < 1000; i++)
            editor.Take(Key('a'));
        Assert.Equal(300, editor.Text.Length);
    }

    private static ConsoleKeyInfo Key(char c) => new(c, ConsoleKey.None, false, false, false);

    /// <summary>What a terminal would show of what is written to it: as much of one as the screen uses.</summary>
    private sealed class Played(int columns) : StringWriter
    {
        private readonly List<string> _rows = [string.Empty];
        private int _row;
        private int _column;

        /// <summary>The rows, without empty ones at the end.</summary>
        public IReadOnlyList<string> Lines => [.. _rows.Select(row => row)];

        public override void Write(string? value)
        {
            string text = value ?? string.Empty;
            for (int i = 0; i < text.Length; i++)
            {
                if (text[i] == '\r')
                {
                    _column = 0;
                }
                else if (text[i] == '\n')
                {
                    if (++_row == _rows.Count)
                        _rows.Add(string.Empty);
                }
                else if (text[i] == '\u001b')
                {
                    int end = i + 2;
                    while (!char.IsLetter(text[end]))
                        end++;
                    Steer(text[(i + 2)..end], text[end]);
                    i = end;
                }
                else
                {
                    Assert.True(_column < columns, "written beyond the window");
                    _rows[_row] = _rows[_row].PadRight(_column)[.._column] + text[i] + (_rows[_row].Length > _column + 1 ? _rows[_row][(_column + 1)..] : string.Empty);
                    _column++;
                }
            }
        }

        private void Steer(string number, char what)
        {
            switch (what)
            {
                case 'A':
                    _row = Math.Max(0, _row - int.Parse(number, System.Globalization.CultureInfo.InvariantCulture));
                    break;
                case 'K':
                    _rows[_row] = _rows[_row].PadRight(_column)[.._column];
                    break;
                case 'J' when number == "2":
                    _rows.Clear();
                    _rows.Add(string.Empty);
                    (_row, _column) = (0, 0);
                    break;
                case 'J':
                    _rows[_row] = _rows[_row].PadRight(_column)[.._column];
                    _rows.RemoveRange(_row + 1, _rows.Count - _row - 1);
                    break;
                case 'H':
                    (_row, _column) = (0, 0);
                    break;
                case 'm':
                    break;
                default:
                    Assert.Fail($"a sequence that this terminal does not know: {number}{what}");
                    break;
            }
        }
    }
}
