using System.Text.Json;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Output;

/// <summary>A fit as JSON: SI units, named in each key or by the input's unit, chances and shares from 0 to 1; null where there is none.</summary>
internal static class FitJson
{
    public static string Of(FitStory story) => JsonText.Object(json =>
    {
        CalibrationAnswer answer = story.Answer;
        json.WriteString("status", Words.Of(answer.Status));
        json.WriteString("saved", story.Saved);
        json.Objects("inputs", answer.Inputs, input => Input(json, input));
        Correlations(json, answer);
        json.Objects("indistinct", answer.Indistinct, pair =>
        {
            json.WriteStartArray("names");
            foreach (Straining.StrainingInput input in pair.Inputs)
                json.WriteStringValue(input.Name);
            json.WriteEndArray();
            json.WriteString("words", pair.Words);
        });
        json.Objects("series", answer.Series, series => Series(json, series));
        Check(json, answer.Check);
        Times(json, "strainSecondsBefore", answer.Prediction.StrainBefore);
        Times(json, "strainSecondsAfter", answer.Prediction.StrainAfter);
        json.Number("overflowProbabilityBefore", answer.Prediction.OverflowBefore);
        json.Number("overflowProbabilityAfter", answer.Prediction.OverflowAfter);
        json.Objects("measureNext", answer.Next, next =>
        {
            json.WriteString("what", next.What);
            json.WriteString("how", next.How);
            json.Number("timeLeft", next.TimeLeft);
            json.Number("overflowLeft", next.OverflowLeft);
        });
        json.Objects("runs", answer.Calibrated.Runs, run =>
        {
            json.WriteString("name", run.Name);
            json.WriteString("date", run.Date?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
            json.WriteString("fingerprint", run.Fingerprint);
        });
        json.WriteString("calibration", story.Table);
        json.WriteNumber("modelRuns", answer.ModelRuns);
        json.WriteNumber("seed", answer.Question.Seed);
        json.Notices(answer.Notices);
        Read(json, story);
    });

    private static void Input(Utf8JsonWriter json, FittedInput input)
    {
        json.WriteString("name", input.Input.Name);
        json.WriteString("unit", input.Input.Unit);
        json.WriteString("run", input.Run);
        json.Number("before", input.Prior.Spread.Median);
        json.Number("beforeLow", input.Prior.Spread.Quantile(0.025));
        json.Number("beforeHigh", input.Prior.Spread.Quantile(0.975));
        json.Number("value", input.Middle);
        json.Number("low", input.Low);
        json.Number("high", input.High);
        json.Number("left", input.Left);
        json.WriteBoolean("identified", input.Identified);
    }

    /// <summary>Pairs of honey and kit, in the order of the inputs.</summary>
    private static void Correlations(Utf8JsonWriter json, CalibrationAnswer answer)
    {
        FittedInput[] shared = [.. answer.Inputs.Where(input => input.Run is null)];
        var pairs = from i in Enumerable.Range(0, Math.Min(shared.Length, answer.Correlations.Count))
                    from j in Enumerable.Range(0, i)
                    select (One: shared[j].Input.Name, Other: shared[i].Input.Name, Strength: answer.Correlations[i][j]);
        json.Objects("correlations", pairs, pair =>
        {
            json.WriteString("one", pair.One);
            json.WriteString("other", pair.Other);
            json.Number("strength", pair.Strength);
        });
    }

    private static void Series(Utf8JsonWriter json, SeriesFit series)
    {
        json.WriteString("run", series.Run);
        json.WriteString("quantity", Words.Of(series.Series.Quantity));
        json.WriteString("name", series.Series.Name);
        json.WriteNumber("readings", series.Readings.Count);
        json.WriteNumber("outliers", series.Outliers);
        json.Number("scatter", series.Noise);
        json.Number("clockSeconds", series.Clock.Value.Seconds);
        json.Number("clockSdSeconds", series.Clock.Sd.Seconds);
        json.Number("zero", series.Zero.Value);
        json.Number("zeroSd", series.Zero.Sd);
        json.Number("autocorrelation", series.Autocorrelation);
        json.Number("inflation", series.Inflation);
        json.Number("explained", series.Explained);
    }

    private static void Check(Utf8JsonWriter json, SamplerCheck? check)
    {
        if (check is null)
        {
            json.WriteNull("sampler");
            return;
        }

        json.WriteStartObject("sampler");
        json.WriteNumber("draws", check.Draws);
        json.Number("effectiveSampleSize", check.EffectiveSampleSize);
        json.Number("splitRHat", check.SplitRHat);
        json.Number("medianShift", check.MedianShift);
        json.Number("widthRatio", check.WidthRatio);
        json.WriteBoolean("used", check.Used);
        json.WriteEndObject();
    }

    private static void Times(Utf8JsonWriter json, string name, TimeSpread times)
    {
        json.Number(name + "P10", times.P10?.Seconds);
        json.Number(name + "P50", times.P50?.Seconds);
        json.Number(name + "P90", times.P90?.Seconds);
        json.Number(name.Replace("Seconds", "NeverShare", StringComparison.Ordinal), times.Never);
    }

    private static void Read(Utf8JsonWriter json, FitStory story)
    {
        json.WriteStartArray("runsReadAs");
        foreach (string echo in story.Echoes)
            json.WriteStringValue(echo);
        json.WriteEndArray();
        ResultJson.Input(json, story.Journal);
    }
}
