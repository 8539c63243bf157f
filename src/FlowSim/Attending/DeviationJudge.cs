using FlowSim.Calibration;
using FlowSim.Straining;

namespace FlowSim.Attending;

/// <summary>Judges a reading by what could be expected of it.</summary>
public static class DeviationJudge
{
    /// <summary>Standard deviations within which a reading is as expected (engineering choice: of good readings one in twenty is further off).</summary>
    public const double AsExpected = 2;

    /// <summary>Standard deviations from which a slip of the rule or the fingers is likelier than the run (engineering choice).</summary>
    public const double Unlikely = 4;

    /// <summary>What deviations mean: the furthest one counts.</summary>
    /// <param name="deviations">Deviations of the last readings.</param>
    public static RunVerdict Of(IReadOnlyList<ReadingDeviation> deviations)
    {
        ArgumentNullException.ThrowIfNull(deviations);
        if (deviations.Count == 0)
            return RunVerdict.NoReading;
        ReadingDeviation furthest = deviations.MaxBy(deviation => Math.Abs(deviation.StandardDeviations))!;
        if (!(Math.Abs(furthest.StandardDeviations) <= Unlikely))
            return RunVerdict.CheckTheReading;
        if (Math.Abs(furthest.StandardDeviations) <= AsExpected)
            return RunVerdict.AsExpected;
        bool higher = furthest.StandardDeviations > 0;
        return furthest.Quantity switch
        {
            StrainingObservable.PondDepth => higher ? RunVerdict.PondDeeper : RunVerdict.PondShallower,
            StrainingObservable.TankLevel or StrainingObservable.TankMass or StrainingObservable.TankVolume => higher ? RunVerdict.Slower : RunVerdict.Faster,
            _ => higher ? RunVerdict.Faster : RunVerdict.Slower,
        };
    }

    /// <summary>A reading beside what draws made it.</summary>
    /// <param name="reading">Reading.</param>
    /// <param name="quantity">Quantity.</param>
    /// <param name="shown">What the scale would show in each draw, sorted.</param>
    /// <param name="noise">What else may move a reading: one standard deviation.</param>
    internal static ReadingDeviation Judge(in TimedReading reading, StrainingObservable quantity, double[] shown, double noise)
    {
        // Each side has its own width: a run may be much slower than expected, but not much faster than at once.
        double middle = Quantiles.Of(shown, 0.5);
        double side = reading.Value >= middle ? Quantiles.Of(shown, 0.8413) - middle : middle - Quantiles.Of(shown, 0.1587);
        double sd = Math.Sqrt((side * side) + (noise * noise));
        double off = Math.Clamp((reading.Value - middle) / Math.Max(sd, 1e-12), -1e6, 1e6);
        return new ReadingDeviation(quantity, reading.At, reading.Value, middle, off);
    }
}
