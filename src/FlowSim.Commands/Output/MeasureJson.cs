using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.FieldMeasurements;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>A measurement as JSON, SI.</summary>
internal static class MeasureJson
{
    public static string Of(ViscosityMeasurement measured, LotFactorEstimate? lot, Journal journal) => JsonText.Object(json =>
    {
        (DynamicViscosity low, DynamicViscosity high) = measured.Interval95;
        json.Number("viscosityPaS", measured.Viscosity.PascalSeconds);
        json.Number("viscosityLowPaS", low.PascalSeconds);
        json.Number("viscosityHighPaS", high.PascalSeconds);
        json.Number("logStandardDeviation", measured.LogStandardDeviation);
        json.Number("kinematicViscosityM2PerS", measured.KinematicViscosity.SquareMetersPerSecond);
        json.Number("densityKgPerM3", measured.Density.KilogramsPerCubicMeter);
        json.Number("temperatureK", measured.Temperature.Kelvins);
        json.Number("moistureShare", measured.Sample.Moisture.DecimalFractions);
        Contributions(json, measured.Contributions);
        if (lot is null)
            json.WriteNull("lotFactor");
        else
            LotFactor(json, lot);
        json.Notices(measured.Notices.Concat(lot?.Notices ?? []).DistinctBy(notice => notice.Code, StringComparer.Ordinal));
        json.Cautions(measured.Cautions);
        End(json, measured.Source, journal);
    });

    public static string Of(MoistureMeasurement measured, Temperature at, double? factor, Journal journal) => JsonText.Object(json =>
    {
        (Ratio low, Ratio high) = measured.Interval95;
        json.Number("moistureShare", measured.Moisture.DecimalFractions);
        json.Number("moistureLowShare", low.DecimalFractions);
        json.Number("moistureHighShare", high.DecimalFractions);
        json.Number("standardDeviationShare", measured.StandardDeviation.DecimalFractions);
        json.Number("viscosityAtK", at.Kelvins);
        json.Number("viscosityFactor", factor);
        Contributions(json, measured.Contributions);
        json.Notices(measured.Notices);
        End(json, measured.Source, journal);
    });

    private static void LotFactor(Utf8JsonWriter json, LotFactorEstimate lot)
    {
        (double low, double high) = lot.Interval95;
        json.WriteStartObject("lotFactor");
        json.Number("value", lot.Value);
        json.Number("low", low);
        json.Number("high", high);
        json.Number("logStandardDeviation", lot.LogStandardDeviation);
        json.Number("logStandardDeviationAtStatedMoisture", lot.LogStandardDeviationAtStatedMoisture);
        json.WriteString("correlation", lot.Correlation);
        json.Number("moistureShare", lot.Moisture.DecimalFractions);
        Contributions(json, lot.Contributions);
        json.WriteEndObject();
    }

    private static void Contributions(Utf8JsonWriter json, IReadOnlyList<ErrorShare> shares) => json.Objects("contributions", shares, share =>
    {
        json.WriteString("name", share.Name);
        json.Number("share", share.Share);
        json.Number("standardDeviation", share.StandardDeviation);
    });

    private static void End(Utf8JsonWriter json, Source source, Journal journal)
    {
        json.WriteString("source", source.Citation);
        json.WriteString("standing", Words.Of(source.Standing));
        ResultJson.Input(json, journal);
    }
}
