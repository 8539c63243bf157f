using FlowSim.Warming;

namespace FlowSim.Commands.Output;

/// <summary>The series of a warming run as CSV.</summary>
internal static class WarmingCsv
{
    public static string Of(WarmingSeries series) => CsvText.Of(
    [
        ("time_s", series.TimeS),
        ("coldest_K", series.ColdestK),
        ("mean_K", series.MeanK),
        ("hottest_K", series.HottestK),
        ("wall_K", series.WallK),
        ("probe_K", series.ProbeK),
        ("body_K", series.BodyK),
        ("setpoint_K", series.SetpointK),
        ("heater_W", series.HeaterW),
        ("crystals_left_share", series.CrystalsLeft),
        ("viscosity_Pa_s", series.ViscosityPaS),
        ("hmf_gain_low_mg_per_kg", series.HmfGainLow),
        ("hmf_gain_mg_per_kg", series.HmfGain),
        ("hmf_gain_high_mg_per_kg", series.HmfGainHigh),
        ("diastase_left_low_share", series.DiastaseLeftLow),
        ("diastase_left_share", series.DiastaseLeft),
        ("diastase_left_high_share", series.DiastaseLeftHigh),
    ]);
}
