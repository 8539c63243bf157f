namespace FlowSim.Heating;

/// <summary>Properties of dry air at one standard atmosphere.</summary>
/// <param name="DensityKgPerM3">Density, kg/m³.</param>
/// <param name="ViscosityPaS">Dynamic viscosity, Pa·s.</param>
/// <param name="ConductivityWPerMK">Thermal conductivity, W/(m·K).</param>
/// <param name="HeatCapacityJPerKgK">Specific heat capacity at constant pressure, J/(kg·K).</param>
/// <param name="ExpansionPerK">Thermal expansion of an ideal gas, 1/K.</param>
internal readonly record struct Air(
    double DensityKgPerM3,
    double ViscosityPaS,
    double ConductivityWPerMK,
    double HeatCapacityJPerKgK,
    double ExpansionPerK)
{
    /// <summary>Range of the temperature, °C.</summary>
    internal static readonly ValidityRange TemperatureRange = new("air", "temperature", "°C", -20, 120, -60, 200);

    /// <summary>Where the formulas come from.</summary>
    internal static readonly Source Source = new(
        "U.S. Standard Atmosphere 1976: ideal gas, Sutherland viscosity, conductivity; heat capacity as usual at room temperature",
        Standing.FromMemory);

    private const double GasConstantJPerKgK = 287.053;
    private const double RoomHeatCapacityJPerKgK = 1007;

    /// <summary>Kinematic viscosity, m²/s.</summary>
    public double KinematicViscosityM2PerS => ViscosityPaS / DensityKgPerM3;

    /// <summary>Thermal diffusivity, m²/s.</summary>
    public double DiffusivityM2PerS => ConductivityWPerMK / (DensityKgPerM3 * HeatCapacityJPerKgK);

    /// <summary>Prandtl number.</summary>
    public double Prandtl => ViscosityPaS * HeatCapacityJPerKgK / ConductivityWPerMK;

    /// <summary>Air at a temperature.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: ρ = p/(287.053 T); μ = 1.458·10⁻⁶ T^1.5/(T + 110.4); λ = 2.64638·10⁻³ T^1.5/(T + 245.4 · 10^(−12/T));
    /// c_p = 1007; β = 1/T; T in K, p = 101 325 Pa.</para>
    /// <para><b>Range</b>: <see cref="TemperatureRange"/>.</para>
    /// <para><b>Error</b>: within 0.5 % in ρ, 1 % in μ, 3 % in λ and Pr of a textbook table near 40 °C. Moist warm air at 40 °C is
    /// up to 3 % lighter.</para>
    /// <para><b>Source</b>: see <see cref="Source"/>.</para>
    /// <para><b>Checked by</b>: AirTests.cs.</para>
    /// </remarks>
    /// <param name="temperatureK">Temperature T, K.</param>
    internal static Air StandardAtmosphere1976(double temperatureK)
    {
        double root = temperatureK * Math.Sqrt(temperatureK);
        return new Air(
            Physical.StandardAtmospherePa / (GasConstantJPerKgK * temperatureK),
            1.458e-6 * root / (temperatureK + 110.4),
            2.64638e-3 * root / (temperatureK + 245.4 * Math.Pow(10, -12 / temperatureK)),
            RoomHeatCapacityJPerKgK,
            1 / temperatureK);
    }

    /// <summary>Rayleigh number of a temperature difference over a length.</summary>
    /// <param name="differenceK">Difference, K, at least 0.</param>
    /// <param name="lengthM">Length, m.</param>
    public double Rayleigh(double differenceK, double lengthM) => FreeConvection.Rayleigh(
        ExpansionPerK, differenceK, lengthM, KinematicViscosityM2PerS, DiffusivityM2PerS);
}
