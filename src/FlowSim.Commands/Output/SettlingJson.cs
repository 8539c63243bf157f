using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.Screens;
using FlowSim.Settling;

namespace FlowSim.Commands.Output;

/// <summary>A settling run as JSON: SI units, named in each key; null where something never happens or was not there.</summary>
internal static class SettlingJson
{
    public static string Of(SettleStory story) => JsonText.Object(json =>
    {
        SettlingResult result = story.Result;
        json.WriteString("status", Words.Of(result.Status));
        json.Number("standsForSeconds", result.Setup.StandsFor.Seconds);
        json.Number("clearAfterSeconds", result.ClearAfter?.Seconds);
        json.Number("clearAfterQuickSeconds", story.Band?.Quick?.Seconds);
        json.Number("clearAfterSlowSeconds", story.Band?.Slow?.Seconds);
        json.Number("depthM", result.Setup.Depth.Meters);
        json.Number("viscosityPaS", result.StartViscosity.PascalSeconds);
        Matter(json, "bubbles", result.Bubbles);
        Matter(json, "debris", result.Debris);
        Gathered(json, "scum", result.Scum);
        Gathered(json, "sediment", result.Sediment);
        Left(json, result.DebrisLeft);
        DamageJson.Figures(json, story.Damage);
        json.Notices(story.Notices);
        json.Cautions(result.Cautions);
        ResultJson.Input(json, story.Journal);
        json.WriteStartObject("solver");
        json.WriteNumber("steps", result.Steps);
        json.WriteEndObject();
    });

    private static void Matter(Utf8JsonWriter json, string name, SettledMatter? matter)
    {
        if (matter is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteString("direction", Words.Of(matter.Direction));
        json.Number("leftShare", matter.Left.DecimalFractions);
        json.Number("largestLeftM", matter.LargestLeft?.Meters);
        json.Number("clearDepthM", matter.ClearDepth.Meters);
        json.Number("clearAfterSeconds", matter.ClearAfter?.Seconds);
        json.Number("medianSpeedMPerS", matter.MedianSpeed.MetersPerSecond);
        json.Number("startVolumeShare", matter.StartVolume.DecimalFractions);
        json.WriteEndObject();
    }

    private static void Gathered(Utf8JsonWriter json, string name, Deposit deposit)
    {
        json.WriteStartObject(name);
        json.Number("thicknessM", deposit.Thickness.Meters);
        json.Number("honeyShare", deposit.HoneyShare.DecimalFractions);
        json.Number("honeyKg", deposit.Honey?.Kilograms);
        json.Number("matterKg", deposit.Matter?.Kilograms);
        json.WriteEndObject();
    }

    private static void Left(Utf8JsonWriter json, Debris? left)
    {
        if (left is null)
        {
            json.WriteNull("debrisForStrainer");
            return;
        }

        json.WriteStartObject("debrisForStrainer");
        json.Number("loadShare", left.Load.DecimalFractions);
        json.Number("medianM", left.MedianSize.Meters);
        json.Number("sizeSpread", left.SizeSpread);
        json.WriteEndObject();
    }
}
