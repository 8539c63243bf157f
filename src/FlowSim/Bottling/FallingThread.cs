namespace FlowSim.Bottling;

/// <summary>The stream between gate and jar: how long honey is on its way, and what hangs on the gate. Kernels: arguments are not checked.</summary>
internal static class FallingThread
{
    /// <summary>Height of the fall.</summary>
    internal static readonly ValidityRange FallRange = new("falling thread", "fall", "m", 0.02, 1, 0.001, 3);

    private const int FewestSteps = 400;
    private const int MostSteps = 40_000;
    private const int MostHalvings = 60;

    /// <summary>Time on the way without viscosity, s: the shortest.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = (√(V₀² + 2gH) − V₀)/g, written without the cancellation.</para>
    /// <para><b>Range</b>: <see cref="FallRange"/>.</para>
    /// <para><b>Error</b>: exact without air and viscosity; honey is slower.</para>
    /// <para><b>Source</b>: the law of free fall.</para>
    /// <para><b>Checked by</b>: FallingThreadTests.cs.</para>
    /// </remarks>
    /// <param name="startMPerS">Mean speed V₀ at the gate, m/s.</param>
    /// <param name="fallM">Height of the fall H, m.</param>
    internal static double FreeFallS(double startMPerS, double fallM) =>
        2 * fallM / (startMPerS + Math.Sqrt(startMPerS * startMPerS + 2 * Physical.StandardGravity * fallM));

    /// <summary>Time on the way when only viscosity holds against gravity, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: V = g (z + z₀)²/(6ν), z₀ = √(6νV₀/g); t = (6ν/g) (1/z₀ − 1/(z₀ + H)).</para>
    /// <para><b>Range</b>: <see cref="FallRange"/>; steady, slender, no inertia, no surface tension.</para>
    /// <para><b>Error</b>: too short by what inertia costs. Over the range the longer of this and free fall is 2 to 49 % below
    /// <see cref="SteadyTrouton1906"/>, both together 20 % below to 41 % above.</para>
    /// <para><b>Source</b>: the thread's weight carried by three times the viscosity; derived for this project.</para>
    /// <para><b>Checked by</b>: FallingThreadTests.cs.</para>
    /// </remarks>
    /// <param name="kinematicM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="startMPerS">Mean speed V₀ at the gate, m/s.</param>
    /// <param name="fallM">Height of the fall H, m.</param>
    internal static double ViscousS(double kinematicM2PerS, double startMPerS, double fallM)
    {
        double z0 = ViscousLengthM(kinematicM2PerS, startMPerS);
        return 6 * kinematicM2PerS / Physical.StandardGravity * (fallM / (z0 * (z0 + fallM)));
    }

    /// <summary>The steady stream with inertia and viscosity: time on the way, pull on the gate, speed at the jar.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: V V′ = g + 3ν V (V′/V)′, V(0) = V₀, V′(H) = 0: the elongational viscosity is 3μ, and no pull reaches the honey in
    /// the jar. t = ∫dz/V; the pull on the gate is 3 μ Q V′/V there.</para>
    /// <para><b>Range</b>: <see cref="FallRange"/>; steady, slender, no surface tension, not coiling far above the jar.</para>
    /// <para><b>Error</b>: the equation is solved to 1e-6; wide streams near the gate are not slender: some 20 % (engineering estimate).</para>
    /// <para><b>Source</b>: Trouton 1906, Proc. R. Soc. A 77:426 (3μ; from memory), and the balance of momentum of a thread; derived for this project.</para>
    /// <para><b>Checked by</b>: FallingThreadTests.cs, against its two limits, and against a program of its own in another language.</para>
    /// </remarks>
    /// <param name="kinematicM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="startMPerS">Mean speed V₀ at the gate, m/s.</param>
    /// <param name="fallM">Height of the fall H, m.</param>
    internal static SteadyStream SteadyTrouton1906(double kinematicM2PerS, double startMPerS, double fallM)
    {
        double fastest = Math.Sqrt(startMPerS * startMPerS + 2 * Physical.StandardGravity * fallM);
        double steps = Math.Max(2 * fallM * fastest / (3 * kinematicM2PerS), 20 * fallM / ViscousLengthM(kinematicM2PerS, startMPerS));

        // Thin honey, or a stream like a hair: the two limits one after the other are then within 5 %.
        if (!(steps < MostSteps))
        {
            double transit = FreeFallS(startMPerS, fallM) + ViscousS(kinematicM2PerS, startMPerS, fallM);
            return new SteadyStream(transit, 6 * kinematicM2PerS / ViscousLengthM(kinematicM2PerS, startMPerS), fastest);
        }

        int n = Math.Max(FewestSteps, (int)steps);
        double low = startMPerS, high = fastest;
        for (int i = 0; i < MostHalvings && high - low > 1e-13 * high; i++)
        {
            double middle = Math.Sqrt(low * high);
            if (Upward(middle, kinematicM2PerS, startMPerS, fallM, n).SpeedMPerS >= startMPerS)
                high = middle;
            else
                low = middle;
        }

        (_, double slope, double time) = Upward(high, kinematicM2PerS, 0.5 * startMPerS, fallM, n);
        return new SteadyStream(time, 3 * kinematicM2PerS * slope, high);
    }

    /// <summary>Height over which a viscous thread doubles its speed twice, m.</summary>
    private static double ViscousLengthM(double kinematicM2PerS, double startMPerS) =>
        Math.Sqrt(6 * kinematicM2PerS * startMPerS / Physical.StandardGravity);

    /// <summary>
    /// Integrates from the jar up to the gate, the way in which the equation forgets its errors. Ends early, with a speed below <paramref name="leastMPerS"/>, when the stream
    /// would be slower than at the gate on its way.
    /// </summary>
    /// <returns>Speed V, slope V′/V and time at the gate.</returns>
    private static (double SpeedMPerS, double SlopePerM, double TimeS) Upward(double landingMPerS, double nu, double leastMPerS, double fallM, int n)
    {
        double h = -fallM / n;
        double v = landingMPerS, s = 0, t = 0;
        for (int i = 0; i < n; i++)
        {
            (double v1, double s1) = Rates(v, s, nu);
            (double v2, double s2) = Rates(v + h / 2 * v1, s + h / 2 * s1, nu);
            (double v3, double s3) = Rates(v + h / 2 * v2, s + h / 2 * s2, nu);
            (double v4, double s4) = Rates(v + h * v3, s + h * s3, nu);
            double next = v + h / 6 * (v1 + 2 * v2 + 2 * v3 + v4);
            if (!(next >= leastMPerS))
                return (0, s, t);

            t -= h * (1 / v + 8 / (v + next) + 1 / next) / 6;
            s += h / 6 * (s1 + 2 * s2 + 2 * s3 + s4);
            v = next;
        }

        return (v, s, t);
    }

    private static (double V, double S) Rates(double v, double s, double nu) =>
        (v * s, (v * v * s - Physical.StandardGravity) / (3 * nu * v));
}

/// <summary>A steady stream between gate and jar.</summary>
/// <param name="TransitS">Time on the way, s.</param>
/// <param name="PullMPerS">Pull on the gate over mass flow, m/s.</param>
/// <param name="LandingMPerS">Speed at the jar, m/s.</param>
internal readonly record struct SteadyStream(double TransitS, double PullMPerS, double LandingMPerS);
