namespace FlowSim.Gates;

/// <summary>
/// What an opened gate's shape does to the flow, apart from the honey: <c>Δp = μ R̂ Q + ρ B̂ Q²</c>.
/// </summary>
/// <param name="ViscousPerM3">R̂, 1/m³; infinite when shut.</param>
/// <param name="InertialPerM4">B̂, 1/m⁴; infinite when shut.</param>
internal readonly record struct GateGeometry(double ViscousPerM3, double InertialPerM4)
{
    /// <summary>A gate that lets nothing through.</summary>
    public static GateGeometry Shut => new(double.PositiveInfinity, double.PositiveInfinity);

    /// <summary>Whether it lets nothing through.</summary>
    public bool IsShut => double.IsPositiveInfinity(ViscousPerM3);
}
