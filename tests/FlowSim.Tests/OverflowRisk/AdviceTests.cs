using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Advice, done over again by brute force: it holds, and a little more would not.</summary>
public class AdviceTests
{
    private static readonly EnsembleOptions Options = new();

    /// <summary>A pond in which the bits tell: honey with twenty times the usual load, creeping in.</summary>
    private static StrainingSetup Dirty()
    {
        StrainingSetup setup = RiskSetups.Pail(15);
        return setup with { Debris = setup.Debris with { Load = Ratio.FromPartsPerThousand(6) } };
    }

    [Fact]
    public void A_pond_is_ridden_so_deep_that_it_is_not_at_the_rim_before_the_next_look()
    {
        const int runs = 256;
        const double lookS = 5, tolerance = 0.1;
        StrainingSetup setup = RiskSetups.Pail(27);
        var inputs = new SpreadInputs(DefaultSpreads.For(setup), []);
        double[] points = new double[runs * inputs.Count];
        new RunDraws(inputs.Count, 1).Fill(0, points);
        RideAdvice advice = RideSearch.Find(new StrainingBatch(setup, inputs, Options), points, runs, lookS, tolerance, default);
        double deepestM = advice.Deepest!.Value.Meters;
        Assert.InRange(deepestM, 0.010, 0.095); // Else it would prove little.

        // Every run again, the pond read four times a second, up to 5 min: all overflows of this setup are earlier.
        double[] times = [.. Enumerable.Range(0, 1201).Select(i => 0.25 * i)];
        var samples = new StrainingSample[runs];
        double[] depths = new double[runs * times.Length];
        new StrainingBatch(setup, inputs, Options).Run(points, samples, times, depths, default);
        int TooSoon(double depthM) => Enumerable.Range(0, runs).Count(run =>
        {
            if (!samples[run].RanOver)
                return false;
            int first = Enumerable.Range(0, times.Length).First(i => depths[(run * times.Length) + i] >= depthM || times[i] >= samples[run].FirstOverflowSeconds);
            return samples[run].FirstOverflowSeconds - times[first] <= lookS - 0.25;
        });

        long allowed = Chance.MostHits(runs, tolerance);
        Assert.True(samples.All(sample => !sample.RanOver || sample.FirstOverflowSeconds < 300));
        Assert.True(TooSoon(deepestM) <= allowed, $"{TooSoon(deepestM)} of {allowed} allowed");

        // A quarter of a second of reading is about 2 mm of a pond that rises to the rim.
        Assert.True(TooSoon(deepestM + 0.005) > allowed, $"5 mm deeper only {TooSoon(deepestM + 0.005)} of {allowed} allowed");
    }

    [Fact]
    public void The_interval_between_scrapes_holds_and_the_next_longer_one_does_not()
    {
        const int runs = 256;
        const double tolerance = 0.2;
        StrainingSetup setup = Dirty();
        var inputs = new SpreadInputs(DefaultSpreads.For(setup), []);
        RunTally Run(StrainingSetup other) => new CountingPass(inputs, Options, 1, 0.1).Run(other, runs, default);
        ScrapeAdvice advice = ScrapeSearch.Find(setup, Run(setup), tolerance, runs, (other, _) => Run(other));
        Assert.True(advice.Needed);
        double everyS = advice.Every!.Value.Seconds;
        bool Holds(double seconds)
        {
            Duration[] times = [.. Enumerable.Range(1, 200).Select(i => Duration.FromSeconds(i * seconds))];
            RunTally tally = Run(setup with { Scraping = setup.Scraping with { Times = times } });
            return Chance.Pooled(tally.Overflow.Sum(), runs).High <= tolerance;
        }

        Assert.True(Holds(everyS));
        Assert.False(Holds(1.25 * everyS));
        Assert.True(advice.Overflow!.High <= tolerance);
    }

    [Fact]
    public void Nobody_scrapes_where_nothing_runs_over()
    {
        RiskAnswer answer = RiskAnalysis.Of(new RiskQuestion { Setup = RiskSetups.Pail(10), Runs = 128, Tolerance = Ratio.FromPercent(10) });
        Assert.Equal(new ScrapeAdvice(false, null, null), answer.Scraping);
        Assert.Equal(new AbsenceAdvice(null, null, null), answer.Absence);
    }

    /// <summary>The absence from the start, counted over again in other draws: within it no more run over than the tolerance, and not far fewer.</summary>
    [Fact]
    public void The_absence_from_the_start_holds_in_other_draws()
    {
        RiskAnswer answer = RiskAnalysis.Of(new RiskQuestion { Setup = RiskSetups.Pail(30), Runs = 4096, Tolerance = Ratio.FromPercent(5) });
        var inputs = new SpreadInputs(DefaultSpreads.For(RiskSetups.Pail(30)), []);
        RunTally other = new CountingPass(inputs, Options, 99, 0.1).Run(RiskSetups.Pail(30), 4096, default);
        double share = other.OverflowS.Count(seconds => seconds <= answer.Absence.FromTheStart!.Value.Seconds) / 4096.0;

        // The high end asks for 0.6 % less than 5 % from 4096 runs; two counts differ by at most 0.5 % (one standard error of the difference).
        Assert.InRange(share, 0.038, 0.05);
        Assert.True(answer.Absence.Longest < answer.Absence.FromTheStart);
    }

    /// <summary>Once in some thousand runs: subset simulation against counting in twice as many, the two intervals on one another.</summary>
    [Fact]
    public void A_rare_overflow_is_as_likely_as_brute_force_says()
    {
        const int runs = 1 << 16;
        StrainingSetup setup = RiskSetups.Pail(20);
        var inputs = new SpreadInputs(DefaultSpreads.For(setup), []);
        RunTally tally = new CountingPass(inputs, Options, 4, 0.1).Run(setup, runs, default);
        ProbabilityEstimate counted = tally.ChanceOf(tally.Overflow);
        ProbabilityEstimate rare = RareOverflow.Estimate(new StrainingBatch(setup, inputs, Options), Chance.Pooled(0, 1000), 0.01, 500, 5, default);

        Assert.Equal(EstimateMethod.SubsetSimulation, rare.Method);
        Assert.InRange(counted.Value, 1e-4, 2e-3); // Else it would not be rare.
        Assert.True(rare.Low <= counted.High && counted.Low <= rare.High, $"{rare}\n{counted}");
        Assert.InRange(rare.Value / counted.Value, 0.6, 1.6); // Some two standard errors of the ratio.
        Assert.True(rare.Runs < 0.6 * runs);
    }
}
