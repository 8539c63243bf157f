using FlowSim.Settling;

namespace FlowSim.Commands.Output;

/// <summary>The series of a settling run as CSV; columns of what was not there are left out.</summary>
internal static class SettlingCsv
{
    public static string Of(SettlingResult result)
    {
        SettlingSeries series = result.Series;
        List<(string, IReadOnlyList<double>)> columns = [("time_s", series.TimeS), ("temperature_K", series.TemperatureK), ("viscosity_Pa_s", series.ViscosityPaS)];
        if (result.Bubbles is not null)
            columns.AddRange([("bubbles_left_share", series.BubblesLeft), ("bubbles_clear_m", series.BubblesClearM)]);
        if (result.Debris is not null)
            columns.AddRange([("debris_left_share", series.DebrisLeft), ("debris_clear_m", series.DebrisClearM)]);
        return CsvText.Of(columns);
    }
}
