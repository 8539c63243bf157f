using FlowSim.OverflowRisk;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>
/// What makes an overflow never less likely, on invented setups, all with the same draws. On a flat cloth each rule holds run by run: the wetted area
/// does not depend on the pond.
/// </summary>
public class RiskRulesTests
{
    private const int Runs = 64;

    private static StrainingSetup Flat(int seed)
    {
        StrainingSetup setup = RandomSetups.Plain(seed);
        var random = new Random(seed);
        setup = setup with
        {
            Strainer = setup.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(150 + (250 * random.NextDouble())), Length.FromMillimeters(40 + (160 * random.NextDouble()))) },
            Longest = Duration.FromDays(2),
        };

        // Where some runs run over and some do not, a rule can be broken.
        Ratio widest = FlowSim.OverflowRisk.WidestOpening.Find(setup);
        return setup with { Control = GateControl.LeaveAt(widest > Ratio.FromPercent(2) ? widest * 0.9 : Ratio.FromPercent(5)) };
    }

    private static RunTally Count(StrainingSetup setup, IReadOnlyList<UncertainInput> inputs, params StrainingInput[] moved) =>
        new CountingPass(new SpreadInputs(inputs, []), new EnsembleOptions(), 5, 0.1).Run(setup, Runs, default, moved);

    private static void NeverLessLikely(RunTally before, RunTally after, int seed, string what)
    {
        for (int i = 0; i < Runs; i++)
            Assert.True(double.IsInfinity(before.OverflowS[i]) || double.IsFinite(after.OverflowS[i]), $"seed {seed}: run {i} no longer runs over {what}");
    }

    [Property(MaxTest = 40)]
    public void A_wider_opening_is_never_less_likely_to_run_over(DoNotSize<int> any)
    {
        StrainingSetup setup = Flat(any.Item);
        IReadOnlyList<UncertainInput> inputs = DefaultSpreads.For(setup);
        double opening = StrainingInputs.Opening.ValueIn(setup);
        StrainingSetup wider = StrainingInputs.Opening.With(setup, Math.Min(1, 1.2 * opening));
        NeverLessLikely(Count(setup, inputs, StrainingInputs.Opening), Count(wider, inputs, StrainingInputs.Opening), any.Item, "with the gate opened wider");
    }

    [Property(MaxTest = 40)]
    public void More_debris_is_never_less_likely_to_run_over(DoNotSize<int> any)
    {
        StrainingSetup setup = Flat(any.Item);
        double load = StrainingInputs.DebrisLoad.ValueIn(setup);
        if (load is 0 or > 0.002)
            return;
        NeverLessLikely(Count(setup, DefaultSpreads.For(setup)), Count(setup, DefaultSpreads.For(StrainingInputs.DebrisLoad.With(setup, 1.5 * load))), any.Item, "with more debris");
    }

    [Property(MaxTest = 40)]
    public void A_lower_rim_is_never_less_likely_to_run_over(DoNotSize<int> any)
    {
        StrainingSetup setup = Flat(any.Item);
        ScreenShape disc = setup.Strainer.Shape;
        Length diameter = Length.FromMeters(Math.Sqrt(4 / Math.PI * disc.PondVolumeM3(disc.RimHeightM) / disc.RimHeightM));
        StrainingSetup lower = setup with { Strainer = setup.Strainer with { Shape = new FlatDisc(diameter, disc.RimHeight * 0.8) } };
        IReadOnlyList<UncertainInput> inputs = DefaultSpreads.For(setup);
        NeverLessLikely(Count(setup, inputs), Count(lower, inputs), any.Item, "with a lower rim");
    }

    [Property(MaxTest = 15)]
    public void The_quick_search_finds_what_trying_every_opening_finds(DoNotSize<int> any)
    {
        StrainingSetup setup = Flat(any.Item);
        IReadOnlyList<UncertainInput> inputs = DefaultSpreads.For(setup);
        const double tolerance = 0.2;
        OpeningAdvice advice = new OpeningSearch(new SpreadInputs(inputs, []), new EnsembleOptions(), 5, Runs).Find(setup, tolerance, default);
        bool Holds(int step)
        {
            RunTally tally = Count(StrainingInputs.Opening.With(setup with { Control = GateControl.LeaveAt(Ratio.FromPercent(1)) }, step * 0.005), inputs, StrainingInputs.Opening);
            return Chance.Pooled(tally.Overflow.Sum(), Runs).High <= tolerance;
        }

        int found = (int)Math.Round(advice.Opening.DecimalFractions / 0.005);
        Assert.True(found == 0 || Holds(found), $"seed {any.Item}: {advice} does not hold");
        Assert.True(found == 200 || !Holds(found + 1), $"seed {any.Item}: {advice}, but half a percent wider holds too");
        Assert.Equal(found == 0, advice.Overflow is null);
    }

    /// <summary>
    /// Not so in a cone: opened wider, the pond stands higher and wets more cloth, so that the same bits blind a smaller share of it. About one in
    /// some thousand invented setups behaves so; this is one.
    /// </summary>
    [Fact]
    public void In_a_cone_a_wider_opening_can_keep_the_strainer_from_running_over()
    {
        StrainingSetup setup = RandomSetups.Plain(2096) with { Longest = Duration.FromDays(2) };
        Assert.IsType<ConeScreen>(setup.Strainer.Shape);
        double opening = StrainingInputs.Opening.ValueIn(setup);
        var quick = new StrainingOptions { SeriesPoints = 0 };
        StrainingResult narrow = StrainingRun.Simulate(setup, quick);
        StrainingResult wide = StrainingRun.Simulate(StrainingInputs.Opening.With(setup, 1.3 * opening), quick);
        Assert.NotEmpty(narrow.Overflows);
        Assert.Empty(wide.Overflows);
        Assert.True(wide.PeakPond.Meters < 0.6 * setup.Strainer.Shape.RimHeightM); // Not by a hair.
    }
}
