namespace FlowSim;

/// <summary>Picks from a short list by name and, when the name is unknown, says which is nearest.</summary>
internal static class NamedChoice
{
    public static T ByName<T>(IReadOnlyList<T> choices, Func<T, string> nameOf, string name, string what)
    {
        ArgumentNullException.ThrowIfNull(name);
        foreach (T choice in choices)
        {
            if (string.Equals(nameOf(choice), name, StringComparison.OrdinalIgnoreCase))
                return choice;
        }

        string nearest = choices.Select(nameOf).MinBy(known => EditDistance(known, name.ToLowerInvariant()))!;
        throw new ArgumentException(
            $"No {what} is named '{name}'. Nearest: '{nearest}'. Known: {string.Join(", ", choices.Select(nameOf))}.",
            nameof(name));
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
