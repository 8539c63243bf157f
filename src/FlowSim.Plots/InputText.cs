using System.Globalization;
using FlowSim.Numerics.Sampling;
using FlowSim.Plots.Drawing;
using FlowSim.Straining;

namespace FlowSim.Plots;

/// <summary>Values of the inputs of a setup, as people read them.</summary>
internal static class InputText
{
    // Engineering choices: a step of the last digit is at most an eighth of the interval and a tenth of the number.
    private const double StepOfInterval = 0.125;
    private const double StepOfValue = 0.1;

    // Engineering choice: below it, a share reads better in grams per kilogram.
    private const double SmallShare = 0.005;

    // Lengths of cloth and bits are given in micrometres everywhere.
    private const double SmallLengthM = 0.00095;

    private const int MostDecimals = 6;

    private static readonly HashSet<StrainingInput> s_shares =
    [
        StrainingInputs.Moisture, StrainingInputs.Opening, StrainingInputs.DebrisLoad, StrainingInputs.DebrisCapture, StrainingInputs.ScrapeRecovery,
    ];

    /// <summary>Median and 95 % interval: <c>17.8 % (17.5 to 18.1 %)</c>.</summary>
    public static string Estimate(StrainingInput input, Distribution spread, DisplayUnits units)
    {
        Func<double, string>? write = Writer(input, spread, units, out string unit);
        return write is null ? "not known" : write(spread.Median) + unit + " (" + write(spread.Quantile(0.025)) + " to " + write(spread.Quantile(0.975)) + unit + ")";
    }

    /// <summary>95 % interval: <c>17.5 to 18.1 %</c>.</summary>
    public static string Interval(StrainingInput input, Distribution spread, DisplayUnits units)
    {
        Func<double, string>? write = Writer(input, spread, units, out string unit);
        return write is null ? "not known" : write(spread.Quantile(0.025)) + " to " + write(spread.Quantile(0.975)) + unit;
    }

    private static Func<double, string>? Writer(StrainingInput input, Distribution spread, DisplayUnits units, out string unit)
    {
        (unit, Func<double, double> shown) = Shown(input, spread.Median, units);
        if (unit.Length > 0)
            unit = " " + unit;
        double low = shown(spread.Quantile(0.025));
        double high = shown(spread.Quantile(0.975));
        if (!double.IsFinite(low) || !double.IsFinite(high) || !double.IsFinite(shown(spread.Median)))
            return null;

        // Of an interval without width, three figures of what lies in it.
        double step = high > low ? StepOfInterval * (high - low) : 0.01 * Math.Abs(high);
        return si => shown(si).ToString(Format(step, Math.Abs(shown(si))), CultureInfo.InvariantCulture);
    }

    private static string Format(double step, double size)
    {
        double finest = Math.Min(step > 0 ? step : double.PositiveInfinity, size > 0 ? StepOfValue * size : double.PositiveInfinity);
        int decimals = double.IsFinite(finest) ? (int)Math.Clamp(Math.Ceiling(-Math.Log10(finest) - 1e-9), 0, MostDecimals) : 0;
        return "F" + decimals.ToString(CultureInfo.InvariantCulture);
    }

    private static (string Unit, Func<double, double> Shown) Shown(StrainingInput input, double median, DisplayUnits units)
    {
        if (s_shares.Contains(input))
            return Math.Abs(median) < SmallShare ? ("g/kg", si => 1000 * si) : ("%", si => 100 * si);

        Scale? scale = input.Unit switch
        {
            "m" => Math.Abs(median) is > 0 and < SmallLengthM ? new("µm", 1e6) : UnitScales.Length(units),
            "m³" => UnitScales.Volume(units),
            _ => null,
        };
        return scale is not null
            ? (scale.Unit, scale.Of)
            : input.Unit == "K" ? (UnitScales.TemperatureUnit(units), si => UnitScales.TemperatureOfK(units, si)) : (input.Unit, si => si);
    }
}
