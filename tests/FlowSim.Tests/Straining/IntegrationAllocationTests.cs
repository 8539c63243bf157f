using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>A run allocates what it needs at its start and nothing in a step; and it does not matter who else is running.</summary>
public class IntegrationAllocationTests
{
    /// <summary>An invented pail under which nothing happens but flow: what is noted at events is then the same at any tolerance.</summary>
    private static StrainingSetup Calm() => new()
    {
        Honey = new Honey { Moisture = Percent(18) },
        HoneyTemperature = Celsius(35),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)), Level = Length.FromMillimeters(298) },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Percent(20)),
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)),
            Cloths = [Cloth.FromAstmSieve(20)],
        },
        Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(400), Length.FromMillimeters(400)), Spacer = Length.FromMillimeters(10) },
    };

    [Fact]
    public void What_a_run_allocates_does_not_depend_on_its_steps()
    {
        var parameters = new StrainingParameters(Calm());
        (long Bytes, int Steps) Measure(double tolerance)
        {
            var integration = new StrainingIntegration(parameters, tolerance);
            int steps = 0;
            long bytes = Allocated.By(() =>
            {
                StrainingOutcome outcome = integration.Run(series: null, CancellationToken.None);
                steps = outcome.Work.StepsAccepted + outcome.Work.StepsRejected;
            });
            return (bytes, steps);
        }

        (long Bytes, int Steps) loose = Measure(1e-6);
        (long Bytes, int Steps) tight = Measure(1e-9);
        Assert.True(tight.Steps > 1.5 * loose.Steps, $"{tight.Steps} and {loose.Steps} steps: too alike to tell");
        Assert.Equal(loose.Bytes, tight.Bytes);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(8)]
    public void Threads_do_not_change_a_bit(int threads)
    {
        // Every shape, law, control and mishap, each first computed alone.
        StrainingSetup[] setups = [.. Enumerable.Range(1, 24).Select(Any)];
        string[] alone = [.. setups.Select(Fingerprint)];
        string[] together = new string[setups.Length * 4];
        Parallel.For(0, together.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, i => together[i] = Fingerprint(setups[i % setups.Length]));
        for (int i = 0; i < together.Length; i++)
            Assert.Equal(alone[i % setups.Length], together[i]);
        Assert.Equal(setups.Length, alone.Distinct(StringComparer.Ordinal).Count());
    }

    /// <summary>All bits of the series and of the final figures.</summary>
    private static string Fingerprint(StrainingSetup setup)
    {
        StrainingResult r = StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 41, RelativeTolerance = 1e-6 });
        StrainingSeries s = r.Series;
        IEnumerable<double> figures =
        [
            .. s.TimeS, .. s.TankLevelM, .. s.PondDepthM, .. s.ReceiverLevelM, .. s.Opening, .. s.GateFlowKgPerS, .. s.ClothFlowKgPerS,
            .. s.OverRimFlowKgPerS, .. s.TankMassKg, .. s.PondMassKg, .. s.StrainedKg, .. s.OverRimKg, .. s.TankTemperatureK,
            .. s.PondTemperatureK, .. s.ReceiverTemperatureK, .. s.OpenShare.SelectMany(share => share),
            r.Elapsed.Seconds, r.PeakPond.Meters, r.PeakPondAt.Seconds, r.Masses.BalanceRelative, r.Masses.Strained.Kilograms,
            r.Drain.To95?.Seconds ?? -1, r.Strain.To95?.Seconds ?? -1, r.Overflows.Count, r.Scrapes.Count, r.Solver.Steps, r.Solver.Events,
        ];
        return string.Join(' ', figures.Select(BitConverter.DoubleToInt64Bits));
    }

    [Fact]
    public void A_receiver_that_is_full_at_the_start_still_gives_a_series_from_the_start()
    {
        StrainingSetup setup = Calm();
        Receiver full = setup.Receiver with { AlreadyIn = setup.Receiver.Shape.Capacity };
        StrainingResult left = StrainingRun.Simulate(setup with { Receiver = full with { ShutWhenFull = false } });
        Assert.Equal(0, left.Series.TimeS[0]);
        Assert.Equal(StrainingStatus.ReceiverOverfilled, left.Status);

        StrainingResult shut = StrainingRun.Simulate(setup with { Receiver = full });
        Assert.Equal(0, shut.Series.TimeS[0]);
        Assert.Equal(StrainingStatus.ReceiverFull, shut.Ending);
        Assert.Equal(Duration.Zero, shut.Elapsed);
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(0.9999995)]
    [InlineData(0.999999)]
    [InlineData(0.99)]
    public void A_sealed_receiver_with_next_to_no_air_does_not_suck(double filled)
    {
        StrainingSetup setup = Calm();
        StrainingResult result = StrainingRun.Simulate(setup with
        {
            Strainer = setup.Strainer with { Venting = Venting.Sealed, Overflow = OverflowPath.Spill },
            Receiver = setup.Receiver with { AlreadyIn = setup.Receiver.Shape.Capacity * filled, ShutWhenFull = false },
        });

        // Boyle: air that starts at the pressure of the room can only push. Nothing passes an empty cloth.
        Assert.True(result.Series.PondMassKg.Min() >= -1e-9, $"pond of {result.Series.PondMassKg.Min()} kg");
        Assert.All(
            Enumerable.Range(0, result.Series.TimeS.Count).Where(i => result.Series.PondDepthM[i] < 0.002),
            i => Assert.Equal(0, result.Series.ClothFlowKgPerS[i], 1e-12)); // A rounding of the quotient of volumes is left.
    }
}
