using System.Collections.Concurrent;
using FlowSim.Properties;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>Straining at a temperature with the widest opening within the overflow limit.</summary>
/// <param name="Opening">Opening, share of the bore; 0 when none is within the limit.</param>
/// <param name="Seconds">Time to 95 % strained, or to a full receiver, s; null when it never gets there.</param>
internal readonly record struct StrainingAtATemperature(double Opening, double? Seconds)
{
    /// <summary>Whether honey of this temperature can be strained at all.</summary>
    public bool Works => Opening > 0 && Seconds is not null;
}

/// <summary>Straining by temperature, in tenths of a degree; each is computed once.</summary>
internal sealed class StrainingTable(SetpointQuestion question, CancellationToken cancellation)
{
    private static readonly StrainingOptions s_quick = new() { SeriesPoints = 0, RelativeTolerance = 1e-6 };

    /// <summary>Where the viscosity is known.</summary>
    private readonly ValidityRange _range = HoneyProperties.Of(question.Warming.Honey).Viscosity.TemperatureRange;

    private readonly ConcurrentDictionary<int, StrainingAtATemperature> _known = new();

    /// <summary>Warmest honey whose viscosity is known, °C.</summary>
    public double WarmestC => _range.OuterHigh;

    /// <summary>Straining at a temperature, taken at the nearest tenth of a degree.</summary>
    /// <param name="celsius">Temperature, °C.</param>
    public StrainingAtATemperature At(double celsius) => _known.GetOrAdd((int)Math.Round(10 * celsius), Compute);

    /// <summary>The setup at a temperature.</summary>
    /// <param name="temperature">Temperature of the honey.</param>
    public StrainingSetup Setup(Temperature temperature) => question.Straining with
    {
        Honey = question.Warming.Honey,
        HoneyTemperature = temperature,
    };

    /// <summary>Time that counts as that of straining, s; null when it never gets there.</summary>
    public static double? SecondsOf(StrainingResult result) =>
        result.Strain.To95?.Seconds ?? (result.Ending == StrainingStatus.ReceiverFull ? result.ReceiverFullAt?.Seconds : null);

    private StrainingAtATemperature Compute(int tenths)
    {
        if (!_range.Admits(tenths / 10.0))
            return default;

        StrainingSetup setup = Setup(Temperature.FromDegreesCelsius(tenths / 10.0));
        Ratio opening = question.Limits.Overflow.WidestOpeningFor(setup, cancellation);
        if (!(opening > Ratio.Zero))
            return default;

        StrainingResult result = StrainingRun.Simulate(setup with { Control = GateControl.LeaveAt(opening) }, s_quick, cancellation);
        return new StrainingAtATemperature(opening.DecimalFractions, SecondsOf(result));
    }
}
