namespace FlowSim.Catalogue;

/// <summary>A common size, under a neutral name.</summary>
/// <typeparam name="T">What it is: a shape, a gate, a cloth.</typeparam>
/// <param name="Name">Name as the user writes it: lower case, hyphens.</param>
/// <param name="Description">What it is, in a few words.</param>
/// <param name="Item">The thing itself.</param>
/// <param name="Source">Where its inside dimensions come from. Measure yours when the answer matters.</param>
public sealed record CatalogueEntry<T>(string Name, string Description, T Item, Source Source)
    where T : class;
