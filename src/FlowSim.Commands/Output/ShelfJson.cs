using FlowSim.Commands.Input;
using FlowSim.ShelfLife;

namespace FlowSim.Commands.Output;

/// <summary>Notes for the shelf as JSON: shares from 0 to 1; null where nobody measured.</summary>
internal static class ShelfJson
{
    public static string Of(ShelfNotes notes, Journal journal) => JsonText.Object(json =>
    {
        json.Number("moistureShare", notes.Question.Moisture.DecimalFractions);
        json.WriteString("fermentation", Words.Of(notes.Fermentation));
        json.Number("yeastsBelowPerGram", notes.Class.YeastsBelowPerGram);
        json.Number("liquorCrystalsShare", notes.LiquorCrystals.DecimalFractions);
        json.Number("liquorMoistureShare", notes.LiquorMoisture.DecimalFractions);
        json.WriteString("liquorFermentation", Words.Of(notes.LiquorFermentation));
        json.Number("waterActivity", notes.WaterActivity.Value);
        json.Number("waterActivityLow", notes.WaterActivity.Low);
        json.Number("waterActivityHigh", notes.WaterActivity.High);
        json.Number("glucoseOverWater", notes.GlucoseOverWater);
        json.WriteString("granulation", Words.Of(notes.Tendency));
        json.Notices(notes.Notices);
        json.Cautions(notes.Cautions);
        ResultJson.Input(json, journal);
    });
}
