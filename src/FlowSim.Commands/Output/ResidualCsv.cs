using FlowSim.Calibration;
using FlowSim.Commands.Input;

namespace FlowSim.Commands.Output;

/// <summary>Every reading beside what the fit makes of it, as CSV; values SI: m, kg or m³ by the quantity.</summary>
internal static class ResidualCsv
{
    private static readonly string[] s_heads = ["run", "quantity", "time_s", "read", "fitted", "residual_in_scatters", "outlier"];

    public static string Of(CalibrationAnswer answer) => CsvText.OfRows(s_heads, answer.Series.SelectMany(series => series.Readings.Select(reading => (IReadOnlyList<object?>)
    [
        series.Run, Words.Of(series.Series.Quantity), reading.At.Seconds, reading.Read, reading.Fitted, reading.Residual, reading.IsOutlier ? "yes" : "no",
    ])));
}
