namespace FlowSim.Commands.Input;

/// <summary>Finds the key of a day's file that made the library refuse the question.</summary>
internal static class DayBlame
{
    private static readonly Dictionary<string, Key> s_keys = new(StringComparer.Ordinal)
    {
        ["Cleaning.Strainer"] = DayKeys.Changeover.Strainer,
        ["Cleaning.Tank"] = DayKeys.Changeover.Tank,
        ["Place.Vessels"] = DayKeys.Place.Vessels,
        ["Tank.Capacity"] = DayKeys.Tank.Capacity,
        ["Tank.KeptFree"] = DayKeys.Tank.KeepFree,
        ["Worker.Hours"] = DayKeys.Person.Breaks,
        ["Steps.Warm"] = DayKeys.Batch.Warm,
        ["Steps.Settle"] = DayKeys.Batch.Settle,
        ["Steps.Strain"] = DayKeys.Batch.Strain,
        ["Steps.Stand"] = DayKeys.Batch.Stand,
        ["Steps.Fill"] = DayKeys.Batch.Fill,
        ["Batch.Volume"] = DayKeys.Batch.Volume,
        ["Batch.LongestHold"] = DayKeys.Batch.LongestHold,
        ["Batch.Places"] = DayKeys.Batch.Places,
        ["Places"] = DayKeys.Place.Name,
        ["Strainers"] = DayKeys.Strainer.Name,
        ["Tanks"] = DayKeys.Tank.Name,
        ["People"] = DayKeys.Person.Name,
        ["Batches"] = DayKeys.Batch.Name,
    };

    /// <summary>Reports a refusal at the key that caused it.</summary>
    /// <param name="refusal">What the library threw.</param>
    /// <param name="document">Input.</param>
    /// <param name="journal">Values as read.</param>
    /// <param name="problems">Takes the problem.</param>
    public static void Report(ArgumentException refusal, InputDocument document, Journal journal, Problems problems)
    {
        string message = Blame.MessageOf(refusal);

        // "Tank.Capacity is": the key says of what.
        if (refusal.ParamName is { } argument && message.StartsWith(argument + " ", StringComparison.Ordinal))
            message = argument.Split('.')[^1].ToLowerInvariant() + message[argument.Length..];
        if (!s_keys.TryGetValue(refusal.ParamName ?? string.Empty, out Key? key))
        {
            problems.Add(journal.FileSpot, message);
            return;
        }

        string[] sections = [.. document.Sections.Keys.Where(name => name == key.Section || name.StartsWith(key.Section + " ", StringComparison.Ordinal))];
        string[] given = [.. sections.Where(name => document.Sections[name].ContainsKey(key.Name))];
        string? section = refusal is ArgumentOutOfRangeException { ActualValue: double actual }
            ? given.FirstOrDefault(name => journal.ValuesOf(key with { Section = name }).Any(si => Blame.Matches(si, actual)))
            : null;
        section ??= given.LastOrDefault() ?? sections.LastOrDefault();
        InputValue? written = section is null ? null : document.Sections[section].GetValueOrDefault(key.Name)?.Value;
        Spot spot = written?.Spot ?? (section is not null && document.SectionSpots.TryGetValue(section, out Spot at) ? at : journal.FileSpot);
        problems.Add(spot, $"{section ?? key.Section}.{key.Name}: {Blame.InTheUsersWords(refusal, message, key.Dimension, written)}");
    }
}
