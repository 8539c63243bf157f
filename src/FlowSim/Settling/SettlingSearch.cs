using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Settling;

/// <summary>Finds how warm honey has to stand.</summary>
public static class SettlingSearch
{
    /// <summary>To this a temperature is found, K: a tenth of what a thermometer shows.</summary>
    private const double ToK = 0.01;

    /// <summary>The coolest temperature, held throughout, at which a layer is clear within a time.</summary>
    /// <remarks>Warmer honey is thinner and clears sooner, so there is one. What the heat costs is not weighed here.</remarks>
    /// <param name="setup">The setup; its temperature does not count.</param>
    /// <param name="within">The time. 1 min to 3650 days.</param>
    /// <param name="highest">Highest temperature tried; null for the warm end of what data support the viscosity at.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <returns>
    /// The temperature, rounded up to 0.01 K; the cool end of what data support the viscosity at if that is warm enough; null if the highest is not.
    /// </returns>
    /// <exception cref="ArgumentException">Something is out of its range.</exception>
    public static Temperature? CoolestFor(SettlingSetup setup, Duration within, Temperature? highest = null, CancellationToken cancellation = default)
    {
        ValidityRange range = SettlingSetupCheck.Require(setup).Viscosity.TemperatureRange;
        EquipmentCheck.Within(within.Minutes, 1, SettlingSetupCheck.MostMinutes, "min", nameof(within));
        double high = EquipmentCheck.Within(highest?.DegreesCelsius ?? range.High, range.Low, range.OuterHigh, "°C", nameof(highest));
        double low = range.Low;
        if (!IsClear(high))
            return null;
        if (IsClear(low))
            return Temperature.FromDegreesCelsius(low);
        while (high - low > ToK)
        {
            double middle = (low + high) / 2;
            if (IsClear(middle))
                high = middle;
            else
                low = middle;
        }

        return Temperature.FromDegreesCelsius(high);

        bool IsClear(double celsius) => SettlingRun.Simulate(
            setup with { Temperature = TemperatureHistory.Hold(Temperature.FromDegreesCelsius(celsius), within), StandsFor = within, Longest = within },
            new SettlingOptions { SeriesPoints = 0, ProfileTimes = [] },
            cancellation).Status == SettlingStatus.Clear;
    }
}
