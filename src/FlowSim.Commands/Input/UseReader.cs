namespace FlowSim.Commands.Input;

/// <summary>Reads a key that names an entry of the catalogue and so stands in place of others.</summary>
internal static class UseReader
{
    /// <summary>Reads the key.</summary>
    /// <param name="section">Section.</param>
    /// <param name="use">Key.</param>
    /// <param name="replaces">Names of the keys it stands in place of.</param>
    /// <param name="all">Catalogue.</param>
    /// <param name="nameOf">Name of an entry.</param>
    /// <param name="what">What is named.</param>
    /// <returns>Whether the catalogue was chosen, and the entry; none when the name is wrong.</returns>
    public static (bool Chosen, T? Entry) Read<T>(Section section, Key use, IEnumerable<string> replaces, IReadOnlyList<T> all, Func<T, string> nameOf, string what)
        where T : class
    {
        if (!section.Has(use))
            return (false, null);

        string[] others = [.. replaces.Distinct(StringComparer.Ordinal)];
        if (section.IsFromOption(use))
        {
            foreach (string other in others)
                section.DropFromFile(other);
        }
        else if (others.Any(other => section.Entry(other) is { FromOption: true }))
        {
            section.DropFromFile(use.Name);
            return (false, null);
        }

        foreach (string other in others)
        {
            if (section.Entry(other) is { } beside)
                section.Wrong(other, beside.KeySpot, $"stands beside {use.Name}, which says it already; keep one of the two");
        }

        string? name = section.Word(use, [.. all.Select(nameOf)], what);
        return (true, name is null ? null : all.First(entry => nameOf(entry) == name));
    }
}
