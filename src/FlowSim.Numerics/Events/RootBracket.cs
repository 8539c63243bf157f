namespace FlowSim.Numerics.Events;

/// <summary>Halving a bracket around a sign change, faster than by bisection and never slower than it by more than one step.</summary>
/// <remarks>
/// <para>The ITP method (interpolate, truncate, project). Time is the variable, not the fraction of the step, so that the
/// bracket's ends are times that can be handed out as they are.</para>
/// <para><b>Source</b>: I. F. D. Oliveira and R. H. C. Takahashi, ACM Transactions on Mathematical Software 47(1):5 (2020)
/// (from memory), with their suggested κ₂ = 2 and n₀ = 1. MathNet's root finders take a delegate and return one point,
/// not the bracket; here the far end is what counts.</para>
/// </remarks>
internal struct RootBracket
{
    /// <summary>κ₁ times the first width: how far from the secant's root towards the middle.</summary>
    private const double Truncation = 0.2;

    private readonly double _tolerance;
    private readonly double _truncation;
    private readonly int _nearSign;
    private double _nearValue;
    private double _farValue;
    private double _allowance;

    /// <summary>Starts from <paramref name="near"/>, where the sign is <paramref name="nearSign"/>, and <paramref name="far"/>, where it is not.</summary>
    internal RootBracket(double near, double nearValue, double far, double farValue, int nearSign, double tolerance)
    {
        Near = near;
        Far = far;
        _nearValue = nearValue;
        _farValue = farValue;
        _nearSign = nearSign;
        _tolerance = tolerance;

        double width = far - near;
        _truncation = Truncation / width;

        // Twice the width that n bisections starting from this width would need: one step of slack (n0 = 1).
        _allowance = width > tolerance ? tolerance * Math.Pow(2, Math.Ceiling(Math.Log2(width / tolerance)) + 1) / 2 : 0;
    }

    /// <summary>Last time known before the crossing.</summary>
    internal double Near { get; private set; }

    /// <summary>First time known at or past the crossing.</summary>
    internal double Far { get; private set; }

    /// <summary>The next time to try; false when the bracket is narrow enough or cannot be split.</summary>
    internal readonly bool TryNext(out double t)
    {
        double width = Far - Near;
        double middle = Near + width / 2;
        t = middle;
        if (width <= _tolerance || !(middle > Near && middle < Far))
            return false;

        double secant = (_farValue * Near - _nearValue * Far) / (_farValue - _nearValue);
        if (!double.IsFinite(secant))
            return true;

        double towardsMiddle = Math.Sign(middle - secant);
        double shift = _truncation * width * width;
        double truncated = shift <= Math.Abs(middle - secant) ? secant + towardsMiddle * shift : middle;

        double radius = Math.Max(_allowance - width / 2, 0);
        double projected = Math.Abs(truncated - middle) <= radius ? truncated : middle - towardsMiddle * radius;
        if (projected > Near && projected < Far)
            t = projected;
        return true;
    }

    /// <summary>Narrows the bracket by the value at the time tried. Zero counts as past the crossing, NaN does not.</summary>
    internal void Narrow(double t, double value)
    {
        if (value * _nearSign <= 0)
        {
            Far = t;
            _farValue = value;
        }
        else
        {
            Near = t;
            _nearValue = value;
        }

        _allowance /= 2;
    }
}
