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

    /// <summary>The setpoint, K; at a jump the one after it.</summary>
    public double At(double timeS)
    {
        int i = Step(timeS);
        return i + 1 < _atS.Length && _ramp[i + 1] ? _setK[i] + (timeS - _atS[i]) * SlopeAfter(i) : _setK[i];
    }

    /// <summary>How fast it moves, K/s.</summary>
    public double SlopeAt(double timeS)
    {
        int i = Step(timeS);
        return i + 1 < _atS.Length && _ramp[i + 1] ? SlopeAfter(i) : 0;
    }

    private double SlopeAfter(int i) => (_setK[i + 1] - _setK[i]) / (_atS[i + 1] - _atS[i]);

    private int Step(double timeS)
    {
        int i = 0;
        while (i + 1 < _atS.Length && timeS >= _atS[i + 1])
            i++;
        return i;
    }
}
