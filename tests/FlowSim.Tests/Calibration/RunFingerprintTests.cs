using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using FlowSim.Calibration;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;

namespace FlowSim.Tests.Calibration;

public class RunFingerprintTests
{
    private static TimedRun Run(params (StrainingObservable Quantity, (double T, double V)[] Readings)[] series) => new()
    {
        Name = "run",
        Setup = SmallPail.Running(),
        Series = [.. series.Select(one => new TimedSeries { Quantity = one.Quantity, Readings = [.. one.Readings.Select(r => new TimedReading(Duration.FromSeconds(r.T), r.V))] })],
    };

    private static TimedRun Level(params (double T, double V)[] readings) => Run((StrainingObservable.TankLevel, readings));

    /// <summary>The text "TankLevel:2;", then of each reading milliseconds and ten-millionths as 64-bit numbers, lowest byte first.</summary>
    [Fact]
    public void It_is_the_hash_of_what_was_read()
    {
        byte[] bytes = [.. Encoding.UTF8.GetBytes("TankLevel:2;"), .. new byte[32]];
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(12), 1500);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(20), 1_100_000);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(28), 60_000);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(36), 900_000);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(bytes))[..16], Level((1.5, 0.11), (60, 0.09)).Fingerprint);
    }

    [Fact]
    public void Name_and_last_digits_do_not_matter()
    {
        TimedRun run = Level((1.5, 0.11), (60, 0.09));
        Assert.Equal(run.Fingerprint, (run with { Name = "other", Setup = SmallPail.Plain() }).Fingerprint);
        Assert.Equal(run.Fingerprint, Level((1.5 + 1e-9, 0.11 - 1e-12), (60, 0.09)).Fingerprint);
    }

    [Fact]
    public void Times_values_quantities_and_series_do()
    {
        TimedRun run = Level((1.5, 0.11), (60, 0.09));
        string[] all =
        [
            run.Fingerprint,
            Level((1.6, 0.11), (60, 0.09)).Fingerprint,
            Level((1.5, 0.111), (60, 0.09)).Fingerprint,
            Level((1.5, 0.11)).Fingerprint,
            Run((StrainingObservable.TankVolume, [(1.5, 0.11), (60, 0.09)])).Fingerprint,
            Run((StrainingObservable.TankLevel, [(1.5, 0.11)]), (StrainingObservable.TankLevel, [(60, 0.09)])).Fingerprint,
        ];
        Assert.Equal(all.Length, all.Distinct(StringComparer.Ordinal).Count());
        Assert.All(all, digits => Assert.Matches("^[0-9a-f]{16}$", digits));
    }

    [Fact]
    public void A_measured_viscosity_is_told_by_what_was_found()
    {
        var spot = new ViscositySpot("ball", Temperature.FromKelvins(308.15), DynamicViscosity.FromPascalSeconds(4.25), 0.06);
        string[] all =
        [
            RunFingerprint.Of(spot),
            RunFingerprint.Of(spot with { Name = "jar" }),
            RunFingerprint.Of(spot with { Temperature = Temperature.FromKelvins(309.15) }),
            RunFingerprint.Of(spot with { Viscosity = DynamicViscosity.FromPascalSeconds(4.3) }),
            RunFingerprint.Of(spot with { LogStandardDeviation = 0.07 }),
        ];
        Assert.Equal(all.Length, all.Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes("viscosity:ball:308.15:4.25:0.06")))[..16], all[0]);
    }
}
