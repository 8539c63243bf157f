using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.FieldMeasurements;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>A measurement as text: the answer, what limits it, what was assumed, what to mind, and what to write in a file.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
/// <param name="journal">What was assumed.</param>
internal sealed class MeasureText(Page page, Display display, Journal journal)
{
    private const int ValueColumn = 22;

    /// <summary>Parts of the error below this share are not listed.</summary>
    private const double LeastShare = 0.005;

    public void Write(ViscosityMeasurement measured, LotFactorEstimate? lot, string? why)
    {
        (DynamicViscosity low, DynamicViscosity high) = measured.Interval95;
        page.Outcome($"{Display.Viscosity(measured.Viscosity.PascalSeconds)} at {display.Temperature(measured.Temperature.Kelvins)}, {Figures(low.PascalSeconds)} to {Display.Viscosity(high.PascalSeconds)} with 95 %.", bad: false);
        page.Pair("spread", $"×/÷ {Factor(measured.LogStandardDeviation)}, one standard deviation", ValueColumn);
        page.Pair("kinematic", $"{Display.Figures(measured.KinematicViscosity.Centistokes, 3)} mm2/s at {Display.Figures(measured.Density.KilogramsPerCubicMeter, 4)} kg/m³", ValueColumn);
        if (lot is not null)
        {
            (double lotLow, double lotHigh) = lot.Interval95;
            page.Pair("lot factor", $"{Figures(lot.Value)}, {Figures(lotLow)} to {Figures(lotHigh)} with 95 %, beside the {lot.Correlation} correlation at {Display.Share(lot.Moisture.DecimalFractions)} moisture", ValueColumn);
        }
        else
        {
            page.Pair("lot factor", $"none: {display.Words(why ?? string.Empty)}", ValueColumn);
        }

        page.Blank();
        WriteShares("What limits the viscosity", measured.Contributions);
        if (lot is not null)
            WriteShares("What limits the lot factor", lot.Contributions);
        WriteAssumed();
        ResultText.WriteNotices(page, display, [.. measured.Notices.Concat(lot?.Notices ?? []).DistinctBy(notice => notice.Code, StringComparer.Ordinal)]);
        ResultText.WriteCautions(page, display, measured.Cautions);
        WriteSource(measured.Source);
        page.Heading("Write in your file");
        page.Line("[honey]");
        if (lot is null)
        {
            page.Line(FileLines.Measured(measured));
            return;
        }

        page.Line(FileLines.ExactMoisture(lot));
        page.Line(FileLines.LotFactor(lot));
        page.Item("", $"Moisture and factor belong together and give back the viscosity you measured. The moisture's error is in the factor already, so the moisture stands as exact, and the spread of the factor, ×/÷ {Factor(lot.LogStandardDeviationAtStatedMoisture)}, is without it.");
    }

    public void Write(MoistureMeasurement measured, Temperature at, double? factor)
    {
        (Ratio low, Ratio high) = measured.Interval95;
        page.Outcome(string.Create(CultureInfo.InvariantCulture, $"{measured.Moisture.Percent:0.0} % moisture, {low.Percent:0.0} to {high.Percent:0.0} % with 95 %."), bad: false);
        page.Pair("spread", string.Create(CultureInfo.InvariantCulture, $"± {measured.StandardDeviation.Percent:0.00} %, one standard deviation"), ValueColumn);
        page.Pair("viscosity", factor is { } times
            ? string.Create(CultureInfo.InvariantCulture, $"known to ×/÷ {times:0.00} at {display.Temperature(at.Kelvins)} from this alone; honeys of equal moisture differ besides")
            : "the correlation does not reach that far", ValueColumn);
        page.Blank();
        WriteShares("What limits the moisture", measured.Contributions);
        WriteAssumed();
        ResultText.WriteNotices(page, display, measured.Notices);
        WriteSource(measured.Source);
        page.Heading("Write in your file");
        page.Line("[honey]");
        page.Line(FileLines.Moisture(measured));
    }

    private void WriteShares(string heading, IReadOnlyList<ErrorShare> shares)
    {
        if (shares.Count == 0)
            return;
        page.Heading(heading);
        foreach (ErrorShare share in shares.Where(share => share.Share >= LeastShare))
            page.Line(share.Name.PadRight(ValueColumn + 18) + string.Create(CultureInfo.InvariantCulture, $"{100 * share.Share,4:0} %"));
        page.Blank();
    }

    private void WriteAssumed()
    {
        if (journal.Assumptions.Count + journal.Echoes.Count == 0)
            return;
        page.Heading("Taken (an option replaces it; ± is one standard deviation)");
        foreach (string echo in journal.Echoes)
            page.Item("- ", echo);
        foreach (Assumption assumption in journal.Assumptions)
            page.Item("- ", $"{display.Words(assumption.Text)} [{StandingText.Of(assumption.Standing)}{(assumption.Key.Length == 0 ? string.Empty : "; " + assumption.Key)}]");
        page.Blank();
    }

    private void WriteSource(Source source)
    {
        page.Heading("Where it comes from");
        page.Item("", $"{source.Citation} [{StandingText.Of(source.Standing)}]");
        page.Blank();
    }

    private static string Figures(double value) => Display.Figures(value, 3);

    private static string Factor(double logStandardDeviation) => FileLines.FactorText(logStandardDeviation);
}
