using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Nobody asking for a number, the runs are doubled from 1024 on until the chance is known well enough.</summary>
public class RiskCountTests
{
    /// <summary>Scraped, so that its count is one of its own.</summary>
    private static readonly StrainingSetup Setup = Flash() with { Scraping = new Scraping { Times = [Seconds(1.5)] } };

    /// <summary>What is told while it counts; with the counting done, at three tenths of the work, it is cancelled.</summary>
    private static List<double> ToldWhileCounting(StrainingSetup setup, double median, double tolerance)
    {
        using var enough = new CancellationTokenSource();
        var told = new ToldUntil(0.3, enough);
        var question = new RiskQuestion { Setup = setup, Inputs = OpeningAndHead(median).Given, Threads = 1, Tolerance = Ratio.FromDecimalFractions(tolerance) };
        Assert.ThrowsAny<OperationCanceledException>(() => RiskAnalysis.Of(question, told, enough.Token));
        return told.All;
    }

    /// <summary>Well enough: half the interval at most a tenth of the chance or a quarter of the tolerance; rare after 8192: no more of this.</summary>
    private static int Expected(double median, double tolerance, out bool rare)
    {
        var pass = new CountingPass(OpeningAndHead(median), OneThread, 1, 0.1);
        var batch = new StrainingBatch(Setup, OpeningAndHead(median), OneThread);
        var tally = new RunTally(0.1);
        for (int runs = 1024; ; runs *= 2)
        {
            pass.Extend(tally, batch, runs, default);
            ProbabilityEstimate chance = tally.ChanceOf(tally.Overflow);
            rare = RareOverflow.IsRare(tally.Overflow.Sum(), runs);
            if ((chance.High - chance.Low) / 2 <= Math.Max(0.1 * chance.Value, 0.25 * tolerance) || (runs >= 8192 && rare))
                return runs;
        }
    }

    [Theory]
    [InlineData(0.395, 0.05, 1024, false)] // About a half: a tenth of it is soon known.
    [InlineData(0.355, 0.005, 2048, false)] // A few in a hundred.
    [InlineData(0.3, 0.0008, 8192, true)] // Hardly ever, and finer than 8192 runs tell.
    public void Runs_are_doubled_until_the_chance_is_known(double median, double tolerance, int least, bool seldom)
    {
        int runs = Expected(median, tolerance, out bool rare);
        Assert.True(runs >= least && runs < 32768);
        Assert.Equal(seldom, rare);
        double[] shares = [.. Enumerable.Range(0, 8).Select(k => 1024 << k).Where(counted => counted <= runs).Select(counted => 0.3 * counted / 131072), 0.3];
        Assert.Equal(shares, ToldWhileCounting(Setup, median, tolerance).TakeWhile(share => share <= 0.3));
    }

    /// <summary>Nobody at the gate: the runs of the count are those of the absence too, 32 768 at once.</summary>
    [Fact]
    public void A_gate_left_alone_is_counted_as_often_as_the_absence_needs()
    {
        StrainingSetup left = Setup with { Scraping = Scraping.Never, Longest = Seconds(1) };
        Assert.Equal([0.3 * 32768 / 131072, 0.3], ToldWhileCounting(left, 0.6, 0.05).Take(2));
    }

    private sealed class ToldUntil(double share, CancellationTokenSource enough) : IProgress<double>
    {
        public List<double> All { get; } = [];

        public void Report(double value)
        {
            All.Add(value);
            if (value >= share)
                enough.Cancel();
        }
    }
}
