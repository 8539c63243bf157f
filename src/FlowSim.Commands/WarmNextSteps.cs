using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.HeatDamage;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What to do after a warming run: found by asking the library again, with one thing changed.</summary>
/// <param name="simulate">Runs a changed setup; null when the library refuses it.</param>
/// <param name="display">Units.</param>
internal sealed class WarmNextSteps(Func<WarmingSetup, WarmingResult?> simulate, Display display)
{
    /// <summary>Coldest below the mean, from which it is worth a word. Engineering choice.</summary>
    private const double UnevenFromK = 2;

    /// <summary>Wall above the probe, from which it is worth a word. Engineering choice.</summary>
    private const double WallFromK = 2;

    /// <summary>Time from which a fan is worth a try, s. Engineering choice.</summary>
    private const double FanFromS = 2 * 3600;

    /// <summary>Share of the time that a fan must save to be worth a word. Engineering choice.</summary>
    private const double FanSaves = 0.15;

    private const double FanMPerS = 1;

    /// <summary>How far above a target a setpoint should be to get there. Engineering choice.</summary>
    private const double SetpointAboveK = 3;

    /// <summary>The steps, most pressing first.</summary>
    /// <param name="story">Run.</param>
    public IReadOnlyList<string> For(WarmStory story)
    {
        List<string> steps = [];
        WarmingResult result = story.Result;
        AddHeat(steps, story);
        if (result.Status == WarmingStatus.Reached)
            AddEvenness(steps, result);
        else
            AddMissed(steps, result);
        AddWall(steps, result);
        AddFan(steps, result);
        AddSetpoint(steps, story);
        return steps;
    }

    private void AddHeat(List<string> steps, WarmStory story)
    {
        Temperature ceiling = story.Limits.Limits.Ceiling;
        if (story.Result.HottestHoney > ceiling)
            steps.Add($"Lower the heat: honey gets to {display.Temperature(story.Result.HottestHoney.Kelvins)}, above the ceiling of {display.Temperature(ceiling.Kelvins)} that {Keys.Limits.Ceiling} sets.");
        if (story.Check is { } check && check.Overall < story.Limits.Limits.Confidence && !check.DiastaseUnknown)
            steps.Add("Warm less hot or less long: the honey does not keep the limit over as much of the band as you ask.");
    }

    private static Temperature Hottest(Thermostat thermostat) => thermostat.Schedule.Max(step => step.Setpoint);

    private void AddMissed(List<string> steps, WarmingResult result)
    {
        WarmingSetup setup = result.Setup;
        if (result.Status == WarmingStatus.Overheated)
        {
            steps.Add("Check the sensor's place, the power and the cut-out: this kit runs away.");
            return;
        }

        if (result.Status == WarmingStatus.CutOut)
        {
            steps.Add($"Set the cut-out higher, the power lower or the sensor where the heat is: the {HeatingReader.BodyOf(setup.Heating)} gets to {display.Temperature(setup.Heating.Thermostat.CutOut!.Value.Kelvins)} first.");
            return;
        }

        Temperature[] missed = [.. setup.Targets.Where((target, i) => result.TargetTimes[i] is null && !TargetText.IsCooling(target)).Select(TargetText.TemperatureOf).OfType<Temperature>()];
        if (missed.Length > 0 && missed.Max() is var wanted && Hottest(setup.Heating.Thermostat).Kelvins < wanted.Kelvins + SetpointAboveK)
            steps.Add($"Raise the setpoint: at {display.Temperature(Hottest(setup.Heating.Thermostat).Kelvins)} the honey comes to {display.Temperature(wanted.Kelvins)} late or never.");
        else if (setup.Targets.Any(target => target is CrystalsGone or ViscosityAtMost) && result.CrystalsLeft.DecimalFractions > 0 && setup.Crystals is { } crystals && Hottest(setup.Heating.Thermostat) < crystals.MeltTo)
            steps.Add($"Raise the setpoint: these crystals are gone at {display.Temperature(crystals.MeltTo.Kelvins)}, the setpoint is {display.Temperature(Hottest(setup.Heating.Thermostat).Kelvins)}.");
        else if (setup.Heating.HeaterPower is not null)
            steps.Add($"Give it more time ({Keys.Until.Longest}) or a stronger heater.");
        else
            steps.Add($"Give it more time ({Keys.Until.Longest}), or more heat.");
    }

    private void AddEvenness(List<string> steps, WarmingResult result)
    {
        WarmingSetup setup = result.Setup;
        if (setup.Targets.Any(TargetText.IsCooling) || result.End.Mean.Kelvins - result.End.Coldest.Kelvins < UnevenFromK)
            return;
        double? targetK = setup.Targets.OfType<MeanAtLeast>().Select(mean => (double?)mean.Temperature.Kelvins).Max();
        Duration? through = targetK is { } k ? simulate(setup with { Targets = [WarmingTarget.Coldest(Temperature.FromKelvins(k))], HoldAfter = Duration.Zero })?.TimeToTarget : null;
        string wait = through is { } at && targetK is { } warm ? $", or warm on until {Display.RoughTime(at.Seconds)}, when the coldest is at {display.Temperature(warm)} too" : string.Empty;
        steps.Add($"Stir before the honey goes on (its coldest is {display.TemperatureDifference(result.End.Mean.Kelvins - result.End.Coldest.Kelvins)} below the mean){wait}.");
    }

    private void AddWall(List<string> steps, WarmingResult result)
    {
        if (result.WallAboveProbe.Kelvins >= WallFromK && !result.Setup.Targets.Any(TargetText.IsCooling))
            steps.Add($"Do not go by the probe alone: the wall is up to {display.TemperatureDifference(result.WallAboveProbe.Kelvins)} hotter.");
    }

    private void AddFan(List<string> steps, WarmingResult result)
    {
        if (result is not { TimeToTarget: { } now, Setup.Heating: WarmAir { AirSpeed.MetersPerSecond: 0 } air } || now.Seconds < FanFromS || result.Setup.Targets.Any(TargetText.IsCooling))
            return;
        WarmingSetup fanned = result.Setup with { Heating = air with { AirSpeed = Speed.FromMetersPerSecond(FanMPerS) } };
        if (simulate(fanned)?.TimeToTarget is { } then && then.Seconds < (1 - FanSaves) * now.Seconds)
            steps.Add($"A fan that moves the air past the vessel at {display.Speed(FanMPerS)} brings it down to {Display.RoughTime(then.Seconds)}.");
    }

    private static void AddSetpoint(List<string> steps, WarmStory story)
    {
        if (story.Result.Status is WarmingStatus.Reached or WarmingStatus.TimeLimit && story.Result.Setup.Targets.All(target => !TargetText.IsCooling(target)))
            steps.Add("To weigh setpoints against the limits, with the straining: flowsim setpoint, with the same file.");
    }
}
