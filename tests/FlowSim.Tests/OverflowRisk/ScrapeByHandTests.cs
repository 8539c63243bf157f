using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The interval between scrapes where runs are invented: all run over when the cloth is scraped less often than some interval, and else none.</summary>
public class ScrapeByHandTests
{
    private const int Runs = 64;

    private static RunTally Unscraped(int over, int runs, double endS)
    {
        var tally = new RunTally(0.1);
        tally.Add([.. Enumerable.Range(0, runs).Select(i => (i < over ? Over(5) : Quiet) with { EndSeconds = i == runs - 1 ? endS : 10 })]);
        return tally;
    }

    /// <summary>Asks for the advice where scraping at most so far apart is enough; keeps what was run.</summary>
    private static ScrapeAdvice Advice(double enoughS, double endS, List<StrainingSetup> asked, double longestS = 7200, int overAtMost = 0)
    {
        StrainingSetup setup = Pail(30) with { Longest = Seconds(longestS), Scraping = new Scraping { Recovery = 0.4 } };
        return ScrapeSearch.Find(setup, Unscraped(Runs, Runs, endS), 0.2, Runs, (scraped, runs) =>
        {
            Assert.Equal(Runs, runs);
            asked.Add(scraped);
            return Tally(scraped.Scraping.Times[0].Seconds <= enoughS ? overAtMost : Runs, Runs);
        });
    }

    /// <summary>1 min, 1.25 min … each a quarter longer, below the 3000 s of the runs: the seventeenth is 2131 s.</summary>
    [Theory]
    [InlineData(60)]
    [InlineData(75)]
    [InlineData(100)]
    [InlineData(1000)]
    [InlineData(2131.7)]
    [InlineData(1e5)]
    public void It_is_the_longest_of_the_intervals_that_suffices(double enoughS)
    {
        var asked = new List<StrainingSetup>();
        ScrapeAdvice advice = Advice(enoughS, 3000, asked);
        double expected = Enumerable.Range(0, 18).Select(i => 60 * Math.Pow(1.25, i)).Last(seconds => seconds <= enoughS && seconds < 3000);
        Assert.True(advice.Needed);
        Assert.Equal(expected, advice.Every!.Value.Seconds, 1e-9);
        Assert.Equal(Chance.Pooled(0, Runs), advice.Overflow);
        Assert.Equal(60, asked[0].Scraping.Times[0].Seconds, 1e-9);
        Assert.Equal(asked.Count, asked.Select(setup => setup.Scraping.Times[0].Seconds).Distinct().Count());
        Assert.True(asked.Count <= 6); // One, and a bisection of seventeen.
    }

    [Fact]
    public void If_the_shortest_does_not_suffice_none_is_told()
    {
        var asked = new List<StrainingSetup>();
        Assert.Equal(new ScrapeAdvice(true, null, null), Advice(59, 3000, asked));
        Assert.Single(asked);
    }

    /// <summary>A run of a minute is scraped once: there is no longer interval to try; at 76 s there is.</summary>
    [Fact]
    public void Intervals_longer_than_the_runs_are_not_tried()
    {
        var asked = new List<StrainingSetup>();
        Assert.Equal(60, Advice(1e5, 60, asked).Every!.Value.Seconds, 1e-9);
        Assert.Equal(60, Advice(1e5, 75, asked).Every!.Value.Seconds, 1e-9);
        Assert.Equal(75, Advice(1e5, 76, asked).Every!.Value.Seconds, 1e-9);
    }

    /// <summary>The chance is that of the hits counted: four of 64 are within 20 % (at most 15.2 %).</summary>
    [Fact]
    public void The_chance_told_is_that_of_the_runs_scraped_so()
    {
        ScrapeAdvice advice = Advice(200, 3000, [], overAtMost: 4);
        Assert.Equal(60 * Math.Pow(1.25, 5), advice.Every!.Value.Seconds, 1e-9);
        Assert.Equal(Chance.Pooled(4, Runs), advice.Overflow);
    }

    /// <summary>Scraped from one interval after the opening on, up to the longest time; a thousand times at most. What a scrape clears stays.</summary>
    [Theory]
    [InlineData(600, 10)]
    [InlineData(630, 11)]
    [InlineData(30, 1)]
    [InlineData(60_000, 1000)]
    [InlineData(86_400, 1000)]
    public void Scrapes_are_an_interval_apart_to_the_end_of_the_longest_run(double longestS, int scrapes)
    {
        var asked = new List<StrainingSetup>();
        Advice(60, 3000, asked, longestS);
        Scraping first = asked[0].Scraping;
        Assert.Equal(scrapes, first.Times.Count);
        Assert.Equal(0.4, first.Recovery);
        for (int i = 0; i < scrapes; i++)
            Assert.Equal(60 * (i + 1), first.Times[i].Seconds, 1e-6);
    }

    /// <summary>Five of 64 have a high end of 17.3 % and six one of 19.3 %; eleven, of 28.7 %.</summary>
    [Fact]
    public void Where_few_enough_run_over_nobody_need_scrape()
    {
        StrainingSetup setup = Pail(30);
        RunTally Refused(StrainingSetup scraped, int runs) => throw new InvalidOperationException("nothing need be run");

        Assert.Equal(new ScrapeAdvice(false, null, null), ScrapeSearch.Find(setup, Unscraped(6, 64, 3000), 0.2, Runs, Refused));
        Assert.Throws<InvalidOperationException>(() => ScrapeSearch.Find(setup, Unscraped(11, 64, 3000), 0.2, Runs, Refused));
    }

    /// <summary>Of more runs than each interval gets, the first as many count, by overflow and by length.</summary>
    [Fact]
    public void Only_as_many_of_the_runs_left_alone_count_as_are_run()
    {
        var tally = new RunTally(0.1);
        tally.Add([.. Enumerable.Repeat(Quiet, 64), .. Enumerable.Repeat(Over(5), 64)]);
        Assert.False(ScrapeSearch.Find(Pail(30), tally, 0.2, 64, (_, _) => tally).Needed);
        Assert.True(ScrapeSearch.Find(Pail(30), tally, 0.2, 128, (_, _) => tally).Needed);

        var longer = new RunTally(0.1);
        longer.Add([.. Enumerable.Repeat(Over(5) with { EndSeconds = 70 }, 64), .. Enumerable.Repeat(Over(5) with { EndSeconds = 5000 }, 64)]);
        Assert.Equal(60, ScrapeSearch.Find(Pail(30), longer, 0.2, 64, (_, _) => Tally(0, 64)).Every!.Value.Seconds, 1e-9);
    }

    /// <summary>Fewer runs left alone than are asked for: they count as they are.</summary>
    [Fact]
    public void Fewer_runs_left_alone_count_all() =>
        Assert.Equal(new ScrapeAdvice(false, null, null), ScrapeSearch.Find(Pail(30), Unscraped(0, 32, 100), 0.4, 4096, (_, _) => throw new InvalidOperationException("nothing need be run")));
}
