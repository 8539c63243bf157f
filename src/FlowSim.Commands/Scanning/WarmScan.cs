using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Warming;

namespace FlowSim.Commands.Scanning;

/// <summary>What a scan of warming runs and tells.</summary>
internal static class WarmScan
{
    /// <summary>What a run does that ends badly.</summary>
    public const string Verdict = "Targets missed";

    /// <summary>Reads and runs one input, between its bounds.</summary>
    /// <param name="loaded">Input.</param>
    /// <param name="cancellation">Ends the run.</param>
    public static WarmingBounds Run(Loaded loaded, CancellationToken cancellation)
    {
        WarmInput input = Loader.ReadWarming(loaded);
        return Loader.Guard(loaded, () => WarmingBounds.Of(input.Setup, input.Options with { SeriesPoints = 0, MapTimes = [] }, cancellation));
    }

    /// <summary>Whether the targets are missed.</summary>
    /// <param name="bounds">Run.</param>
    public static bool Misses(WarmingBounds bounds) => bounds.Best.TimeToTarget is null;

    /// <summary>What is told of each run; names as of one run.</summary>
    /// <param name="display">Units.</param>
    public static IReadOnlyList<ScanColumn<WarmingBounds>> Columns(Display display) =>
    [
        new("timeToTargetSeconds", "time_to_target_s", run => run.Best.TimeToTarget?.Seconds)
        {
            Head = "reached after",
            Text = run => run.Best.TimeToTarget is { } at ? Display.Time(at.Seconds) : "-",
            Curve = new("until the targets", CurveMeasure.Time) { Low = run => run.TimeToTargetLow?.Seconds, High = run => run.TimeToTargetHigh?.Seconds, BandName = "stirred to conduction alone" },
        },
        new("timeToTargetLowSeconds", "time_to_target_low_s", run => run.TimeToTargetLow?.Seconds),
        new("timeToTargetHighSeconds", "time_to_target_high_s", run => run.TimeToTargetHigh?.Seconds),
        new("coldestK", "coldest_K", run => run.Best.End.Coldest.Kelvins) { Head = "coldest", Text = run => display.Temperature(run.Best.End.Coldest.Kelvins), Curve = new("coldest", CurveMeasure.Temperature) },
        new("meanK", "mean_K", run => run.Best.End.Mean.Kelvins),
        new("hottestHoneyK", "hottest_honey_K", run => run.Best.HottestHoney.Kelvins),
        new("wallMaxK", "wall_max_K", run => run.Best.HottestWall.Temperature.Kelvins) { Head = "hottest wall", Text = run => display.Temperature(run.Best.HottestWall.Temperature.Kelvins), Curve = new("hottest wall", CurveMeasure.Temperature) },
        new("energyJ", "energy_J", run => run.Best.Energy.Heater.Joules) { Curve = new("heat", CurveMeasure.Energy) },
        new("hmfGainLow", "hmf_gain_low_mg_per_kg", run => run.Best.Damage.HmfGainLow.MilligramsPerKilogram),
        new("hmfGain", "hmf_gain_mg_per_kg", run => run.Best.Damage.HmfGain.MilligramsPerKilogram)
        {
            Head = "HMF, mg/kg",
            Text = run => "+ " + Display.Hmf(run.Best.Damage.HmfGain.MilligramsPerKilogram),
            Curve = new("HMF gained", CurveMeasure.Content) { Low = run => run.Best.Damage.HmfGainLow.MilligramsPerKilogram, High = run => run.Best.Damage.HmfGainHigh.MilligramsPerKilogram, BandName = "published laws" },
        },
        new("hmfGainHigh", "hmf_gain_high_mg_per_kg", run => run.Best.Damage.HmfGainHigh.MilligramsPerKilogram),
        new("diastaseLeftLow", "diastase_left_low_share", run => run.Best.Damage.DiastaseLeftLow.DecimalFractions),
        new("diastaseLeft", "diastase_left_share", run => run.Best.Damage.DiastaseLeft.DecimalFractions),
        new("diastaseLeftHigh", "diastase_left_high_share", run => run.Best.Damage.DiastaseLeftHigh.DecimalFractions),
        new("status", "status", run => Words.Of(run.Best.Status)) { Head = "outcome", Text = run => Words.Of(run.Best.Status) },
    ];
}
