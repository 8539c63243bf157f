namespace FlowSim;

/// <summary>Physical constants, SI.</summary>
internal static class Physical
{
    /// <summary>Standard acceleration of gravity, m/s². CGPM 1901, exact by definition.</summary>
    public const double StandardGravity = 9.80665;

    /// <summary>Standard atmosphere, Pa. CGPM 1954, exact by definition.</summary>
    public const double StandardAtmospherePa = 101325;

    /// <summary>0 °C in K, exact by definition of the Celsius scale.</summary>
    public const double ZeroCelsiusK = 273.15;
}
