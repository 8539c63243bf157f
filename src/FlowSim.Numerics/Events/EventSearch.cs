namespace FlowSim.Numerics.Events;

/// <summary>Finds the crossings of the event functions within a step, in order, and never the same one twice.</summary>
/// <remarks>
/// <para>
/// Each event function has a side, the sign it had last; a value of exactly zero has no side and leaves the old one in
/// force, so that touching zero is no crossing. Only a zero at the very end of a step counts as crossed, for nothing beyond it is known.
/// After a restart with value zero the first other sample decides the side.
/// </para>
/// <para>
/// In every step each event function gets a list of points in order of time: the samples, and between them the dips towards
/// zero which the quartic through the samples suggests. A crossing is then a change of side from one point to the next.
/// </para>
/// </remarks>
internal sealed class EventSearch
{
    /// <summary>
    /// Width to which a crossing is located, relative to |t| plus the step: some hundreds of roundings, above the noise of
    /// the event functions and far below the error of any solution.
    /// </summary>
    private const double LocationTolerance = 1e-13;

    /// <summary>
    /// Extra samples after a restart, as fractions of the step. Whatever an event function does just after its own event
    /// happens close to zero and can be short: a second bounce, or a side that is still undecided. The first stands near
    /// the resolution of t, so that bounces which pile up are followed to where they end, not taken for a fall through the floor.
    /// </summary>
    private static readonly double[] s_probes = [1.0 / (1L << 40), 1.0 / (1 << 30), 1.0 / (1 << 20), 1.0 / (1 << 10)];

    /// <summary>Golden-section steps for a dip: the bracket of four cells shrinks below 1e−9 of the step.</summary>
    private const int DipIterations = 38;

    private const int ProbeCount = 4;

    private const int MaxPoints = QuarticScreen.Samples + ProbeCount + QuarticScreen.MaxDips;

    private readonly int _count;
    private readonly EventDirection[] _directions;
    private readonly int[] _sides;
    private readonly double[] _state;
    private readonly double[] _values;
    private readonly double[] _startValues;
    private readonly double[] _endValues;
    private readonly double[] _samples;
    private readonly double[] _times;
    private readonly double[] _points;
    private readonly int[] _pointCounts;
    private readonly int[] _cursors;
    private readonly double[] _crossings;
    private readonly int[] _crossingSides;
    private bool _justRestarted;

    internal EventSearch(int dimension, ReadOnlySpan<EventDirection> directions)
    {
        _count = directions.Length;
        _directions = directions.ToArray();
        _sides = new int[_count];
        _state = new double[dimension];
        _values = new double[_count];
        _startValues = new double[_count];
        _endValues = new double[_count];
        _samples = new double[_count * QuarticScreen.Samples];
        _times = new double[_count * MaxPoints];
        _points = new double[_count * MaxPoints];
        _pointCounts = new int[_count];
        _cursors = new int[_count];
        _crossings = new double[_count];
        _crossingSides = new int[_count];
    }

    /// <summary>Evaluations of the event functions since <see cref="ResetCount"/>.</summary>
    internal int Evaluations { get; private set; }

    internal void ResetCount() => Evaluations = 0;

    /// <summary>Looks at the event functions anew, at a start or restart. False when one of them is NaN.</summary>
    internal bool TryRestart<TSystem>(ref TSystem system, double t, ReadOnlySpan<double> y)
        where TSystem : IHybridSystem
    {
        if (!TryEvaluate(ref system, t, y, _startValues))
            return false;

        for (int i = 0; i < _count; i++)
            _sides[i] = Math.Sign(_startValues[i]);
        _justRestarted = true;
        return true;
    }

    /// <summary>Samples a step and locates each event's first crossing in it. False when a sample is NaN; then nothing has changed.</summary>
    internal bool TrySearch<TSystem>(ref TSystem system, in DenseStep step)
        where TSystem : IHybridSystem
    {
        if (_count == 0)
            return true;

        if (!TrySample(ref system, step))
            return false;

        Span<(int Cell, int Sign)> dips = stackalloc (int, int)[QuarticScreen.MaxDips];
        for (int i = 0; i < _count; i++)
        {
            int found = QuarticScreen.FindDips(_samples.AsSpan(i * QuarticScreen.Samples, QuarticScreen.Samples), dips);
            for (int k = 0; k < found; k++)
                FollowDip(ref system, step, i, dips[k].Cell, dips[k].Sign);
        }

        for (int i = 0; i < _count; i++)
        {
            _cursors[i] = 1;
            FindNext(ref system, step, i);
        }

        return true;
    }

    /// <summary>The step's events have all been handled: its end is the next start.</summary>
    internal void Advance()
    {
        _endValues.CopyTo(_startValues, 0);
        _justRestarted = false;
    }

    /// <summary>Time of the earliest crossing not handled yet; false if none is left.</summary>
    /// <param name="step">The step.</param>
    /// <param name="t">The time; the step's end itself if it lies within the tolerance of location.</param>
    internal bool TryEarliest(in DenseStep step, out double t)
    {
        t = double.PositiveInfinity;
        for (int i = 0; i < _count; i++)
            t = Math.Min(t, _crossings[i]);
        if (double.IsPositiveInfinity(t))
            return false;

        // Crossings that the location cannot tell apart happen together, at the latest of their times, so that all are past.
        double tolerance = Tolerance(step);
        double latest = t;
        for (int i = 0; i < _count; i++)
        {
            if (_crossings[i] <= t + tolerance)
                latest = Math.Max(latest, _crossings[i]);
        }

        t = step.End - latest <= tolerance && AllStillPastAtEnd() ? step.End : latest;
        return true;
    }

    /// <summary>True when event <paramref name="index"/> crosses at <paramref name="t"/>, the time given by <see cref="TryEarliest"/>.</summary>
    internal bool Crosses(int index, double t) => _crossings[index] <= t;

    /// <summary>True when the event function still is where the crossing led, after other events at the same time changed things.</summary>
    internal bool IsStillPast<TSystem>(ref TSystem system, int index, double t, ReadOnlySpan<double> y)
        where TSystem : IHybridSystem =>
        TryEvaluate(ref system, t, y, _values) && _values[index] * _crossingSides[index] >= 0;

    /// <summary>Goes on past the crossings at <paramref name="t"/> within the same step.</summary>
    internal void Pass<TSystem>(ref TSystem system, in DenseStep step, double t)
        where TSystem : IHybridSystem
    {
        for (int i = 0; i < _count; i++)
        {
            if (Crosses(i, t))
                FindNext(ref system, step, i);
        }
    }

    private static double Tolerance(in DenseStep step) =>
        LocationTolerance * (Math.Abs(step.End) + (step.End - step.Start));

    private bool AllStillPastAtEnd()
    {
        for (int i = 0; i < _count; i++)
        {
            if (double.IsFinite(_crossings[i]) && _endValues[i] * _crossingSides[i] < 0)
                return false;
        }

        return true;
    }

    private bool TrySample<TSystem>(ref TSystem system, in DenseStep step)
        where TSystem : IHybridSystem
    {
        Array.Clear(_pointCounts);
        double h = step.End - step.Start;
        AddSample(0, step.Start, _startValues);

        if (_justRestarted)
        {
            foreach (double fraction in s_probes)
            {
                double t = step.Start + fraction * h;
                if (!(t > step.Start))
                    continue;
                step.Evaluate(t, _state);
                if (!TryEvaluate(ref system, t, _state, _values))
                    return false;
                for (int i = 0; i < _count; i++)
                    AddPoint(i, t, _values[i]);
            }
        }

        for (int k = 1; k < QuarticScreen.Samples; k++)
        {
            bool atEnd = k == QuarticScreen.Samples - 1;
            double t = atEnd ? step.End : step.Start + h * k / (QuarticScreen.Samples - 1);
            double[] values = atEnd ? _endValues : _values;
            step.Evaluate(t, _state);
            if (!TryEvaluate(ref system, t, _state, values))
                return false;
            AddSample(k, t, values);
        }

        return true;
    }

    private void AddSample(int k, double t, double[] values)
    {
        for (int i = 0; i < _count; i++)
        {
            _samples[i * QuarticScreen.Samples + k] = values[i];
            AddPoint(i, t, values[i]);
        }
    }

    /// <summary>Inserts a point into the event's list, which is kept in order of time.</summary>
    private void AddPoint(int index, double t, double value)
    {
        Span<double> times = _times.AsSpan(index * MaxPoints, MaxPoints);
        Span<double> points = _points.AsSpan(index * MaxPoints, MaxPoints);
        int at = _pointCounts[index]++;
        for (; at > 0 && times[at - 1] > t; at--)
        {
            times[at] = times[at - 1];
            points[at] = points[at - 1];
        }

        times[at] = t;
        points[at] = value;
    }

    /// <summary>Golden-section search for the dip's bottom, given up as soon as it has crossed zero.</summary>
    private void FollowDip<TSystem>(ref TSystem system, in DenseStep step, int index, int cell, int sign)
        where TSystem : IHybridSystem
    {
        const double Golden = 0.6180339887498949;
        double h = step.End - step.Start;
        double low = step.Start + h * Math.Max(cell - QuarticScreen.Reach, 0) / QuarticScreen.Cells;
        double high = step.Start + h * Math.Min(cell + QuarticScreen.Reach, QuarticScreen.Cells) / QuarticScreen.Cells;
        high = Math.Min(high, step.End);

        double left = high - Golden * (high - low);
        double right = low + Golden * (high - low);
        double leftValue = sign * ValueAt(ref system, step, index, left);
        double rightValue = sign * ValueAt(ref system, step, index, right);
        for (int k = 0; k < DipIterations; k++)
        {
            if (leftValue < 0 || rightValue < 0)
            {
                bool useLeft = leftValue < 0;
                AddPoint(index, useLeft ? left : right, sign * (useLeft ? leftValue : rightValue));
                return;
            }

            if (leftValue < rightValue)
            {
                high = right;
                right = left;
                rightValue = leftValue;
                left = high - Golden * (high - low);
                leftValue = sign * ValueAt(ref system, step, index, left);
            }
            else
            {
                low = left;
                left = right;
                leftValue = rightValue;
                right = low + Golden * (high - low);
                rightValue = sign * ValueAt(ref system, step, index, right);
            }
        }
    }

    /// <summary>Moves the event's cursor to just past its next crossing that counts, and locates that.</summary>
    private void FindNext<TSystem>(ref TSystem system, in DenseStep step, int index)
        where TSystem : IHybridSystem
    {
        ReadOnlySpan<double> times = _times.AsSpan(index * MaxPoints, _pointCounts[index]);
        ReadOnlySpan<double> points = _points.AsSpan(index * MaxPoints, _pointCounts[index]);
        int side = _sides[index];
        int near = _cursors[index] - 1;
        _crossings[index] = double.PositiveInfinity;

        for (int p = _cursors[index]; p < points.Length; p++)
        {
            int sign = Math.Sign(points[p]);
            bool zeroAtEnd = sign == 0 && side != 0 && p == points.Length - 1;
            if (zeroAtEnd && Counts(_directions[index], -side))
                sign = -side;

            if (sign == 0)
                continue;

            if (side != 0 && sign != side && Counts(_directions[index], sign))
            {
                _crossings[index] = Locate(ref system, step, index, times[near], points[near], times[p], points[p], side);
                _crossingSides[index] = sign;
                _sides[index] = sign;
                _cursors[index] = p + 1;
                return;
            }

            side = sign;
            near = p;
        }

        _sides[index] = side;
        _cursors[index] = points.Length;
    }

    private static bool Counts(EventDirection direction, int newSide) => direction switch
    {
        EventDirection.Rising => newSide > 0,
        EventDirection.Falling => newSide < 0,
        _ => true,
    };

    private double Locate<TSystem>(
        ref TSystem system, in DenseStep step, int index, double near, double nearValue, double far, double farValue, int nearSide)
        where TSystem : IHybridSystem
    {
        var bracket = new RootBracket(near, nearValue, far, farValue, nearSide, Tolerance(step));
        while (bracket.TryNext(out double t))
            bracket.Narrow(t, ValueAt(ref system, step, index, t));
        return bracket.Far;
    }

    private double ValueAt<TSystem>(ref TSystem system, in DenseStep step, int index, double t)
        where TSystem : IHybridSystem
    {
        step.Evaluate(t, _state);
        Evaluations++;
        system.EventValues(t, _state, _values);
        return _values[index];
    }

    private bool TryEvaluate<TSystem>(ref TSystem system, double t, ReadOnlySpan<double> y, double[] values)
        where TSystem : IHybridSystem
    {
        if (_count == 0)
            return true;

        Evaluations++;
        system.EventValues(t, y, values);
        foreach (double value in values)
        {
            if (double.IsNaN(value))
                return false;
        }

        return true;
    }
}
