using System.Text.Json;
using FlowSim.HeatDamage;

namespace FlowSim.Commands.Output;

/// <summary>Heat damage and limits as JSON, the same keys wherever they stand.</summary>
internal static class DamageJson
{
    /// <summary>Writes the figures of a damage into the object that is open.</summary>
    /// <param name="json">Writer.</param>
    /// <param name="damage">Damage.</param>
    public static void Figures(Utf8JsonWriter json, HoneyHeatDamage damage)
    {
        json.Number("hmfGainLow", damage.HmfGainLow.MilligramsPerKilogram);
        json.Number("hmfGain", damage.HmfGain.MilligramsPerKilogram);
        json.Number("hmfGainHigh", damage.HmfGainHigh.MilligramsPerKilogram);
        json.Number("diastaseLeftLow", damage.DiastaseLeftLow.DecimalFractions);
        json.Number("diastaseLeft", damage.DiastaseLeft.DecimalFractions);
        json.Number("diastaseLeftHigh", damage.DiastaseLeftHigh.DecimalFractions);
        json.Number("daysAt20CByHmf", damage.EquivalentDaysAt20C.ByHmf);
        json.Number("daysAt20CByDiastase", damage.EquivalentDaysAt20C.ByDiastase);
    }

    /// <summary>Writes the honey afterwards, or null when it is not known before.</summary>
    /// <param name="json">Writer.</param>
    /// <param name="after">Honey afterwards.</param>
    public static void After(Utf8JsonWriter json, HeatedHoney? after)
    {
        if (after is null)
        {
            json.WriteNull("after");
            return;
        }

        json.WriteStartObject("after");
        json.Number("hmfLow", after.HmfLow.MilligramsPerKilogram);
        json.Number("hmf", after.Hmf.MilligramsPerKilogram);
        json.Number("hmfHigh", after.HmfHigh.MilligramsPerKilogram);
        json.Number("diastaseNumberLow", after.DiastaseNumberLow);
        json.Number("diastaseNumber", after.DiastaseNumber);
        json.Number("diastaseNumberHigh", after.DiastaseNumberHigh);
        json.WriteEndObject();
    }

    /// <summary>Writes a limit, and how the honey stands against it.</summary>
    /// <param name="json">Writer.</param>
    /// <param name="limit">Limit.</param>
    /// <param name="check">The check; null when the honey is not known before.</param>
    public static void Limit(Utf8JsonWriter json, HeatLimit limit, LimitCheck? check)
    {
        json.WriteStartObject("heatLimit");
        json.WriteString("name", limit.Name);
        json.Number("hmfAtMost", limit.HmfAtMost?.MilligramsPerKilogram);
        json.Number("diastaseAtLeast", limit.DiastaseAtLeast);
        json.WriteString("appliesTo", limit.AppliesTo);
        json.WriteString("source", limit.Source.Citation);
        json.WriteString("standing", Input.Words.Of(limit.Source.Standing));
        json.WriteString("check", check is null ? "unknown" : Input.Words.Of(check.Overall));
        json.WriteString("text", check?.Text ?? string.Empty);
        json.WriteEndObject();
    }
}
