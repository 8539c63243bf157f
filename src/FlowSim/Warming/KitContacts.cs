namespace FlowSim.Warming;

/// <summary>How heat gets from a body or the room to one face of the vessel.</summary>
internal enum FilmKind
{
    /// <summary>Not at all.</summary>
    None,

    /// <summary>By a coefficient that does not change.</summary>
    Fixed,

    /// <summary>Air along the side.</summary>
    AirOnSide,

    /// <summary>Air above the top.</summary>
    AirOnTop,

    /// <summary>Air under the floor.</summary>
    AirUnderFloor,
}

/// <summary>The film on the outside of a face.</summary>
/// <param name="Kind">How the heat passes.</param>
/// <param name="FixedWPerM2K">Coefficient of <see cref="FilmKind.Fixed"/>, W/(m²·K).</param>
/// <param name="AirSpeedMPerS">Speed of the air, m/s.</param>
internal readonly record struct Film(FilmKind Kind, double FixedWPerM2K = 0, double AirSpeedMPerS = 0)
{
    public static readonly Film None = new(FilmKind.None);

    public static Film Coefficient(double wPerM2K) => new(FilmKind.Fixed, wPerM2K);

    /// <summary>Still air of the room, on the side, the top or under the floor.</summary>
    public static Film Still(FilmKind kind) => new(kind);
}

/// <summary>The contacts of a kit.</summary>
internal sealed record KitContacts
{
    /// <summary>Film between the body and the part of the side that it touches.</summary>
    public Film BodySide { get; init; }

    /// <summary>Lower end of that part, m above the floor.</summary>
    public double BodySideFromM { get; init; }

    /// <summary>Upper end of that part, m above the floor; the same as the lower end for none.</summary>
    public double BodySideToM { get; init; }

    /// <summary>Film on the rest of the side, to the room.</summary>
    public Film RoomSide { get; init; } = Film.Still(FilmKind.AirOnSide);

    /// <summary>Film under the floor.</summary>
    public Film Floor { get; init; } = Film.None;

    /// <summary>Whether the floor faces the body rather than the room.</summary>
    public bool FloorFacesBody { get; init; }

    /// <summary>Film on the lid, or on the honey without one.</summary>
    public Film Top { get; init; } = Film.Still(FilmKind.AirOnTop);

    /// <summary>Whether the top faces the body rather than the room.</summary>
    public bool TopFacesBody { get; init; }

    /// <summary>Radius of an element on the axis, in the honey, m; 0 for none.</summary>
    public double ElementRadiusM { get; init; }

    /// <summary>Lower end of the element, m above the floor.</summary>
    public double ElementFromM { get; init; }

    /// <summary>Upper end of the element, m above the floor.</summary>
    public double ElementToM { get; init; }

    /// <summary>The floor of a vessel in the room: on a rack it faces air, else nothing.</summary>
    public static Film FloorInAir(WarmedVessel vessel) =>
        vessel.Base == VesselBase.Rack ? Film.Still(FilmKind.AirUnderFloor) : Film.None;
}
