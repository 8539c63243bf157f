using System.Globalization;

namespace FlowSim;

/// <summary>Where a correlation may be used: the one home of its limits.</summary>
/// <remarks>
/// Between <see cref="Low"/> and <see cref="High"/> the correlation is supported by data. Out to
/// <see cref="OuterLow"/> and <see cref="OuterHigh"/> it is extrapolated and says so. Beyond that it is refused when a
/// property is asked for directly.
/// </remarks>
/// <param name="Correlation">Name of the correlation, as in notices.</param>
/// <param name="Symbol">Symbol or name of the variable.</param>
/// <param name="Unit">Unit of the four limits, as printed.</param>
/// <param name="Low">Lowest supported value.</param>
/// <param name="High">Highest supported value.</param>
/// <param name="OuterLow">Lowest value that is extrapolated to.</param>
/// <param name="OuterHigh">Highest value that is extrapolated to.</param>
/// <exception cref="ArgumentNullException">A text is missing.</exception>
/// <exception cref="ArgumentException">The limits are not in the order outer low, low, high, outer high, or one is not a number.</exception>
public sealed record ValidityRange(
    string Correlation,
    string Symbol,
    string Unit,
    double Low,
    double High,
    double OuterLow,
    double OuterHigh)
{
    /// <summary>Name of the correlation, as in notices.</summary>
    public string Correlation { get; } = EquipmentCheck.Present(Correlation);

    /// <summary>Symbol or name of the variable.</summary>
    public string Symbol { get; } = EquipmentCheck.Present(Symbol);

    /// <summary>Unit of the four limits, as printed; empty for a plain number.</summary>
    public string Unit { get; } = EquipmentCheck.Present(Unit);

    /// <summary>Lowest supported value.</summary>
    public double Low { get; } = InOrder(OuterLow, Low, nameof(Low));

    /// <summary>Highest supported value.</summary>
    public double High { get; } = InOrder(Low, High, nameof(High));

    /// <summary>Lowest value that is extrapolated to.</summary>
    public double OuterLow { get; } = OuterLow;

    /// <summary>Highest value that is extrapolated to.</summary>
    public double OuterHigh { get; } = InOrder(High, OuterHigh, nameof(OuterHigh));

    /// <summary>A range without an extrapolation margin.</summary>
    /// <param name="correlation">Name of the correlation.</param>
    /// <param name="symbol">Symbol of the variable.</param>
    /// <param name="unit">Unit of the limits.</param>
    /// <param name="low">Lowest value.</param>
    /// <param name="high">Highest value.</param>
    public ValidityRange(string correlation, string symbol, string unit, double low, double high)
        : this(correlation, symbol, unit, low, high, low, high)
    {
    }

    /// <summary>Whether data support <paramref name="value"/>. False for NaN.</summary>
    /// <param name="value">Value in <see cref="Unit"/>.</param>
    public bool Supports(double value) => value >= Low && value <= High;

    /// <summary>Whether <paramref name="value"/> may be used at all, perhaps by extrapolation. False for NaN.</summary>
    /// <param name="value">Value in <see cref="Unit"/>.</param>
    public bool Admits(double value) => value >= OuterLow && value <= OuterHigh;

    /// <summary>A notice when <paramref name="value"/> is not supported, else null.</summary>
    /// <param name="value">Value in <see cref="Unit"/>.</param>
    public Notice? NoticeFor(double value) => Supports(value)
        ? null
        : new Notice(
            "range." + Correlation + "." + Symbol,
            string.Create(CultureInfo.InvariantCulture, $"{Symbol} = {value:0.####}{SpacedUnit} is outside {Low:0.####} to {High:0.####}{SpacedUnit}, the range of {Correlation}"),
            Admits(value)
                ? "the figure is extrapolated and its error is not known"
                : "the figure is beyond what the correlation can be stretched to and means little",
            "bring the value inside the range, or measure this honey and give the figures");

    /// <summary>Throws when <paramref name="value"/> is outside the outer limits.</summary>
    /// <param name="value">Value in <see cref="Unit"/>.</param>
    /// <param name="parameterName">Name of the argument to blame.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is outside the outer limits or NaN.</exception>
    public void Require(double value, string parameterName)
    {
        if (Admits(value))
            return;

        throw new ArgumentOutOfRangeException(
            parameterName,
            value,
            string.Create(CultureInfo.InvariantCulture, $"{Symbol} must be within {OuterLow:0.####} to {OuterHigh:0.####}{SpacedUnit} for {Correlation}; nearest: {Math.Clamp(double.IsNaN(value) ? Low : value, OuterLow, OuterHigh):0.####}{SpacedUnit}."));
    }

    private static double InOrder(double lower, double value, string name) => value >= lower
        ? value
        : throw EquipmentCheck.Refused(name, string.Create(CultureInfo.InvariantCulture, $"{name} is {value}; it must be a number and at least the limit below it, {lower}."));

    // Dimensionless ranges have an empty unit.
    private string SpacedUnit => Unit.Length == 0 ? string.Empty : " " + Unit;
}
