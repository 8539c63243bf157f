using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Scanning;

/// <summary>What a scan of chances runs and tells.</summary>
internal static class RiskScan
{
    /// <summary>What a run does that ends badly.</summary>
    public const string Verdict = "Chance of an overflow above the tolerance";

    /// <summary>Reads and answers one input.</summary>
    /// <param name="loaded">Input.</param>
    /// <param name="prepare">Changes the question before it is put.</param>
    /// <param name="cancellation">Ends the runs.</param>
    public static RiskAnswer Run(Loaded loaded, Func<RiskInput, RiskInput> prepare, CancellationToken cancellation)
    {
        RiskInput input = prepare(Loader.ReadRisk(loaded));
        return Loader.Guard(loaded, () => RiskAnalysis.Of(input.Question, progress: null, cancellation));
    }

    /// <summary>Whether the chance, by its best estimate, is above the tolerance.</summary>
    /// <param name="answer">Answer.</param>
    public static bool IsAbove(RiskAnswer answer) => answer.Overflow.Value > answer.Question.Tolerance.DecimalFractions;

    /// <summary>What is told of each answer; names as of one answer.</summary>
    public static IReadOnlyList<ScanColumn<RiskAnswer>> Columns() =>
    [
        new("overflowProbability", "overflow_probability", answer => answer.Overflow.Value)
        {
            Head = "runs over",
            Text = answer => answer.Overflow.Value > 0 ? ChanceText.Words(answer.Overflow.Value) : "< " + ChanceText.Words(answer.Overflow.High),
            Curve = new("chance of an overflow", CurveMeasure.Share) { Low = answer => answer.Overflow.Low, High = answer => answer.Overflow.High, BandName = "95 % interval", Limit = answer => answer.Question.Tolerance.DecimalFractions, LimitName = "tolerance" },
        },
        new("overflowProbabilityLow", "overflow_probability_low", answer => answer.Overflow.Low),
        new("overflowProbabilityHigh", "overflow_probability_high", answer => answer.Overflow.High),
        new("longestAbsenceSeconds", "longest_absence_s", answer => answer.Absence.Longest?.Seconds) { Head = "look away", Text = answer => answer.Absence.Longest is { } longest ? Display.TimeAtMost(longest.Seconds) : "whole run" },
        new("widestOpening", "widest_opening_share", answer => answer.WidestOpening.Opening.DecimalFractions) { Head = "gate at most", Text = answer => answer.WidestOpening.Opening.DecimalFractions > 0 ? Display.Share(answer.WidestOpening.Opening.DecimalFractions) : "none" },
        new("scrapeEverySeconds", "scrape_every_s", answer => answer.Scraping.Every?.Seconds),
        new("rideDepthM", "ride_depth_m", answer => answer.Riding.Deepest?.Meters),
        new("drainSecondsP10", "drain_p10_s", answer => answer.Drain.P10?.Seconds),
        new("drainSecondsP50", "drain_p50_s", answer => answer.Drain.P50?.Seconds),
        new("drainSecondsP90", "drain_p90_s", answer => answer.Drain.P90?.Seconds),
        new("strainSecondsP10", "strain_p10_s", answer => answer.Strain.P10?.Seconds),
        new("strainSecondsP50", "strain_p50_s", answer => answer.Strain.P50?.Seconds)
        {
            Head = "half strained",
            Text = answer => answer.Strain.P50 is { } half ? Display.RoughTime(half.Seconds) : "-",
            Curve = new("95 % strained", CurveMeasure.Time) { Low = answer => answer.Strain.P10?.Seconds, High = answer => answer.Strain.P90?.Seconds },
        },
        new("strainSecondsP90", "strain_p90_s", answer => answer.Strain.P90?.Seconds),
        new("bypassProbability", "bypass_probability", answer => answer.Bypass.Value),
        new("spillProbability", "spill_probability", answer => answer.Spill.Value),
        new("runs", "runs", answer => (double)answer.Runs),
    ];
}
