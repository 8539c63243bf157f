using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using MathNet.Numerics.Distributions;

namespace FlowSim.Calibration;

/// <summary>
/// A number by its normal score z under what was known of it before: the value at which the prior has run through Φ(z). Scores have no units and no
/// bounds, and before any reading each is a standard normal number.
/// </summary>
internal sealed class ScoreScale
{
    /// <summary>A score further out is no news but a misfit; there the value stays (engineering choice).</summary>
    public const double Furthest = 6;

    /// <summary>Probability that a prior may lose at the limits of its input and still count as the normal or log-normal one it is.</summary>
    private const double Negligible = 1e-4;

    /// <summary>Share of the spread from which on nothing worth the name was learnt, and the prior is kept as it was.</summary>
    private const double AsBefore = 0.95;

    /// <summary>Least standard deviation, for a number about 0.</summary>
    private const double Nothing = 1e-300;

    private readonly double _low;
    private readonly double _high;
    private readonly Form _form;
    private readonly double _middle;
    private readonly double _sd;

    private ScoreScale(Distribution prior, double low, double high)
    {
        (_low, _high) = (low, high);
        bool whole = prior.Cumulative(low) + 1 - prior.Cumulative(high) < Negligible;
        Prior = whole ? prior : prior.Within(low, high);
        double one = whole ? prior.Quantile(Normal.CDF(0, 1, 1)) : 0;
        (_form, _middle, _sd) = Prior switch
        {
            NormalDistribution normal => (Form.Normal, normal.Mean, normal.StandardDeviation),
            LogNormalDistribution log => (Form.LogNormal, Math.Log(log.Median), log.LogStandardDeviation),
            MovedDistribution { IsLogNormal: true } => (Form.LogNormal, Math.Log(prior.Median), Math.Log(one / prior.Median)),
            MovedDistribution { IsNormal: true } => (Form.Normal, prior.Median, one - prior.Median),
            _ => (Form.Other, 0, 1),
        };
    }

    private enum Form
    {
        Normal,
        LogNormal,
        Other,
    }

    /// <summary>What was known before, cut to what is allowed.</summary>
    public Distribution Prior { get; }

    /// <summary>The scale of a prior.</summary>
    /// <param name="prior">What was known before.</param>
    /// <param name="low">Lowest value allowed.</param>
    /// <param name="high">Highest value allowed.</param>
    public static ScoreScale Of(Distribution prior, double low, double high) => new(prior, low, high);

    /// <summary>The scale of a number about zero, such as an offset.</summary>
    /// <param name="sd">Standard deviation; 0 for none.</param>
    public static ScoreScale AboutZero(double sd) => new(new NormalDistribution(0, Math.Max(sd, double.Epsilon * 1e20)), double.NegativeInfinity, double.PositiveInfinity);

    /// <summary>Value at a score.</summary>
    /// <param name="score">z.</param>
    public double ValueAt(double score)
    {
        double z = Math.Clamp(score, -Furthest, Furthest);
        double value = _form switch
        {
            Form.Normal => _middle + (_sd * z),
            Form.LogNormal => Math.Exp(_middle + (_sd * z)),
            _ => Prior.Quantile(Normal.CDF(0, 1, z)),
        };
        return Math.Clamp(value, _low, _high);
    }

    /// <summary>The score of a value, for what comes back from elsewhere.</summary>
    /// <param name="value">Value.</param>
    public double ScoreOf(double value) => _form switch
    {
        Form.Normal => (value - _middle) / _sd,
        Form.LogNormal => (Math.Log(value) - _middle) / _sd,
        _ => Normal.InvCDF(0, 1, Math.Clamp(Prior.Cumulative(value), 1e-12, 1 - 1e-12)),
    };

    /// <summary>
    /// What is known when the score is normal: exactly so for a normal or log-normal prior. For any other the log-normal distribution (normal where it may be
    /// negative) with the same 2.5 % and 97.5 % quantiles, or the prior itself where nothing was learnt.
    /// </summary>
    /// <param name="score">Mean of the score.</param>
    /// <param name="sd">Its standard deviation, at most 1.</param>
    public Distribution Posterior(double score, double sd)
    {
        switch (_form)
        {
            case Form.Normal:
                return new NormalDistribution(_middle + (_sd * score), Math.Max(_sd * sd, 1e-12 * Math.Abs(_middle) + Nothing));
            case Form.LogNormal:
                return new LogNormalDistribution(Math.Exp(_middle + (_sd * score)), Math.Max(_sd * sd, 1e-9));
            default:
                if (sd > AsBefore)
                    return Prior;
                double low = ValueAt(score - (NormalDistribution.HalfWidth95 * sd)), high = ValueAt(score + (NormalDistribution.HalfWidth95 * sd));
                if (!(high > low))
                    return Prior;
                return Prior.Lowest >= 0 && low > 0
                    ? new LogNormalDistribution(Math.Sqrt(low * high), Math.Log(high / low) / (2 * NormalDistribution.HalfWidth95))
                    : new NormalDistribution(0.5 * (low + high), (high - low) / (2 * NormalDistribution.HalfWidth95));
        }
    }
}
