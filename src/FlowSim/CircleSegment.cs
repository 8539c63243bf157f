namespace FlowSim;

/// <summary>
/// Area of a circular segment as a function of its central angle, without the cancellation of <c>x − sin x</c> at small
/// angles. Serves lying cylinders and half-open gates alike.
/// </summary>
internal static class CircleSegment
{
    /// <summary><c>x − sin x</c>: twice the area of the segment of central angle x in the unit circle.</summary>
    /// <param name="x">Central angle, 0 to 2π rad.</param>
    public static double AngleMinusSine(double x)
    {
        if (Math.Abs(x) >= 1)
            return x - Math.Sin(x);

        // Taylor series; at |x| = 1 the first term left out is 1e-18 of the sum.
        double q = x * x;
        return x * q / 6 * (1 - q / 20 * (1 - q / 42 * (1 - q / 72 * (1 - q / 110
            * (1 - q / 156 * (1 - q / 210 * (1 - q / 272 * (1 - q / 342))))))));
    }

    /// <summary>Central angle x with <c>x − sin x = doubleArea</c>.</summary>
    /// <param name="doubleArea">Twice the area of the segment in the unit circle, 0 to 2π.</param>
    public static double AngleOf(double doubleArea)
    {
        if (doubleArea <= 0)
            return 0;
        if (doubleArea >= 2 * Math.PI)
            return 2 * Math.PI;
        if (doubleArea > Math.PI)
            return 2 * Math.PI - AngleOf(2 * Math.PI - doubleArea);

        // Inverse series as start, then Newton: x − sin x is convex on [0, π], so it converges from the right.
        // A root finder of the mathematics library would allocate a delegate in the stepping loop.
        double c = Math.Cbrt(6 * doubleArea);
        double x = c * (1 + c * c / 60 + c * c * c * c / 1400);
        for (int i = 0; i < MaximumIterations; i++)
        {
            double halfSine = Math.Sin(x / 2);
            double step = (AngleMinusSine(x) - doubleArea) / (2 * halfSine * halfSine);
            x -= step;
            if (Math.Abs(step) <= RelativeTolerance * x)
                break;
        }

        return x;
    }

    /// <summary>The start is within 3 %, so three or four steps reach rounding; the rest is a stop, not a need.</summary>
    private const int MaximumIterations = 12;

    private const double RelativeTolerance = 2e-16;
}
