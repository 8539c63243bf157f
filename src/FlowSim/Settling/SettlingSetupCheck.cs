using FlowSim.Properties;
using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Settling;

/// <summary>Checks a setup once, before a run.</summary>
internal static class SettlingSetupCheck
{
    /// <summary>Longest time of anything, min: 3650 days.</summary>
    public const double MostMinutes = 3650 * 24 * 60;

    /// <summary>Throws when a value is outside the range its documentation gives, or when settings do not go together.</summary>
    /// <exception cref="ArgumentNullException">A part is missing.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <exception cref="ArgumentException">There is nothing that could settle.</exception>
    /// <exception cref="HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    public static HoneyProperties Require(SettlingSetup setup)
    {
        EquipmentCheck.Present(setup);
        HoneyProperties honey = HoneyProperties.Of(EquipmentCheck.Present(setup.Honey, nameof(SettlingSetup.Honey)));
        EquipmentCheck.Millimetres(setup.Depth, 1, 20_000, nameof(SettlingSetup.Depth));
        EquipmentCheck.Present(setup.Temperature, nameof(SettlingSetup.Temperature));
        foreach (double temperatureK in setup.Temperature.TemperaturesK)
        {
            double celsius = temperatureK - Physical.ZeroCelsiusK;
            honey.Viscosity.TemperatureRange.Require(celsius, nameof(SettlingSetup.Temperature));
            HoneyDensity.TemperatureRange.Require(celsius, nameof(SettlingSetup.Temperature));
        }

        Minutes(setup.StandsFor, nameof(SettlingSetup.StandsFor));
        Minutes(setup.Longest, nameof(SettlingSetup.Longest));
        EquipmentCheck.Present(setup.ClearTo, nameof(SettlingSetup.ClearTo)).Validate(nameof(SettlingSetup.ClearTo));
        EquipmentCheck.Defined(setup.ClearOf, nameof(SettlingSetup.ClearOf));
        EquipmentCheck.Within(setup.Packing.Percent, 30, 74, "%", nameof(SettlingSetup.Packing));
        if (setup.HoneyMass is { } mass)
            EquipmentCheck.Within(mass.Kilograms, 1e-3, 1e6, "kg", nameof(SettlingSetup.HoneyMass));
        if (setup.Bubbles is { } bubbles)
            Require(bubbles);
        setup.Debris?.Validate();
        RequireSomething(setup);
        return honey;
    }

    private static void RequireSomething(SettlingSetup setup)
    {
        string? missing = (setup.Bubbles, setup.Debris, setup.ClearOf) switch
        {
            (null, null, _) => "There are neither bubbles nor debris, so nothing is left to settle: give one of them.",
            (null, _, ClearOf.Bubbles) => "The honey is to be clear of bubbles, but has none: give bubbles, or ask for debris.",
            (_, null, ClearOf.Debris) => "The honey is to be clear of debris, but has none: give debris, or ask for bubbles.",
            _ => null,
        };
        if (missing is not null)
            throw EquipmentCheck.Refused(nameof(SettlingSetup.ClearOf), missing);
    }

    private static void Minutes(Duration value, string name) => EquipmentCheck.Within(value.Minutes, 1, MostMinutes, "min", name);

    private static void Require(Bubbles bubbles)
    {
        EquipmentCheck.Within(bubbles.Load.Percent, 0, 10, "%", nameof(Bubbles.Load));
        EquipmentCheck.Millimetres(bubbles.MedianSize, 0.001, 20, nameof(Bubbles.MedianSize));
        EquipmentCheck.Within(bubbles.SizeSpread, LogNormalMoments.SpreadRange.OuterLow, LogNormalMoments.SpreadRange.OuterHigh, "", nameof(Bubbles.SizeSpread));
    }
}
