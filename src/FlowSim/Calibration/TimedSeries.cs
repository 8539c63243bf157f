using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Calibration;

/// <summary>Readings of one quantity over a run, with what is known of the clock and the scale that gave them.</summary>
public sealed record TimedSeries
{
    /// <summary>What was read.</summary>
    public required StrainingObservable Quantity { get; init; }

    /// <summary>The readings, by time: at least 4, at most 100 000, times not falling. Gaps and outliers may be left in.</summary>
    public required IReadOnlyList<TimedReading> Readings { get; init; }

    /// <summary>
    /// How far the clock of the readings may be off against the opening of the gate: one standard deviation. 0 (they share a clock) to 1 h. Default
    /// 5 s (engineering choice: a watch started by hand).
    /// </summary>
    public Duration ClockOffset { get; init; } = Duration.FromSeconds(5);

    /// <summary>
    /// How far the zero of the scale may be off, in the unit of the readings: one standard deviation. 0 or more; null for the common one
    /// (<see cref="CommonZeroOffset"/>). A scale that shows vessel and honey together wants a large one.
    /// </summary>
    public double? ZeroOffset { get; init; }

    /// <summary>Smallest difference the scale shows, in the unit of the readings; null to find it from the readings.</summary>
    public double? Resolution { get; init; }

    /// <summary>Where it comes from, for messages, such as a column's heading; empty for the quantity's own name.</summary>
    public string Name { get; init; } = string.Empty;

    /// <summary>The zero offset of a quantity where none is given (engineering choice): 2 mm, 0.1 kg, 0.1 L.</summary>
    /// <param name="quantity">Quantity.</param>
    public static double CommonZeroOffset(StrainingObservable quantity) => QuantityFacts.Of(quantity).ZeroOffset;

    /// <summary>Its name, or its quantity's.</summary>
    internal string Label => Name.Length > 0 ? Name : Quantity.ToString();
}

/// <summary>One reading.</summary>
/// <param name="At">Time since the opening of the gate, by the clock of the readings.</param>
/// <param name="Value">Value, SI: m, kg or m³ as <see cref="StrainingObservable"/> says.</param>
public readonly record struct TimedReading(Duration At, double Value);
