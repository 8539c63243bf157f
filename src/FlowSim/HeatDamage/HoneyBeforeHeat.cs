using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>A honey before it is warmed, as its user knows it.</summary>
public sealed record HoneyBeforeHeat
{
    /// <summary>HMF at the start, 0 to 1000 mg/kg. Fresh honey has a few mg/kg; measure it.</summary>
    public required MassFraction Hmf { get; init; }

    /// <summary>Diastase number at the start (Schade scale), 0 to 100; null when it is not known.</summary>
    public double? DiastaseNumber { get; init; }

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal void Validate()
    {
        EquipmentCheck.Within(Hmf.MilligramsPerKilogram, 0, 1000, "mg/kg", nameof(Hmf));
        if (DiastaseNumber is { } number)
            EquipmentCheck.Within(number, 0, 100, "", nameof(DiastaseNumber));
    }
}
