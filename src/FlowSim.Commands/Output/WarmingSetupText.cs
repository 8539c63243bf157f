using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>What is warmed, and with what, as text.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class WarmingSetupText(IPage page, Display display)
{
    private const int ValueColumn = 22;

    /// <summary>Writes it, a line each for honey, vessel, kit, room and targets.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="honey">Honey in each vessel; null when it is not known.</param>
    /// <param name="setpointIsFound">Whether the setpoint is still to be found, and so is not shown.</param>
    public void Write(WarmingSetup setup, Mass? honey, bool setpointIsFound = false)
    {
        string crystals = setup.Crystals is { } set ? $", {Display.Share(set.Share.DecimalFractions)} crystals that melt at {display.TemperatureNumber(set.MeltFrom.Kelvins)} to {display.Temperature(set.MeltTo.Kelvins)}" : ", liquid";
        page.Pair("Honey", $"{Display.Share(setup.Honey.Moisture.DecimalFractions)} moisture at {display.Temperature(setup.StartTemperature.Kelvins)}{crystals}", ValueColumn);
        string many = setup.Vessels == 1 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"{setup.Vessels} of them, each with ");
        string amount = honey is { } mass ? display.Mass(mass.Kilograms) : display.Volume(setup.Vessel.Shape.VolumeAt(setup.Vessel.Level).CubicMeters);
        page.Pair("Vessel", $"{many}{amount}, {display.Length(setup.Vessel.Level.Meters)} high; lid {Words.Of(setup.Vessel.Lid)}, on {(setup.Vessel.Base == VesselBase.Rack ? "a rack" : "an insulated base")}", ValueColumn);
        string setpoint = setpointIsFound && setup.Heating.Thermostat.Schedule.Count == 1 ? string.Empty : ", " + ScheduleText(setup.Heating.Thermostat);
        page.Pair("Kit", $"{KitText(setup.Heating)}{setpoint}{(setup.Heating.HeaterPower is { } power ? $", heater {Display.Power((double)power.Watts)}" : string.Empty)}", ValueColumn);
        page.Pair("Room", display.Temperature(setup.RoomTemperature.Kelvins), ValueColumn);
        if (setup.Targets.Count > 0 && !setpointIsFound)
            page.Pair("Until", string.Join(", ", setup.Targets.Select(target => TargetText.Of(target, display))) + (setup.HoldAfter.Seconds > 0 ? $", then {Display.Time(setup.HoldAfter.Seconds)} more" : string.Empty), ValueColumn);
    }

    private string KitText(HeatingKit kit) => kit switch
    {
        WarmAir air => air.AirSpeed.MetersPerSecond > 0 ? $"air moved at {display.Speed(air.AirSpeed.MetersPerSecond)}" : "still air",
        HeatedBath bath => $"a bath {display.Length(bath.WaterLevel.Meters)} deep",
        HeatedJacket { HeatsFloor: true } jacket => jacket.To > jacket.From ? $"a jacket up to {display.Length(jacket.To.Meters)} and a heated base" : "a heated base",
        HeatedJacket jacket => $"a jacket from {display.Length(jacket.From.Meters)} to {display.Length(jacket.To.Meters)}",
        BandHeater band => $"a band from {display.Length(band.From.Meters)} to {display.Length(band.To.Meters)}",
        _ => "an element in the honey",
    };

    private string ScheduleText(Thermostat thermostat) => thermostat.Schedule.Count == 1
        ? $"setpoint {display.Temperature(thermostat.Schedule[0].Setpoint.Kelvins)}"
        : "setpoint " + string.Join(", ", thermostat.Schedule.Take(6).Select(step => $"{display.Temperature(step.Setpoint.Kelvins)} {(step.Ramp ? "rising until" : "from")} {Display.Time(step.At.Seconds)}")) + (thermostat.Schedule.Count > 6 ? ", …" : string.Empty);
}
