using FlowSim.OverflowRisk;
using UnitsNet;

namespace FlowSim.Attending;

/// <summary>Quantiles over draws.</summary>
internal static class Quantiles
{
    /// <summary>Shares that a band leaves out on either side: of what a rule will show, and of when something is to be done.</summary>
    public const double BandTail = 0.025, ActionTail = 0.05;

    /// <summary>A quantile of sorted values; +∞ among them stays so.</summary>
    /// <param name="sorted">Values, increasing, at least one.</param>
    /// <param name="share">Share, 0 to 1.</param>
    public static double Of(double[] sorted, double share) => sorted[(int)Math.Round(share * (sorted.Length - 1))];

    /// <summary>When it happens, of the runs in which it does; null when it happens in none.</summary>
    /// <param name="seconds">Times, s; +∞ where it does not happen.</param>
    public static (double Early, double Middle, double Late, double Share)? Times(IReadOnlyCollection<double> seconds)
    {
        double[] sorted = [.. seconds.Where(double.IsFinite).Order()];
        return sorted.Length == 0 ? null : (Of(sorted, ActionTail), Of(sorted, 0.5), Of(sorted, 1 - ActionTail), sorted.Length / (double)seconds.Count);
    }

    /// <summary>The spread of a time that some runs never get to.</summary>
    /// <param name="seconds">Times, s; +∞ or NaN where it never comes.</param>
    public static TimeSpread Spread(IEnumerable<double> seconds)
    {
        double[] sorted = [.. seconds.Select(s => double.IsNaN(s) ? double.PositiveInfinity : s).Order()];
        return new TimeSpread(At(0.1), At(0.5), At(0.9), sorted.Count(double.IsPositiveInfinity) / (double)sorted.Length);

        Duration? At(double share) => Of(sorted, share) is var s && double.IsFinite(s) ? Duration.FromSeconds(s) : null;
    }
}
