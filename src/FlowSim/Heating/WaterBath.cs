using UnitsNet;

namespace FlowSim.Heating;

/// <summary>The water side of a water bath or jacket. Its coefficient is the user's: it hangs on how the water moves.</summary>
public static class WaterBath
{
    /// <summary>Range of the coefficient, W/(m²·K): still water to a pumped jacket (engineering choice).</summary>
    public static ValidityRange CoefficientRange { get; } = new("water side", "coefficient", "W/(m²·K)", 100, 2000, 20, 10000);

    /// <summary>Standing of <see cref="CoefficientRange"/>.</summary>
    public static Source Source { get; } = new("Usual textbook spans of free and forced convection in water", Standing.EngineeringChoice);

    /// <summary>Checks a coefficient and returns it in W/(m²·K).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The coefficient is outside the outer limits.</exception>
    internal static double CheckedWPerM2K(HeatTransferCoefficient coefficient, string name)
    {
        CoefficientRange.Require(coefficient.WattsPerSquareMeterKelvin, name);
        return coefficient.WattsPerSquareMeterKelvin;
    }
}
