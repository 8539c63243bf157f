namespace FlowSim.Warming;

/// <summary>What a warming run needs to know about the stuff in the vessel, SI.</summary>
internal interface IHeatProperties
{
    /// <summary>Enthalpy.</summary>
    HoneyEnthalpy Enthalpy { get; }

    /// <summary>Crystals at the start, share of mass.</summary>
    double CrystalShare { get; }

    /// <summary>Conductivity, W/(m·K).</summary>
    double ConductivityWPerMK(double temperatureK);

    /// <summary>Density, kg/m³.</summary>
    double DensityKgPerM3(double temperatureK);

    /// <summary>Thermal expansion, 1/K.</summary>
    double ExpansionPerK(double temperatureK);

    /// <summary>Viscosity of the liquid, Pa·s.</summary>
    double ViscosityPaS(double temperatureK);
}
