using FlowSim.Vessels;

namespace FlowSim.Catalogue;

/// <summary>Common pails, drums and tanks by name.</summary>
public static partial class CommonVessels
{
    /// <summary>All of them, smallest first within each kind.</summary>
    public static IReadOnlyList<CatalogueEntry<VesselShape>> All { get; } = Data();

    /// <summary>The vessel of that name; case does not matter.</summary>
    /// <param name="name">Name, such as <c>pail-19l</c>.</param>
    /// <exception cref="ArgumentException">No vessel has that name; the message gives the nearest.</exception>
    public static CatalogueEntry<VesselShape> ByName(string name) => NamedChoice.ByName(All, entry => entry.Name, name, "common vessel");
}
