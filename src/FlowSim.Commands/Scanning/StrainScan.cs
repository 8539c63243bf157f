using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Straining;

namespace FlowSim.Commands.Scanning;

/// <summary>What a scan of straining runs and tells.</summary>
internal static class StrainScan
{
    /// <summary>What a run does that ends badly.</summary>
    public const string Verdict = "Strainer or receiver runs over";

    /// <summary>Reads and runs one input.</summary>
    /// <param name="loaded">Input.</param>
    /// <param name="cancellation">Ends the run.</param>
    public static StrainingResult Run(Loaded loaded, CancellationToken cancellation)
    {
        StrainInput input = Loader.ReadSettledRun(loaded);
        return Loader.Guard(loaded, () => StrainingRun.Simulate(input.Setup, input.Options with { SeriesPoints = 0 }, cancellation));
    }

    /// <summary>Whether something runs over.</summary>
    /// <param name="result">Run.</param>
    public static bool RunsOver(StrainingResult result) => result.Overflows.Count > 0 || result.Masses.SpilledAtReceiver.Kilograms > 0;

    /// <summary>What is told of each run; names as of one run.</summary>
    /// <param name="display">Units.</param>
    public static IReadOnlyList<ScanColumn<StrainingResult>> Columns(Display display) =>
    [
        new("drainSeconds", "drain_s", result => result.Drain.To95?.Seconds) { Curve = new("95 % drained", CurveMeasure.Time) { InGrid = false } },
        new("strainSeconds", "strain_s", result => result.Strain.To95?.Seconds) { Head = "95 % strained", Text = result => Time(result.Strain.To95), Curve = new("95 % strained", CurveMeasure.Time) },
        new("peakPondM", "peak_pond_m", result => result.PeakPond.Meters)
        {
            Head = "deepest pond",
            Text = result => display.Length(result.PeakPond.Meters),
            Curve = new("deepest pond", CurveMeasure.Length) { Limit = result => result.Setup.Strainer.Shape.RimHeight.Meters, LimitName = "rim" },
        },
        new("firstOverflowSeconds", "first_overflow_s", result => result.FirstOverflow?.Seconds) { Head = "over the rim", Text = result => Time(result.FirstOverflow) },
        new("status", "status", result => Words.Of(result.Status)) { Head = "outcome", Text = result => Words.Of(result.Status) },
        new("ending", "ending", result => Words.Of(result.Ending)),
        new("elapsedSeconds", "elapsed_s", result => result.Elapsed.Seconds),
        new("rimM", "rim_m", result => result.Setup.Strainer.Shape.RimHeight.Meters),
        new("receiverFullSeconds", "receiver_full_s", result => result.ReceiverFullAt?.Seconds),
        new("startKg", "start_kg", result => result.Masses.Start.Kilograms),
        new("strainedKg", "strained_kg", result => result.Masses.Strained.Kilograms),
        new("bypassedKg", "bypassed_kg", result => result.Masses.Bypassed.Kilograms),
        new("spilledKg", "spilled_kg", result => result.Masses.Spilled.Kilograms),
        new("heldKg", "held_kg", result => result.Masses.Held.Kilograms),
        new("viscosityPaS", "viscosity_Pa_s", result => result.StartViscosity.PascalSeconds),
    ];

    private static string Time(UnitsNet.Duration? time) => time is { } reached ? Display.Time(reached.Seconds) : "-";
}
