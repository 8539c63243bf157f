using System.Text.Json;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Tests.Straining;

/// <summary>
/// Runs against the same equations, written a second time from the text of the model and integrated by SciPy (DOP853, rtol
/// 1e-13; estimated error at most a few 1e-9). Script: <c>benches/peers/reference_straining.py</c>; results:
/// <c>Reference/expected.json</c>.
/// </summary>
public class ReferenceTests
{
    /// <summary>Tolerance on times, levels and masses, relative.</summary>
    private const double Relative = 1e-6;

    /// <summary>Masses below this share of the tank's are compared to this share of it instead of to themselves.</summary>
    private const double SmallShare = 1e-3;

    /// <summary>The time of a smooth peak is known only to about the root of the error of its depth.</summary>
    private const double PeakTimeRelative = 1e-3;

    public static TheoryData<string> Names => [.. ReferenceBatches.Names];

    [Fact]
    public void At_least_twenty_batches_are_compared() => Assert.True(ReferenceBatches.Names.Count() >= 20);

    [Theory]
    [MemberData(nameof(Names))]
    public void A_run_agrees_with_an_independent_integration(string name)
    {
        JsonElement expected = ReferenceBatches.Figures(name);
        StrainingResult result = StrainingRun.Simulate(ReferenceBatches.Setup(name), new StrainingOptions { SeriesPoints = 0 });
        var differences = new List<string>();

        void Check(string key, double? actual, double? floor = null, double tolerance = Relative)
        {
            JsonElement e = expected.GetProperty(key);
            double? wanted = e.ValueKind == JsonValueKind.Number ? e.GetDouble() : null;
            if (wanted is null || actual is null)
            {
                if (wanted is not null || actual is not null)
                    differences.Add($"{key}: {(actual is null ? "none" : $"{actual:r}")} where {(wanted is null ? "none" : $"{wanted:r}")} is expected");
                return;
            }

            double scale = Math.Max(Math.Abs(wanted.Value), floor ?? 0);
            if (!(Math.Abs(actual.Value - wanted.Value) <= tolerance * scale))
                differences.Add($"{key}: {actual.Value:r} where {wanted.Value:r} is expected, {(actual.Value - wanted.Value) / scale:g2} relative");
        }

        MassAccount m = result.Masses;
        double small = SmallShare * m.Start.Kilograms;
        if (expected.GetProperty("status").GetString() != Kebab(result.Status))
            differences.Add($"status: {result.Status} where {expected.GetProperty("status")} is expected");
        if (expected.GetProperty("ending").GetString() != Kebab(result.Ending))
            differences.Add($"ending: {result.Ending} where {expected.GetProperty("ending")} is expected");
        Check("drain50S", result.Drain.To50?.Seconds);
        Check("drain90S", result.Drain.To90?.Seconds);
        Check("drain95S", result.Drain.To95?.Seconds);
        Check("drain99S", result.Drain.To99?.Seconds);
        Check("drainHeelS", result.DrainToHeel?.Seconds);
        Check("strain50S", result.Strain.To50?.Seconds);
        Check("strain90S", result.Strain.To90?.Seconds);
        Check("strain95S", result.Strain.To95?.Seconds);
        Check("strain99S", result.Strain.To99?.Seconds);
        Check("peakPondDepthM", result.PeakPond.Meters);
        Check("peakPondTimeS", result.PeakPondAt.Seconds, tolerance: PeakTimeRelative);
        Check("firstOverflowS", result.FirstOverflow?.Seconds);
        Check("receiverFullS", result.ReceiverFullAt?.Seconds);
        Check("endS", result.Elapsed.Seconds);
        Check("tankStartKg", m.Start.Kilograms);
        Check("drainableKg", m.CanDrain.Kilograms);
        Check("strainedInReceiverKg", m.Strained.Kilograms, small);
        Check("bypassedInReceiverKg", m.Bypassed.Kilograms, small);
        Check("spilledOverRimKg", m.SpilledAtStrainer.Kilograms, small);
        Check("ranOverReceiverKg", m.SpilledAtReceiver.Kilograms, small);
        Check("tankBulkKg", m.HeldInTank.Kilograms, small);
        Check("tankFilmKg", m.HeldInFilm.Kilograms, small);
        Check("pondKg", m.HeldOnCloth.Kilograms, small);
        Check("tankTemperatureK", result.EndTemperatures.Tank.Kelvins);
        Check("pondTemperatureK", result.EndTemperatures.Pond.Kelvins);
        Check("receiverTemperatureK", result.EndTemperatures.Receiver.Kelvins);
        CheckList("openShares", expected, result.Blinded.Select(b => 1 - b.DecimalFractions), differences);
        CheckList("scrapeTimesS", expected, result.Scrapes.Select(s => s.Seconds), differences);

        Assert.True(differences.Count == 0, name + Environment.NewLine + string.Join(Environment.NewLine, differences));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_series_passes_through_the_reference_states(string name)
    {
        // The run is cut at the reference time, which must not change what came before. A state on the way, right after a kink of
        // a tank's wall, is held to 1e-6 at a tolerance one step tighter than the default.
        var options = new StrainingOptions { SeriesPoints = 2, RelativeTolerance = 1e-9 };
        StrainingSetup setup = ReferenceBatches.Setup(name);
        foreach (JsonElement state in ReferenceBatches.States(name))
        {
            double t = state.GetProperty("timeS").GetDouble();
            if (t < 1)
                continue; // Shorter than the shortest run that can be asked for.
            StrainingSeries s = StrainingRun.Simulate(setup with { Longest = Duration.FromSeconds(t) }, options).Series;
            double start = s.TankMassKg[0];
            Near("tankKg", s.TankMassKg[^1], SmallShare * start);
            Near("pondKg", s.PondMassKg[^1], SmallShare * start);
            Near("passedClothKg", s.StrainedKg[^1], SmallShare * start);
            Near("overRimKg", s.OverRimKg[^1], SmallShare * start);
            Near("tankTemperatureK", s.TankTemperatureK[^1], 0);
            Near("pondTemperatureK", s.PondTemperatureK[^1], 0);
            Near("receiverTemperatureK", s.ReceiverTemperatureK[^1], 0);
            Near("tankLevelM", s.TankLevelM[^1], SmallShare);
            Near("pondDepthM", s.PondDepthM[^1], SmallShare);

            void Near(string key, double actual, double floor)
            {
                double wanted = state.GetProperty(key).GetDouble();
                double scale = Math.Max(Math.Abs(wanted), floor);
                Assert.True(Math.Abs(actual - wanted) <= Relative * scale, $"{name} at {t} s, {key}: {actual:r} where {wanted:r} is expected");
            }
        }
    }

    private static void CheckList(string key, JsonElement expected, IEnumerable<double> actual, List<string> differences)
    {
        double[] wanted = expected.GetProperty(key).EnumerateArray().Select(e => e.GetDouble()).ToArray();
        double[] found = actual.ToArray();
        if (wanted.Length != found.Length)
        {
            differences.Add($"{key}: {found.Length} entries where {wanted.Length} are expected");
            return;
        }

        for (int i = 0; i < wanted.Length; i++)
        {
            if (!(Math.Abs(found[i] - wanted[i]) <= Relative * Math.Abs(wanted[i])))
                differences.Add($"{key}[{i}]: {found[i]:r} where {wanted[i]:r} is expected");
        }
    }

    private static string Kebab(StrainingStatus status) => status switch
    {
        StrainingStatus.Drained => "drained",
        StrainingStatus.ReceiverFull => "receiver-full",
        StrainingStatus.TimeLimit => "time-limit",
        StrainingStatus.Stalled => "stalled",
        StrainingStatus.ReceiverOverfilled => "receiver-overfilled",
        StrainingStatus.Overflowed => "overflowed",
        _ => throw new ArgumentOutOfRangeException(nameof(status)),
    };
}
