using System.Text;

namespace FlowSim.Commands.Watching;

/// <summary>The line that is being typed. The screen is drawn around it, so that what is half typed stays whatever else changes.</summary>
internal sealed class LineEditor
{
    /// <summary>Longest line, characters.</summary>
    private const int Longest = 300;

    private readonly StringBuilder _typed = new();
    private string _before = string.Empty;

    /// <summary>What is typed so far.</summary>
    public string Text => _typed.ToString();

    /// <summary>Takes a key.</summary>
    /// <param name="key">Key.</param>
    /// <returns>The line once Enter is pressed, else null.</returns>
    public string? Take(ConsoleKeyInfo key)
    {
        bool control = key.Modifiers.HasFlag(ConsoleModifiers.Control);
        switch (key.Key)
        {
            case ConsoleKey.Enter:
                string line = Text;
                if (line.Trim().Length > 0)
                    _before = line;
                _typed.Clear();
                return line;
            case ConsoleKey.Backspace:
                if (_typed.Length > 0)
                    _typed.Length--;
                break;
            case ConsoleKey.U when control:
            case ConsoleKey.Escape:
                _typed.Clear();
                break;
            case ConsoleKey.UpArrow:
                _typed.Clear().Append(_before);
                break;
            default:
                // Letters of other alphabets are refused later, by name; signs that steer a terminal must not get as far as its screen.
                if (!char.IsControl(key.KeyChar) && !char.IsSurrogate(key.KeyChar) && _typed.Length < Longest)
                    _typed.Append(key.KeyChar);
                break;
        }

        return null;
    }
}
