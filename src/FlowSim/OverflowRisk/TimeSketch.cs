using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>Quantiles of times over any number of runs in fixed memory: counts in bins of equal ratio.</summary>
/// <remarks>
/// A quantile errs by less than a bin, 0.1 %, whatever the number of runs; the order of the runs does not matter. After the
/// idea of relative-error sketches (DDSketch; from memory).
/// </remarks>
internal sealed class TimeSketch
{
    private const double Ratio = 1.001;
    private const double ShortestS = 1e-3;

    /// <summary>Longer than the longest run allowed, 30 days.</summary>
    private const double LongestS = 1e7;

    private static readonly double s_lnRatio = Math.Log(Ratio);

    private readonly int[] _bins = new int[2 + (int)(Math.Log(LongestS / ShortestS) / s_lnRatio)];

    /// <summary>Times counted, those that never come among them.</summary>
    public long Count { get; private set; }

    /// <summary>Times that never come.</summary>
    public long Never { get; private set; }

    /// <summary>Counts a time.</summary>
    /// <param name="seconds">Time, s; NaN or ∞ when it never comes.</param>
    public void Add(double seconds)
    {
        Count++;
        if (double.IsFinite(seconds))
            _bins[seconds <= ShortestS ? 0 : Math.Min(_bins.Length - 1, 1 + (int)(Math.Log(seconds / ShortestS) / s_lnRatio))]++;
        else
            Never++;
    }

    /// <summary>The time within which a share of the runs gets there, s; +∞ when it never comes.</summary>
    /// <param name="share">Share, above 0 and below 1.</param>
    public double Quantile(double share)
    {
        double wanted = share * Count;
        if (wanted > Count - Never)
            return double.PositiveInfinity;
        long below = 0;
        for (int bin = 0; bin < _bins.Length; bin++)
        {
            if (_bins[bin] > 0 && below + _bins[bin] >= wanted)
            {
                double inside = Math.Max(0, wanted - below) / _bins[bin];
                return bin == 0 ? ShortestS * inside : ShortestS * Math.Exp(s_lnRatio * (bin - 1 + inside));
            }

            below += _bins[bin];
        }

        return double.PositiveInfinity;
    }

    /// <summary>The quantiles that are told.</summary>
    public TimeSpread Spread() => new(At(0.1), At(0.5), At(0.9), Count == 0 ? 0 : (double)Never / Count);

    private Duration? At(double share)
    {
        double seconds = Quantile(share);
        return double.IsFinite(seconds) ? Duration.FromSeconds(seconds) : null;
    }
}
