using FlowSim.Gates;
using FlowSim.Vessels;
using MathNet.Numerics;

namespace FlowSim.Bottling;

/// <summary>Time to draw one jar from a tank whose level falls meanwhile. Kernel: arguments are not checked.</summary>
internal static class JarDraw
{
    /// <summary>Points of the quadrature for shapes without a closed form. The flow is smooth: the head stays above the heel.</summary>
    private const int Points = 32;

    /// <summary>Time to let a volume out while the bulk of the tank goes from one volume to another, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = (V/(B₁ − B₂)) ∫ dB/Q(h(B) − z_g) from B₂ to B₁; B₁ − B₂ differs from V by what the wall's film gives or
    /// takes. Upright walls: <see cref="TankDrainage.PrismTimeS"/>.</para>
    /// <para><b>Range</b>: <see cref="TankDrainage.HeadShareRange"/>; head above 0 to the end.</para>
    /// <para><b>Error</b>: exact for upright walls and no film; else the quadrature's, below 1e-9, and the film is taken as changing in step with the bulk.</para>
    /// <para><b>Source</b>: the balance of volume; derived for this project.</para>
    /// <para><b>Checked by</b>: JarDrawTests.cs.</para>
    /// </remarks>
    /// <param name="shape">Shape of the tank.</param>
    /// <param name="gateHeightM">Height of the gate's axis z_g, m.</param>
    /// <param name="outM3">Volume let out V, m³.</param>
    /// <param name="fromM3">Bulk B₁ at the start, m³.</param>
    /// <param name="toM3">Bulk B₂ at the end, m³.</param>
    /// <param name="flow">Gate and honey.</param>
    internal static double TimeS(VesselShape shape, double gateHeightM, double outM3, double fromM3, double toM3, in GateHoney flow)
    {
        double fall = fromM3 - toM3;
        double fromHead = shape.LevelM(fromM3) - gateHeightM, toHead = shape.LevelM(toM3) - gateHeightM;

        // What the film brings may hold the level up while a jar fills.
        if (Math.Abs(fall) < 1e-9 * outM3)
            return outM3 / flow.FlowM3PerS(toHead);

        double share = outM3 / fall;
        if (shape.AsPrism is { } prism)
            return share * TankDrainage.PrismTimeS(fromHead, toHead, prism.FloorM2, flow.ResistancePaSPerM3, flow.InertialPaS2PerM6, flow.SpecificWeightPaPerM);

        GateHoney gate = flow;
        return share * Integrate.GaussLegendre(volume => 1 / gate.FlowM3PerS(shape.LevelM(volume) - gateHeightM), toM3, fromM3, Points);
    }
}

/// <summary>A gate at an opening with a honey in it.</summary>
/// <param name="ResistancePaSPerM3">R = μ R̂, Pa·s/m³.</param>
/// <param name="InertialPaS2PerM6">B = ρ B̂, Pa·s²/m⁶.</param>
/// <param name="SpecificWeightPaPerM">ρ g, Pa/m.</param>
internal readonly record struct GateHoney(double ResistancePaSPerM3, double InertialPaS2PerM6, double SpecificWeightPaPerM)
{
    /// <summary>The same from a gate's geometry.</summary>
    /// <param name="gate">Gate at its opening.</param>
    /// <param name="viscosityPaS">Viscosity, Pa·s.</param>
    /// <param name="densityKgPerM3">Density, kg/m³.</param>
    public static GateHoney Of(GateGeometry gate, double viscosityPaS, double densityKgPerM3) =>
        new(viscosityPaS * gate.ViscousPerM3, densityKgPerM3 * gate.InertialPerM4, densityKgPerM3 * Physical.StandardGravity);

    /// <summary>Volume flow under a head, m³/s.</summary>
    /// <param name="headM">Head, m.</param>
    public double FlowM3PerS(double headM) => GateFlow.VolumeFlowM3PerS(SpecificWeightPaPerM * headM, ResistancePaSPerM3, InertialPaS2PerM6);
}
