using UnitsNet;

namespace FlowSim.Gates;

/// <summary>A honey gate: a short round tube closed by a sliding blade.</summary>
public sealed record Gate
{
    /// <summary>Inside diameter of the bore. 3 mm to 200 mm.</summary>
    public required Length Bore { get; init; }

    /// <summary>Length of the tube, from the tank's wall to the outlet. 0 to 2 m.</summary>
    public required Length TubeLength { get; init; }

    /// <summary>Factor on the viscous resistance that the equations give: what a timed run shows of this gate's own. 0.1 to 10. Default 1.</summary>
    public double Factor { get; init; } = 1;

    /// <summary>Shape of the blade. Default <see cref="BladeShape.Straight"/>.</summary>
    public BladeShape Blade { get; init; } = BladeShape.Straight;

    /// <summary>Where the outlet ends. Default <see cref="GateOutlet.Free"/>.</summary>
    public GateOutlet Outlet { get; init; } = GateOutlet.Free;

    /// <summary>For a submerged outlet: its height above the strainer's lowest point. Pond deeper than this pushes back. 0 to 5 m. Default 0.</summary>
    public Length OutletAboveScreen { get; init; } = Length.Zero;
}

/// <summary>Edge of the blade that uncovers the bore.</summary>
public enum BladeShape
{
    /// <summary>A straight edge: the opening is a segment of the bore.</summary>
    Straight,

    /// <summary>A round hole of the bore's size slides across: the opening is a lens.</summary>
    RoundHoled,
}

/// <summary>Where the gate's tube ends.</summary>
public enum GateOutlet
{
    /// <summary>In air: the honey falls free.</summary>
    Free,

    /// <summary>Under the surface of the pond.</summary>
    Submerged,
}
