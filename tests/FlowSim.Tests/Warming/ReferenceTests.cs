using System.Text.Json;
using FlowSim.HeatDamage;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>
/// Runs against the same equations on the same cells, written a second time from the text of the model and integrated by SciPy
/// (Radau at 1e-9). Script: <c>benches/peers/reference_warming.py</c>; results and their estimated errors:
/// <c>Reference/expected.json</c>. What is compared is a whole run at a tight tolerance, so that only a difference in the
/// equations shows.
/// </summary>
public class ReferenceTests
{
    /// <summary>Tolerance on times, energies and damage, relative.</summary>
    private const double Relative = 1e-5;

    /// <summary>
    /// Tolerance on temperatures, K. A small element some time after a switching by a slow sensor is known less well, to either
    /// integration: where the reference itself moves by more than this between 1e-7 and 1e-9, that is allowed (at most 1e-3 K).
    /// </summary>
    private const double Kelvin = 1e-4;

    private const double MostKelvin = 1e-3;

    /// <summary>Tolerance of the runs, K a step: what the comparison needs, not what a user needs.</summary>
    private static readonly TemperatureDelta s_tolerance = TemperatureDelta.FromKelvins(1e-6);

    public static TheoryData<string> Names => [.. ReferenceBatches.Names];

    [Fact]
    public void At_least_twenty_batches_are_compared() => Assert.True(ReferenceBatches.Names.Count() >= 20);

    [Theory]
    [MemberData(nameof(Names))]
    public void A_run_agrees_with_an_independent_integration(string name)
    {
        JsonElement expected = ReferenceBatches.Figures(name);
        WarmingResult result = WarmingRun.Simulate(ReferenceBatches.Setup(name), ReferenceBatches.Options(name) with { Tolerance = s_tolerance });
        var differences = new List<string>();

        void Check(string key, double? actual, double allowed, JsonElement? entry = null)
        {
            JsonElement e = entry ?? expected.GetProperty(key);
            double? wanted = e.ValueKind == JsonValueKind.Number ? e.GetDouble() : null;
            if (wanted is null && actual is null)
                return;
            if (!(Math.Abs(actual - wanted ?? double.NaN) <= allowed))
                differences.Add($"{key}: {actual:r} where {wanted:r} is expected, {actual - wanted:g2} apart where {allowed:g2} is allowed");
        }

        void CheckKelvins(string key, double actual) =>
            Check(key, actual, Math.Clamp(ReferenceBatches.EstimatedError(name, key), Kelvin, MostKelvin));

        if (expected.GetProperty("status").GetString() != Kebab(result.Status))
            differences.Add($"status: {result.Status} where {expected.GetProperty("status")} is expected");
        Check("endS", result.Elapsed.Seconds, Relative * result.Elapsed.Seconds);
        Check("massKg", result.HoneyPerVessel.Kilograms, 1e-9 * result.HoneyPerVessel.Kilograms);
        JsonElement[] times = [.. expected.GetProperty("targetTimesS").EnumerateArray()];
        Assert.Equal(times.Length, result.TargetTimes.Count);
        for (int i = 0; i < times.Length; i++)
            Check($"targetTimesS[{i}]", result.TargetTimes[i]?.Seconds, Relative * result.Elapsed.Seconds, times[i]);

        HoneyTemperatures end = result.End;
        CheckKelvins("coldestK", end.Coldest.Kelvins);
        CheckKelvins("meanK", end.Mean.Kelvins);
        CheckKelvins("hottestK", end.Hottest.Kelvins);
        CheckKelvins("wallK", end.Wall.Kelvins);
        CheckKelvins("probeK", end.Probe.Kelvins);
        CheckKelvins("bodyK", end.Body.Kelvins);
        CheckKelvins("hottestWallK", result.HottestWall.Temperature.Kelvins);
        CheckKelvins("hottestHoneyK", result.HottestHoney.Kelvins);
        CheckKelvins("wallAboveProbeK", result.WallAboveProbe.Kelvins);
        Check("crystalsLeft", result.CrystalsLeft.DecimalFractions, Relative);
        Check("viscosityPaS", result.Viscosity.PascalSeconds, Relative * result.Viscosity.PascalSeconds);

        EnergyAccount energy = result.Energy;
        double turned = new[] { energy.Heater, energy.IntoHoney, energy.ToRoom }.Max(e => Math.Abs(e.Joules));
        Check("heaterJ", energy.Heater.Joules, Relative * turned);
        Check("intoHoneyJ", energy.IntoHoney.Joules, Relative * turned);
        Check("meltingJ", energy.Melting.Joules, Relative * turned);
        Check("intoBodyJ", energy.IntoBody.Joules, Relative * turned);
        Check("toRoomJ", energy.ToRoom.Joules, Relative * turned);
        Check("cutOutS", result.CutOutAt?.Seconds, Relative * result.Elapsed.Seconds);

        CheckDamage("", result.Damage);
        CheckDamage("worst", result.WorstDamage);
        Assert.True(differences.Count == 0, name + Environment.NewLine + string.Join(Environment.NewLine, differences));

        void CheckDamage(string of, HoneyHeatDamage damage)
        {
            Of("HmfLow", damage.HmfGainLow.MilligramsPerKilogram);
            Of("Hmf", damage.HmfGain.MilligramsPerKilogram);
            Of("HmfHigh", damage.HmfGainHigh.MilligramsPerKilogram);
            Of("DiastaseLeftLow", damage.DiastaseLeftLow.DecimalFractions);
            Of("DiastaseLeft", damage.DiastaseLeft.DecimalFractions);
            Of("DiastaseLeftHigh", damage.DiastaseLeftHigh.DecimalFractions);

            void Of(string key, double actual) =>
                Check(of.Length > 0 ? of + key : char.ToLowerInvariant(key[0]) + key[1..], actual, Relative * actual);
        }
    }

    private static string Kebab(WarmingStatus status) => status switch
    {
        WarmingStatus.Reached => "reached",
        WarmingStatus.TimeLimit => "time-limit",
        WarmingStatus.CutOut => "cut-out",
        WarmingStatus.Overheated => "overheated",
        _ => throw new ArgumentOutOfRangeException(nameof(status)),
    };
}
