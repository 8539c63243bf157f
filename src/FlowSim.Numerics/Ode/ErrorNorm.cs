namespace FlowSim.Numerics.Ode;

/// <summary>Root mean square of vectors measured in units of what is tolerated.</summary>
internal static class ErrorNorm
{
    /// <summary>
    /// <c>√(mean (vᵢ/wᵢ)²)</c> with <c>wᵢ = absoluteᵢ + relative·max(|y0ᵢ|, |y1ᵢ|)</c>; an error estimate passes at 1 or less.
    /// </summary>
    /// <remarks>
    /// <b>Source</b>: Hairer, Nørsett, Wanner, Solving Ordinary Differential Equations I, equations II.4.10 and II.4.11 (from memory).
    /// </remarks>
    internal static double Rms(
        ReadOnlySpan<double> v, ReadOnlySpan<double> y0, ReadOnlySpan<double> y1, ReadOnlySpan<double> absolute, double relative)
    {
        double sum = 0;
        for (int i = 0; i < v.Length; i++)
        {
            double tolerated = absolute[i] + relative * Math.Max(Math.Abs(y0[i]), Math.Abs(y1[i]));
            double ratio = v[i] / tolerated;
            sum += ratio * ratio;
        }

        return Math.Sqrt(sum / v.Length);
    }
}
