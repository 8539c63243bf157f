using FlowSim.Bottling;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Settling;
using FlowSim.Straining;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.WholeJob;

/// <summary>What one step hands to the next.</summary>
internal static class JobChain
{
    /// <summary>The layer that stands in the tank to be strained.</summary>
    /// <param name="settling">How long it stands and what is in it.</param>
    /// <param name="straining">The tank.</param>
    /// <param name="full">The tank before it is skimmed.</param>
    public static SettlingSetup Standing(SettlingSetup settling, StrainingSetup straining, StrainingParameters full) => settling with
    {
        Honey = straining.Honey,
        Depth = straining.Tank.Level,
        HoneyMass = Mass.FromKilograms(full.StartTankKg),
    };

    /// <summary>The tank after it has stood and was skimmed: cooler, lower, and with less in it to blind the cloth.</summary>
    /// <param name="straining">The tank before.</param>
    /// <param name="full">The same in numbers.</param>
    /// <param name="settling">How it stood.</param>
    /// <param name="scum">Honey that was skimmed off.</param>
    public static StrainingSetup Skimmed(StrainingSetup straining, StrainingParameters full, SettlingResult settling, Mass scum)
    {
        Temperature temperature = Temperature.FromKelvins(new TemperatureCourse(settling.Setup.Temperature).AtK(settling.Setup.StandsFor.Seconds));
        double density = HoneyDensity.DensityKgPerM3(straining.Honey.Moisture.Percent, temperature.Kelvins);
        double volume = (full.StartTankKg - scum.Kilograms) / density;
        return straining with
        {
            HoneyTemperature = temperature,
            Tank = straining.Tank with { Level = Length.FromMeters(straining.Tank.Shape.LevelM(volume)) },
            Debris = settling.DebrisLeft ?? straining.Debris,
        };
    }

    /// <summary>The bottling tank with what has come into it; null when none of that would drain.</summary>
    /// <param name="filling">Tank, gate and jars.</param>
    /// <param name="arrived">Honey in the bottling tank.</param>
    /// <exception cref="ArgumentOutOfRangeException">It does not fit.</exception>
    public static FillingSetup? Arrived(FillingSetup filling, Mass arrived)
    {
        EquipmentCheck.Present(filling.Honey);
        EquipmentCheck.Present(filling.Tank);
        double density = HoneyProperties.Of(filling.Honey).DensityAt(filling.Temperature).KilogramsPerCubicMeter;
        double volume = arrived.Kilograms / density, capacity = filling.Tank.Shape.CapacityM3;
        if (volume > capacity * (1 + 1e-9))
            throw EquipmentCheck.OutOfRange(nameof(JobSetup.Filling), arrived.Kilograms, Invariant($"The bottling tank holds {capacity * density:0.##} kg to its brim; {arrived.Kilograms:0.##} kg come into it. Take a larger one, or strain in parts."));
        double level = filling.Tank.Shape.LevelM(Math.Min(volume, capacity));
        double lowest = TankHeel.LevelM(filling.Tank.Shape, filling.Tank.GateHeight.Meters, EquipmentCheck.Present(filling.Gate).Bore.Meters) + TankHeel.LeastHeadM;
        return level <= lowest ? null : filling with { Tank = filling.Tank with { Level = Length.FromMeters(level) } };
    }
}
