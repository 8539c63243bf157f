using FlowSim.Gates;
using FlowSim.Vessels;
using MathNet.Numerics;
using MathNet.Numerics.RootFinding;

namespace FlowSim.FieldMeasurements;

/// <summary>Time to draw a volume through a gate and the viscosity that a time gives. Kernel: arguments are not checked.</summary>
/// <param name="volumeM3">Volume drawn, m³.</param>
/// <param name="densityKgPerM3">Density, kg/m³.</param>
/// <param name="viscousPerM3">R̂ of the gate, 1/m³.</param>
/// <param name="inertialPerM4">B̂ of the gate, 1/m⁴.</param>
internal abstract class JarFlow(double volumeM3, double densityKgPerM3, double viscousPerM3, double inertialPerM4)
{
    protected double VolumeM3 { get; } = volumeM3;

    protected double DensityKgPerM3 { get; } = densityKgPerM3;

    protected double ViscousPerM3 { get; } = viscousPerM3;

    /// <summary>B = ρ B̂, Pa·s²/m⁶.</summary>
    protected double InertialPaS2PerM6 { get; } = densityKgPerM3 * inertialPerM4;

    /// <summary>ρ g, Pa/m.</summary>
    protected double SpecificWeightPaPerM { get; } = densityKgPerM3 * Physical.StandardGravity;

    /// <summary>Head at the start, m.</summary>
    public abstract double FirstHeadM { get; }

    /// <summary>Head at the end, m.</summary>
    public abstract double LastHeadM { get; }

    /// <summary>Time to draw the volume, s.</summary>
    /// <param name="viscosityPaS">Viscosity, Pa·s; 0 for a liquid without friction.</param>
    public abstract double TimeS(double viscosityPaS);

    /// <summary>Viscosity that the time gives, Pa·s; 0 or below, or NaN, when it is shorter than inertia alone allows.</summary>
    /// <param name="timeS">Time, s.</param>
    public abstract double ViscosityPaS(double timeS);

    /// <summary>Share of the pressure that inertia takes at the start, where it takes most.</summary>
    /// <param name="viscosityPaS">Viscosity, Pa·s.</param>
    public double InertialShare(double viscosityPaS)
    {
        double pressurePa = SpecificWeightPaPerM * FirstHeadM;
        double flow = FlowM3PerS(FirstHeadM, viscosityPaS);
        return InertialPaS2PerM6 * flow * flow / pressurePa;
    }

    /// <summary>Volume flow, m³/s.</summary>
    /// <param name="headM">Head, m.</param>
    /// <param name="viscosityPaS">Viscosity, Pa·s.</param>
    protected double FlowM3PerS(double headM, double viscosityPaS) =>
        GateFlow.VolumeFlowM3PerS(SpecificWeightPaPerM * headM, viscosityPaS * ViscousPerM3, InertialPaS2PerM6);
}

/// <summary>Under a head that stays.</summary>
/// <inheritdoc cref="JarFlow"/>
/// <param name="volumeM3">Volume drawn, m³.</param>
/// <param name="densityKgPerM3">Density, kg/m³.</param>
/// <param name="viscousPerM3">R̂ of the gate, 1/m³.</param>
/// <param name="inertialPerM4">B̂ of the gate, 1/m⁴.</param>
/// <param name="headM">Head, m.</param>
internal sealed class ConstantJarFlow(double volumeM3, double densityKgPerM3, double viscousPerM3, double inertialPerM4, double headM)
    : JarFlow(volumeM3, densityKgPerM3, viscousPerM3, inertialPerM4)
{
    public override double FirstHeadM { get; } = headM;

    public override double LastHeadM => FirstHeadM;

    public override double TimeS(double viscosityPaS) => VolumeM3 / FlowM3PerS(FirstHeadM, viscosityPaS);

    /// <remarks>From <c>ρ g H = μ R̂ Q + ρ B̂ Q²</c> with Q = V/t.</remarks>
    public override double ViscosityPaS(double timeS)
    {
        double flow = VolumeM3 / timeS;
        return (SpecificWeightPaPerM * FirstHeadM - InertialPaS2PerM6 * flow * flow) / (ViscousPerM3 * flow);
    }
}

/// <summary>Under a head that falls as the tank empties.</summary>
/// <inheritdoc cref="JarFlow"/>
internal sealed class FallingJarFlow : JarFlow
{
    /// <summary>Points of the quadrature over the volume. The flow is smooth: the head stays above the gate's bore.</summary>
    private const int Points = 32;

    /// <summary>Highest viscosity looked for, Pa·s: thicker than any honey that flows.</summary>
    private const double ThickestPaS = 1e6;

    private readonly VesselShape _shape;
    private readonly double _gateHeightM;
    private readonly double _firstVolumeM3;

    /// <summary>Sets it up.</summary>
    /// <param name="volumeM3">Volume drawn, m³.</param>
    /// <param name="densityKgPerM3">Density, kg/m³.</param>
    /// <param name="viscousPerM3">R̂ of the gate, 1/m³.</param>
    /// <param name="inertialPerM4">B̂ of the gate, 1/m⁴.</param>
    /// <param name="shape">Shape of the tank.</param>
    /// <param name="levelM">Level at the start, m.</param>
    /// <param name="gateHeightM">Height of the gate's axis, m.</param>
    public FallingJarFlow(double volumeM3, double densityKgPerM3, double viscousPerM3, double inertialPerM4, VesselShape shape, double levelM, double gateHeightM)
        : base(volumeM3, densityKgPerM3, viscousPerM3, inertialPerM4)
    {
        _shape = shape;
        _gateHeightM = gateHeightM;
        _firstVolumeM3 = shape.VolumeM3(levelM);
        FirstHeadM = levelM - gateHeightM;
        LastHeadM = shape.LevelM(_firstVolumeM3 - volumeM3) - gateHeightM;
    }

    public override double FirstHeadM { get; }

    public override double LastHeadM { get; }

    /// <remarks>t = ∫ dV/Q(H(V)) over the volume that is drawn.</remarks>
    public override double TimeS(double viscosityPaS) => Integrate.GaussLegendre(
        drawnM3 => 1 / FlowM3PerS(_shape.LevelM(_firstVolumeM3 - drawnM3) - _gateHeightM, viscosityPaS), 0, VolumeM3, Points);

    /// <remarks>The time rises with the viscosity, so there is one root.</remarks>
    public override double ViscosityPaS(double timeS) =>
        timeS <= TimeS(0) ? 0
        : Brent.TryFindRoot(log => Math.Log(TimeS(Math.Exp(log)) / timeS), Math.Log(1e-9), Math.Log(ThickestPaS), 1e-12, 200, out double found) ? Math.Exp(found)
        : double.NaN;
}
