using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Fitting;

/// <summary>
/// How much a residual counts as it grows. A robust loss lets a stray measurement pull less than its square would.
/// <para><b>Equation</b>: cost ½ Σ ρ(r²); ρ(z) = z; Huber z up to c², 2c√z − c² beyond; soft L1 2c²(√(1 + z/c²) − 1); Cauchy c² ln(1 + z/c²); Student's t
/// (ν + 1) ln(1 + z/ν).</para>
/// <para><b>Range</b>: c is where a residual begins to count as stray, in the residuals' unit: with residuals in standard deviations 1.345 (Huber) or 2.385
/// (Cauchy) keep 95 % of the efficiency when nothing is stray. Cauchy and Student's t can have several minima.</para>
/// <para><b>Error</b>: standard errors of a fit with it are those of weighted squares, weights ρ′: an approximation.</para>
/// <para><b>Source</b>: P. J. Huber, Robust Statistics (1981); constants W. J. J. Rey, Introduction to Robust and Quasi-Robust Statistical Methods (1983); both from
/// memory.</para>
/// <para><b>Checked by</b>: RobustLossTests.cs.</para>
/// </summary>
public abstract record RobustLoss
{
    private RobustLoss()
    {
    }

    /// <summary>Plain squares.</summary>
    public static RobustLoss None { get; } = new Plain();

    /// <summary>Squares up to c, straight lines beyond.</summary>
    /// <param name="c">Where it turns straight, above 0.</param>
    public static RobustLoss Huber(double c) => new HuberLoss(Arguments.Positive(c));

    /// <summary>A smooth Huber loss (soft L1).</summary>
    /// <param name="c">Where it turns straight, above 0.</param>
    public static RobustLoss SoftL1(double c) => new SoftL1Loss(Arguments.Positive(c));

    /// <summary>Logarithmic: the farther off, the weaker the pull.</summary>
    /// <param name="c">Where the pull is strongest, above 0.</param>
    public static RobustLoss Cauchy(double c) => new CauchyLoss(Arguments.Positive(c));

    /// <summary>
    /// Student's t distribution of residuals whose scale is 1: twice the negative logarithm of its density.
    /// </summary>
    /// <param name="degreesOfFreedom">ν, above 0; the smaller, the heavier the tails. 4 is common.</param>
    public static RobustLoss StudentT(double degreesOfFreedom) => new StudentTLoss(Arguments.Positive(degreesOfFreedom));

    /// <summary>ρ and its first two derivatives by z.</summary>
    internal abstract (double Value, double First, double Second) At(double z);

    private sealed record Plain : RobustLoss
    {
        internal override (double Value, double First, double Second) At(double z) => (z, 1, 0);
    }

    private sealed record HuberLoss(double C) : RobustLoss
    {
        internal override (double Value, double First, double Second) At(double z)
        {
            if (z <= C * C) return (z, 1, 0);
            double root = Math.Sqrt(z);
            return (2 * C * root - C * C, C / root, -0.5 * C / (z * root));
        }
    }

    private sealed record SoftL1Loss(double C) : RobustLoss
    {
        internal override (double Value, double First, double Second) At(double z)
        {
            double t = z / (C * C);
            double root = Math.Sqrt(1 + t);
            return (2 * z / (1 + root), 1 / root, -0.5 / (C * C * root * root * root));
        }
    }

    private sealed record CauchyLoss(double C) : RobustLoss
    {
        internal override (double Value, double First, double Second) At(double z)
        {
            double t = z / (C * C);
            return (C * C * double.LogP1(t), 1 / (1 + t), -1 / (C * C * (1 + t) * (1 + t)));
        }
    }

    private sealed record StudentTLoss(double Nu) : RobustLoss
    {
        internal override (double Value, double First, double Second) At(double z) =>
            ((Nu + 1) * double.LogP1(z / Nu), (Nu + 1) / (Nu + z), -(Nu + 1) / ((Nu + z) * (Nu + z)));
    }
}
