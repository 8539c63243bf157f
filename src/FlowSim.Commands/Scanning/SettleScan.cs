using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Settling;

namespace FlowSim.Commands.Scanning;

/// <summary>What a scan of settling runs and tells.</summary>
internal static class SettleScan
{
    /// <summary>What a run does that ends badly.</summary>
    public const string Verdict = "Not clear";

    /// <summary>Reads and runs one input.</summary>
    /// <param name="loaded">Input.</param>
    /// <param name="cancellation">Ends the run.</param>
    public static SettlingResult Run(Loaded loaded, CancellationToken cancellation)
    {
        SettleInput input = Loader.ReadSettling(loaded);
        return Loader.Guard(loaded, () => SettlingRun.Simulate(input.Setup, input.Options with { SeriesPoints = 0, ProfileTimes = [] }, cancellation));
    }

    /// <summary>Whether it is not clear when it has stood.</summary>
    /// <param name="result">Run.</param>
    public static bool IsNotClear(SettlingResult result) => result.Status != SettlingStatus.Clear;

    /// <summary>What is told of each run; names as of one run.</summary>
    public static IReadOnlyList<ScanColumn<SettlingResult>> Columns() =>
    [
        new("clearAfterSeconds", "clear_after_s", run => run.ClearAfter?.Seconds)
        {
            Head = "clear after",
            Text = run => run.ClearAfter is { } at ? Display.Time(at.Seconds) : "-",
            Curve = new("until it is clear", CurveMeasure.Time),
        },
        new("bubblesLeftShare", "bubbles_left_share", run => run.Bubbles?.Left.DecimalFractions)
        {
            Head = "bubbles left",
            Text = run => run.Bubbles is { } bubbles ? SettlingText.Left(bubbles.Left) : "-",
            Curve = new("bubbles left", CurveMeasure.Share),
        },
        new("debrisLeftShare", "debris_left_share", run => run.Debris?.Left.DecimalFractions)
        {
            Head = "debris left",
            Text = run => run.Debris is { } debris ? SettlingText.Left(debris.Left) : "-",
            Curve = new("debris left", CurveMeasure.Share),
        },
        new("scumM", "scum_m", run => run.Scum.Thickness.Meters) { Curve = new("scum", CurveMeasure.Length) },
        new("scumHoneyShare", "scum_honey_share", run => run.Scum.HoneyShare.DecimalFractions)
        {
            Head = "honey in scum",
            Text = run => Display.Share(run.Scum.HoneyShare.DecimalFractions),
        },
        new("status", "status", run => Words.Of(run.Status)) { Head = "outcome", Text = run => Words.Of(run.Status) },
    ];
}
