using FlowSim.Plots.Drawing;
using FlowSim.Warming;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>What happened in a warming run, in one line and a second one with figures.</summary>
internal static class WarmingTitle
{
    // Less than this is lost in any probe's own error (engineering choice).
    private const double WorthTellingK = 0.5;

    public static string Of(WarmingResult result, DisplayUnits units, TimeScale time) =>
        What(result, units, time) + "; coldest " + UnitScales.TemperatureText(units, result.End.Coldest) + ", mean " + UnitScales.TemperatureText(units, result.End.Mean);

    /// <summary>Heat, hottest wall, targets that were not reached.</summary>
    public static string Figures(WarmingResult result, DisplayUnits units, TimeScale time)
    {
        List<string> parts = [];
        string[] missed = [.. result.Setup.Targets.Where((_, i) => i >= result.TargetTimes.Count || result.TargetTimes[i] is null).Select(t => Name(t, units))];
        if (missed.Length > 0)
            parts.Add("not reached: " + string.Join(", ", missed.Take(3)) + (missed.Length > 3 ? Invariant($" and {missed.Length - 3} more") : ""));

        double heatJ = result.Energy.Heater.Joules;
        if (double.IsFinite(heatJ) && heatJ != 0)
            parts.Add(heatJ < 0 ? UnitScales.Heat(-result.Energy.Heater) + " taken out" : UnitScales.Heat(result.Energy.Heater) + " from the heater");

        string wall = "wall up to " + UnitScales.TemperatureText(units, result.HottestWall.Temperature) + (result.HottestWall.At.Seconds > 0 ? " at " + time.Moment(result.HottestWall.At.Seconds) : " at the start");
        if (result.WallAboveProbe.Kelvins >= WorthTellingK)
            wall += ", at most " + UnitScales.DifferenceText(units, result.WallAboveProbe) + " above the probe";
        parts.Add(wall);
        string all = string.Join("; ", parts);
        return char.ToUpperInvariant(all[0]) + all[1..];
    }

    /// <summary>A target in words: <c>coldest 40 °C</c>.</summary>
    public static string Name(WarmingTarget target, DisplayUnits units) => target switch
    {
        MeanAtLeast mean => "mean " + UnitScales.TemperatureText(units, mean.Temperature),
        ColdestAtLeast coldest => "coldest " + UnitScales.TemperatureText(units, coldest.Temperature),
        MeanAtMost mean => "mean down to " + UnitScales.TemperatureText(units, mean.Temperature),
        ViscosityAtMost thin => Invariant($"thin, {thin.Viscosity.PascalSeconds:0.##} Pa·s"),
        ViscosityAtLeast thick => Invariant($"thick, {thick.Viscosity.PascalSeconds:0.##} Pa·s"),
        CrystalsGone => "crystals gone",
        _ => target.GetType().Name,
    };

    private static string What(WarmingResult result, DisplayUnits units, TimeScale time)
    {
        string end = time.Moment(result.Elapsed.Seconds);
        return result.Status switch
        {
            WarmingStatus.Reached => "Reached in " + time.Moment((result.TimeToTarget ?? result.Elapsed).Seconds),
            WarmingStatus.TimeLimit when result.Setup.Targets.Count == 0 => "After " + end,
            WarmingStatus.TimeLimit => "Not reached in " + end,
            WarmingStatus.CutOut => "Cut out at " + time.Moment((result.CutOutAt ?? result.Elapsed).Seconds) + ", not reached",
            WarmingStatus.Overheated => "Too hot at " + end + ", stopped",
            _ => result.Status.ToString(),
        };
    }
}
