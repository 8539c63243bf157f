namespace FlowSim.Commands.Quantities;

/// <summary>A place in a text.</summary>
internal struct Cursor(string text)
{
    public int At { get; private set; }

    public readonly bool AtEnd => At >= text.Length;

    /// <summary>The character here; NUL at the end.</summary>
    public readonly char Current => Peek(0);

    public readonly char Peek(int ahead) => At + ahead < text.Length ? text[At + ahead] : '\0';

    public void Move(int by) => At += by;

    public void SkipSpaces()
    {
        // Tab, space and the two no-break spaces that word processors put before a unit. Other spaces group digits.
        while (Current is ' ' or '\t' or '\u00A0' or '\u202F')
            At++;
    }

    public string TakeDigits()
    {
        int start = At;
        while (char.IsAsciiDigit(Current))
            At++;
        return text[start..At];
    }

    /// <summary>Takes what stands before the next number: letters, signs of units, and digits that are powers.</summary>
    public string TakeUnit()
    {
        int start = At;
        while (!AtEnd)
        {
            char c = Current;
            if (char.IsAsciiDigit(c) && !IsPower(start))
                break;
            if (c is ' ' or '\t' or '\u00A0' or '\u202F' && NextIsNumber())
                break;
            if (c is ',' or ';' or ':' or '=' or '+' or '-' or '\u2212' || char.IsControl(c))
                break;
            if (c == '.' && char.IsAsciiDigit(Peek(1)))
                break;
            At++;
        }

        return text[start..At].TrimEnd();
    }

    // "m2", "ft3", "m^2": a digit right after a letter, and not the begin of a longer number.
    private readonly bool IsPower(int start)
    {
        if (At <= start || Current is not ('2' or '3') || char.IsAsciiDigit(Peek(1)) || Peek(1) == ',' || (Peek(1) == '.' && !char.IsAsciiLetter(Peek(2))))
            return false;
        return char.IsAsciiLetter(text[At - 1]) || text[At - 1] == '^';
    }

    private readonly bool NextIsNumber()
    {
        int ahead = 0;
        while (Peek(ahead) is ' ' or '\t' or '\u00A0' or '\u202F')
            ahead++;
        char c = Peek(ahead);
        return char.IsAsciiDigit(c) || c is '+' or '-' or '\u2212' || (c == '.' && char.IsAsciiDigit(Peek(ahead + 1)));
    }
}
