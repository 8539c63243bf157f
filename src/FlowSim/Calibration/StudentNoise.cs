using MathNet.Numerics.Optimization;

namespace FlowSim.Calibration;

/// <summary>
/// Scatter of readings: Student's t with few degrees of freedom, so that one reading in twenty may be far off without pulling the fit along. Its scale is
/// found from the residuals.
/// <para><b>Equation</b>: p(r) ∝ (1/s) (1 + (r/s)²/ν)^(−(ν+1)/2).</para>
/// <para><b>Source</b>: K. L. Lange, R. J. A. Little, J. M. G. Taylor, Robust statistical modeling using the t distribution, J. Am. Stat. Assoc. 84 (1989) 881; from memory.</para>
/// <para><b>Checked by</b>: StudentNoiseTests.cs, CoverageTests.cs.</para>
/// </summary>
internal static class StudentNoise
{
    /// <summary>Degrees of freedom ν (engineering choice; 3 to 5 are common).</summary>
    public const double Freedom = 4;

    /// <summary>Standard deviation of ln s before any reading: a factor of three either way (engineering choice).</summary>
    public static readonly double LogScaleSd = Math.Log(3);

    /// <summary>What κ tends to when the noise is normal and nothing is stray (derived, by quadrature at ν = 4; the best scale is then 0.8310 standard deviations).</summary>
    private const double NormalSandwich = 1.622;

    /// <summary>Standard deviation of normal noise over the scale that fits it best (derived likewise).</summary>
    public const double DeviationPerScale = 1 / 0.8310;

    /// <summary>Standard deviations from which a reading counts as far off (engineering choice).</summary>
    public const double Outlying = 3;

    /// <summary>Readings that the common value of κ counts for (engineering choice).</summary>
    private const double Behind = 10;

    /// <summary>Logarithm of the density of a residual, but for a constant.</summary>
    /// <param name="residual">r.</param>
    /// <param name="scale">s.</param>
    public static double LogDensity(double residual, double scale)
    {
        double u = residual / scale;
        return (-0.5 * (Freedom + 1) * Math.Log(1 + (u * u / Freedom))) - Math.Log(scale);
    }

    /// <summary>Pull of a residual, as a share of its scale: ψ = (ν + 1) u/(ν + u²).</summary>
    /// <param name="u">r/s.</param>
    public static double Pull(double u) => (Freedom + 1) * u / (Freedom + (u * u));

    /// <summary>The likeliest scale under the residuals and what was known before, at least a floor.</summary>
    /// <param name="residuals">Residuals r.</param>
    /// <param name="expected">Median of the scale before.</param>
    /// <param name="floor">Lowest value: what rounding of the readings alone does.</param>
    /// <param name="spent">Numbers that the residuals have been fitted with: they make the residuals look smaller than the noise.</param>
    public static double Scale(double[] residuals, double expected, double floor, double spent)
    {
        double largest = residuals.Max(Math.Abs);
        double low = Math.Log(floor), high = Math.Log(Math.Max(Math.Max(largest, expected), 2 * floor));
        if (!(high > low))
            return floor;
        double counts = Math.Max(1, residuals.Length - spent) / residuals.Length;
        const double Little = 1e-3;
        if (!(MinusLog(low + Little) < MinusLog(low)))
            return floor;
        if (!(MinusLog(high - Little) < MinusLog(high)))
            return Math.Exp(high);
        double best = GoldenSectionMinimizer.Minimum(ObjectiveFunction.ScalarValue(MinusLog), low, high, 1e-4, 200).MinimizingPoint;
        return Math.Exp(best);

        double MinusLog(double log)
        {
            // Residuals shrink by √((n − p)/n) with p numbers fitted.
            double scale = Math.Exp(log) * Math.Sqrt(counts), sum = 0;
            foreach (double r in residuals)
                sum += LogDensity(r, scale);
            double off = (log - Math.Log(expected)) / LogScaleSd;
            return (0.5 * off * off) - sum;
        }
    }

    /// <summary>
    /// κ: the variance that readings count with is κ s². The sandwich of Huber: mean ψ² over the square of mean ψ′, so that it is right whatever the true distribution is.
    /// </summary>
    /// <param name="residuals">Residuals r.</param>
    /// <param name="scale">s.</param>
    public static double Sandwich(double[] residuals, double scale)
    {
        double square = 0, slope = 0;
        foreach (double r in residuals)
        {
            double u = r / scale, v = Freedom + (u * u);
            square += Pull(u) * Pull(u);
            slope += (Freedom + 1) * (Freedom - (u * u)) / (v * v);
        }

        int n = residuals.Length;
        double found = slope > 0.1 * n ? square / n / (slope / n * (slope / n)) : 10;
        return ((n * found) + (Behind * NormalSandwich)) / (n + Behind);
    }

    /// <summary>
    /// Factor on the variance because the scale itself is only known from the residuals: d/(d − 2), the variance of Student's t with the d degrees of freedom that they are worth for a
    /// scale. Of ln s a reading of t noise tells 2ν/(ν + 3), of normal noise 2: d = ν/(ν + 3) per reading (derived).
    /// </summary>
    /// <param name="left">Readings less numbers they were fitted with.</param>
    public static double Unsure(double left)
    {
        double degrees = Math.Max(4, left * Freedom / (Freedom + 3));
        return degrees / (degrees - 2);
    }

    /// <summary>
    /// Factor by which the variance of a mean grows because residuals go together: the integrated autocorrelation time of their pulls (Sokal's window). 1 where
    /// neighbours are not correlated beyond chance.
    /// </summary>
    /// <param name="residuals">Residuals in order of time.</param>
    /// <param name="scale">s.</param>
    /// <param name="neighbours">Takes the correlation of neighbours.</param>
    public static double Inflation(double[] residuals, double scale, out double neighbours)
    {
        const double Window = 5;
        int n = residuals.Length;
        double[] pull = [.. residuals.Select(r => Pull(r / scale))];
        double variance = pull.Sum(p => p * p);
        neighbours = variance > 0 ? Lag(1) : 0;
        if (!(neighbours > 2 / Math.Sqrt(n)))
            return 1;
        double time = 1;
        for (int k = 1; k < n / 2 && k < Window * time; k++)
            time += 2 * Math.Max(0, Lag(k));
        return Math.Clamp(time, 1, Math.Max(1, n / 4.0));

        double Lag(int k)
        {
            double sum = 0;
            for (int i = k; i < n; i++)
                sum += pull[i] * pull[i - k];
            return sum / variance;
        }
    }
}
