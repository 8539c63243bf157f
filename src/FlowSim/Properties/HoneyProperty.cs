namespace FlowSim.Properties;

/// <summary>The properties that <see cref="HoneyProperties"/> gives.</summary>
public enum HoneyProperty
{
    /// <summary>Dynamic viscosity, Pa·s.</summary>
    Viscosity,

    /// <summary>Density, kg/m³.</summary>
    Density,

    /// <summary>Thermal expansion of volume, 1/K.</summary>
    ThermalExpansion,

    /// <summary>Specific heat capacity, J/(kg·K).</summary>
    HeatCapacity,

    /// <summary>Thermal conductivity, W/(m·K).</summary>
    ThermalConductivity,

    /// <summary>Surface tension against air, N/m.</summary>
    SurfaceTension,

    /// <summary>Water activity, dimensionless.</summary>
    WaterActivity,
}
