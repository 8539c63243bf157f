using FlowSim.Plots.Drawing;
using FlowSim.Setpoints;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>What a search for the setpoint found, in one line and some sentences.</summary>
internal static class SetpointTitle
{
    public static string Of(SetpointAnswer answer, DisplayUnits units, TimeScale time) => answer switch
    {
        { Choice: { } choice } => UnitScales.TemperatureText(units, choice.Setpoint) + ": done in " + time.Moment(choice.Total.Seconds)
            + Invariant($", HMF up {FigureText.Short(choice.Damage.HmfGain.MilligramsPerKilogram)} mg/kg"),
        { Status: SetpointStatus.Found } => "A setpoint was found",
        _ => "No setpoint meets these limits",
    };

    public static IEnumerable<string> Sentences(SetpointAnswer answer, DisplayUnits units, TimeScale time)
    {
        if (answer.Choice is { } choice)
        {
            yield return "Strain at " + UnitScales.TemperatureText(units, choice.StrainAt) + Invariant($", gate {choice.Opening.Percent:0.#} % open. ")
                + (answer.BindingLimit is { } binding ? "Limit in the way: " + Name(binding) + ". " : "No limit stands in the way. ")
                + (answer.TimeADegreeBuys is { } buys ? DegreeBuys(buys, units, time) : "");
            if (answer.Bounds?.TimeToTargetLow is { } low)
            {
                yield return answer.Bounds.TimeToTargetHigh is { } high
                    ? "Its warming takes between " + time.Moment(low.Seconds) + " and " + time.Moment(high.Seconds) + " by the bounds."
                    : "Its warming takes " + time.Moment(low.Seconds) + " at least, and is not done by all bounds.";
            }
        }
        else if (answer.NearestMiss is { } miss)
        {
            yield return "Nearest miss: " + UnitScales.TemperatureText(units, miss.Plan.Setpoint) + ", " + time.Moment(miss.Plan.Total.Seconds) + ": "
                + string.Join("; ", miss.Misses.Select(m => FigureText.Clean(m.ByHowMuch))) + ".";
        }

        string[] broken = [.. Broken(answer, units)];
        if (broken.Length > 0)
            yield return "Broken: " + string.Join(", ", broken) + ".";
    }

    public static string Name(PlanLimit limit) => limit switch
    {
        PlanLimit.Ceiling => "ceiling",
        PlanLimit.Hmf => "HMF",
        PlanLimit.Diastase => "diastase",
        PlanLimit.Wall => "wall",
        PlanLimit.WaxAtStrainer => "wax at the strainer",
        PlanLimit.Burn => "burns",
        PlanLimit.Overflow => "overflow",
        PlanLimit.StrainingTime => "time of straining",
        PlanLimit.Time => "longest time",
        _ => limit.ToString(),
    };

    private static string DegreeBuys(Duration buys, DisplayUnits units, TimeScale time)
    {
        string degree = UnitScales.DifferenceText(units, TemperatureDelta.FromKelvins(1));
        return Math.Abs(buys.Seconds) < 30
            ? degree + " more would change nothing."
            : degree + " more would " + (buys.Seconds > 0 ? "save " : "cost ") + time.Moment(Math.Abs(buys.Seconds)) + ".";
    }

    /// <summary>Each limit with the setpoints at which no plan keeps it.</summary>
    private static IEnumerable<string> Broken(SetpointAnswer answer, DisplayUnits units)
    {
        CurvePoint[] barred = [.. answer.Curve.Where(p => !p.Allowed)];
        foreach (PlanLimit limit in barred.SelectMany(p => p.Broken).Distinct().Order())
        {
            double[] setpoints = [.. barred.Where(p => p.Broken.Contains(limit)).Select(p => UnitScales.Temperature(units, p.Setpoint.DegreesCelsius))];
            string unit = UnitScales.TemperatureUnit(units);
            yield return Name(limit) + (setpoints.Length == 1 ? Invariant($" at {setpoints[0]:0.#} {unit}") : Invariant($" at {setpoints.Min():0.#}–{setpoints.Max():0.#} {unit}"));
        }
    }
}
