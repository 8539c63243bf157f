using UnitsNet;

namespace FlowSim.Heating;

/// <summary>A material of walls and insulation, by name.</summary>
/// <param name="Name">Name as the user writes it: lower case, hyphens.</param>
/// <param name="Conductivity">Thermal conductivity near room temperature.</param>
public sealed record WallMaterial(string Name, ThermalConductivity Conductivity)
{
    /// <summary>Where the conductivities come from.</summary>
    public static Source Source { get; } = new("Usual textbook values near room temperature; makes differ by 10 to 20 %", Standing.FromMemory);

    /// <summary>All materials on offer.</summary>
    public static IReadOnlyList<WallMaterial> All { get; } =
    [
        Of("polyethylene", 0.45),
        Of("polypropylene", 0.2),
        Of("steel", 50),
        Of("stainless-steel", 15),
        Of("aluminium", 200),
        Of("glass", 1.0),
        Of("wood", 0.13),
        Of("mineral-wool", 0.04),
        Of("foam", 0.035),
        Of("felt", 0.05),
    ];

    /// <summary>The material of that name; case does not matter.</summary>
    /// <param name="name">Name, such as <c>polyethylene</c>.</param>
    /// <exception cref="ArgumentException">No material has that name; the message gives the nearest.</exception>
    public static WallMaterial ByName(string name) => NamedChoice.ByName(All, material => material.Name, name, "wall material");

    /// <summary>A layer of it.</summary>
    /// <param name="thickness">Thickness, 0 to 500 mm.</param>
    public WallLayer Layer(Length thickness) => new() { Thickness = thickness, Conductivity = Conductivity };

    private static WallMaterial Of(string name, double wPerMK) => new(name, ThermalConductivity.FromWattsPerMeterKelvin(wPerMK));
}
