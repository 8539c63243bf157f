using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Nobody asking for a number, the runs are doubled from 1024 on until the chance is known well enough.</summary>
public class RiskCountTests
{
    /// <summary>A pail that is scraped, so that its count is one of its own, twenty seconds of it: enough to run over.</summary>
    private static readonly StrainingSetup Setup = Pail(50) with { Longest = Seconds(20), Scraping = new Scraping { Times = [Seconds(15)] } };

    /// <summary>Two factors, so that the draws are not as even as those of one; what is thicker or closer runs over.</summary>
    private static SpreadInputs Inputs(double median) => Alone(
        Given(StrainingInputs.ScreenFactor, new LogNormalDistribution(median, 0.1)), Normal(StrainingInputs.MinimumHead, 0.002, 0.0005));

    /// <summary>What is told while it counts; with the counting done, at three tenths of the work, it is cancelled.</summary>
    private static List<double> ToldWhileCounting(double median, double tolerance)
    {
        using var enough = new CancellationTokenSource();
        var told = new ToldUntil(0.3, enough);
        var question = new RiskQuestion { Setup = Setup, Inputs = Inputs(median).Given, Tolerance = Ratio.FromDecimalFractions(tolerance) };
        Assert.ThrowsAny<OperationCanceledException>(() => RiskAnalysis.Of(question, told, enough.Token));
        return told.All;
    }

    /// <summary>Well enough: half the interval at most a tenth of the chance or a quarter of the tolerance; rare after 8192: no more of this.</summary>
    private static int Expected(double median, double tolerance, out bool rare)
    {
        for (int runs = 1024; ; runs *= 2)
        {
            RunTally tally = new CountingPass(Inputs(median), new EnsembleOptions(), 1, 0.1).Run(Setup, runs, default);
            ProbabilityEstimate chance = tally.ChanceOf(tally.Overflow);
            rare = RareOverflow.IsRare(tally.Overflow.Sum(), runs);
            if ((chance.High - chance.Low) / 2 <= Math.Max(0.1 * chance.Value, 0.25 * tolerance) || (runs >= 8192 && rare))
                return runs;
        }
    }

    [Theory]
    [InlineData(1, 0.05, 1024, false)] // About a half: a tenth of it is soon known.
    [InlineData(0.85, 0.005, 2048, false)] // A few in a hundred.
    [InlineData(0.72, 0.0008, 8192, true)] // Hardly ever, and finer than 8192 runs tell.
    public void Runs_are_doubled_until_the_chance_is_known(double median, double tolerance, int least, bool seldom)
    {
        int runs = Expected(median, tolerance, out bool rare);
        Assert.True(runs >= least && runs < 32768);
        Assert.Equal(seldom, rare);
        double[] shares = [.. Enumerable.Range(0, 8).Select(k => 1024 << k).Where(counted => counted <= runs).Select(counted => 0.3 * counted / 131072), 0.3];
        Assert.Equal(shares, ToldWhileCounting(median, tolerance).TakeWhile(share => share <= 0.3));
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
