using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.HeatDamage;
using FlowSim.Warming;

namespace FlowSim.Commands.Output;

/// <summary>A warming run as JSON: SI units, named in each key, HMF in mg/kg; null where something never happened.</summary>
internal static class WarmingJson
{
    public static string Of(WarmStory story) => JsonText.Object(json =>
    {
        WarmingResult result = story.Result;
        json.WriteString("status", Words.Of(result.Status));
        json.Number("elapsedSeconds", result.Elapsed.Seconds);
        json.Number("timeToTargetSeconds", result.TimeToTarget?.Seconds);
        json.Number("timeToTargetLowSeconds", story.Bounds.TimeToTargetLow?.Seconds);
        json.Number("timeToTargetHighSeconds", story.Bounds.TimeToTargetHigh?.Seconds);
        Targets(json, story.Bounds);

        json.Number("coldestK", result.End.Coldest.Kelvins);
        json.Number("meanK", result.End.Mean.Kelvins);
        json.Number("hottestK", result.End.Hottest.Kelvins);
        json.Number("wallK", result.End.Wall.Kelvins);
        json.Number("probeK", result.End.Probe.Kelvins);
        json.Number("bodyK", result.End.Body.Kelvins);
        json.Number("coldestRadiusM", result.ColdestPlace.Radius.Meters);
        json.Number("coldestHeightM", result.ColdestPlace.Height.Meters);
        json.Number("wallMaxK", result.HottestWall.Temperature.Kelvins);
        json.Number("wallMaxSeconds", result.HottestWall.At.Seconds);
        json.Number("hottestHoneyK", result.HottestHoney.Kelvins);
        json.Number("wallAboveProbeK", result.WallAboveProbe.Kelvins);
        json.Number("crystalsLeftShare", result.CrystalsLeft.DecimalFractions);
        json.Number("viscosityPaS", result.Viscosity.PascalSeconds);
        json.Number("honeyKgPerVessel", result.HoneyPerVessel.Kilograms);
        json.WriteNumber("vessels", result.Setup.Vessels);

        json.Number("energyJ", result.Energy.Heater.Joules);
        json.Number("intoHoneyJ", result.Energy.IntoHoney.Joules);
        json.Number("meltingJ", result.Energy.Melting.Joules);
        json.Number("intoBodyJ", result.Energy.IntoBody.Joules);
        json.Number("toRoomJ", result.Energy.ToRoom.Joules);
        json.Number("energyBalanceRelative", result.Energy.BalanceRelative);
        json.Number("cutOutSeconds", result.CutOutAt?.Seconds);
        json.WriteNumber("switchings", result.Switchings);

        DamageJson.Figures(json, result.Damage);
        json.WriteStartObject("worst");
        DamageJson.Figures(json, result.WorstDamage);
        json.WriteEndObject();
        DamageJson.After(json, story.After);
        DamageJson.Limit(json, story.Limits.Limits.Heat, story.Check);
        json.Number("ceilingK", story.Limits.Limits.Ceiling.Kelvins);
        json.WriteBoolean("ceilingIsSetByUser", story.Limits.CeilingIsGiven);

        Bound(json, "wellMixed", story.Bounds.WellMixed);
        Bound(json, "conductionOnly", story.Bounds.ConductionOnly);

        Spread(json, story.Spread);

        json.Notices(story.Notices);
        json.Cautions(result.Cautions);
        ResultJson.Input(json, story.Journal);
        json.WriteStartObject("solver");
        json.WriteNumber("steps", result.Steps);
        json.WriteEndObject();
    });

    /// <summary>Lowest and highest of the what-ifs around the run; null when they could not be run.</summary>
    private static void Spread(Utf8JsonWriter json, WarmingSpread? spread)
    {
        if (spread is null)
        {
            json.WriteNull("spread");
            return;
        }

        json.WriteStartObject("spread");
        json.Number("timeToTargetLowSeconds", spread.TimeToTarget.Low?.Seconds);
        json.Number("timeToTargetHighSeconds", spread.TimeToTarget.High?.Seconds);
        json.Number("meanLowK", spread.EndMean.Low.Kelvins);
        json.Number("meanHighK", spread.EndMean.High.Kelvins);
        json.Number("wallMaxLowK", spread.HottestWall.Low.Kelvins);
        json.Number("wallMaxHighK", spread.HottestWall.High.Kelvins);
        json.Number("hmfGainLow", spread.HmfGain.Low.MilligramsPerKilogram);
        json.Number("hmfGainHigh", spread.HmfGain.High.MilligramsPerKilogram);
        json.WriteNumber("cases", spread.Runs);
        json.WriteEndObject();
    }

    private static void Targets(Utf8JsonWriter json, WarmingBounds bounds)
    {
        json.WriteStartArray("targets");
        for (int i = 0; i < bounds.Best.Setup.Targets.Count; i++)
        {
            WarmingTarget target = bounds.Best.Setup.Targets[i];
            json.WriteStartObject();
            json.WriteString("kind", TargetText.Word(target));
            json.Number("temperatureK", TargetText.TemperatureOf(target)?.Kelvins);
            json.Number("viscosityPaS", TargetText.ViscosityOf(target)?.PascalSeconds);
            json.Number("seconds", bounds.Best.TargetTimes[i]?.Seconds);
            json.Number("wellMixedSeconds", bounds.WellMixed.TargetTimes[i]?.Seconds);
            json.Number("conductionOnlySeconds", bounds.ConductionOnly.TargetTimes[i]?.Seconds);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>What a bound says of the same setup.</summary>
    private static void Bound(Utf8JsonWriter json, string name, WarmingResult bound)
    {
        json.WriteStartObject(name);
        json.WriteString("status", Words.Of(bound.Status));
        json.Number("timeToTargetSeconds", bound.TimeToTarget?.Seconds);
        json.Number("coldestK", bound.End.Coldest.Kelvins);
        json.Number("meanK", bound.End.Mean.Kelvins);
        json.Number("wallMaxK", bound.HottestWall.Temperature.Kelvins);
        json.Number("energyJ", bound.Energy.Heater.Joules);
        json.Number("hmfGain", bound.Damage.HmfGain.MilligramsPerKilogram);
        json.Number("diastaseLeft", bound.Damage.DiastaseLeft.DecimalFractions);
        json.WriteEndObject();
    }
}
