using FlowSim.Vessels;

namespace FlowSim.Catalogue;

/// <summary>Common jars by name: by the net weight of honey they are sold as (<c>jar-500g</c>, <c>jar-1lb</c>) or by their volume (<c>volume-1pint</c>).</summary>
public static partial class CommonJars
{
    /// <summary>All of them: metric weights, US weights, US volumes, smallest first within each.</summary>
    public static IReadOnlyList<CatalogueEntry<Jar>> All { get; } = Data();

    /// <summary>The jar of that name; case does not matter.</summary>
    /// <param name="name">Name, such as <c>jar-500g</c>.</param>
    /// <exception cref="ArgumentException">No jar has that name; the message gives the nearest.</exception>
    public static CatalogueEntry<Jar> ByName(string name) => NamedChoice.ByName(All, entry => entry.Name, name, "common jar");
}
