using MathNet.Numerics;
using MathNet.Numerics.RootFinding;

namespace FlowSim.Settling;

/// <summary>
/// What is left of log-normal sizes when each has travelled d²M through a layer of depth h that was even at the start. All follows from
/// the progress <c>y = M D50²/h</c> (1 when the median size has just left) and the spread s of ln d. By mass, or by volume.
/// </summary>
internal static class SizeShares
{
    /// <summary>ln y between which a share left is looked for: at the ends it is 1 and 0 to rounding for every spread that is allowed.</summary>
    private const double SearchedLn = 80;

    /// <summary>Share left, mean over the layer.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: E[max(0, 1 − d²M/h)] = E[1; d &lt; D0] − M/h E[d²; d &lt; D0], D0 = √(h/M).</para>
    /// <para><b>Range</b>: <see cref="LogNormalMoments.SpreadRange"/>; upright walls, an even start, nothing stirs.</para>
    /// <para><b>Error</b>: exact for the model.</para>
    /// <para><b>Source</b>: derived for this project: each size leaves as a front.</para>
    /// <para><b>Checked by</b>: SizeSharesTests.cs, against quadrature.</para>
    /// </remarks>
    /// <param name="progress">y, at least 0.</param>
    /// <param name="lnSpread">s.</param>
    internal static double Left(double progress, double lnSpread)
    {
        double largest = Largest(progress);
        return Math.Max(0, LogNormalMoments.Partial(0, 1, lnSpread, 0, largest) - Travelled(progress, lnSpread, largest));
    }

    /// <summary>Share that has left, counted for itself: all that is larger than the largest left, and of the others what was near enough.</summary>
    /// <param name="progress">y, at least 0.</param>
    /// <param name="lnSpread">s.</param>
    internal static double Gone(double progress, double lnSpread)
    {
        double largest = Largest(progress);
        return LogNormalMoments.Partial(0, 1, lnSpread, largest, double.PositiveInfinity) + Travelled(progress, lnSpread, largest);
    }

    /// <summary>Slope of <see cref="Left"/> against y.</summary>
    /// <param name="progress">y, at least 0.</param>
    /// <param name="lnSpread">s.</param>
    internal static double LeftSlope(double progress, double lnSpread) => -LogNormalMoments.Partial(2, 1, lnSpread, 0, Largest(progress));

    /// <summary>Share left at one distance from where the travel began, over that at the start.</summary>
    /// <param name="progress">y, at least 0.</param>
    /// <param name="lnSpread">s.</param>
    /// <param name="distance">Distance from the floor (from the surface for what sinks), share of the depth, 0 to 1.</param>
    internal static double At(double progress, double lnSpread, double distance) =>
        progress > 0 ? LogNormalMoments.Partial(0, 1, lnSpread, 0, Math.Sqrt(distance / progress)) : 1;

    /// <summary>Distance, share of the depth, up to which no more than a share of the start is left; at most 1.</summary>
    /// <param name="progress">y, at least 0.</param>
    /// <param name="lnSpread">s.</param>
    /// <param name="share">The share, above 0 and below 1.</param>
    internal static double ClearTo(double progress, double lnSpread, double share)
    {
        double score = -Constants.Sqrt2 * SpecialFunctions.ErfcInv(2 * share);
        return Math.Min(1, progress * Math.Exp(2 * lnSpread * score));
    }

    /// <summary>Progress at which the share left, mean over the layer, is the one given.</summary>
    /// <param name="share">The share, above 0 and below 1.</param>
    /// <param name="lnSpread">s.</param>
    internal static double ProgressFor(double share, double lnSpread) =>
        Math.Exp(Brent.FindRoot(ln => Math.Log(Math.Max(Left(Math.Exp(ln), lnSpread), double.Epsilon) / share), -SearchedLn, SearchedLn, 1e-14, 500));

    /// <summary>Partial moment of what is left, order n, in units of D50ⁿ: that of the sizes weighed by the share of each that is left.</summary>
    /// <param name="order">n.</param>
    /// <param name="progress">y, at least 0.</param>
    /// <param name="lnSpread">s.</param>
    internal static double MomentLeft(int order, double progress, double lnSpread)
    {
        double largest = Largest(progress);
        return LogNormalMoments.Partial(order, 1, lnSpread, 0, largest)
            - (progress > 0 ? progress * LogNormalMoments.Partial(order + 2, 1, lnSpread, 0, largest) : 0);
    }

    /// <summary>Largest size of which anything is left, in units of the median; infinite at the start.</summary>
    private static double Largest(double progress) => 1 / Math.Sqrt(progress);

    private static double Travelled(double progress, double lnSpread, double largest) =>
        progress > 0 ? progress * LogNormalMoments.Partial(2, 1, lnSpread, 0, largest) : 0;
}
