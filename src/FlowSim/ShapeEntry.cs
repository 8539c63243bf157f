namespace FlowSim;

/// <summary>A shape on offer, as a file or a form may ask for it.</summary>
/// <typeparam name="TShape">The contract the shape fulfils.</typeparam>
/// <param name="Name">Name as the user writes it: lower case, hyphens.</param>
/// <param name="Description">What it is, in a few words.</param>
/// <param name="Type">The class that is created.</param>
/// <param name="Parameters">The values that describe it.</param>
/// <param name="Create">
/// Makes the shape from a function that gives the value of a key in SI units, or null when the key is not given. Throws
/// <see cref="ArgumentException"/> naming the key when a value is missing or outside its limits; values that do not go
/// together (an outlet wider than its tank) are named as the shape's constructor names them.
/// </param>
public sealed record ShapeEntry<TShape>(
    string Name,
    string Description,
    Type Type,
    IReadOnlyList<ShapeParameter> Parameters,
    Func<Func<string, double?>, TShape> Create)
    where TShape : class;
