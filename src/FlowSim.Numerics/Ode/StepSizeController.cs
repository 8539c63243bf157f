namespace FlowSim.Numerics.Ode;

/// <summary>Chooses the next step length from the error of the last ones.</summary>
/// <remarks>
/// The predictive controller of Gustafsson: a proportional–integral controller that carries the trend of the error
/// forward, which on stiff problems costs fewer rejections than looking at the last error alone.
/// <b>Source</b>: Hairer and Wanner, Solving Ordinary Differential Equations II, section IV.8, in the form of their code
/// RODAS (read in a public copy of it), with the exponent of a method of order 5(4).
/// </remarks>
internal struct StepSizeController
{
    /// <summary>Aim below the tolerance, so that most steps pass (value of RODAS).</summary>
    internal const double Safety = 0.9;

    /// <summary>The error model holds near the last step only, so growth is limited (value of RODAS).</summary>
    internal const double LargestGrowth = 6;

    /// <summary>Likewise for shrinking (value of RODAS).</summary>
    internal const double LargestShrink = 0.2;

    /// <summary>A step without a finite result says nothing about how much too long it was: shrink firmly.</summary>
    internal const double ShrinkWhenNotFinite = 0.25;

    /// <summary>A lucky, nearly vanishing error must not stand for the trend (value of RODAS).</summary>
    internal const double SmallestRememberedError = 1e-2;

    /// <summary>The estimate behaves like h⁵.</summary>
    private const double Exponent = 1.0 / (Rodas5PTableau.EmbeddedOrder + 1);

    private double _lastStep;
    private double _lastError;
    private bool _justRejected;

    /// <summary>Forgets the past, at a start or a change of the equations.</summary>
    internal void Restart() => this = default;

    /// <summary>Next length after an accepted step.</summary>
    internal double AfterAccepted(double h, double error)
    {
        double shrink = Math.Pow(error, Exponent) / Safety;
        if (_lastStep > 0)
        {
            double predicted = _lastStep / h * Math.Pow(error * error / _lastError, Exponent) / Safety;
            shrink = Math.Max(shrink, predicted);
        }

        double next = h / Math.Clamp(shrink, 1 / LargestGrowth, 1 / LargestShrink);

        // Right after a rejection growth would only provoke the next one.
        if (_justRejected)
            next = Math.Min(next, h);

        _lastStep = h;
        _lastError = Math.Max(error, SmallestRememberedError);
        _justRejected = false;
        return next;
    }

    /// <summary>Next length after a step whose error was too large.</summary>
    internal double AfterRejected(double h, double error)
    {
        _justRejected = true;
        return h / Math.Clamp(Math.Pow(error, Exponent) / Safety, 1, 1 / LargestShrink);
    }

    /// <summary>Next length after a step that could not be computed.</summary>
    internal double AfterNotFinite(double h)
    {
        _justRejected = true;
        return h * ShrinkWhenNotFinite;
    }
}
