using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>Checks tanks and receivers once, before a run.</summary>
internal static class VesselCheck
{
    private const double HighestHeatLossWPerM2K = 100;
    private const double LongestSpacerM = 5;

    /// <summary>Temperatures of vessels that are warmed or stand in a cold room, °C.</summary>
    private const double ColdestC = -30;
    private const double HottestC = 100;

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentNullException">The shape is missing.</exception>
    /// <exception cref="ArgumentException">The shape does not answer with numbers.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal static void Validate(this Tank tank)
    {
        EquipmentCheck.Present(tank);
        EquipmentCheck.Present(tank.Shape, nameof(Tank.Shape)).RequireNumbers(nameof(Tank.Shape));
        double brimM = tank.Shape.HeightM;
        double gateM = EquipmentCheck.Within(tank.GateHeight.Meters, 0, brimM, "m", nameof(Tank.GateHeight));
        double levelM = EquipmentCheck.Within(tank.Level.Meters, 0, brimM, "m", nameof(Tank.Level));
        if (levelM <= gateM)
            throw EquipmentCheck.OutOfRange(nameof(Tank.Level), levelM, FormattableString.Invariant($"The level, {levelM:0.####} m, must be above the gate, {gateM:0.####} m, and at most the brim, {brimM:0.####} m: nothing would run out."));

        CheckHeatLoss(tank.HeatLoss, nameof(Tank.HeatLoss));
    }

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentNullException">The shape is missing.</exception>
    /// <exception cref="ArgumentException">The shape does not answer with numbers.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal static void Validate(this Receiver receiver)
    {
        EquipmentCheck.Present(receiver);
        EquipmentCheck.Present(receiver.Shape, nameof(Receiver.Shape)).RequireNumbers(nameof(Receiver.Shape));
        EquipmentCheck.Within(receiver.AlreadyIn.Liters, 0, receiver.Shape.CapacityM3 * 1000, "L", nameof(Receiver.AlreadyIn));
        EquipmentCheck.Within(receiver.Spacer.Meters, -receiver.Shape.HeightM, LongestSpacerM, "m", nameof(Receiver.Spacer));
        if (receiver.StartTemperature is { } start)
            EquipmentCheck.Within(start.DegreesCelsius, ColdestC, HottestC, "°C", nameof(Receiver.StartTemperature));

        CheckHeatLoss(receiver.HeatLoss, nameof(Receiver.HeatLoss));
    }

    private static void CheckHeatLoss(HeatTransferCoefficient value, string name) =>
        EquipmentCheck.Within(value.WattsPerSquareMeterKelvin, 0, HighestHeatLossWPerM2K, "W/(m²·K)", name);
}
