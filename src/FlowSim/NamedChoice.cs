namespace FlowSim;

/// <summary>Picks from a short list by name and, when the name is unknown, says which is nearest, if any is near.</summary>
internal static class NamedChoice
{
    /// <summary>Edits, as a share of the longer name, beyond which two names have nothing to do with each other (engineering choice).</summary>
    private const double MostEdits = 0.5;

    public static T ByName<T>(IReadOnlyList<T> choices, Func<T, string> nameOf, string name, string what)
    {
        ArgumentNullException.ThrowIfNull(name);
        foreach (T choice in choices)
        {
            if (string.Equals(nameOf(choice), name, StringComparison.OrdinalIgnoreCase))
                return choice;
        }

        (string nearest, int distance) = choices
            .Select(choice => (Known: nameOf(choice), Distance: EditDistance(nameOf(choice), name.ToLowerInvariant())))
            .MinBy(candidate => candidate.Distance);
        string hint = distance <= MostEdits * Math.Max(nearest.Length, name.Length) ? $" Nearest: '{nearest}'." : "";
        throw new ArgumentException($"No {what} is named '{name}'.{hint} Known: {string.Join(", ", choices.Select(nameOf))}.", nameof(name));
    }

    /// <summary>Levenshtein distance.</summary>
    private static int EditDistance(string left, string right)
    {
        int[] row = [.. Enumerable.Range(0, right.Length + 1)];
        for (int i = 1; i <= left.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= right.Length; j++)
            {
                int substitution = diagonal + (left[i - 1] == right[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(substitution, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[right.Length];
    }
}
