using FlowSim.Bottling;

namespace FlowSim.Commands.Output;

/// <summary>A filling as CSV, a row for each jar.</summary>
internal static class FillingCsv
{
    public static string Of(FillingSeries series) => CsvText.Of(
    [
        ("jar", [.. Enumerable.Range(1, series.StartS.Count).Select(n => (double)n)]),
        ("start_s", series.StartS),
        ("fill_s", series.FillS),
        ("wait_s", series.WaitS),
        ("tank_level_m", series.TankLevelM),
        ("flow_kg_per_s", series.FlowKgPerS),
        ("temperature_K", series.TemperatureK),
    ]);
}
