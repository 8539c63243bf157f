using UnitsNet;

namespace FlowSim.Tests.Properties;

internal static class Given
{
    public static Honey Honey(double moisturePercent) => new() { Moisture = Ratio.FromPercent(moisturePercent) };

    public static Temperature Celsius(double t) => Temperature.FromDegreesCelsius(t);

    public static (Temperature Temperature, DynamicViscosity Viscosity) Figure(double temperatureC, double viscosityPaS) =>
        (Temperature.FromDegreesCelsius(temperatureC), DynamicViscosity.FromPascalSeconds(viscosityPaS));
}
