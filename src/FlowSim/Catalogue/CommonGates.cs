using FlowSim.Gates;
using UnitsNet;

namespace FlowSim.Catalogue;

/// <summary>Common honey gates by name, by the bore. The length of the tube matters as much: measure yours.</summary>
public static class CommonGates
{
    private static readonly Source CommonSize = new("common practice, no source; the tube length is an engineering choice near the bore", Standing.CommonPractice);

    /// <summary>All of them, narrowest first.</summary>
    public static IReadOnlyList<CatalogueEntry<Gate>> All { get; } =
    [
        Entry("gate-25mm", 25, 30),
        Entry("gate-32mm", 32, 35),
        Entry("gate-38mm", 38, 40),
        Entry("gate-50mm", 50, 50),
        Entry("gate-75mm", 75, 75),
    ];

    /// <summary>The gate of that name; case does not matter.</summary>
    /// <param name="name">Name, such as <c>gate-38mm</c>.</param>
    /// <exception cref="ArgumentException">No gate has that name; the message gives the nearest.</exception>
    public static CatalogueEntry<Gate> ByName(string name) => NamedChoice.ByName(All, entry => entry.Name, name, "common gate");

    private static CatalogueEntry<Gate> Entry(string name, double boreMm, double tubeMm) => new(
        name,
        FormattableString.Invariant($"straight blade, {boreMm} mm bore, {tubeMm} mm tube"),
        new Gate { Bore = Length.FromMillimeters(boreMm), TubeLength = Length.FromMillimeters(tubeMm) },
        CommonSize);
}
