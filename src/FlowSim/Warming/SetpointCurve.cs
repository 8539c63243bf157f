namespace FlowSim.Warming;

/// <summary>The setpoint over time, K.</summary>
internal sealed class SetpointCurve
{
    private readonly double[] _atS;
    private readonly double[] _setK;
    private readonly bool[] _ramp;

    public SetpointCurve(IReadOnlyList<SetpointStep> steps)
    {
        _atS = [.. steps.Select(step => step.At.Seconds)];
        _setK = [.. steps.Select(step => step.Setpoint.Kelvins)];
        _ramp = [.. steps.Select(step => step.Ramp)];
    }

    /// <summary>Times after the start at which the setpoint jumps or bends, s.</summary>
    public IEnumerable<double> Breaks => _atS.Skip(1);

    /// <summary>The segment that begins at a time or is under way then.</summary>
    public int SegmentAt(double timeS)
    {
        int i = 0;
        while (i + 1 < _atS.Length && timeS >= _atS[i + 1])
            i++;
        return i;
    }

    /// <summary>The setpoint in a segment, up to its very end, K.</summary>
    public double At(int segment, double timeS) => _setK[segment] + (timeS - _atS[segment]) * SlopeAt(segment);

    /// <summary>How fast it moves in a segment, K/s.</summary>
    public double SlopeAt(int segment) => segment + 1 < _atS.Length && _ramp[segment + 1]
        ? (_setK[segment + 1] - _setK[segment]) / (_atS[segment + 1] - _atS[segment])
        : 0;
}
