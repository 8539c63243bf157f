namespace FlowSim.Screens;

/// <summary>The forms of cloth on offer.</summary>
public static class ScreenShapes
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<ShapeEntry<ScreenShape>> All { get; } =
    [
        FlatDisc.Entry,
        ConeScreen.Entry,
        BasketScreen.Entry,
        BagScreen.Entry,
    ];

    /// <summary>The form of that name; case does not matter.</summary>
    /// <param name="name">Name, as in <see cref="ShapeEntry{TShape}.Name"/>.</param>
    /// <exception cref="ArgumentException">No form has that name; the message gives the nearest.</exception>
    public static ShapeEntry<ScreenShape> ByName(string name) => NamedChoice.ByName(All, entry => entry.Name, name, "screen form");
}
