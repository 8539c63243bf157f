using FlowSim.Calibration;
using FlowSim.Commands.Quantities;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>What is known of clock and scales that gave readings.</summary>
internal sealed record ScaleFacts
{
    /// <summary>Standard deviation of the clock's start, s; null for the common one.</summary>
    public double? ClockS { get; init; }

    /// <summary>Standard deviation of a zero, SI, by what is measured; null for the common one.</summary>
    public required Func<Dimension, double?> Zero { get; init; }

    /// <summary>Smallest difference that is read, SI, by what is measured; null to find it from the readings.</summary>
    public required Func<Dimension, double?> Resolution { get; init; }

    /// <summary>Standard deviation of the zero of a quantity, SI.</summary>
    /// <param name="quantity">Quantity.</param>
    public double ZeroOf(StrainingObservable quantity) => Zero(Timed.HeadingGrammar.DimensionOf(quantity)) ?? TimedSeries.CommonZeroOffset(quantity);

    /// <summary>A series of readings with what is known of its clock and scale.</summary>
    /// <param name="column">Column of readings.</param>
    public TimedSeries SeriesOf(Timed.RunColumn column)
    {
        Dimension dimension = Timed.HeadingGrammar.DimensionOf(column.Quantity);
        TimedSeries series = new() { Quantity = column.Quantity, Readings = column.Readings, ZeroOffset = Zero(dimension), Resolution = Resolution(dimension), Name = column.Heading };
        return ClockS is { } clock ? series with { ClockOffset = Duration.FromSeconds(clock) } : series;
    }
}

/// <summary>Reads <c>[fit]</c>.</summary>
internal static class FitReader
{
    /// <summary>Reads the section.</summary>
    /// <param name="section">The section.</param>
    public static ScaleFacts Read(Section section)
    {
        double? clock = section.Quantity(Keys.Fit.Clock);
        double?[] zeros = [section.Quantity(Keys.Fit.LevelZero), section.Quantity(Keys.Fit.MassZero), section.Quantity(Keys.Fit.VolumeZero)];
        double?[] steps = [section.Quantity(Keys.Fit.LevelResolution), section.Quantity(Keys.Fit.MassResolution), section.Quantity(Keys.Fit.VolumeResolution)];
        section.RefuseStrangers();
        return new ScaleFacts { ClockS = clock, Zero = dimension => zeros[At(dimension)], Resolution = dimension => steps[At(dimension)] };
    }

    private static int At(Dimension dimension) => dimension switch
    {
        Dimension.Mass => 1,
        Dimension.Volume => 2,
        _ => 0,
    };
}
