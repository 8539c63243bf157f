using FlowSim.Commands.Quantities;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads what steers the heater.</summary>
internal static class ThermostatReader
{
    /// <summary>Setpoint when none is given.</summary>
    public static readonly Temperature Fallback = Temperature.FromDegreesCelsius(40);

    /// <summary>Reads <c>[thermostat]</c>.</summary>
    /// <param name="section">The section.</param>
    /// <param name="limited">Whether the heater has a power limit; without one it does not switch.</param>
    /// <param name="journal">Takes what was assumed.</param>
    public static Thermostat? Read(Section section, bool limited, Journal journal)
    {
        IReadOnlyList<SetpointStep>? schedule = ReadSchedule(section, journal);
        double? hysteresisK = section.Quantity(Keys.Thermostat.Hysteresis);
        string? sensor = section.Word(Keys.Thermostat.Sensor, Words.All<SensorPlace>(), "place of the sensor");
        double? radius = section.Quantity(Keys.Thermostat.SensorRadius);
        double? height = section.Quantity(Keys.Thermostat.SensorHeight);
        double? lagS = section.Quantity(Keys.Thermostat.Lag);
        double? cutOutK = section.Quantity(Keys.Thermostat.CutOut);
        section.RefuseStrangers();
        if (!limited && sensor is not null && sensor != Words.Of(SensorPlace.Body))
            section.Wrong(Keys.Thermostat.Sensor.Name, section.Entry(Keys.Thermostat.Sensor.Name)!.Value.Spot, $"a sensor elsewhere than in the body needs a heater of stated power: write {Keys.Warming.Power.Name} = \"500 W\" in [{Keys.Warming.Power.Section}]");
        if (schedule is null)
            return null;

        Thermostat thermostat = new() { Schedule = schedule };
        if (hysteresisK is { } hysteresis)
            thermostat = thermostat with { Hysteresis = TemperatureDelta.FromKelvins(hysteresis) };
        else if (limited)
            journal.Assume(Keys.Thermostat.Hysteresis.ToString(), FormattableString.Invariant($"the heater switches {thermostat.Hysteresis.Kelvins / 2:0.##} K above and below the setpoint"), Standing.EngineeringChoice);
        if (sensor is not null)
            thermostat = thermostat with { Sensor = Words.Value<SensorPlace>(sensor) };
        if (radius is { } r)
            thermostat = thermostat with { SensorRadius = Ratio.FromDecimalFractions(r) };
        if (height is { } h)
            thermostat = thermostat with { SensorHeight = Ratio.FromDecimalFractions(h) };
        if (lagS is { } lag)
            thermostat = thermostat with { Lag = Duration.FromSeconds(lag) };
        if (cutOutK is { } cutOut)
            thermostat = thermostat with { CutOut = Temperature.FromKelvins(cutOut) };
        NoteIdle(section, thermostat, limited, journal);
        return thermostat;
    }

    private static IReadOnlyList<SetpointStep>? ReadSchedule(Section section, Journal journal)
    {
        Key key = Keys.Thermostat.Setpoint;
        if (section.Entry(key.Name) is not { } entry)
        {
            journal.Assume(key.ToString(), FormattableString.Invariant($"setpoint {Fallback.DegreesCelsius:0.#} °C"), Standing.CommonPractice);
            return Thermostat.At(Fallback).Schedule;
        }

        if (entry.Value.Kind != ValueKind.List)
            return section.Quantity(key.Name, entry.Value, Dimension.Temperature) is { } setpointK ? Thermostat.At(Temperature.FromKelvins(setpointK)).Schedule : null;

        (double TimeS, double TemperatureK, bool Ramp)?[] steps = [.. entry.Value.Items.Select(item => PairGrammar.Setpoint(section, key, item))];
        if (steps.Any(step => step is null))
            return null;
        double[] timesS = [.. steps.Select(step => step!.Value.TimeS)];
        if (!ScheduleReader.IsInOrder(section, key, entry.Value, timesS, "0 h 35 °C", "12 h 40 °C"))
            return null;
        return [.. steps.Select(step => new SetpointStep(Duration.FromSeconds(step!.Value.TimeS), Temperature.FromKelvins(step.Value.TemperatureK), step.Value.Ramp))];
    }

    private static void NoteIdle(Section section, Thermostat thermostat, bool limited, Journal journal)
    {
        if (!limited)
        {
            foreach (Key key in new[] { Keys.Thermostat.Hysteresis, Keys.Thermostat.SensorRadius, Keys.Thermostat.SensorHeight, Keys.Thermostat.Lag }.Where(section.Has))
                journal.Echo($"{key} does not steer anything: without {Keys.Warming.Power} the heater does not switch");
        }
        else if (thermostat.Sensor == SensorPlace.Body)
        {
            foreach (Key key in new[] { Keys.Thermostat.SensorRadius, Keys.Thermostat.SensorHeight }.Where(section.Has))
                journal.Echo($"{key} plays no part: the sensor is not in the honey");
        }
    }
}
