using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Output;

/// <summary>How one series of readings is met, as text.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class SeriesFitText(IPage page, Display display)
{
    /// <summary>Factor on the variance from which it is told that residuals go together. Engineering choice.</summary>
    private const double Told = 1.1;

    /// <summary>Writes the lines of a series.</summary>
    /// <param name="fit">Series.</param>
    /// <param name="named">Whether the run is named.</param>
    public void Write(SeriesFit fit, bool named)
    {
        TimedSeries series = fit.Series;
        string name = series.Name.Length > 0 ? series.Name : Input.Words.Of(series.Quantity);
        string outliers = fit.Outliers == 0 ? "none further off than three times that"
            : string.Create(CultureInfo.InvariantCulture, $"{fit.Outliers} further off than three times that, which count for little");
        page.Item("- ", string.Create(CultureInfo.InvariantCulture, $"{(named ? Printable.Of(fit.Run) + ", " : string.Empty)}{Printable.Of(name)}: {fit.Readings.Count} readings, scatter {Amount(fit.Noise)}, {outliers}; {Math.Floor(1e4 * fit.Explained) / 100:0.##} % of what changes is explained."));
        page.Item("  ", $"Clock {Signed(fit.Clock.Value.Seconds, s => Display.Time(s))} ± {Display.Time(fit.Clock.Sd.Seconds)} against the opening of the gate; zero {Signed(fit.Zero.Value, Amount)} ± {Amount(fit.Zero.Sd)}.");
        if (fit.Inflation >= Told)
            page.Item("  ", string.Create(CultureInfo.InvariantCulture, $"Readings next to each other lie off to the same side (correlation {fit.Autocorrelation:0.##}): the model misses something of the course; the variance counts {fit.Inflation:0.0} times for it."));

        string Amount(double si) => HeadingGrammar.DimensionOf(series.Quantity) switch
        {
            Dimension.Mass => display.Mass(si),
            Dimension.Volume => display.Volume(si),
            _ => display.Length(si),
        };
    }

    private static string Signed(double value, Func<double, string> text)
    {
        string amount = text(Math.Abs(value));
        return amount.StartsWith("0 ", StringComparison.Ordinal) ? amount : (value < 0 ? "−" : "+") + amount;
    }
}
