using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Events;

/// <summary>One accepted step with its continuous extension.</summary>
/// <remarks>
/// The extension is a polynomial of degree 4 in time whose error within a step is of fifth order in its length, and it
/// meets both ends exactly. With <c>θ = (t − t₀)/h</c>:
/// <c>y(θ) = (1 − θ)·y₀ + θ·(y₁ + (1 − θ)·(q₁ + θ·(q₂ + θ·q₃)))</c>.
/// <b>Source</b>: that of <c>Rodas5PTableau</c>, there in <c>rosenbrock_interpolants.jl</c>.
/// </remarks>
public readonly ref struct DenseStep
{
    /// <summary>Times computed by a caller may miss the interval by a few roundings.</summary>
    private const double Slack = 1e-14;

    private readonly double _origin;
    private readonly double _length;
    private readonly ReadOnlySpan<double> _y0;
    private readonly ReadOnlySpan<double> _y1;
    private readonly ReadOnlySpan<double> _extension;

    private DenseStep(
        double origin, double length, double start, double end, ReadOnlySpan<double> y0, ReadOnlySpan<double> y1, ReadOnlySpan<double> extension)
    {
        _origin = origin;
        _length = length;
        Start = start;
        End = end;
        _y0 = y0;
        _y1 = y1;
        _extension = extension;
    }

    /// <summary>Start of the step, or of the part after an event that changed nothing.</summary>
    public double Start { get; }

    /// <summary>End of the part that counts: the end of the step, or the event located inside it.</summary>
    public double End { get; }

    /// <summary>Writes the state at <paramref name="t"/>.</summary>
    /// <param name="t">Time in [<see cref="Start"/>, <see cref="End"/>].</param>
    /// <param name="y">Receives the state; its length is the number of unknowns.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="t"/> lies outside the step, or <paramref name="y"/> has more elements than there are unknowns.</exception>
    public void Evaluate(double t, Span<double> y)
    {
        if (y.Length > _y0.Length)
            throw new ArgumentOutOfRangeException(nameof(y), y.Length, $"The step has {_y0.Length} unknowns.");

        double theta = Theta(t);
        for (int i = 0; i < y.Length; i++)
            y[i] = Component(theta, i);
    }

    /// <summary>One component of the state at <paramref name="t"/>.</summary>
    /// <param name="t">Time in [<see cref="Start"/>, <see cref="End"/>].</param>
    /// <param name="component">Index of the component.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="t"/> lies outside the step, or there is no such component.</exception>
    public double Evaluate(double t, int component) => (uint)component < (uint)_y0.Length
        ? Component(Theta(t), component)
        : throw new ArgumentOutOfRangeException(nameof(component), component, $"The step has {_y0.Length} unknowns, counted from 0.");

    /// <summary>The step just made in <paramref name="w"/> from <paramref name="origin"/> with length <paramref name="length"/>.</summary>
    internal static DenseStep Whole(double origin, double length, double end, Rodas5PWorkspace w) =>
        new(origin, length, origin, end, w.Y0, w.Y1, w.Extension);

    /// <summary>The same polynomial on a part of the step.</summary>
    internal DenseStep Part(double start, double end) => new(_origin, _length, start, end, _y0, _y1, _extension);

    private double Theta(double t)
    {
        double slack = Slack * Math.Abs(t);
        if (!(t >= Start - slack && t <= End + slack))
            throw new ArgumentOutOfRangeException(nameof(t), t, $"The time must lie in the step [{Start:R}, {End:R}].");

        return (Math.Clamp(t, Start, End) - _origin) / _length;
    }

    private double Component(double theta, int i)
    {
        int n = _y0.Length;
        double rest = 1 - theta;
        double bend = _extension[i] + theta * (_extension[n + i] + theta * _extension[2 * n + i]);
        double change = _y1[i] - _y0[i];

        // Both forms are the same polynomial; each is exact, and monotone in rounding, at its own end.
        return theta <= 0.5
            ? _y0[i] + theta * (change + rest * bend)
            : _y1[i] - rest * (change - theta * bend);
    }
}
