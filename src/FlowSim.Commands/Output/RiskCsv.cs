using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Output;

/// <summary>Chance of an overflow and depth of the pond over time as CSV; a cell is empty where one of them is not told for a time.</summary>
internal static class RiskCsv
{
    private static readonly string[] s_heads =
    [
        "time_s", "overflow_probability_low", "overflow_probability", "overflow_probability_high",
        "pond_p05_m", "pond_p25_m", "pond_p50_m", "pond_p75_m", "pond_p95_m", "going_on_share",
    ];

    public static string Of(RiskAnswer answer)
    {
        Dictionary<double, ChancePoint> chances = [];
        foreach (ChancePoint point in answer.ChanceOverTime)
            chances[point.At.Seconds] = point;
        Dictionary<double, int> fan = [];
        for (int i = 0; i < answer.Fan.Times.Count; i++)
            fan[answer.Fan.Times[i].Seconds] = i;
        return CsvText.OfRows(s_heads, chances.Keys.Union(fan.Keys).Order().Select(time => Row(time, chances.GetValueOrDefault(time), fan.TryGetValue(time, out int at) ? at : null, answer.Fan)));
    }

    private static IReadOnlyList<object?> Row(double timeS, ChancePoint? chance, int? at, PondFan fan) =>
    [
        timeS, chance?.Low, chance?.Value, chance?.High,
        .. new[] { fan.P05, fan.P25, fan.P50, fan.P75, fan.P95, fan.GoingOn }.Select(column => at is { } i ? (object?)column[i] : null),
    ];
}
