using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;
using Nominal = FlowSim.OverflowRisk.WidestOpening;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>The widest opening, as a figure and within a tolerance, by trying the openings one by one.</summary>
public class OpeningByHandTests
{
    private const int Runs = 64;

    private static OpeningAdvice Found(StrainingSetup setup, SpreadInputs inputs, double tolerance, out long runs)
    {
        var search = new OpeningSearch(inputs, OneThread, 1, Runs);
        OpeningAdvice advice = search.Find(setup, tolerance, default);
        runs = search.Runs;
        return advice;
    }

    /// <summary>Runs that run over at a step of half a percent, with the draws of the search.</summary>
    private static RunTally At(StrainingSetup setup, SpreadInputs inputs, int step) =>
        new CountingPass(inputs, OneThread, 1, 0).Run(setup with { Control = GateControl.LeaveAt(Ratio.FromPercent(0.5 * step)) }, Runs, default, StrainingInputs.Opening);

    /// <summary>What few runs tell: ten in 64 where the tolerance is finer.</summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.2)]
    [InlineData(0.5)]
    public void One_step_wider_too_many_run_over(double tolerance)
    {
        StrainingSetup setup = Pail(30) with { Longest = Seconds(160) };
        SpreadInputs inputs = ScreenAndHead(setup, 1.2);
        OpeningAdvice advice = Found(setup, inputs, tolerance, out long runs);
        int step = (int)Math.Round(advice.Opening.Percent * 2);
        long allowed = Chance.MostHits(Runs, Math.Max(tolerance, 10.0 / Runs));
        RunTally there = At(setup, inputs, step);
        Assert.True(there.Overflow.Sum() <= allowed);
        Assert.True(At(setup, inputs, step + 1).Overflow.Sum() > allowed);
        Assert.Equal(Chance.Pooled(there.Overflow.Sum(), Runs), advice.Overflow);
        Assert.Equal(there.Strain.Spread(), advice.Strain);

        // A bisection from the nominal opening on: all draws at the first and at the last, half of them or fewer in between.
        Assert.InRange(runs, 2 * Runs, 8 * Runs);
    }

    /// <summary>The tolerance chosen so that just as many may run over as do at half open: that is the widest.</summary>
    [Fact]
    public void Just_as_many_as_may_is_within_the_tolerance()
    {
        StrainingSetup setup = Pail(30) with { Longest = Seconds(30) };
        SpreadInputs inputs = ScreenAndHead(setup, 1.2);
        long hits = At(setup, inputs, 100).Overflow.Sum();
        double tolerance = Chance.Pooled(hits, Runs).High + 1e-6;
        Assert.Equal(hits, Chance.MostHits(Runs, tolerance));
        Assert.True(At(setup, inputs, 101).Overflow.Sum() > hits); // Else it would prove little.
        OpeningAdvice advice = Found(setup, inputs, tolerance, out _);
        Assert.Equal(50, advice.Opening.Percent, 1e-9);
        Assert.Equal(Chance.Pooled(hits, Runs), advice.Overflow);
    }

    /// <summary>The cloth is far more open than the setup says: from the nominal opening on the next that is tried is the whole, and it holds.</summary>
    [Fact]
    public void Where_the_first_holds_fully_open_is_tried_next()
    {
        StrainingSetup setup = Pail(30) with { Longest = Seconds(30) };
        OpeningAdvice advice = Found(setup, Alone(Given(StrainingInputs.ScreenFactor, new UniformDistribution(0.05, 0.1))), 0.2, out long runs);
        Assert.Equal(100, advice.Opening.Percent, 1e-9);
        Assert.Equal(3 * Runs, runs); // The nominal opening, the whole, and the whole once more with all draws.
    }

    [Fact]
    public void What_never_runs_over_may_be_opened_fully()
    {
        StrainingSetup setup = Pail(30);
        setup = setup with { Gate = setup.Gate with { Bore = Length.FromMillimeters(10) } };
        Assert.Equal(100, Nominal.Find(setup).Percent, 1e-9);
        OpeningAdvice advice = Found(setup, ScreenOf(setup, 1.2), 0.2, out long runs);
        Assert.Equal(100, advice.Opening.Percent, 1e-9);
        Assert.Equal(Chance.Pooled(0, Runs), advice.Overflow);
        Assert.Equal(2 * Runs, runs); // Fully open at once, and once more with all draws.
    }

    /// <summary>A cloth that lets nothing through below a head of 50 mm, under a rim of 5 mm: every opening runs over.</summary>
    [Fact]
    public void Where_every_opening_runs_over_there_is_none()
    {
        StrainingSetup setup = HeldBack();
        Assert.Equal(Ratio.Zero, Nominal.Find(setup));
        OpeningAdvice advice = Found(setup, ScreenOf(setup, 1.1), 0.2, out _);
        Assert.Equal(new OpeningAdvice(Ratio.Zero, null, null), advice);
    }

    /// <summary>The nominal limit: at it the deepest pond is below the rim, half a percent wider it is not.</summary>
    [Fact]
    public void The_nominal_opening_is_the_last_that_does_not_run_over()
    {
        int Over(double percent) => StrainingRun.Simulate(Pail(percent), new StrainingOptions { SeriesPoints = 0 }).Overflows.Count;

        double percent = Nominal.Find(Pail(100)).Percent;
        Assert.Equal(Math.Round(2 * percent), 2 * percent, 1e-9);
        Assert.Equal(0, Over(percent));
        Assert.True(Over(percent + 0.5) > 0);
        Assert.Equal(percent, Nominal.Find(Pail(5)).Percent, 1e-12);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => Nominal.Find(null!)).ParamName);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 0.5)]
    [InlineData(101, 50.5)]
    [InlineData(200, 100)]
    public void A_step_is_half_a_percent_of_the_bore(int steps, double percent)
    {
        Assert.Equal(percent, Nominal.AtStep(steps).Percent, 1e-12);
        Assert.Equal(steps, Nominal.StepsOf(Ratio.FromPercent(percent)));
        Assert.Equal(200, Nominal.StepsToFullyOpen);
    }

    /// <summary>The spread of the temperature stays where it was unless it is said to go along: 36 ± 0.5 °C in honey of 45 °C.</summary>
    [Fact]
    public void Other_spreads_are_carried_along_when_it_is_said()
    {
        SpreadInputs inputs = Alone(Normal(StrainingInputs.HoneyTemperature, 309.15, 0.5), ScreenOf(Pail(30), 1.2).Given[0]);
        StrainingSetup cold = Pail(30) with { Longest = Seconds(30) }, warm = cold with { HoneyTemperature = Temperature.FromDegreesCelsius(45) };
        Ratio Widest(StrainingSetup setup, params StrainingInput[] moved) => new OpeningSearch(inputs, OneThread, 1, Runs, moved).Find(setup, 0.2, default).Opening;

        Ratio carried = Widest(warm, StrainingInputs.HoneyTemperature);
        Assert.Equal(Widest(cold), Widest(warm));
        Assert.Equal(Widest(cold), Widest(cold, StrainingInputs.HoneyTemperature));
        Assert.NotEqual(Widest(cold), carried);
    }

    private static StrainingSetup HeldBack()
    {
        StrainingSetup setup = Pail(30);
        return setup with
        {
            HoneyTemperature = Temperature.FromDegreesCelsius(50),
            RoomTemperature = Temperature.FromDegreesCelsius(50),
            Strainer = setup.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(5)), MinimumHead = Length.FromMillimeters(50) },
            Longest = Duration.FromDays(30),
        };
    }
}
