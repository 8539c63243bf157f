using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>What is written down of a run – series, spells of overflow, scrapes, spills – against the run itself.</summary>
public class RunRecordTests
{
    /// <summary>An invented pail over a cloth that is too fine for a gate opened wide.</summary>
    private static StrainingSetup Pail() => new()
    {
        Honey = new Honey { Moisture = Percent(18) },
        HoneyTemperature = Celsius(30),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)), Level = Length.FromMillimeters(298) },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(200), Length.FromMillimeters(60)),
            Cloths = [Cloth.FromAstmSieve(60)],
        },
        Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(400), Length.FromMillimeters(400)), Spacer = Length.FromMillimeters(10) },
    };

    /// <summary>Wide open until a little after the pond is at the rim, shut while it sinks, and once more.</summary>
    private static GateControl TwoGushes(StrainingSetup setup)
    {
        Duration untilOver = StrainingRun.Simulate(setup with { Control = GateControl.LeaveAt(Percent(40)) }).FirstOverflow!.Value;
        return GateControl.Follow(
            new OpeningStep(Duration.Zero, Percent(40)),
            new OpeningStep(untilOver * 1.3, Percent(0)),
            new OpeningStep(Duration.FromMinutes(20), Percent(40)),
            new OpeningStep(Duration.FromMinutes(20) + (untilOver * 2), Percent(0)),
            new OpeningStep(Duration.FromMinutes(60), Percent(5)));
    }

    [Theory]
    [InlineData(OverflowPath.Bypass)]
    [InlineData(OverflowPath.Spill)]
    public void Each_spell_of_overflow_counts_its_own_honey(OverflowPath path)
    {
        StrainingSetup setup = Pail();
        setup = setup with { Control = TwoGushes(setup) };
        StrainingResult result = StrainingRun.Simulate(setup with { Strainer = setup.Strainer with { Overflow = path } });

        Assert.True(result.Overflows.Count >= 2, $"{result.Overflows.Count} overflows");
        Mass over = path == OverflowPath.Bypass ? result.Masses.Bypassed : result.Masses.SpilledAtStrainer;
        Mass other = path == OverflowPath.Bypass ? result.Masses.SpilledAtStrainer : result.Masses.Bypassed;
        Assert.True(over.Kilograms > 0.1, $"{over} over the rim");
        Assert.Equal(Mass.Zero, other);
        Assert.Equal(over.Kilograms, result.Overflows.Sum(o => o.Mass.Kilograms), 1e-9 * over.Kilograms);
    }

    /// <summary>A run that is asked to end at a time must be where the longer run's series says it was: within the integrator's 1e-8 a step.</summary>
    [Theory]
    [InlineData(20)]
    [InlineData(50)]
    [InlineData(160)]
    public void A_row_of_the_series_is_the_state_at_its_time(int row)
    {
        StrainingSetup setup = Pail() with { Control = GateControl.LeaveAt(Percent(15)), Longest = Duration.FromMinutes(40) };
        StrainingResult whole = StrainingRun.Simulate(setup);
        StrainingSeries s = whole.Series;
        StrainingResult cut = StrainingRun.Simulate(setup with { Longest = Duration.FromSeconds(s.TimeS[row]) });

        Assert.Equal(StrainingStatus.TimeLimit, cut.Ending);
        double start = whole.Masses.Start.Kilograms;
        Assert.Equal(s.StrainedKg[row], cut.Masses.Strained.Kilograms, 1e-6 * start);
        Assert.Equal(s.PondMassKg[row], cut.Masses.HeldOnCloth.Kilograms, 1e-6 * start);
        Assert.Equal(s.TankMassKg[row], (cut.Masses.HeldInTank + cut.Masses.HeldInFilm).Kilograms, 1e-6 * start);
        Assert.Equal(s.PondTemperatureK[row], cut.EndTemperatures.Pond.Kelvins, 1e-4);
        Assert.Equal(s.TimeS[row], cut.Elapsed.Seconds, 1e-9);
    }

    [Fact]
    public void Honey_that_goes_past_the_cloth_into_a_full_receiver_is_on_the_floor()
    {
        StrainingSetup setup = Pail();
        StrainingResult result = StrainingRun.Simulate(setup with
        {
            Receiver = setup.Receiver with { Shape = new UprightCylinder(Length.FromMillimeters(200), Length.FromMillimeters(150)), ShutWhenFull = false },
        });

        // Wide open over a fine cloth nearly everything goes over the rim, and most of it after the receiver is full.
        MassAccount m = result.Masses;
        Assert.NotNull(result.ReceiverFullAt);
        Assert.True(m.SpilledAtReceiver > m.Start * 0.3, $"{m.SpilledAtReceiver} of {m.Start}");
        Assert.Equal(m.Start.Kilograms, (m.Strained + m.Bypassed + m.Spilled + m.Held).Kilograms, 1e-9 * m.Start.Kilograms);
    }

    /// <summary>1000, as docs/guides/model.md says (engineering choice): whoever clears nothing gives up.</summary>
    [Fact]
    public void Scraping_that_clears_nothing_is_given_up_after_a_thousand_times()
    {
        StrainingSetup setup = Pail();
        StrainingResult result = StrainingRun.Simulate(
            setup with
            {
                HoneyTemperature = Celsius(20),
                Control = GateControl.LeaveAt(Percent(20)),
                Debris = new Debris { Load = Percent(0.5) },
                Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(5), Recovery = 0, Pause = Duration.FromSeconds(1) },
            },
            new StrainingOptions { SeriesPoints = 0, RelativeTolerance = 1e-6 });
        Assert.Equal(1000, result.Scrapes.Count);
        Assert.True(result.Elapsed.Seconds > 1500, $"over after {result.Elapsed}");
    }
}
