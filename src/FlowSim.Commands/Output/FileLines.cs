using System.Globalization;
using FlowSim.FieldMeasurements;

namespace FlowSim.Commands.Output;

/// <summary>What is measured as lines of an input file, which reads them again.</summary>
internal static class FileLines
{
    /// <summary>A moisture with its spread.</summary>
    /// <param name="measured">Moisture.</param>
    public static string Moisture(MoistureMeasurement measured) =>
        string.Create(CultureInfo.InvariantCulture, $"moisture = \"{measured.Moisture.Percent:0.0#} ± {measured.StandardDeviation.Percent:0.00} %\"");

    /// <summary>The moisture that a lot factor belongs to, without a spread of its own.</summary>
    /// <param name="lot">Lot factor.</param>
    public static string ExactMoisture(LotFactorEstimate lot) =>
        string.Create(CultureInfo.InvariantCulture, $"moisture = \"{Math.Round(lot.Moisture.Percent, 9):0.######} ± 0 %\"");

    /// <summary>A lot factor with its spread at that moisture.</summary>
    /// <param name="lot">Lot factor.</param>
    public static string LotFactor(LotFactorEstimate lot) =>
        $"lot_factor = \"{Display.Figures(lot.Value, 3)} x/ {FactorText(lot.LogStandardDeviationAtStatedMoisture)}\"";

    /// <summary>A viscosity as a figure of its own.</summary>
    /// <param name="measured">Viscosity.</param>
    public static string Measured(ViscosityMeasurement measured) =>
        string.Create(CultureInfo.InvariantCulture, $"measured = [\"{Math.Round(measured.Temperature.DegreesCelsius, 6):0.##} °C, {Display.Figures(measured.Viscosity.PascalSeconds, 3)} Pa.s\"]");

    /// <summary>A factor either way.</summary>
    /// <param name="logStandardDeviation">Standard deviation of the logarithm.</param>
    public static string FactorText(double logStandardDeviation) => Math.Exp(logStandardDeviation).ToString("0.00", CultureInfo.InvariantCulture);
}
