using System.Globalization;
using FlowSim.Gates;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>Checks a timed jar once, before it is computed.</summary>
internal static class TimedJarFillCheck
{
    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <param name="fill">The jar.</param>
    public static Timings Require(TimedJarFill fill)
    {
        EquipmentCheck.Present(fill.Sample, nameof(TimedJarFill.Sample)).Validate();
        EquipmentCheck.Present(fill.Gate, nameof(TimedJarFill.Gate)).Validate();
        if (fill.Gate.Outlet != GateOutlet.Free)
            throw EquipmentCheck.Refused(nameof(Gate.Outlet), "The outlet dips into the honey, which holds it back by an amount that changes as the jar fills; let it run free.");
        EquipmentCheck.Within(fill.Opening.Percent, 1, 100, "%", nameof(TimedJarFill.Opening));
        EquipmentCheck.Within(fill.OpeningSpread.Percent, 0, 50, "%", nameof(TimedJarFill.OpeningSpread));
        EquipmentCheck.Millimetres(fill.HeadSpread, 0, 1000, nameof(TimedJarFill.HeadSpread));
        EquipmentCheck.Within(fill.ContentSpread.Percent, 0, 20, "%", nameof(TimedJarFill.ContentSpread));
        EquipmentCheck.Within(fill.ResistanceSpread.Percent, 0, 50, "%", nameof(TimedJarFill.ResistanceSpread));
        EquipmentCheck.Within(fill.InertiaSpread.Percent, 0, 50, "%", nameof(TimedJarFill.InertiaSpread));
        switch (fill.JarVolume, fill.NetWeight)
        {
            case ({ } volume, null):
                EquipmentCheck.Within(volume.Liters, 1e-3, 1000, "L", nameof(TimedJarFill.JarVolume));
                break;
            case (null, { } weight):
                EquipmentCheck.Within(weight.Kilograms, 1e-3, 1400, "kg", nameof(TimedJarFill.NetWeight));
                break;
            default:
                throw EquipmentCheck.Refused(nameof(TimedJarFill.JarVolume), "The jar's volume or its net weight is needed, one of them.");
        }

        RequireSupply(fill.Supply);
        return new Timings(fill.Times, fill.Reaction, nameof(TimedJarFill.Times), nameof(TimedJarFill.Reaction));
    }

    /// <summary>Throws when the honey would not stand above the gate's bore to the end.</summary>
    /// <param name="fill">The jar.</param>
    /// <param name="flow">The flow into it.</param>
    public static void RequireHead(TimedJarFill fill, JarFlow flow)
    {
        // The bore runs full only while honey stands above it; below it is a weir.
        double leastM = fill.Gate.Bore.Meters / 2;
        if (flow.LastHeadM > leastM && flow.LastHeadM > fill.HeadSpread.Meters)
            return;
        throw MeasurementRefusedException.Of(
            fill.Supply is ConstantHead ? nameof(ConstantHead.Head) : nameof(FallingHead.Level),
            string.Create(CultureInfo.InvariantCulture, $"At the end the honey stands {1000 * flow.LastHeadM:0.#} mm above the gate's axis; more than half the bore, {1000 * leastM:0.#} mm, and more than the head's own error are needed."),
            "Start with more honey in the tank, or fill a smaller jar.");
    }

    private static void RequireSupply(JarSupply supply)
    {
        switch (EquipmentCheck.Present(supply, nameof(TimedJarFill.Supply)))
        {
            case ConstantHead constant:
                EquipmentCheck.Within(constant.Head.Meters, 1e-3, 20, "m", nameof(ConstantHead.Head));
                break;
            case FallingHead falling:
                EquipmentCheck.Present(falling.Shape, nameof(FallingHead.Shape)).RequireNumbers(nameof(FallingHead.Shape));
                EquipmentCheck.Within(falling.Level.Meters, 1e-3, falling.Shape.Height.Meters, "m", nameof(FallingHead.Level));
                EquipmentCheck.Within(falling.GateHeight.Meters, 0, falling.Level.Meters, "m", nameof(FallingHead.GateHeight));
                break;
        }
    }
}
