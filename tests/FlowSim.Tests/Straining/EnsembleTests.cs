using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>Many runs at once against the integrator of single runs.</summary>
public class EnsembleTests
{
    private static readonly StrainingInput[] Varied = [StrainingInputs.Moisture, StrainingInputs.LotFactor, StrainingInputs.ScreenFactor, StrainingInputs.DebrisLoad, StrainingInputs.Opening];

    /// <summary>Every shape, law, control and mishap, some varied a little: the lanes and the single runs tell the same story.</summary>
    /// <remarks>
    /// Both are held to a tolerance of 1e-7, of which the many short restarts of such runs make several times as much. Where a figure hangs on a
    /// corner (a pond that just touches the rim, a share that is reached only in the last trickle, an end in free fall), a rounding decides; those
    /// differences are allowed in a few runs and counted.
    /// </remarks>
    [Fact]
    public void Lanes_tell_the_same_as_single_runs()
    {
        const int Setups = 160, RunsEach = 9;
        int odd = 0, compared = 0, overflows = 0, scrapes = 0, full = 0;
        var worst = new List<string>();
        for (int seed = 1; seed <= Setups; seed++)
        {
            StrainingSetup setup = Any(seed);
            double[] values = Around(setup, RunsEach, seed);
            StrainingSample[] lanes = Run(setup, values, LaneWidth.Widest, 1e-7);
            StrainingSample[] single = Run(setup, values, LaneWidth.OneByOne, 1e-8);
            for (int run = 0; run < RunsEach; run++)
            {
                compared++;
                overflows += single[run].RanOver ? 1 : 0;
                scrapes += single[run].Scrapes > 0 ? 1 : 0;
                full += double.IsFinite(single[run].ReceiverFullSeconds) ? 1 : 0;
                if (Difference(lanes[run], single[run], setup) is { } difference)
                {
                    odd++;
                    worst.Add($"seed {seed} run {run}: {difference} [{setup.Tank.Shape.GetType().Name} {setup.Strainer.Shape.GetType().Name} {setup.Receiver.Shape.GetType().Name} {setup.Gate.Outlet} {setup.Strainer.Venting} spacer {setup.Receiver.Spacer.Millimeters:0} {setup.Control.GetType().Name} film {setup.Tank.WallFilm} law {setup.Debris.Law} cloths {setup.Strainer.Cloths.Count}]");
                }
            }
        }

        Assert.True(overflows > 50 && scrapes > 50 && full > 50, $"{overflows} overflows, {scrapes} scraped, {full} full: too few of something");
        Assert.True(odd <= compared / 40, $"{odd} of {compared} differ:\n" + string.Join('\n', worst));
    }

    [Fact]
    public void Width_threads_and_batches_change_no_bit()
    {
        StrainingSetup setup = Pail();
        double[] values = Around(setup, 101, 7);
        StrainingSample[] expected = Run(setup, values, LaneWidth.Eight, 1e-5, threads: 1);
        foreach (LaneWidth width in (LaneWidth[])[LaneWidth.Two, LaneWidth.Four, LaneWidth.Eight, LaneWidth.Widest])
        {
            foreach (int threads in (int[])[1, 2, 8])
                Assert.Equal(expected, Run(setup, values, width, 1e-5, threads));
        }

        // The first half alone is the first half of the whole.
        Assert.Equal(expected[..50], Run(setup, values[..(50 * Varied.Length)], LaneWidth.Eight, 1e-5));
    }

    /// <summary>A varied run is the run of the setup with that value: the two ways of saying it are one.</summary>
    [Fact]
    public void Every_input_does_what_its_setup_does()
    {
        foreach (StrainingInput input in StrainingInputs.All)
        {
            StrainingSetup setup = input == StrainingInputs.RideDepth ? Pail() with { Control = GateControl.RideAt(Length.FromMillimeters(50), Percent(40)) }
                : input == StrainingInputs.OutletAboveScreen ? Pail() with { Gate = Pail().Gate with { Outlet = GateOutlet.Submerged, OutletAboveScreen = Length.FromMillimeters(20) } }
                : input == StrainingInputs.Spacer ? Pail() with { Receiver = Pail().Receiver with { AlreadyIn = Volume.FromLiters(12), Spacer = Length.FromMillimeters(-150) } }
                : input.Name.StartsWith("scraping", StringComparison.Ordinal) ? Pail() with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(85), Pause = Duration.FromSeconds(40) }, Debris = new Debris { Load = Ratio.FromPartsPerThousand(2) } }
                : Pail();
            Assert.True(input.AppliesTo(setup), input.Name);
            (double low, double high) = input.RangeIn(setup);
            double now = input.ValueIn(setup);
            Assert.InRange(now, low, high);
            double value = Math.Clamp(now == 0 ? 0.1 * high : now * (input.Unit == "K" ? 1.005 : now < 0 ? 0.93 : 1.07), low, high);
            StrainingSetup changed = input.With(setup, value);
            Assert.Equal(value, input.ValueIn(changed), 12);

            StrainingResult alone = StrainingRun.Simulate(changed, new StrainingOptions { SeriesPoints = 0 });
            StrainingSample[] varied = new StrainingSample[1];
            new StrainingEnsemble(setup, [input], new EnsembleOptions { Lanes = LaneWidth.OneByOne, RelativeTolerance = 1e-8 }).Run(new[] { value }, varied);
            Assert.Equal(alone.Drain.To95!.Value.Seconds, varied[0].DrainSeconds, 1e-7 * varied[0].DrainSeconds);
            Assert.Equal(alone.Masses.Strained.Kilograms, varied[0].StrainedKg, 1e-7);
            Assert.Equal(alone.Overflows.Count > 0, varied[0].RanOver);

            StrainingResult before = StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 0 });
            bool differs = before.Drain != alone.Drain || before.Strain != alone.Strain || before.PeakPond.Meters != alone.PeakPond.Meters || before.EndTemperatures != alone.EndTemperatures;
            Assert.True(differs || input == StrainingInputs.GateHeight, $"{input.Name} changes nothing");
        }
    }

    [Fact]
    public void The_pond_is_read_at_the_times_asked_for()
    {
        StrainingSetup setup = Pail();
        double[] values = Around(setup, 3, 3);
        double[] times = [0, 10, 60.5, 100, 1e6];
        double[] depths = new double[3 * times.Length];
        double[] single = new double[3 * times.Length];
        var samples = new StrainingSample[3];
        new StrainingEnsemble(setup, Varied, new EnsembleOptions { RelativeTolerance = 1e-7 }).Run(values, samples, times, depths);
        new StrainingEnsemble(setup, Varied, new EnsembleOptions { RelativeTolerance = 1e-8, Lanes = LaneWidth.OneByOne }).Run(values, samples, times, single);
        for (int i = 0; i < depths.Length; i++)
        {
            if (i % times.Length == 4)
                Assert.True(double.IsNaN(depths[i]));
            else
                Assert.InRange(depths[i] - single[i], -1e-5, 1e-5);
        }
    }

    /// <summary>
    /// All quantities of random setups, in lanes and one by one. Where a touched rim or a last scrape is decided by rounding, a whole run differs; a
    /// level of a shape that is narrow there moves more than a volume does.
    /// </summary>
    [Fact]
    public void Every_quantity_reads_the_same_in_lanes_and_in_single_runs()
    {
        const int Setups = 60, RunsEach = 5;
        StrainingObservable[] quantities = Enum.GetValues<StrainingObservable>();
        int odd = 0, moved = 0;
        var worst = new List<string>();
        for (int seed = 1; seed <= Setups; seed++)
        {
            StrainingSetup setup = Any(seed);
            double[] values = Around(setup, RunsEach, seed);
            var samples = new StrainingSample[RunsEach];
            double longest = Run(setup, values, LaneWidth.OneByOne, 1e-7).Max(sample => sample.EndSeconds);
            double[] times = [0, .. Enumerable.Range(1, 10).Select(k => 0.11 * k * longest)];
            EnsembleTrace lanes = Trace(times, quantities, RunsEach), single = Trace(times, quantities, RunsEach);
            new StrainingEnsemble(setup, Varied, new EnsembleOptions { RelativeTolerance = 1e-7 }).Run(values, samples, lanes);
            new StrainingEnsemble(setup, Varied, new EnsembleOptions { RelativeTolerance = 1e-8, Lanes = LaneWidth.OneByOne }).Run(values, samples, single);
            for (int run = 0; run < RunsEach; run++)
            {
                for (int q = 0; q < quantities.Length; q++)
                {
                    ReadOnlySpan<double> one = lanes.Of(run, q), other = single.Of(run, q);
                    double largest = 0, apart = 0;
                    for (int i = 0; i < times.Length; i++)
                    {
                        largest = Math.Max(largest, Math.Abs(other[i]));
                        apart = Math.Max(apart, Math.Abs(one[i] - other[i]));
                    }

                    moved += Math.Abs(other[0] - other[^1]) > 0.1 * largest ? 1 : 0;
                    if (apart <= 1e-4 * largest)
                        continue;
                    odd++;
                    worst.Add($"seed {seed} run {run} {quantities[q]}: {apart / largest:g3} of {largest:g3} apart");
                }
            }
        }

        int all = Setups * RunsEach * quantities.Length;
        Assert.True(moved > all / 3, $"only {moved} of {all} courses move");
        Assert.True(odd <= all / 50, $"{odd} of {all} differ:\n" + string.Join('\n', worst));
    }

    private static EnsembleTrace Trace(double[] times, StrainingObservable[] quantities, int runs) => new()
    {
        TimesS = times,
        Quantities = quantities,
        Values = new double[runs * times.Length * quantities.Length],
        HoldsLast = true,
    };

    [Fact]
    public void A_batch_allocates_nothing_per_run()
    {
        StrainingSetup setup = Pail();
        var ensemble = new StrainingEnsemble(setup, Varied, new EnsembleOptions { Threads = 1 });
        long Taken(int runs)
        {
            double[] values = Around(setup, runs, 5);
            var samples = new StrainingSample[runs];
            return Allocated.By(() => ensemble.Run(values, samples));
        }

        Assert.Equal(Taken(64), Taken(1024));
    }

    [Fact]
    public void Bad_values_are_named()
    {
        StrainingSetup setup = Pail();
        var ensemble = new StrainingEnsemble(setup, [StrainingInputs.LotFactor, StrainingInputs.Opening]);
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => ensemble.Run(new double[] { 1, 0.3, 1, double.NaN }, new StrainingSample[2]));
        Assert.Contains("gate.opening of run 1", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => ensemble.Run(new double[] { 1e3, 0.3 }, new StrainingSample[1]));
        Assert.Throws<ArgumentException>(() => ensemble.Run(new double[] { 1, 0.3, 1 }, new StrainingSample[2]));
        Assert.Throws<ArgumentException>(() => ensemble.Run(new double[] { 1, 0.3 }, new StrainingSample[1], new double[] { 0 }, default));
        Assert.Throws<ArgumentException>(() => new StrainingEnsemble(setup, [StrainingInputs.Opening, StrainingInputs.Opening]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new StrainingEnsemble(setup, Varied, new EnsembleOptions { RelativeTolerance = double.NaN }));
    }

    [Fact]
    public void It_tells_how_far_it_is_and_can_be_cancelled()
    {
        StrainingSetup setup = Pail();
        double[] values = Around(setup, 600, 5);
        var told = new List<long>();
        new StrainingEnsemble(setup, Varied, new EnsembleOptions { Threads = 1 }).Run(values, new StrainingSample[600], new Told(told));
        Assert.Equal(600, told[^1]);
        Assert.True(told.Count > 1);

        using var source = new CancellationTokenSource();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => new StrainingEnsemble(setup, Varied).Run(values, new StrainingSample[600], cancellation: source.Token));
    }

    /// <summary>A stiff batch, a thin pond on coarse cloth under a big tank: too much for the explicit method, not for the other.</summary>
    [Fact]
    public void Stiff_runs_come_out_right_too()
    {
        StrainingSetup setup = Pail() with
        {
            HoneyTemperature = Celsius(55),
            Tank = new Tank { Shape = new UprightCylinder(Length.FromMeters(1), Length.FromMeters(1.2)), Level = Length.FromMeters(1.1), HeldAtTemperature = true },
            Control = GateControl.LeaveAt(Percent(9)),
            Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(400), Length.FromMillimeters(100)), Cloths = [new Cloth { Opening = Length.FromMillimeters(5), WireDiameter = Length.FromMillimeters(0.5) }] },
            Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMeters(1.2), Length.FromMeters(1.5)), Spacer = Length.FromMillimeters(10) },
        };
        double[] values = Around(setup, 5, 11);
        StrainingSample[] lanes = Run(setup, values, LaneWidth.Widest, 1e-6);
        StrainingSample[] single = Run(setup, values, LaneWidth.OneByOne, 1e-8);
        for (int run = 0; run < 5; run++)
            Assert.Equal(single[run].DrainSeconds, lanes[run].DrainSeconds, 1e-5 * single[run].DrainSeconds);
    }

    private sealed class Told(List<long> told) : IProgress<long>
    {
        public void Report(long value) => told.Add(value);
    }

    private static StrainingSample[] Run(StrainingSetup setup, double[] values, LaneWidth width, double tolerance, int? threads = null)
    {
        var samples = new StrainingSample[values.Length / Varied.Length];
        new StrainingEnsemble(setup, Varied, new EnsembleOptions { Lanes = width, RelativeTolerance = tolerance, Threads = threads }).Run(values, samples);
        return samples;
    }

    /// <summary>Values about those of the setup, the first run the setup itself.</summary>
    private static double[] Around(StrainingSetup setup, int runs, int seed)
    {
        var random = new Random(seed);
        double[] values = new double[runs * Varied.Length];
        for (int i = 0; i < values.Length; i++)
        {
            StrainingInput input = Varied[i % Varied.Length];
            (double low, double high) = input.RangeIn(setup);
            double now = input.ValueIn(setup);
            values[i] = i < Varied.Length ? now : Math.Clamp(now * (0.9 + (0.2 * random.NextDouble())), low, high);
        }

        return values;
    }

    /// <summary>What differs beyond the tolerance; null when nothing does.</summary>
    private static string? Difference(in StrainingSample lanes, in StrainingSample single, StrainingSetup setup)
    {
        const double Relative = 5e-5;
        double kg = setup.Tank.Shape.CapacityM3 * 1500;
        if (lanes.Ending != single.Ending)
            return $"ends {lanes.Ending}, not {single.Ending}";
        if (lanes.RanOver != single.RanOver)
            return $"runs over {lanes.RanOver} with {lanes.OverRimKg} kg, not {single.RanOver} with {single.OverRimKg}";
        if (lanes.Scrapes != single.Scrapes)
            return $"{lanes.Scrapes} scrapes, not {single.Scrapes}";
        if (!Near(lanes.DrainSeconds, single.DrainSeconds))
            return $"drained after {lanes.DrainSeconds} s, not {single.DrainSeconds}";
        if (!Near(lanes.StrainSeconds, single.StrainSeconds))
            return $"strained after {lanes.StrainSeconds} s, not {single.StrainSeconds}";
        if (!Near(lanes.FirstOverflowSeconds, single.FirstOverflowSeconds))
            return $"over after {lanes.FirstOverflowSeconds} s, not {single.FirstOverflowSeconds}";
        if (!Near(lanes.ReceiverFullSeconds, single.ReceiverFullSeconds))
            return $"full after {lanes.ReceiverFullSeconds} s, not {single.ReceiverFullSeconds}";
        double mass = Math.Max(Math.Abs(lanes.StrainedKg - single.StrainedKg), Math.Max(Math.Abs(lanes.OverRimKg - single.OverRimKg), Math.Abs(lanes.SpilledKg - single.SpilledKg)));
        if (mass > Relative * kg)
            return $"{mass} kg apart";
        double peak = Math.Abs(lanes.PeakPondShare - single.PeakPondShare);
        return peak > 1e-4 ? $"pond {peak} of the rim apart" : null;

        static bool Near(double a, double b) => a == b || (double.IsNaN(a) && double.IsNaN(b)) || Math.Abs(a - b) <= Relative * Math.Max(1, Math.Abs(b));
    }

    private static StrainingSetup Pail() => new()
    {
        Honey = new Honey { Moisture = Percent(17.8) },
        HoneyTemperature = Celsius(35),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)), Level = Length.FromMillimeters(298) },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Percent(35)),
        Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)), Cloths = [Cloth.FromAstmSieve(40)] },
        Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(320), Length.FromMillimeters(380)), StartTemperature = Celsius(20), AlreadyIn = Volume.FromLiters(1) },
    };
}
