namespace FlowSim.Numerics.Ensemble;

/// <summary>A step of every lane with its continuous extension, as in <see cref="Events.DenseStep"/>.</summary>
/// <typeparam name="TLanes">Register.</typeparam>
public readonly ref struct LaneStep<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    private readonly ReadOnlySpan<TLanes> _y0;
    private readonly ReadOnlySpan<TLanes> _y1;
    private readonly ReadOnlySpan<TLanes> _extension;

    internal LaneStep(TLanes start, TLanes length, ReadOnlySpan<TLanes> y0, ReadOnlySpan<TLanes> y1, ReadOnlySpan<TLanes> extension)
    {
        Start = start;
        Length = length;
        _y0 = y0;
        _y1 = y1;
        _extension = extension;
    }

    /// <summary>Time at its start.</summary>
    public TLanes Start { get; }

    /// <summary>Its length.</summary>
    public TLanes Length { get; }

    /// <summary>State at its start.</summary>
    public ReadOnlySpan<TLanes> Y0 => _y0;

    /// <summary>State at its end.</summary>
    public ReadOnlySpan<TLanes> Y1 => _y1;

    /// <summary>One component at a share of the step.</summary>
    /// <param name="theta">Share, 0 to 1.</param>
    /// <param name="component">Component.</param>
    public TLanes At(TLanes theta, int component)
    {
        int n = _y0.Length;
        TLanes rest = TLanes.Of(1) - theta;
        TLanes inner = TLanes.MultiplyAdd(theta, TLanes.MultiplyAdd(theta, _extension[(2 * n) + component], _extension[n + component]), _extension[component]);
        return (rest * _y0[component]) + (theta * TLanes.MultiplyAdd(rest, inner, _y1[component]));
    }

    /// <summary>The state at a share of the step.</summary>
    /// <param name="theta">Share, 0 to 1.</param>
    /// <param name="y">Receives the state.</param>
    public void At(TLanes theta, Span<TLanes> y)
    {
        for (int i = 0; i < y.Length; i++)
            y[i] = At(theta, i);
    }

    /// <summary>Slope of a component against the share of the step.</summary>
    /// <param name="theta">Share, 0 to 1.</param>
    /// <param name="component">Component.</param>
    public TLanes Slope(TLanes theta, int component)
    {
        int n = _y0.Length;
        TLanes q1 = _extension[component], q2 = _extension[n + component], q3 = _extension[(2 * n) + component];
        TLanes rest = TLanes.Of(1) - theta;
        TLanes inner = TLanes.MultiplyAdd(theta, TLanes.MultiplyAdd(theta, q3, q2), q1);
        TLanes innerSlope = TLanes.MultiplyAdd(theta + theta, q3, q2);
        return _y1[component] - _y0[component] + ((rest - theta) * inner) + (theta * rest * innerSlope);
    }

    /// <summary>Where a component that rises at the start of the step and falls at its end is highest, as a share of the step.</summary>
    /// <param name="component">Component.</param>
    public TLanes Top(int component)
    {
        TLanes a = TLanes.Of(0), b = TLanes.Of(1), half = TLanes.Of(0.5), zero = TLanes.Of(0);
        for (int i = 0; i < 30; i++)
        {
            TLanes middle = (a + b) * half;
            TLanes rises = Slope(middle, component) > zero;
            a = TLanes.Select(rises, middle, a);
            b = TLanes.Select(rises, b, middle);
        }

        return a;
    }

    /// <summary>Where a component passes a value that lies between its values at the ends of a part of the step, as a share of the step.</summary>
    /// <param name="component">Component.</param>
    /// <param name="sought">Value.</param>
    /// <param name="part">End of the part, 0 to 1.</param>
    /// <remarks>Bracketed secants on the extension (Illinois); fourteen of them end at rounding for anything smooth.</remarks>
    public TLanes Passes(int component, TLanes sought, TLanes part)
    {
        TLanes a = TLanes.Of(0), b = part;
        TLanes fa = _y0[component] - sought, fb = At(b, component) - sought;
        TLanes half = TLanes.Of(0.5), zero = TLanes.Of(0), tiny = TLanes.Of(1e-300);
        for (int i = 0; i < 14; i++)
        {
            TLanes rise = fb - fa;
            TLanes c = b - (fb * (b - a) / TLanes.Select(TLanes.Abs(rise) < tiny, tiny, rise));
            TLanes fc = At(c, component) - sought;

            // b is always the newest point; a the last on the other side, its value halved while it stays.
            TLanes across = (fb * fc) < zero;
            a = TLanes.Select(across, b, a);
            fa = TLanes.Select(across, fb, fa * half);
            (b, fb) = (c, fc);
        }

        return b;
    }
}
