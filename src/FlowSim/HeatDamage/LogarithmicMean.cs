using System.Numerics;

namespace FlowSim.HeatDamage;

/// <summary>
/// Mean over time of a rate whose logarithm goes straight from one value to another: (b − a)/ln(b/a). The caller knows the
/// logarithm (it is the activation energy times a difference), so none is taken here.
/// </summary>
internal static class LogarithmicMean
{
    /// <summary>
    /// Below this |ln(b/a)| the difference of the rates would cancel, so a series is taken. At it, the first term left out is
    /// 3e-15 of the mean, and the cancellation costs 40 roundings.
    /// </summary>
    private const double SeriesBelow = 0.05;

    /// <summary>Mean of two rates.</summary>
    /// <param name="a">Rate at the start, above 0.</param>
    /// <param name="b">Rate at the end, above 0.</param>
    /// <param name="logRatio">ln(b/a).</param>
    public static double Of(double a, double b, double logRatio) =>
        Math.Abs(logRatio) < SeriesBelow ? 0.5 * (a + b) * Slope(logRatio * logRatio / 4) : (b - a) / logRatio;

    /// <summary>Means of several pairs of rates.</summary>
    /// <param name="a">Rates at the start, above 0.</param>
    /// <param name="b">Rates at the end, above 0.</param>
    /// <param name="logRatio">ln(b/a).</param>
    public static Vector<double> Of(Vector<double> a, Vector<double> b, Vector<double> logRatio)
    {
        Vector<long> near = Vector.LessThan(Vector.Abs(logRatio), new Vector<double>(SeriesBelow));
        Vector<double> series = 0.5 * (a + b) * Slope(logRatio * logRatio * 0.25);
        return Vector.ConditionalSelect(near, series, (b - a) / Vector.ConditionalSelect(near, Vector<double>.One, logRatio));
    }

    // tanh(y)/y in y²: (b − a)/ln(b/a) = ½(a + b) tanh(y)/y with y = ½ ln(b/a).
    private static double Slope(double y2) => 1 - y2 * (1.0 / 3 - y2 * (2.0 / 15 - y2 * (17.0 / 315)));

    private static Vector<double> Slope(Vector<double> y2) =>
        Vector<double>.One - y2 * (new Vector<double>(1.0 / 3) - y2 * (new Vector<double>(2.0 / 15) - y2 * (17.0 / 315)));
}
