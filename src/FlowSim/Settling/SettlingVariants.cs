using UnitsNet;

namespace FlowSim.Settling;

/// <summary>The same setup with one thing changed.</summary>
public static class SettlingVariants
{
    /// <summary>The honey warmer (or cooler) by the same all the time.</summary>
    /// <param name="setup">The setup.</param>
    /// <param name="by">By how much; a run refuses what takes it out of range.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature comes out below −40 or above 150 °C.</exception>
    public static SettlingSetup Warmer(this SettlingSetup setup, TemperatureDelta by)
    {
        EquipmentCheck.Present(setup);
        TemperatureHistory history = EquipmentCheck.Present(setup.Temperature, nameof(setup));
        var points = new (Duration, Temperature)[history.TimesS.Length];
        for (int i = 0; i < points.Length; i++)
            points[i] = (Duration.FromSeconds(history.TimesS[i]), Temperature.FromKelvins(history.TemperaturesK[i] + by.Kelvins));
        return setup with { Temperature = new TemperatureHistory(points) };
    }
}
