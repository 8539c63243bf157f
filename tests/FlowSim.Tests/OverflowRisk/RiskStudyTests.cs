using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>A whole answer is made of its parts: each asked by itself, with the draws of the question, says the same.</summary>
public class RiskStudyTests
{
    private const int Runs = 64;
    private const double Tolerance = 0.2;

    private static RiskQuestion Asked(StrainingSetup setup, params UncertainInput[] inputs) => new()
    {
        Setup = setup,
        Inputs = inputs.Length == 0 ? null : inputs,
        Runs = Runs,
        Tolerance = Ratio.FromDecimalFractions(Tolerance),
        LookEvery = Seconds(1),
        MassThatMatters = Mass.FromKilograms(0.2),
        Seed = 5,
        Threads = 1,
    };

    private static void Same(object? expected, object? actual) => Assert.Equal(Flatten.Of(expected), Flatten.Of(actual));

    private static RunTally Counted(StrainingSetup setup, SpreadInputs inputs) => new CountingPass(inputs, OneThread, 5, 0.2).Run(setup, Runs, default);

    /// <summary>What an answer must say of a setup as it is.</summary>
    private static void CompareAsItIs(RiskAnswer answer, StrainingSetup setup, SpreadInputs inputs)
    {
        RunTally tally = Counted(setup, inputs);
        if (!RareOverflow.IsRare(tally.Overflow.Sum(), Runs))
            Assert.Equal(tally.ChanceOf(tally.Overflow), answer.Overflow);
        Assert.Equal(tally.ChanceOf(tally.Bypass), answer.Bypass);
        Assert.Equal(tally.ChanceOf(tally.Spill), answer.Spill);
        Assert.Equal(tally.ChanceOf(tally.ReceiverFull), answer.ReceiverFull);
        Assert.Equal(tally.ChanceOf(tally.ReceiverOverfilled), answer.ReceiverOverfilled);
        Assert.Equal(tally.Drain.Spread(), answer.Drain);
        Assert.Equal(tally.Strain.Spread(), answer.Strain);
        OverTime(answer, tally);
        double[] times = PondFanBuilder.Times(tally.End);
        Same(PondFanBuilder.Build(new StrainingBatch(setup, inputs, OneThread), Draws(inputs.Count, Runs, 5), Runs, times, default), answer.Fan);
    }

    /// <summary>What it must say of the setup left alone, with what is drawn once somebody scrapes; so many runs are made for that.</summary>
    private static long CompareLeft(RiskAnswer answer, StrainingSetup left, SpreadInputs inputs, SpreadInputs whenScraped)
    {
        RunTally alone = Counted(left, inputs);
        long made = 0;
        Assert.Equal(AbsenceSearch.Of([.. alone.OverflowS], [.. alone.EndS], Tolerance), answer.Absence);
        Assert.Equal(ScrapeSearch.Find(left, alone, Tolerance, Runs, (scraped, runs) => { made += runs; return Counted(scraped, whenScraped); }), answer.Scraping);
        var ridden = new StrainingBatch(left, inputs, OneThread);
        Assert.Equal(RideSearch.Find(ridden, Draws(inputs.Count, Runs, 5), Runs, 1, Tolerance, default), answer.Riding);
        return made + ridden.Runs;
    }

    /// <summary>What it must say of the opening and the drivers; so many runs are made for that.</summary>
    private static long CompareSearches(RiskAnswer answer, StrainingSetup setup, SpreadInputs inputs)
    {
        var opening = new OpeningSearch(inputs, OneThread, 5, Runs);
        Assert.Equal(opening.Find(setup, Tolerance, default), answer.WidestOpening);
        var driven = new StrainingBatch(setup, inputs, OneThread);
        (DriverTable ofOverflow, DriverTable ofTime) = new DriverSearch(inputs, Runs, 5).Find(driven, default);
        Same(ofOverflow, answer.Drivers);
        Same(ofTime, answer.DriversOfTime);
        Same(DriverSearch.MeasureNext(answer.Overflow, ofOverflow, ofTime, inputs), answer.MeasureNext);
        return opening.Runs + driven.Runs;
    }

    /// <summary>By the definition: the share of the runs that have run over by then, its ends never falling, at the fan's times and at every 48th of the overflows.</summary>
    private static void OverTime(RiskAnswer answer, RunTally tally)
    {
        double[] over = [.. tally.OverflowS.Where(double.IsFinite).Order()];
        IEnumerable<double> spells = over.Length == 0 ? [] : Enumerable.Range(1, 48).Select(k => over[(over.Length - 1) * k / 48]);
        double[] times = [.. answer.Fan.Times.Select(time => time.Seconds).Concat(spells).Distinct().Order()];
        Assert.Equal(times, answer.ChanceOverTime.Select(point => point.At.Seconds));
        (double low, double high) = (0, 0);
        for (int i = 0; i < times.Length; i++)
        {
            int[] hits = [.. Enumerable.Range(0, 16).Select(replicate => Enumerable.Range(0, Runs).Count(run => run % 16 == replicate && tally.OverflowS[run] <= times[i]))];
            ProbabilityEstimate chance = Chance.Counted(hits, Runs / 16);
            (low, high) = (Math.Max(low, chance.Low), Math.Max(high, chance.High));
            Assert.Equal((low, chance.Value, high), (answer.ChanceOverTime[i].Low, answer.ChanceOverTime[i].Value, answer.ChanceOverTime[i].High));
        }

        Assert.Equal((double)over.Length / Runs, answer.ChanceOverTime[^1].Value, 1e-12);
    }

    /// <summary>Counted and drawn as a fan, and what the searches make.</summary>
    [Fact]
    public void A_gate_left_alone_is_its_own_worst_case()
    {
        StrainingSetup setup = Flash();
        SpreadInputs inputs = OpeningAndHead(0.4);
        RiskAnswer answer = RiskAnalysis.Of(Asked(setup, [.. inputs.Given]));
        CompareAsItIs(answer, setup, inputs);
        Assert.Equal((2 * Runs) + CompareLeft(answer, setup, inputs, inputs) + CompareSearches(answer, setup, inputs), answer.Runs);
        Assert.InRange(answer.Overflow.Value, 0.1, 0.9); // Else it would prove little.
        Assert.Same(setup, answer.Question.Setup);
        Same(inputs.Given, answer.Inputs);
    }

    /// <summary>A gate that follows a schedule over a cloth that is scraped: left alone it stands at its widest, and nobody scrapes. That is run besides.</summary>
    [Fact]
    public void What_is_attended_is_also_asked_left_alone()
    {
        StrainingSetup left = Flash();
        StrainingSetup setup = left with
        {
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Ratio.FromPercent(36)), new OpeningStep(Seconds(0.6), Ratio.FromPercent(40))),
            Scraping = new Scraping { Times = [Seconds(1)] },
        };
        SpreadInputs inputs = OpeningAndHead(0.4);
        RiskAnswer answer = RiskAnalysis.Of(Asked(setup, [.. inputs.Given]));
        CompareAsItIs(answer, setup, inputs);
        Assert.Equal((3 * Runs) + CompareLeft(answer, left, inputs, inputs) + CompareSearches(answer, setup, inputs), answer.Runs);
        Assert.Equal(EstimateMethod.Counting, answer.Overflow.Method);
        Assert.NotEqual(Counted(left, inputs).OverflowS, Counted(setup, inputs).OverflowS); // Else it would prove little.
    }

    /// <summary>A gate that is ridden never runs over; left alone at its widest it does.</summary>
    [Fact]
    public void A_ridden_gate_is_left_alone_at_its_widest()
    {
        StrainingSetup left = Flash();
        SpreadInputs inputs = OpeningAndHead(0.4);
        RiskAnswer answer = RiskAnalysis.Of(Asked(left with { Control = GateControl.RideAt(Length.FromMillimeters(6), Ratio.FromPercent(40)) }, [.. inputs.Given]));
        CompareLeft(answer, left, inputs, inputs);
        Assert.Equal(0, answer.Overflow.Value);
        Assert.NotNull(answer.Absence.Longest);
    }

    /// <summary>So is a gate that stands under a cloth that is scraped by the clock or by the pond.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_gate_that_is_left_under_a_cloth_that_is_scraped_is_attended(bool byTheClock)
    {
        StrainingSetup setup = Dirty() with { Scraping = byTheClock ? new Scraping { Times = [Seconds(100)] } : new Scraping { AtPondDepth = Length.FromMillimeters(18) } };
        SpreadInputs inputs = Alone(Given(StrainingInputs.DebrisLoad, new LogNormalDistribution(0.012, 0.2)));
        RiskAnswer answer = RiskAnalysis.Of(Asked(setup, [.. inputs.Given]));
        CompareLeft(answer, Dirty(), inputs, inputs);
        Assert.NotEqual(Counted(Dirty(), inputs).OverflowS, Counted(setup, inputs).OverflowS); // Else it would prove little.
    }

    /// <summary>Of the common spreads that of what a scrape clears comes in once somebody scrapes, last of all; and only once.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Of_the_common_spreads_what_a_scrape_clears_comes_in_when_somebody_scrapes(bool already)
    {
        StrainingSetup scraped = Dirty() with { Scraping = new Scraping { Times = [Seconds(60)] } }, setup = already ? scraped : Dirty();
        UncertainInput recovery = DefaultSpreads.For(scraped).Single(input => input.Input == StrainingInputs.ScrapeRecovery);
        var common = new SpreadInputs(DefaultSpreads.For(setup), []);
        RiskAnswer answer = RiskAnalysis.Of(Asked(setup));
        CompareLeft(answer, Dirty(), common, already ? common : Alone([.. common.Given, recovery]));
        Assert.True(answer.Scraping.Needed);
        Assert.Equal(already, answer.Inputs.Any(input => input.Input == StrainingInputs.ScrapeRecovery));
    }

    /// <summary>None of 64 runs over: what is so rare is asked of subset simulation, with a hundred points a level, and its runs are counted.</summary>
    [Fact]
    public void A_rare_overflow_is_asked_of_subset_simulation()
    {
        StrainingSetup setup = Pail(30) with { Longest = Seconds(3) };
        SpreadInputs inputs = ScreenOf(setup, 1.2);
        RiskAnswer answer = RiskAnalysis.Of(Asked(setup, [.. inputs.Given]));
        Assert.Equal(RareOverflow.Estimate(new StrainingBatch(setup, inputs, OneThread), Chance.Pooled(0, Runs), Tolerance, 100, 5, default), answer.Overflow);
        Assert.Equal(EstimateMethod.SubsetSimulation, answer.Overflow.Method);
        Assert.True(answer.Runs > answer.Overflow.Runs + (5 * Runs));
        OverTime(answer, Counted(setup, inputs));
    }

    /// <summary>Eight parts: how far it is is told after each, the last time that it is done.</summary>
    [Fact]
    public void Each_part_tells_how_far_it_is()
    {
        var told = new Shares();
        RiskAnalysis.Of(Asked(Flash(), [.. OpeningAndHead(0.4).Given]), told);
        Assert.Equal(told.All.Order().Distinct(), told.All);
        Assert.Equal((8, 1.0), (told.All.Count, told.All[^1]));
    }

    [Fact]
    public void What_is_answered_of_inputs_is_what_the_setup_allows()
    {
        StrainingSetup setup = Flash(99);
        UncertainInput opening = Given(StrainingInputs.Opening, new UniformDistribution(0.9, 1.1));
        RiskAnswer answer = RiskAnalysis.Of(Asked(setup, opening));
        Assert.Equal((0.9, 1.0), (answer.Inputs[0].Spread.Lowest, answer.Inputs[0].Spread.Highest));
        Assert.Contains(answer.Notices, notice => notice.Code == "risk.spread-cut");
    }
}
