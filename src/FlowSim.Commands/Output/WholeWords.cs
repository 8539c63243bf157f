namespace FlowSim.Commands.Output;

/// <summary>Words between which a line may break: a number keeps its unit, and a time its parts.</summary>
internal static class WholeWords
{
    /// <summary>Units of time after which a smaller one may follow, as in "6 h 20 min".</summary>
    private static readonly string[] s_goesOn = [" d", " h", " min"];

    private static readonly string[] s_units =
        ["%", "°C", "°F", "K", "mm", "m", "um", "µm", "in", "L", "gal", "kg", "g", "lb", "s", "min", "h", "d", "kWh", "W", "kW", "m/s", "ft/min", "days", "mg/kg", "g/kg", "W/m2K", "W/(m²·K)", "Pa·s", "kg/m³"];

    /// <summary>The words of a text.</summary>
    /// <param name="text">Text.</param>
    public static IEnumerable<string> Of(string text)
    {
        string? time = null;
        foreach (string word in Amounts(text))
        {
            bool follows = time is not null && char.IsAsciiDigit(word[0]) && word.Contains(' ', StringComparison.Ordinal);
            if (time is not null && !follows)
                yield return time;
            string whole = follows ? time + " " + word : word;
            time = Array.Exists(s_goesOn, unit => whole.EndsWith(unit, StringComparison.Ordinal)) ? whole : null;
            if (time is null)
                yield return whole;
        }

        if (time is not null)
            yield return time;
    }

    private static IEnumerable<string> Amounts(string text)
    {
        string? held = null;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (held is not null && Array.IndexOf(s_units, word.TrimEnd('.', ',', ';', ':', ')')) >= 0)
            {
                yield return held + " " + word;
                held = null;
                continue;
            }

            if (held is not null)
                yield return held;
            held = char.IsAsciiDigit(word[^1]) ? word : null;
            if (held is null)
                yield return word;
        }

        if (held is not null)
            yield return held;
    }
}
