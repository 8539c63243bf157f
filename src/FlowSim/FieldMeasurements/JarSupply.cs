using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>What stands above the gate while a jar is filled.</summary>
public abstract record JarSupply
{
    private protected JarSupply()
    {
    }

    /// <summary>The level stays: a wide tank, or one that is kept full.</summary>
    /// <param name="head">Honey above the gate's axis. 1 mm to 20 m.</param>
    public static JarSupply Constant(Length head) => new ConstantHead(head);

    /// <summary>The level falls as the jar fills.</summary>
    /// <param name="shape">Shape of the tank.</param>
    /// <param name="level">Level at the start, above the lowest point. 1 mm to the brim.</param>
    /// <param name="gateHeight">Height of the gate's axis above the lowest point. 0 to the level.</param>
    public static JarSupply Falling(VesselShape shape, Length level, Length gateHeight) => new FallingHead(shape, level, gateHeight);
}

/// <summary>A head that stays.</summary>
/// <param name="Head">Honey above the gate's axis. 1 mm to 20 m.</param>
public sealed record ConstantHead(Length Head) : JarSupply;

/// <summary>A head that falls as the tank empties.</summary>
/// <param name="Shape">Shape of the tank.</param>
/// <param name="Level">Level at the start, above the lowest point. 1 mm to the brim.</param>
/// <param name="GateHeight">Height of the gate's axis above the lowest point. 0 to the level.</param>
public sealed record FallingHead(VesselShape Shape, Length Level, Length GateHeight) : JarSupply;
