using FlowSim.Commands.Quantities;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads the temperature of honey over time.</summary>
internal static class CourseReader
{
    /// <summary>A step is taken within this, s; a history is straight between its points.</summary>
    private const double StepS = 1;

    /// <summary>Reads <c>settling.temperature</c>: one temperature, or steps as those of a setpoint.</summary>
    /// <param name="section">The section.</param>
    /// <param name="fallback">Temperature when none is given; null when it could not be read.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The course; null when something is wrong.</returns>
    public static TemperatureHistory? Read(Section section, Temperature? fallback, Journal journal)
    {
        Key key = Keys.Settling.Temperature;
        if (section.Entry(key.Name) is not { } entry)
        {
            if (fallback is not { } given)
                return null;
            journal.Assume(key.ToString(), FormattableString.Invariant($"{given.DegreesCelsius:0.#} °C all the time, the temperature in [honey]"), Standing.EngineeringChoice);
            return Hold(given.Kelvins);
        }

        if (entry.Value.Kind != ValueKind.List)
            return section.Quantity(key.Name, entry.Value, Dimension.Temperature) is { } heldK ? Hold(heldK) : null;

        (double TimeS, double TemperatureK, bool Ramp)?[] steps = [.. entry.Value.Items.Select(item => PairGrammar.Setpoint(section, key, item))];
        if (steps.Any(step => step is null))
            return null;
        return ScheduleReader.IsInOrder(section, key, entry.Value, [.. steps.Select(step => step!.Value.TimeS)], "0 h 40 °C", "12 h 30 °C")
            ? Of([.. steps.Select(step => step!.Value)])
            : null;
    }

    private static TemperatureHistory Hold(double kelvin) => TemperatureHistory.Hold(Temperature.FromKelvins(kelvin), Duration.FromSeconds(StepS));

    private static TemperatureHistory Of(IReadOnlyList<(double TimeS, double TemperatureK, bool Ramp)> steps)
    {
        if (steps.Count == 1)
            return Hold(steps[0].TemperatureK);
        List<(Duration, Temperature)> points = [];
        for (int i = 0; i < steps.Count; i++)
        {
            if (i > 0 && !steps[i].Ramp)
                points.Add((Duration.FromSeconds(steps[i].TimeS - Math.Min(StepS, (steps[i].TimeS - steps[i - 1].TimeS) / 2)), Temperature.FromKelvins(steps[i - 1].TemperatureK)));
            points.Add((Duration.FromSeconds(steps[i].TimeS), Temperature.FromKelvins(steps[i].TemperatureK)));
        }

        return new TemperatureHistory(points);
    }
}
