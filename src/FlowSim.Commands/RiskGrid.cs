using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>Openings and temperatures of a map: round numbers about those of the setup.</summary>
internal static class RiskGrid
{
    /// <summary>Step of the openings, % of the bore. Engineering choice, as the others here: what a gate can be set to by eye.</summary>
    private const double OpeningStepPercent = 5;

    private const double LeastWidestPercent = 60;
    private const double TemperatureStepK = 2;
    private const int TemperatureSteps = 5;

    /// <summary>The grid about a setup.</summary>
    /// <param name="setup">Setup.</param>
    public static (IReadOnlyList<Ratio> Openings, IReadOnlyList<Temperature> Temperatures) About(StrainingSetup setup)
    {
        double now = 100 * StrainingInputs.Opening.ValueIn(setup);
        double widest = Math.Clamp(OpeningStepPercent * Math.Ceiling(2 * now / OpeningStepPercent), LeastWidestPercent, 100);
        List<Ratio> openings = [];

        // Where the gate is well open, a crack of it only stretches the axes.
        double narrowest = now >= 4 * OpeningStepPercent ? 2 * OpeningStepPercent : OpeningStepPercent;
        for (double percent = narrowest; percent <= widest; percent += OpeningStepPercent)
            openings.Add(Ratio.FromPercent(percent));

        (double lowK, double highK) = StrainingInputs.HoneyTemperature.RangeIn(setup);
        List<Temperature> temperatures = [];
        for (int i = -TemperatureSteps; i <= TemperatureSteps; i++)
        {
            double kelvin = setup.HoneyTemperature.Kelvins + i * TemperatureStepK;
            if (kelvin >= lowK && kelvin <= highK)
                temperatures.Add(Temperature.FromKelvins(kelvin));
        }

        return (openings, temperatures);
    }
}
