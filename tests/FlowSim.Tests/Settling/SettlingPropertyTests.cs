using FlowSim.Settling;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;
using static FlowSim.Tests.Settling.Layers;

namespace FlowSim.Tests.Settling;

/// <summary>Rules that every run keeps, on invented setups.</summary>
public class SettlingPropertyTests
{
    /// <summary>Slack on comparisons of shares between two runs: ten times the integration's error.</summary>
    private const double Slack = 1e-8;

    [Property(MaxTest = 1500)]
    public void Nothing_is_lost_and_every_share_lies_between_0_and_1(DoNotSize<int> any)
    {
        SettlingResult r = SettlingRun.Simulate(Any(any.Item), new SettlingOptions { SeriesPoints = 20, ProfilePoints = 11 });
        double gone = 0;
        foreach (SettledMatter matter in new[] { r.Bubbles, r.Debris }.OfType<SettledMatter>())
        {
            Assert.Equal(1, matter.Left.DecimalFractions + matter.Gone.DecimalFractions, 1e-12);
            Assert.InRange(matter.ClearDepth.Meters, 0, r.Setup.Depth.Meters);
            gone += matter.StartVolume.DecimalFractions * matter.Gone.DecimalFractions;
        }

        double packed = (r.Scum.Thickness + r.Sediment.Thickness).Meters * r.Setup.Packing.DecimalFractions;
        Assert.Equal(gone * r.Setup.Depth.Meters, packed, 1e-12 * r.Setup.Depth.Meters);
        foreach (IReadOnlyList<double> shares in new[] { r.Series.BubblesLeft, r.Series.DebrisLeft })
        {
            for (int i = 1; i < shares.Count; i++)
                Assert.True(shares[i] <= shares[i - 1] + Slack && shares[i] >= 0, $"row {i}");
        }

        Assert.All(r.Profiles.SelectMany(p => p.BubblesLeft.Concat(p.DebrisLeft)), share => Assert.InRange(share, 0, 1));
        if (r.DebrisLeft is { } left)
            Assert.Equal(r.Setup.Debris!.Load.DecimalFractions * r.Debris!.Left.DecimalFractions, left.Load.DecimalFractions, 1e-15);
        Assert.Equal(r.ClearAfter <= r.Setup.StandsFor, r.Status == SettlingStatus.Clear);
    }

    [Property(MaxTest = 400)]
    public void Warmer_honey_is_never_less_clear(DoNotSize<int> any)
    {
        SettlingSetup setup = Any(any.Item);
        double warmer = 1 + (new Random(any.Item).NextDouble() * 10);
        Duration[] times = [Duration.Zero, setup.StandsFor / 2, setup.StandsFor];
        double[] celsius = [.. times.Select((_, i) => 20 + (10 * new Random(any.Item + i).NextDouble()))];
        TemperatureHistory With(double more) => new([.. times.Select((time, i) => (time, Celsius(celsius[i] + more)))]);
        NeverLessClear(setup with { Temperature = With(warmer) }, setup with { Temperature = With(0) });
    }

    [Property(MaxTest = 400)]
    public void A_shallower_layer_is_never_less_clear(DoNotSize<int> any)
    {
        SettlingSetup setup = Any(any.Item);
        NeverLessClear(setup with { Depth = setup.Depth * (0.2 + (0.8 * new Random(any.Item).NextDouble())) }, setup);
    }

    [Property(MaxTest = 400)]
    public void A_longer_time_is_never_less_clear(DoNotSize<int> any)
    {
        SettlingSetup setup = Any(any.Item);
        NeverLessClear(setup with { StandsFor = setup.StandsFor * (1 + (5 * new Random(any.Item).NextDouble())) }, setup);
    }

    private static void NeverLessClear(SettlingSetup better, SettlingSetup setup)
    {
        SettlingResult b = SettlingRun.Simulate(better, Brief), r = SettlingRun.Simulate(setup, Brief);

        // Debris as dense as the honey is another matter: warmer, it may count as passing the honey's density.
        if (b.Debris?.Direction != r.Debris?.Direction)
            return;
        Assert.True((b.Bubbles?.Left.DecimalFractions ?? 0) <= (r.Bubbles?.Left.DecimalFractions ?? 0) + Slack);
        if (r.Debris?.Direction != SettlingDirection.Sinks)
            Assert.True((b.Debris?.Left.DecimalFractions ?? 0) <= (r.Debris?.Left.DecimalFractions ?? 0) + Slack);
        Assert.True(r.Status != SettlingStatus.Clear || b.Status == SettlingStatus.Clear);
    }
}
