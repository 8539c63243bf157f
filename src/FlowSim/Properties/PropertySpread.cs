using System.Globalization;

namespace FlowSim.Properties;

/// <summary>How the spread of a property is counted.</summary>
public enum SpreadKind
{
    /// <summary>Plus or minus, in the unit of the property.</summary>
    Absolute,

    /// <summary>Plus or minus, in percent of the value.</summary>
    Percent,

    /// <summary>Multiplied or divided by.</summary>
    Factor,

    /// <summary>Not known here: it is that of the user's own measurement.</summary>
    OfMeasurement,
}

/// <summary>How far a property may lie from its stated value: about one standard deviation where a distribution is known, else the half-width of the published figures.</summary>
/// <param name="Kind">How it is counted.</param>
/// <param name="Amount">Amount, in the sense of <paramref name="Kind"/>; 0 for <see cref="SpreadKind.OfMeasurement"/>.</param>
public sealed record PropertySpread(SpreadKind Kind, double Amount)
{
    /// <summary>Lowest and highest value that the spread reaches.</summary>
    /// <param name="value">Stated value, finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite, or one of the two comes out beyond all numbers.</exception>
    public (double Low, double High) Around(double value)
    {
        (double low, double high) = Kind switch
        {
            SpreadKind.Absolute => (value - Amount, value + Amount),
            SpreadKind.Percent => (value * (1 - Amount / 100), value * (1 + Amount / 100)),
            SpreadKind.Factor => (value / Amount, value * Amount),
            _ => (value, value),
        };
        return double.IsFinite(low) && double.IsFinite(high)
            ? (low, high)
            : throw new ArgumentOutOfRangeException(nameof(value), value, $"The value must be a finite number to which the spread {this} can be applied.");
    }

    /// <inheritdoc/>
    public override string ToString() => Kind switch
    {
        SpreadKind.Absolute => string.Create(CultureInfo.InvariantCulture, $"± {Amount:0.####}"),
        SpreadKind.Percent => string.Create(CultureInfo.InvariantCulture, $"± {Amount:0.#} %"),
        SpreadKind.Factor => string.Create(CultureInfo.InvariantCulture, $"×/÷ {Amount:0.00}"),
        _ => "as measured",
    };
}
