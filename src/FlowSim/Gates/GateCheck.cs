namespace FlowSim.Gates;

/// <summary>Checks a gate once, before a run.</summary>
internal static class GateCheck
{
    /// <summary>Lowest and highest factor on a gate's resistance.</summary>
    internal const double LeastFactor = 0.1, MostFactor = 10;

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal static void Validate(this Gate gate)
    {
        EquipmentCheck.Present(gate);
        EquipmentCheck.Millimetres(gate.Bore, 3, 200, nameof(Gate.Bore));
        EquipmentCheck.Within(gate.TubeLength.Meters, 0, 2, "m", nameof(Gate.TubeLength));
        EquipmentCheck.Within(gate.Factor, LeastFactor, MostFactor, "", nameof(Gate.Factor));
        EquipmentCheck.Defined(gate.Blade, nameof(Gate.Blade));
        EquipmentCheck.Defined(gate.Outlet, nameof(Gate.Outlet));
        EquipmentCheck.Within(gate.OutletAboveScreen.Meters, 0, 5, "m", nameof(Gate.OutletAboveScreen));
    }
}
