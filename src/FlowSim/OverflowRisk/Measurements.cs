using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>How inputs are measured in a honey house (common practice, no source, unless the input's own documentation says otherwise).</summary>
internal static class Measurements
{
    private static readonly Dictionary<StrainingInput, string> s_how = new()
    {
        [StrainingInputs.Moisture] = "a refractometer with temperature correction, on honey without crystals and foam; the mean of three drops",
        [StrainingInputs.HoneyTemperature] = "a calibrated thermometer in the stirred tank, at the middle and near the wall",
        [StrainingInputs.LotFactor] = "time a steel ball sinking through a jar of it, or a known pail of it draining through a known gate",
        [StrainingInputs.ScreenFactor] = "time clean honey of known viscosity draining through the clean cloth",
        [StrainingInputs.DebrisLoad] = "strain a weighed sample through the cloth and weigh what stays on it",
        [StrainingInputs.DebrisSize] = "strain a sample through a row of sieves and weigh what each keeps",
        [StrainingInputs.DebrisSizeSpread] = "strain a sample through a row of sieves and weigh what each keeps",
        [StrainingInputs.DebrisCapture] = "strain a sample twice and weigh what the first and the second pass keep",
        [StrainingInputs.RoomTemperature] = "a thermometer beside the tank, over the hours of straining",
        [StrainingInputs.TankLevel] = "a rule held down inside the tank, or weigh the tank",
        [StrainingInputs.GateHeight] = "a rule, from the tank's lowest point to the middle of the gate",
        [StrainingInputs.TankHeatLoss] = "note how far a full tank cools overnight",
        [StrainingInputs.ReceiverHeatLoss] = "note how far a full receiver cools overnight",
        [StrainingInputs.Bore] = "a caliper across the gate's bore",
        [StrainingInputs.TubeLength] = "a rule along the gate's tube",
        [StrainingInputs.GateFactor] = "time the tank draining through the gate alone, with honey of known viscosity",
        [StrainingInputs.Opening] = "a stop or a mark on the blade, set with a gauge of known width",
        [StrainingInputs.OutletAboveScreen] = "a rule, from the cloth to the outlet",
        [StrainingInputs.ClothOpening] = "a counting glass: openings and wires over a known length",
        [StrainingInputs.Wire] = "a micrometer on a wire of the cloth's edge",
        [StrainingInputs.RimHeight] = "a rule, from the cloth's lowest point to the lowest place of the rim, the strainer standing as it will",
        [StrainingInputs.MinimumHead] = "pour honey onto the wet cloth and note the depth at which it first comes through",
        [StrainingInputs.AlreadyIn] = "weigh the receiver, or a rule held down inside it",
        [StrainingInputs.ReceiverTemperature] = "a thermometer in the receiver",
        [StrainingInputs.Spacer] = "a rule, from the receiver's brim to the strainer's lowest point",
    };

    /// <summary>How an input is measured; null for what can only be practised, as what a scrape clears.</summary>
    /// <param name="input">Input.</param>
    public static string? Of(StrainingInput input) => s_how.GetValueOrDefault(input);
}
