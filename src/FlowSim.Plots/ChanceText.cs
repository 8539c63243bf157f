using System.Globalization;
using FlowSim.OverflowRisk;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>Chances in words.</summary>
internal static class ChanceText
{
    // Engineering choice: a chance smaller than any tolerance that can be set is not told from others as small.
    private const double Smallest = 1e-6;

    /// <summary>A chance in percent with two figures that count: <c>2.3 %</c>, <c>0.041 %</c>, <c>under 0.0001 %</c>.</summary>
    public static string Percent(double share)
    {
        if (share is > 0 and < Smallest)
            return "under 0.0001 %";
        return Number(share) + " %";
    }

    /// <summary>An estimate with its interval: <c>2.3 % (95 % interval 1.9 to 2.8 %)</c>; of what was never seen, the runs and the high end.</summary>
    public static string Of(ProbabilityEstimate estimate) => estimate switch
    {
        { Value: 0 } => Invariant($"none in {Thousands(estimate.Runs)} runs, {Percent(estimate.High)} at most"),
        { High: < Smallest } => Percent(estimate.Value),
        _ => Percent(estimate.Value) + " (95 % interval " + Number(estimate.Low) + " to " + Percent(estimate.High) + ")",
    };

    /// <summary>How an estimate stands to the tolerance that was set.</summary>
    public static string Against(ProbabilityEstimate estimate, double tolerance) =>
        (estimate.High <= tolerance ? "within" : estimate.Low > tolerance ? "beyond" : "about") + " the tolerance you set, " + Percent(tolerance);

    /// <summary>A whole number; from five digits on its thousands are set apart by thin gaps.</summary>
    public static string Thousands(long number) =>
        number is > -10_000 and < 10_000 ? number.ToString(CultureInfo.InvariantCulture) : number.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', '\u202F');

    private static string Number(double share)
    {
        double percent = 100 * share;
        if (percent is <= 0 or >= 100)
            return percent.ToString("0", CultureInfo.InvariantCulture);
        if (percent >= 99.5)
            return Math.Min(percent, 99.9).ToString("0.0", CultureInfo.InvariantCulture);
        if (percent >= 9.95)
            return percent.ToString("0", CultureInfo.InvariantCulture);

        int decimals = Math.Clamp(1 - (int)Math.Floor(Math.Log10(percent) + 0.002), 0, 6);
        string fixedPoint = percent.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return fixedPoint.Contains('.', StringComparison.Ordinal) ? fixedPoint.TrimEnd('0').TrimEnd('.') : fixedPoint;
    }
}
