namespace FlowSim.Planning;

/// <summary>Spans of time in whole minutes, in order and apart: when somebody is there.</summary>
internal sealed class HourGrid
{
    /// <summary>A moment that never comes.</summary>
    public const int Never = int.MaxValue / 4;

    private readonly int[] _from;
    private readonly int[] _to;

    /// <param name="spans">Spans in any order; those that touch or overlap become one.</param>
    public HourGrid(IEnumerable<(int From, int To)> spans)
    {
        List<(int From, int To)> merged = [];
        foreach ((int from, int to) in spans.Where(span => span.To > span.From).OrderBy(span => span.From))
        {
            if (merged.Count > 0 && from <= merged[^1].To)
                merged[^1] = (merged[^1].From, Math.Max(to, merged[^1].To));
            else
                merged.Add((from, to));
        }

        _from = [.. merged.Select(span => span.From)];
        _to = [.. merged.Select(span => span.To)];
    }

    /// <summary>The spans, first to last.</summary>
    public IEnumerable<(int From, int To)> Spans => _from.Zip(_to);

    /// <summary>The longest span, min.</summary>
    public int Longest => Spans.Select(span => span.To - span.From).DefaultIfEmpty(0).Max();

    /// <summary>The end of the last span; the begin of time when there is none.</summary>
    public int End => _to.Length == 0 ? -Never : _to[^1];

    /// <summary>What of these hours lies inside others.</summary>
    public HourGrid Within(HourGrid other) => new(Spans.SelectMany(mine => other.Spans.Select(its => (Math.Max(mine.From, its.From), Math.Min(mine.To, its.To)))));

    /// <summary>Earliest begin, from a moment on, of work that must not be interrupted.</summary>
    public int Fit(int from, int minutes)
    {
        for (int i = First(from); i < _to.Length; i++)
        {
            int begin = Math.Max(from, _from[i]);
            if (begin + minutes <= _to[i])
                return begin;
        }

        return Never;
    }

    /// <summary>Earliest begin, from a moment on, of work that pauses where a span ends.</summary>
    public int Begin(int from)
    {
        int i = First(from);
        return i < _to.Length ? Math.Max(from, _from[i]) : Never;
    }

    /// <summary>End of work that pauses where a span ends; never if the spans do not suffice.</summary>
    public int EndOf(int begin, int minutes)
    {
        int left = minutes;
        for (int i = First(begin); i < _to.Length; i++)
        {
            int from = Math.Max(begin, _from[i]);
            if (from + left <= _to[i])
                return from + left;
            left -= _to[i] - from;
        }

        return Never;
    }

    /// <summary>The pieces of work that pauses where a span ends.</summary>
    public IEnumerable<(int From, int To)> Pieces(int begin, int end) =>
        Spans.Where(span => span.To > begin && span.From < end).Select(span => (Math.Max(begin, span.From), Math.Min(end, span.To)));

    /// <summary>Minutes of the spans before a moment.</summary>
    public int Before(int moment)
    {
        int sum = 0;
        for (int i = 0; i < _to.Length && _from[i] < moment; i++)
            sum += Math.Min(moment, _to[i]) - _from[i];
        return sum;
    }

    /// <summary>Last moment up to this one that lies in a span, ends included; the begin of time when there is none.</summary>
    public int LastUpTo(int moment)
    {
        int last = -Never;
        for (int i = 0; i < _to.Length && _from[i] <= moment; i++)
            last = Math.Min(moment, _to[i]);
        return last;
    }

    /// <summary>First moment from this one on that lies in a span, ends included.</summary>
    public int FirstFrom(int moment)
    {
        for (int i = 0; i < _to.Length; i++)
        {
            if (_to[i] >= moment)
                return Math.Max(moment, _from[i]);
        }

        return Never;
    }

    /// <summary>End of the span that a moment lies in or begins; the moment itself when it lies in none.</summary>
    public int EndOfSpan(int moment)
    {
        for (int i = 0; i < _to.Length; i++)
        {
            if (_from[i] <= moment && moment <= _to[i])
                return _to[i];
        }

        return moment;
    }

    /// <summary>The first span that ends after a moment.</summary>
    private int First(int moment)
    {
        int i = 0;
        while (i < _to.Length && _to[i] <= moment)
            i++;
        return i;
    }
}
