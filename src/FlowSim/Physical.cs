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

    /// <summary>Molar gas constant, J/(mol·K). CODATA 2018, exact since the 2019 revision of the SI.</summary>
    public const double MolarGasConstant = 8.31446261815324;

    /// <summary>Stefan–Boltzmann constant, W/(m²·K⁴). CODATA 2018, exact since the 2019 revision of the SI, to the digits given.</summary>
    public const double StefanBoltzmann = 5.670374419e-8;
}
