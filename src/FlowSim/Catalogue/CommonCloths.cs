using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Catalogue;

/// <summary>Common straining cloths by name, by the opening: standard test-sieve cloth, of which the wire is known.</summary>
public static class CommonCloths
{
    private static readonly double[] OpeningsUm = [100, 200, 400, 600, 800, 1000, 1600, 2000];

    /// <summary>All of them, finest first.</summary>
    public static IReadOnlyList<CatalogueEntry<Cloth>> All { get; } = [.. OpeningsUm.Select(Entry)];

    /// <summary>The cloth of that name; case does not matter.</summary>
    /// <param name="name">Name, such as <c>cloth-400um</c>.</param>
    /// <exception cref="ArgumentException">No cloth has that name; the message gives the nearest.</exception>
    public static CatalogueEntry<Cloth> ByName(string name) => NamedChoice.ByName(All, entry => entry.Name, name, "common cloth");

    private static CatalogueEntry<Cloth> Entry(double openingUm)
    {
        Cloth cloth = Cloth.FromStandardOpening(Length.FromMicrometers(openingUm));
        return new CatalogueEntry<Cloth>(
            FormattableString.Invariant($"cloth-{openingUm}um"),
            FormattableString.Invariant($"opening {openingUm} µm, wire {cloth.WireDiameter.Micrometers:0.###} µm"),
            cloth,
            StandardSieves.Source);
    }
}
