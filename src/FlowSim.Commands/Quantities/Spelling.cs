namespace FlowSim.Commands.Quantities;

/// <summary>Finds the nearest spelling.</summary>
internal static class Spelling
{
    /// <summary>Longest text compared; what is longer is cut, so that a hostile name costs nothing.</summary>
    private const int Longest = 64;

    /// <summary>Edits between two spellings, case counted as a quarter of one.</summary>
    /// <param name="left">First.</param>
    /// <param name="right">Second.</param>
    public static double Distance(string left, string right)
    {
        ReadOnlySpan<char> a = left.AsSpan(0, Math.Min(left.Length, Longest));
        ReadOnlySpan<char> b = right.AsSpan(0, Math.Min(right.Length, Longest));
        Span<double> row = stackalloc double[Longest + 1];
        for (int j = 0; j <= b.Length; j++)
            row[j] = j;
        for (int i = 1; i <= a.Length; i++)
        {
            double diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                double change = a[i - 1] == b[j - 1] ? 0
                    : char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]) ? 0.25 : 1;
                double substituted = diagonal + change;
                diagonal = row[j];
                row[j] = Math.Min(substituted, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[b.Length];
    }

    /// <summary>The nearest of some names; null when there are none.</summary>
    /// <param name="written">Name as written.</param>
    /// <param name="known">Names to choose from.</param>
    public static string? Nearest(string written, IEnumerable<string> known) => known.MinBy(name => Distance(name, written));
}
