namespace FlowSim.Vessels;

/// <summary>The vessel shapes on offer.</summary>
public static class VesselShapes
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<ShapeEntry<VesselShape>> All { get; } =
    [
        UprightCylinder.Entry,
        RectangularTank.Entry,
        ConeBottomedTank.Entry,
        HorizontalCylinder.Entry,
        LevelVolumeTable.Entry,
    ];

    /// <summary>The shape of that name; case does not matter.</summary>
    /// <param name="name">Name, as in <see cref="ShapeEntry{TShape}.Name"/>.</param>
    /// <exception cref="ArgumentException">No shape has that name; the message gives the nearest.</exception>
    public static ShapeEntry<VesselShape> ByName(string name) => NamedChoice.ByName(All, entry => entry.Name, name, "vessel shape");
}
