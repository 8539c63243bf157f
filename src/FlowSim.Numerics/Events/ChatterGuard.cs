namespace FlowSim.Numerics.Events;

/// <summary>Notices an event that keeps firing while time stands still, as bounces that pile up or a switch that chatters do.</summary>
internal sealed class ChatterGuard(int eventCount)
{
    /// <summary>
    /// Firings of one event closer together than this fraction of |t| count as repeated. Far above the tolerance of
    /// location, far below any time scale that a model resolves.
    /// </summary>
    private const double Closeness = 1e-10;

    /// <summary>
    /// Repetitions allowed. A geometric pile-up passes from <see cref="Closeness"/> to the resolution of t in few firings,
    /// so the limit must be small; one event has no business firing five times at one instant.
    /// </summary>
    private const int Allowed = 4;

    private readonly double[] _lastTimes = new double[eventCount];
    private readonly int[] _repetitions = new int[eventCount];

    internal void Restart()
    {
        Array.Fill(_lastTimes, double.NegativeInfinity);
        Array.Clear(_repetitions);
    }

    /// <summary>Notes a firing; false when it is one too many.</summary>
    internal bool Permits(int index, double t)
    {
        bool repeated = t - _lastTimes[index] <= Closeness * Math.Abs(t);
        _repetitions[index] = repeated ? _repetitions[index] + 1 : 0;
        _lastTimes[index] = t;
        return _repetitions[index] <= Allowed;
    }
}
