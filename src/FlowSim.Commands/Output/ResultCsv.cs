using FlowSim.Straining;

namespace FlowSim.Commands.Output;

/// <summary>The series of a straining run as CSV.</summary>
internal static class ResultCsv
{
    public static string Of(StrainingSeries series)
    {
        List<(string Head, IReadOnlyList<double> Values)> columns =
        [
            ("time_s", series.TimeS),
            ("tank_level_m", series.TankLevelM),
            ("pond_depth_m", series.PondDepthM),
            ("receiver_level_m", series.ReceiverLevelM),
            ("gate_opening_share", series.Opening),
            ("gate_flow_kg_per_s", series.GateFlowKgPerS),
            ("cloth_flow_kg_per_s", series.ClothFlowKgPerS),
            ("over_rim_flow_kg_per_s", series.OverRimFlowKgPerS),
            ("tank_mass_kg", series.TankMassKg),
            ("pond_mass_kg", series.PondMassKg),
            ("strained_kg", series.StrainedKg),
            ("over_rim_kg", series.OverRimKg),
            ("tank_temperature_K", series.TankTemperatureK),
            ("pond_temperature_K", series.PondTemperatureK),
            ("receiver_temperature_K", series.ReceiverTemperatureK),
        ];
        for (int cloth = 0; cloth < series.OpenShare.Count; cloth++)
            columns.Add((FormattableString.Invariant($"cloth_{cloth + 1}_open_share"), series.OpenShare[cloth]));

        return CsvText.Of(columns);
    }
}
