namespace FlowSim.Plots.Drawing;

/// <summary>Lays out the words of marks in rows above the panels, so that they never stand on data, on each other, or on a mark's line.</summary>
internal static class MarkStrip
{
    /// <summary>Gap between a mark's line and its words, px.</summary>
    public const float GapPx = 7;

    // With seven marks, 128 ways of putting the words left or right of their lines are tried; more marks all go right.
    private const int MostTriedMarks = 7;

    /// <summary>Words placed: row 0 is next to the panels.</summary>
    internal readonly record struct Placed(int Row, float Left, float Right);

    /// <summary>Places words of given widths at lines of given x.</summary>
    /// <param name="xs">Lines, px.</param>
    /// <param name="widths">Widths of the words, px.</param>
    /// <param name="left">Left end of the room, px.</param>
    /// <param name="right">Right end of the room, px.</param>
    public static Placed[] Place(float[] xs, float[] widths, float left, float right)
    {
        int count = xs.Length;
        Placed[]? best = null;
        int fewest = int.MaxValue;
        int ways = count <= MostTriedMarks ? 1 << count : 1;
        for (int way = 0; way < ways; way++)
        {
            foreach (bool rightsFirst in (ReadOnlySpan<bool>)[true, false])
            {
                Placed[]? tried = Try(xs, widths, left, right, way, rightsFirst, heedLines: true);
                int rows = tried is null ? int.MaxValue : tried.Sum(p => p.Row);
                if (rows < fewest)
                    (best, fewest) = (tried, rows);
            }
        }

        return best ?? Try(xs, widths, left, right, 0, rightsFirst: true, heedLines: false)!;
    }

    private static Placed[]? Try(float[] xs, float[] widths, float left, float right, int way, bool rightsFirst, bool heedLines)
    {
        int count = xs.Length;
        Placed[] placed = new Placed[count];
        List<int> done = [];
        bool ToTheLeft(int i) => (way >> i & 1) == 1;

        // Words right of their line are placed from the last line to the first, words left of it the other way round:
        // then no line has to cross words that already stand below.
        IEnumerable<int> rights = Enumerable.Range(0, count).Where(i => !ToTheLeft(i)).OrderByDescending(i => xs[i]);
        IEnumerable<int> lefts = Enumerable.Range(0, count).Where(ToTheLeft).OrderBy(i => xs[i]);
        foreach (int i in rightsFirst ? rights.Concat(lefts) : lefts.Concat(rights))
        {
            float start = ToTheLeft(i) ? xs[i] - GapPx - widths[i] : xs[i] + GapPx;
            if (heedLines && (start < left || start + widths[i] > right))
                return null;

            start = Math.Max(left, Math.Min(start, right - widths[i]));
            Placed candidate = new(0, start, start + widths[i]);
            while (done.Any(j => Clash(candidate, xs[i], placed[j], xs[j], heedLines)))
            {
                candidate = candidate with { Row = candidate.Row + 1 };
                if (candidate.Row > count)
                    return null;
            }

            placed[i] = candidate;
            done.Add(i);
        }

        return placed;
    }

    private static bool Clash(Placed a, float xa, Placed b, float xb, bool heedLines)
    {
        if (a.Row == b.Row && a.Left < b.Right + 2 * GapPx && b.Left < a.Right + 2 * GapPx)
            return true;

        return heedLines
            && ((a.Row >= b.Row && xa > b.Left - 3 && xa < b.Right + 3) || (b.Row >= a.Row && xb > a.Left - 3 && xb < a.Right + 3));
    }
}
