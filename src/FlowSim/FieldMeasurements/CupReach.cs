using FlowSim.Properties;
using MathNet.Numerics.RootFinding;
using UnitsNet;

namespace FlowSim.FieldMeasurements;

/// <summary>Whether a cup can tell the viscosity of a honey, and from which temperature on.</summary>
/// <param name="Cup">The cup.</param>
/// <param name="Honey">Kinematic viscosity the honey has at the temperature by its correlation and lot factor.</param>
/// <param name="At">The temperature.</param>
/// <param name="ThinEnoughFrom">Temperature from which it is thin enough for the cup; null when it is not up to the end of the correlation.</param>
/// <param name="Ceiling">Highest temperature the honey may have.</param>
public sealed record CupReach(FlowCup Cup, KinematicViscosity Honey, Temperature At, Temperature? ThinEnoughFrom, Temperature Ceiling)
{
    /// <summary>Whether the cup is good for the honey at the temperature.</summary>
    public bool IsGood => Honey <= Cup.Thickest && Honey >= Cup.Thinnest;

    /// <summary>Whether the honey can be made thin enough without passing the ceiling.</summary>
    public bool IsWithinCeiling => ThinEnoughFrom is { } from && from <= Ceiling;

    /// <summary>Asks for one honey.</summary>
    /// <param name="cup">The cup.</param>
    /// <param name="honey">The honey.</param>
    /// <param name="temperature">Temperature of the honey.</param>
    /// <param name="ceiling">Highest temperature it may have.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside what the correlations take.</exception>
    /// <exception cref="HoneyRefusedException">The honey is not a simple liquid and no measured viscosity is given.</exception>
    public static CupReach Of(FlowCup cup, Honey honey, Temperature temperature, Temperature ceiling)
    {
        EquipmentCheck.Present(cup).Validate();
        HoneyProperties properties = HoneyProperties.Of(honey);
        KinematicViscosity at = properties.ViscosityAt(temperature) / properties.DensityAt(temperature);
        ValidityRange range = properties.Viscosity.TemperatureRange;
        double lowK = range.OuterLow + Physical.ZeroCelsiusK;
        double highK = Math.Min(range.OuterHigh, HoneyDensity.TemperatureRange.OuterHigh) + Physical.ZeroCelsiusK;
        double thickestM2PerS = cup.Thickest.SquareMetersPerSecond;

        double Excess(double temperatureK) => Math.Log(properties.ViscosityPaS(temperatureK) / properties.DensityKgPerM3(temperatureK) / thickestM2PerS);
        Temperature? from = null;
        if (Excess(lowK) <= 0)
            from = Temperature.FromKelvins(lowK);
        else if (Excess(highK) <= 0 && Brent.TryFindRoot(Excess, lowK, highK, 1e-9, 200, out double foundK))
            from = Temperature.FromKelvins(foundK);
        return new CupReach(cup, at, temperature, from, ceiling);
    }
}
