using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>The chance of an overflow as JSON: SI units, named in each key, chances from 0 to 1; null where there is none.</summary>
internal static class RiskJson
{
    public static string Of(RiskStory story) => JsonText.Object(json =>
    {
        RiskAnswer answer = story.Answer;
        json.WriteString("verdict", Words.Of(story.Verdict));
        Chance(json, "overflowProbability", answer.Overflow);
        json.Number("tolerance", answer.Question.Tolerance.DecimalFractions);
        json.WriteString("method", Words.Of(answer.Overflow.Method));

        json.Number("longestAbsenceSeconds", answer.Absence.Longest?.Seconds);
        json.Number("absenceFromStartSeconds", answer.Absence.FromTheStart?.Seconds);
        json.Number("absenceWorstStartSeconds", answer.Absence.WorstStart?.Seconds);
        json.Number("widestOpening", answer.WidestOpening.Opening.DecimalFractions);
        Chance(json, "widestOpeningProbability", answer.WidestOpening.Overflow);
        Times(json, "widestOpeningStrainSeconds", answer.WidestOpening.Strain);
        json.WriteBoolean("scrapingNeeded", answer.Scraping.Needed);
        json.Number("scrapeEverySeconds", answer.Scraping.Every?.Seconds);
        Chance(json, "scrapedProbability", answer.Scraping.Overflow);
        json.Number("rideDepthM", answer.Riding.Deepest?.Meters);
        Chance(json, "rideProbability", answer.Riding.Chance);
        json.Number("lookEverySeconds", answer.Question.LookEvery.Seconds);

        Times(json, "drainSeconds", answer.Drain);
        Times(json, "strainSeconds", answer.Strain);
        Chance(json, "bypassProbability", answer.Bypass);
        Chance(json, "spillProbability", answer.Spill);
        json.Number("massThatMattersKg", answer.Question.MassThatMatters.Kilograms);
        Chance(json, "receiverFullProbability", answer.ReceiverFull);
        Chance(json, "receiverOverfilledProbability", answer.ReceiverOverfilled);

        Drivers(json, "drivers", answer.Drivers);
        Drivers(json, "driversOfTime", answer.DriversOfTime);
        Measure(json, answer.MeasureNext);

        json.Objects("chanceOverTime", answer.ChanceOverTime, point =>
        {
            json.Number("seconds", point.At.Seconds);
            json.Number("low", point.Low);
            json.Number("value", point.Value);
            json.Number("high", point.High);
        });
        Fan(json, answer.Fan);

        json.WriteNumber("runs", answer.Runs);
        json.WriteNumber("runsCounted", answer.Overflow.Runs);
        json.WriteNumber("seed", answer.Question.Seed);
        Inputs(json, story);
        json.Notices(answer.Notices);
        json.Cautions(answer.Cautions);
        ResultJson.Input(json, story.Journal);
    });

    /// <summary>A chance as three keys: the name, and the name with Low and High.</summary>
    private static void Chance(Utf8JsonWriter json, string name, ProbabilityEstimate? chance)
    {
        json.Number(name, chance?.Value);
        json.Number(name + "Low", chance?.Low);
        json.Number(name + "High", chance?.High);
    }

    /// <summary>A time as its quantiles and the share of the runs that never get there.</summary>
    private static void Times(Utf8JsonWriter json, string name, TimeSpread? times)
    {
        json.Number(name + "P10", times?.P10?.Seconds);
        json.Number(name + "P50", times?.P50?.Seconds);
        json.Number(name + "P90", times?.P90?.Seconds);
        json.Number(name.Replace("Seconds", "NeverShare", StringComparison.Ordinal), times?.Never);
    }

    private static void Drivers(Utf8JsonWriter json, string name, DriverTable table)
    {
        json.Objects(name, table.Drivers, driver =>
        {
            json.WriteString("name", driver.Name);
            json.Number("firstOrder", driver.FirstOrder);
            json.Number("firstOrderLow", driver.FirstLow);
            json.Number("firstOrderHigh", driver.FirstHigh);
            json.Number("total", driver.Total);
            json.Number("totalLow", driver.TotalLow);
            json.Number("totalHigh", driver.TotalHigh);
        });
        json.WriteString(name + "Refused", table.Refused);
    }

    private static void Measure(Utf8JsonWriter json, MeasureAdvice? advice)
    {
        if (advice is null)
        {
            json.WriteNull("measureNext");
            return;
        }

        json.WriteStartObject("measureNext");
        json.WriteString("name", advice.Name);
        json.WriteString("of", Words.Of(advice.Of));
        json.WriteString("how", advice.How);
        json.Number("spreadLeft", advice.SpreadLeft);
        json.WriteEndObject();
    }

    private static void Fan(Utf8JsonWriter json, PondFan fan)
    {
        json.WriteStartObject("pondFan");
        json.Number("rimM", fan.Rim.Meters);
        json.Numbers("seconds", fan.Times.Select(time => time.Seconds));
        json.Numbers("p05M", fan.P05);
        json.Numbers("p25M", fan.P25);
        json.Numbers("p50M", fan.P50);
        json.Numbers("p75M", fan.P75);
        json.Numbers("p95M", fan.P95);
        json.Numbers("goingOnShare", fan.GoingOn);
        json.WriteEndObject();
    }

    /// <summary>What was varied, cut to what the setup allows; quantiles, SI.</summary>
    private static void Inputs(Utf8JsonWriter json, RiskStory story)
    {
        Dictionary<string, VariedInput> asked = story.Input.Inputs.ToDictionary(input => input.Uncertain.Input.Name, StringComparer.Ordinal);
        SpreadText words = new(new Display(UnitChoice.Metric));
        json.Objects("inputs", story.Answer.Inputs, input =>
        {
            json.WriteString("name", input.Input.Name);
            json.WriteString("unit", input.Input.Unit);
            json.WriteString("spread", asked.GetValueOrDefault(input.Input.Name) is { } varied ? varied.Written ?? words.Of(varied.Uncertain) : words.Of(input));
            json.Number("p05", input.Spread.Quantile(0.05));
            json.Number("p50", input.Spread.Quantile(0.5));
            json.Number("p95", input.Spread.Quantile(0.95));
            json.WriteString("source", input.Source.Citation);
            json.WriteString("standing", Words.Of(input.Source.Standing));
        });
        json.Objects("correlations", story.Answer.Question.Correlations, pair =>
        {
            json.WriteString("one", pair.One);
            json.WriteString("other", pair.Other);
            json.Number("strength", pair.Strength);
        });
    }
}
