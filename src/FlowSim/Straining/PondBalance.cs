using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>What flows into and over the pond in a mode, and how its temperature moves.</summary>
/// <param name="GateKgPerS">Flow through the gate.</param>
/// <param name="OverRimKgPerS">Flow over the rim.</param>
/// <param name="SurplusKgPerS">What the gate at its opening brings beyond what keeps the pond's volume; it decides about modes.</param>
/// <param name="KelvinPerS">Rate of the pond's temperature.</param>
internal readonly record struct PondBalance(double GateKgPerS, double OverRimKgPerS, double SurplusKgPerS, double KelvinPerS)
{
    public static PondBalance Of(StrainingParameters p, PondMode mode, ReadOnlySpan<double> y, in StrainingFlows f)
    {
        double area = p.Form.SurfaceAreaM2(f.PondDepthM) + f.WettedClothM2;
        double loss = p.PondLossWPerM2K * area * (y[PondK] - p.RoomK) / p.Honey.HeatCapacityJPerKgK(y[PondK]);
        double thermalMass = y[PondKg] + p.PondThermalKg;
        double warmth = (y[TankK] - y[PondK]) / thermalMass;
        double cooling = loss / thermalMass;
        double swelling = f.PondM3 * p.Honey.DensitySlopeKgPerM3K(y[PondK]);

        // Keeping the volume takes S′ + c with c = V dρ/dT T′, and T′ itself depends on the gate: solved for the gate's flow.
        double keeping = (f.ClothKgPerS - (swelling * cooling)) / (1 - (swelling * warmth));

        // A gate does not run backwards: a pond that swells more than it loses is left to swell.
        double gate = mode == PondMode.Ridden ? Math.Max(0, keeping) : f.GateCapacityKgPerS;
        double rate = (gate * warmth) - cooling;
        double overRim = mode == PondMode.OverRim ? gate - f.ClothKgPerS - (swelling * rate) : 0;
        return new PondBalance(gate, overRim, f.GateCapacityKgPerS - keeping, rate);
    }
}
