using System.Text.Json;
using FlowSim.Bottling;
using FlowSim.Commands.Input;

namespace FlowSim.Commands.Output;

/// <summary>A filling as JSON: SI units, named in each key; null where there is nothing to say.</summary>
internal static class FillingJson
{
    public static string Of(FillingBand band, Journal journal) => JsonText.Object(json =>
    {
        FillingResult result = band.Likely;
        json.WriteString("status", Words.Of(result.Status));
        json.WriteNumber("jars", result.Jars);
        json.WriteNumber("cases", result.Cases);
        json.WriteNumber("looseJars", result.LooseJars);
        json.Number("elapsedSeconds", result.Elapsed.Seconds);
        json.Number("elapsedQuickSeconds", band.Quick.Elapsed.Seconds);
        json.Number("elapsedSlowSeconds", band.Slow.Elapsed.Seconds);
        json.Number("firstFillSeconds", result.FillTimes?.First.Seconds);
        json.Number("medianFillSeconds", result.FillTimes?.Median.Seconds);
        json.Number("lastFillSeconds", result.FillTimes?.Last.Seconds);
        json.Number("jarsPerHour", result.JarsPerHour);
        json.Number("casesPerHour", result.CasesPerHour);
        CutOffOf(json, "cutOffFirst", result.CutOffs?.First);
        CutOffOf(json, "cutOffMedian", result.CutOffs?.Median);
        CutOffOf(json, "cutOffLast", result.CutOffs?.Last);

        TargetFill target = result.Target;
        json.Number("labelKg", target.Question.Label.Kilograms);
        json.WriteString("labelMetric", result.Label.Metric);
        json.WriteString("labelCustomary", result.Label.Customary);
        json.WriteString("rule", target.Question.Rule.Name);
        json.Number("targetKg", target.Target.Kilograms);
        json.Number("aboveLabelKg", target.AboveLabel.Kilograms);
        json.Number("scatterUsedKg", target.ScatterUsed.Kilograms);
        json.Number("tolerableShortfallKg", target.TolerableShortfall?.Kilograms);
        json.WriteString("targetDecidedBy", Words.Of(target.Binds));
        json.WriteNumber("lot", target.Question.Lot);
        json.Number("chanceLotBreaksRule", target.ChanceLotBreaks.DecimalFractions);
        json.Number("chanceCountAccepted", target.ChanceCountAccepted?.DecimalFractions);
        json.Number("chanceAverageAccepted", target.ChanceAverageAccepted?.DecimalFractions);
        json.WriteNumber("jarsToWeigh", target.JarsToWeigh);
        json.Number("targetAtHalfScatterKg", target.TargetAtHalfScatter.Kilograms);
        json.Number("givenAwayPerDayKg", result.GivenAwayPerDay.Kilograms);
        json.Number("savedPerDayAtHalfScatterKg", result.SavedPerDayAtHalfScatter.Kilograms);

        Headspace room = result.Headspace;
        json.WriteString("headspace", Words.Of(room.Verdict));
        json.Number("brimfulM3", room.Jar.Brimful.CubicMeters);
        json.Number("fillVolumeM3", room.HoneyAtFilling.CubicMeters);
        json.Number("fillVolumeAtHottestM3", room.HoneyAtHottest.CubicMeters);
        json.Number("headspaceShare", room.ShareAtFilling.DecimalFractions);
        json.Number("headspaceShareAtHottest", room.ShareAtHottest.DecimalFractions);
        json.Number("headspaceDepthM", room.DepthAtFilling?.Meters);
        json.Number("mostKg", room.Most.Kilograms);

        json.Number("leakKgPerHour", result.Leak?.PerHour.Kilograms);
        json.Number("leakOverNightKg", result.Leak?.OverNight.Kilograms);
        json.Number("leakOverNightTightenedKg", result.Leak?.OverNightTightened.Kilograms);
        json.Number("leakOverNightWarmerKg", result.Leak?.OverNightWarmer?.Kilograms);

        FillingMasses masses = result.Masses;
        json.Number("startKg", masses.Start.Kilograms);
        json.Number("inJarsKg", masses.InJars.Kilograms);
        json.Number("givenAwayKg", masses.GivenAway.Kilograms);
        json.Number("dripsKg", masses.Drips.Kilograms);
        json.Number("filmKg", masses.Film.Kilograms);
        json.Number("restKg", masses.Rest.Kilograms);
        json.Number("heelKg", masses.Heel.Kilograms);
        json.Number("massBalanceRelative", masses.BalanceRelative);
        json.Number("viscosityPaS", result.StartViscosity.PascalSeconds);
        json.Number("tankEndK", result.EndTemperature.Kelvins);
        json.Notices(result.Notices);
        json.Cautions(result.Cautions);
        ResultJson.Input(json, journal);
    });

    private static void CutOffOf(Utf8JsonWriter json, string name, CutOff? cut)
    {
        if (cut is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.Number("flowKgPerSecond", cut.Flow.KilogramsPerSecond);
        json.Number("transitSeconds", cut.Transit.Seconds);
        json.Number("inTheAirKg", cut.InTheAir.Kilograms);
        json.Number("whileClosingKg", cut.WhileClosing.Kilograms);
        json.Number("leadKg", cut.Lead.Kilograms);
        json.Number("leadOnScaleKg", cut.LeadOnScale.Kilograms);
        json.Number("leadSeconds", cut.LeadTime.Seconds);
        json.Number("waitSeconds", cut.Wait.Seconds);
        json.Number("stillHangsKg", cut.StillHangs.Kilograms);
        json.WriteEndObject();
    }
}
