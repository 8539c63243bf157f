using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining.Lanes;

/// <summary>Small whole runs in lanes against the integrator of single runs, one for each thing that can happen.</summary>
public class SmallRunsTests
{
    private static readonly StrainingInput[] s_varied = [StrainingInputs.LotFactor, StrainingInputs.TankLevel];

    private static StrainingSetup Pail() => SmallPail.Running() with
    {
        Debris = new Debris { Load = Ratio.FromPartsPerThousand(0.4) },
        Receiver = new Receiver { Shape = SmallPail.Receiver, Spacer = Millimetres(5), AlreadyIn = Volume.FromLiters(0.2) },
        Longest = Duration.FromHours(6),
    };

    private static Length Millimetres(double value) => Length.FromMillimeters(value);

    private static StrainingSetup Setup(string name)
    {
        StrainingSetup pail = Pail();
        var small = new UprightCylinder(Millimetres(140), Millimetres(90));
        var scraped = new Debris { Load = Ratio.FromPartsPerThousand(3) };
        StrainingSetup wide = pail with { Control = GateControl.LeaveAt(Percent(80)), Strainer = pail.Strainer with { Shape = new FlatDisc(Millimetres(120), Millimetres(25)) } };
        return name switch
        {
            "plain" => pail,
            "held, without film" => pail with { Tank = pail.Tank with { HeldAtTemperature = true, WallFilm = false } },
            "over the rim" => wide,
            "past the cloth" => wide with { Strainer = wide.Strainer with { Overflow = OverflowPath.Bypass } },
            "past the cloth into a full receiver" => wide with { Strainer = wide.Strainer with { Overflow = OverflowPath.Bypass }, Receiver = pail.Receiver with { Shape = small, ShutWhenFull = false } },
            "ridden" => pail with { Control = GateControl.RideAt(Millimetres(20), Percent(90)) },
            "moved" => pail with { Control = GateControl.Follow(new OpeningStep(Duration.Zero, Percent(0)), new OpeningStep(Duration.FromSeconds(20), Percent(40)), new OpeningStep(Duration.FromSeconds(60), Percent(0)), new OpeningStep(Duration.FromSeconds(300), Percent(20))) },
            "scraped by depth" => pail with { Debris = scraped, Scraping = new Scraping { AtPondDepth = Millimetres(25), Pause = Duration.FromSeconds(15), Recovery = 0.8 } },
            "scraped at times" => pail with { Debris = scraped, Scraping = new Scraping { Times = [Duration.FromSeconds(30), Duration.FromSeconds(50), Duration.FromSeconds(120)] } },
            "shut when full" => pail with { Receiver = pail.Receiver with { Shape = small } },
            "left when full" => pail with { Receiver = pail.Receiver with { Shape = small, ShutWhenFull = false } },
            "airtight" => pail with { Strainer = pail.Strainer with { Venting = Venting.Sealed } },
            "under honey" => pail with { Gate = pail.Gate with { Outlet = GateOutlet.Submerged, OutletAboveScreen = Millimetres(12) } },
            "hung low" => pail with { Receiver = pail.Receiver with { Spacer = Millimetres(-120) } },
            "cones" => pail with
            {
                Tank = new Tank { Shape = new ConeBottomedTank(Millimetres(180), Millimetres(60), Millimetres(90)), Level = Millimetres(130) },
                Strainer = pail.Strainer with { Shape = new ConeScreen(Millimetres(180), Millimetres(90)) },
                Receiver = new Receiver { Shape = new HorizontalCylinder(Millimetres(200), Millimetres(250)) },
            },
            "basket, many cloths" => pail with { Strainer = pail.Strainer with { Shape = new BasketScreen(Millimetres(120), Millimetres(80)), Cloths = [Cloth.FromAstmSieve(30), Cloth.FromAstmSieve(60), Cloth.FromAstmSieve(40)] }, Debris = new Debris { Load = Ratio.FromPartsPerThousand(0.6), Law = BlockingLaw.Standard } },
            "blinded" => pail with { Debris = new Debris { Load = Percent(2), Law = BlockingLaw.Complete, CaptureEfficiency = 1 } },
            "cut short" => pail with { Longest = Duration.FromSeconds(40), Debris = new Debris { Law = BlockingLaw.Cake } },
            _ => throw new ArgumentOutOfRangeException(nameof(name), name, "No such setup."),
        };
    }

    public static TheoryData<string> Names =>
    [
        "plain", "held, without film", "over the rim", "past the cloth", "past the cloth into a full receiver", "ridden", "moved", "scraped by depth", "scraped at times",
        "shut when full", "left when full", "airtight", "under honey", "hung low", "cones", "basket, many cloths", "blinded", "cut short",
    ];

    /// <summary>After the thousandth scrape by depth nobody scrapes any more, however often the pond is there again.</summary>
    [Theory]
    [InlineData(LaneWidth.OneByOne)]
    [InlineData(LaneWidth.Two)]
    public void The_thousandth_scrape_is_the_last(LaneWidth width)
    {
        StrainingSetup setup = Pail() with
        {
            HoneyTemperature = Celsius(12),
            Debris = new Debris { Load = Ratio.FromPartsPerThousand(3) },
            Scraping = new Scraping { AtPondDepth = Millimetres(4), Pause = Duration.FromSeconds(1), Recovery = 0 },
        };
        var samples = new StrainingSample[1];
        new StrainingEnsemble(setup, [], new EnsembleOptions { Threads = 1, Lanes = width, RelativeTolerance = 1e-4 }).Run(default, samples);
        Assert.Equal(1000, samples[0].Scrapes);
    }

    /// <summary>A pond that is held by riding the gate is as deep as that, not as deep as the step that reached it would have become.</summary>
    [Theory]
    [InlineData(0.96, 1e-3)]
    [InlineData(0.99, 1e-5)]
    public void A_ridden_pond_has_its_depth(double share, double tolerance)
    {
        StrainingSetup free = Pail();
        double Peak(StrainingSetup setup, LaneWidth width)
        {
            var samples = new StrainingSample[1];
            new StrainingEnsemble(setup, [], new EnsembleOptions { Threads = 1, Lanes = width, RelativeTolerance = tolerance }).Run(default, samples);
            return samples[0].PeakPondShare;
        }

        double peak = Peak(free, LaneWidth.OneByOne);
        StrainingSetup ridden = free with { Control = GateControl.RideAt(share * peak * Millimetres(60), Percent(30)) };
        Assert.InRange(peak, 0.05, 0.95);
        Assert.Equal(share * peak, Peak(ridden, LaneWidth.OneByOne), 1e-3 * peak);
        Assert.Equal(share * peak, Peak(ridden, LaneWidth.Two), 1e-3 * peak);
    }

    /// <summary>Three runs in two lanes: one lane takes a second run, which must find nothing left of the first.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void A_run_in_a_lane_tells_what_a_single_run_tells(string name)
    {
        StrainingSetup setup = Setup(name);
        double level = setup.Tank.Level.Meters;
        double[] values = [1, level, 1.1, 0.8 * level, 0.9, 0.95 * level];
        StrainingObservable[] quantities = Enum.GetValues<StrainingObservable>();
        StrainingSample[] lanes = new StrainingSample[3], single = new StrainingSample[3];
        new StrainingEnsemble(setup, s_varied, new EnsembleOptions { RelativeTolerance = 1e-6, Lanes = LaneWidth.OneByOne, Threads = 1 }).Run(values, single);
        double longest = single.Max(sample => sample.EndSeconds);
        double[] times = [0, 0.002 * longest, 0.02 * longest, 0.05 * longest, 0.1 * longest, 0.3 * longest, 0.6 * longest, 1.1 * longest];
        EnsembleTrace here = Trace(times, quantities, holds: true), there = Trace(times, quantities, holds: true);
        new StrainingEnsemble(setup, s_varied, new EnsembleOptions { RelativeTolerance = 1e-6, Lanes = LaneWidth.OneByOne, Threads = 1 }).Run(values, single, there);
        new StrainingEnsemble(setup, s_varied, new EnsembleOptions { RelativeTolerance = 1e-6, Lanes = LaneWidth.Two, Threads = 1 }).Run(values, lanes, here);
        double kg = 3;
        for (int run = 0; run < 3; run++)
        {
            StrainingSample a = lanes[run], b = single[run];
            string both = $"run {run}\n{a}\n{b}";
            Assert.True(a.Ending == b.Ending && a.Scrapes == b.Scrapes && a.RanOver == b.RanOver, both);
            Assert.True(Near(a.DrainSeconds, b.DrainSeconds) && Near(a.StrainSeconds, b.StrainSeconds) && Near(a.FirstOverflowSeconds, b.FirstOverflowSeconds) && Near(a.ReceiverFullSeconds, b.ReceiverFullSeconds), both);
            Assert.True(Close(a.OverRimKg, b.OverRimKg, kg) && Close(a.BypassedKg, b.BypassedKg, kg) && Close(a.SpilledKg, b.SpilledKg, kg) && Close(a.ReceiverSpilledKg, b.ReceiverSpilledKg, kg) && Close(a.StrainedKg, b.StrainedKg, kg), both);
            Assert.True(Close(a.PeakPondShare, b.PeakPondShare, 1), both);
            Assert.Equal(1, a.EndSeconds / b.EndSeconds, 2e-3); // An end is where next to nothing flows.
            for (int q = 0; q < quantities.Length; q++)
            {
                double[] x = here.Of(run, q).ToArray(), y = there.Of(run, q).ToArray();
                double largest = Math.Max(y.Max(), 1e-6);
                for (int i = 0; i < times.Length; i++)
                    Assert.True(Close(x[i], y[i], largest), $"run {run}, {quantities[q]} at {times[i]} s is {x[i]}, not {y[i]}");
            }
        }

        static bool Near(double a, double b) => a.Equals(b) || Math.Abs(a - b) <= 1e-4 * Math.Max(1, Math.Abs(b));
        static bool Close(double a, double b, double scale) => Math.Abs(a - b) <= 1e-4 * scale;
    }

    /// <summary>What each setup is there for does happen in it.</summary>
    [Fact]
    public void The_setups_show_what_they_are_for()
    {
        StrainingSample Of(string name)
        {
            var samples = new StrainingSample[1];
            new StrainingEnsemble(Setup(name), [], new EnsembleOptions { Lanes = LaneWidth.Two, Threads = 1 }).Run(default, samples);
            return samples[0];
        }

        Assert.Equal(StrainingStatus.Drained, Of("plain").Ending);
        Assert.True(Of("over the rim") is { RanOver: true, PeakPondShare: 1, SpilledKg: > 0.1, BypassedKg: 0, ReceiverSpilledKg: 0 });
        Assert.True(Of("past the cloth") is { RanOver: true, BypassedKg: > 0.1, SpilledKg: 0 });
        Assert.True(Of("past the cloth into a full receiver") is { RanOver: true, BypassedKg: > 0.1, ReceiverSpilledKg: > 0.1, SpilledKg: > 0.1 });
        Assert.True(Of("scraped by depth").Scrapes > 2);
        Assert.Equal(3, Of("scraped at times").Scrapes);
        Assert.Equal(StrainingStatus.ReceiverFull, Of("shut when full").Ending);
        Assert.True(Of("left when full") is { Ending: StrainingStatus.Drained, ReceiverSpilledKg: > 0.1 });
        Assert.Equal(StrainingStatus.Stalled, Of("airtight").Ending);
        Assert.Equal(StrainingStatus.Stalled, Of("blinded").Ending);
        Assert.Equal((StrainingStatus.TimeLimit, 40.0), (Of("cut short").Ending, Of("cut short").EndSeconds));
        Assert.InRange(Of("ridden").PeakPondShare, 20.0 / 60 * 0.999999, 20.0 / 60 * 1.000001);
    }

    private static EnsembleTrace Trace(double[] times, StrainingObservable[] quantities, bool holds) => new()
    {
        TimesS = times,
        Quantities = quantities,
        Values = new double[3 * times.Length * quantities.Length],
        HoldsLast = holds,
    };

    /// <summary>Alone, in another order, and with nothing to read after the end: each is what it is among all.</summary>
    [Fact]
    public void A_quantity_reads_the_same_alone_and_is_nothing_after_the_end()
    {
        StrainingSetup setup = Setup("cones");
        double level = setup.Tank.Level.Meters;
        double[] values = [1, level, 1.1, 0.8 * level, 0.9, 0.95 * level], times = [0, 5, 33, 1e6];
        var samples = new StrainingSample[3];
        StrainingObservable[] quantities = [.. Enum.GetValues<StrainingObservable>().Reverse()];
        foreach (LaneWidth width in (LaneWidth[])[LaneWidth.Two, LaneWidth.OneByOne])
        {
            var ensemble = new StrainingEnsemble(setup, s_varied, new EnsembleOptions { Lanes = width, Threads = 1 });
            EnsembleTrace all = Trace(times, quantities, holds: false);
            ensemble.Run(values, samples, all);
            for (int q = 0; q < quantities.Length; q++)
            {
                EnsembleTrace one = Trace(times, [quantities[q]], holds: false), held = Trace(times, [quantities[q]], holds: true);
                ensemble.Run(values, samples, one);
                ensemble.Run(values, samples, held);
                for (int run = 0; run < 3; run++)
                {
                    Assert.Equal(all.Of(run, q).ToArray(), one.Of(run, 0).ToArray());
                    Assert.Equal(all.Of(run, q)[..3].ToArray(), held.Of(run, 0)[..3].ToArray());
                    Assert.True(double.IsNaN(one.Of(run, 0)[3]));
                    Assert.True(double.IsFinite(held.Of(run, 0)[3]));
                }
            }

            // At the start: the levels and masses of the setup.
            double At(StrainingObservable quantity) => all.Of(0, Array.IndexOf(quantities, quantity))[0];
            double kilograms = new StrainingParameters(setup).StartTankKg;
            Assert.Equal(0, At(StrainingObservable.PondDepth));
            Assert.Equal(level, At(StrainingObservable.TankLevel), 1e-9);
            Assert.Equal(kilograms, At(StrainingObservable.TankMass), 1e-9);
            Assert.Equal(setup.Tank.Shape.VolumeM3(level), At(StrainingObservable.TankVolume), 1e-9);
            Assert.Equal(0, At(StrainingObservable.ReceiverMass), 1e-12);
        }
    }

    /// <summary>A pond that rises and falls again: where it only just reaches a depth, between the ends of a step, this is seen in lanes as in a single run.</summary>
    [Theory]
    [InlineData(1e-3)]
    [InlineData(1e-5)]
    public void A_pond_that_only_just_touches_is_seen(double tolerance)
    {
        StrainingSetup setup = Pail() with { Debris = new Debris { Load = Ratio.Zero }, Strainer = Pail().Strainer with { Shape = new FlatDisc(Millimetres(150), Millimetres(120)) } };
        double peak = StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 0 }).PeakPond.Meters;
        StrainingSample Of(StrainingSetup other)
        {
            var samples = new StrainingSample[1];
            new StrainingEnsemble(other, [], new EnsembleOptions { Lanes = LaneWidth.Two, Threads = 1, RelativeTolerance = tolerance }).Run(default, samples);
            return samples[0];
        }

        StrainingSetup Rim(double share) => setup with { Strainer = setup.Strainer with { Shape = new FlatDisc(Millimetres(150), Length.FromMeters(share * peak)) } };
        double near = Math.Max(2 * tolerance, 1e-4);
        Assert.True(Of(Rim(1 - near)).RanOver);
        Assert.Equal(1, Of(Rim(1 - near)).PeakPondShare);
        Assert.True(Of(Rim(1 + near)) is { RanOver: false, PeakPondShare: < 1 });
        Assert.Equal(peak / 0.12, Of(setup).PeakPondShare, near * peak / 0.12);

        StrainingSetup Scraped(double share) => setup with { Debris = new Debris { Load = Ratio.FromPartsPerThousand(1) }, Scraping = new Scraping { AtPondDepth = Length.FromMeters(share), Pause = Duration.FromHours(5) } };
        double scrapedPeak = StrainingRun.Simulate(Scraped(0.119), new StrainingOptions { SeriesPoints = 0 }).PeakPond.Meters;
        Assert.Equal(1, Of(Scraped(scrapedPeak * (1 - near))).Scrapes);
        Assert.Equal(0, Of(Scraped(scrapedPeak * (1 + near))).Scrapes);

        // A pond that is held 4 % below its peak keeps back honey, which then takes longer; one that is held above it never is.
        StrainingSetup Ridden(double share) => setup with { Control = GateControl.RideAt(Length.FromMeters(share * peak), Percent(30)) };
        Assert.True(Of(Ridden(0.96)).EndSeconds - Of(Ridden(1 + near)).EndSeconds > 0.5);
        Assert.Equal(Of(setup).EndSeconds, Of(Ridden(1 + near)).EndSeconds, 0.01);
    }
}
