using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Straining.StrainingState;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>The rows of a series, the times of shares and the account of the honey against the state they are read from.</summary>
public class SeriesAndAccountTests
{
    /// <summary>With a deeper strainer of two cloths.</summary>
    private static StrainingSetup Pail() => SmallPail.Running() with
    {
        Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(90)), Cloths = [Cloth.FromAstmSieve(40), Cloth.FromAstmSieve(60)] },
        Debris = new Debris { Load = Ratio.FromPartsPerThousand(0.3) },
        Receiver = new Receiver { Shape = SmallPail.Receiver, Spacer = Length.FromMillimeters(5), AlreadyIn = Volume.FromLiters(0.3) },
        Longest = Duration.FromHours(6),
    };

    private static StrainingResult Run(StrainingSetup setup, int points = 41) => StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = points, RelativeTolerance = 1e-7 });

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(41)]
    public void A_series_has_its_evenly_spaced_points_and_rows_on_both_sides_of_events(int points)
    {
        StrainingResult result = Run(Pail(), points);
        double end = result.Elapsed.Seconds;
        IReadOnlyList<double> times = result.Series.TimeS;
        for (int i = 0; i < points; i++)
            Assert.Contains(times, t => Math.Abs(t - (end * i / (points - 1))) <= 1e-12 * end);
        Assert.Equal(0, times[0]);
        Assert.Equal(end, times[^1]);
        Assert.Equal(times.Order(), times);

        // What stands between the points are events, each told twice: once before and once after what it changes.
        double[] others = [.. times.Where(t => Enumerable.Range(0, points).All(i => Math.Abs(t - (end * i / (points - 1))) > 1e-9 * end))];
        Assert.NotEmpty(others);
        Assert.All(others.GroupBy(t => t), same => Assert.Equal(0, same.Count() % 2));
    }

    [Fact]
    public void No_series_is_empty_and_one_of_one_point_has_two()
    {
        Assert.Empty(Run(Pail(), 0).Series.TimeS);
        Assert.Equal(2, Run(Pail(), 0).Series.OpenShare.Count);
        StrainingSeries one = Run(Pail(), 1).Series, two = Run(Pail(), 2).Series;
        Assert.Equal(two.TimeS, one.TimeS);
    }

    /// <summary>What stands in a row belongs together: levels to masses, flows to the slopes of masses, and temperatures between room and start.</summary>
    [Theory]
    [InlineData(OverflowPath.Bypass)]
    [InlineData(OverflowPath.Spill)]
    public void The_columns_of_a_row_belong_together(OverflowPath path)
    {
        StrainingSetup pail = Pail() with { Control = GateControl.LeaveAt(Percent(60)) };
        pail = pail with { Strainer = pail.Strainer with { Overflow = path, Shape = new FlatDisc(Length.FromMillimeters(120), Length.FromMillimeters(25)) }, Tank = pail.Tank with { WallFilm = false } };
        StrainingResult result = Run(pail, 401);
        StrainingSeries s = result.Series;
        HoneyProperties honey = HoneyProperties.Of(pail.Honey);
        double Density(double kelvins) => honey.DensityAt(Temperature.FromKelvins(kelvins)).KilogramsPerCubicMeter;
        double inReceiver = new StrainingParameters(pail).StartReceiverKg;
        Assert.Equal(Density(pail.RoomTemperature.Kelvins) * 0.0003, inReceiver, 1e-9);
        int over = 0;
        for (int i = 0; i < s.TimeS.Count; i++)
        {
            Assert.Equal(s.TankMassKg[i], Density(s.TankTemperatureK[i]) * s.TankLevelM[i] * Math.PI * 0.16 * 0.16 / 4, 1e-6);
            Assert.Equal(s.PondMassKg[i], Density(s.PondTemperatureK[i]) * s.PondDepthM[i] * Math.PI * 0.12 * 0.12 / 4, 1e-5);
            double received = inReceiver + s.StrainedKg[i] + (path == OverflowPath.Bypass ? s.OverRimKg[i] : 0);
            Assert.Equal(received, Density(s.ReceiverTemperatureK[i]) * s.ReceiverLevelM[i] * Math.PI * 0.18 * 0.18 / 4, 1e-6);
            Assert.Equal(0.6, s.Opening[i]);
            over += s.OverRimFlowKgPerS[i] > 0 ? 1 : 0;
            if (i == 0 || i == s.TimeS.Count - 1 || s.TimeS[i + 1] - s.TimeS[i - 1] < 0.3)
                continue;
            double span = s.TimeS[i + 1] - s.TimeS[i - 1];
            bool smooth = Math.Abs(s.ClothFlowKgPerS[i + 1] - s.ClothFlowKgPerS[i - 1]) < 0.02 * s.ClothFlowKgPerS[i] && Math.Abs(s.GateFlowKgPerS[i + 1] - s.GateFlowKgPerS[i - 1]) < 0.05 * s.GateFlowKgPerS[i]
                && s.OverRimFlowKgPerS[i - 1] > 0 == s.OverRimFlowKgPerS[i + 1] > 0;
            if (!smooth)
                continue;
            Assert.Equal((s.StrainedKg[i + 1] - s.StrainedKg[i - 1]) / span, s.ClothFlowKgPerS[i], 0.03 * s.ClothFlowKgPerS[i]);
            Assert.Equal((s.TankMassKg[i - 1] - s.TankMassKg[i + 1]) / span, s.GateFlowKgPerS[i], 0.03 * s.GateFlowKgPerS[i]);
            Assert.Equal((s.OverRimKg[i + 1] - s.OverRimKg[i - 1]) / span, s.OverRimFlowKgPerS[i], 0.05 * s.GateFlowKgPerS[i]);
        }

        Assert.True(over > 20, $"{over} rows run over");
        Assert.Equal(1 - result.Blinded[1].DecimalFractions, s.OpenShare[1][^1], 1e-12);
        Assert.All(s.OpenShare[0].Zip(s.OpenShare[0].Skip(1)), pair => Assert.True(pair.First >= pair.Second));
        Assert.Equal(s.TankTemperatureK[^1], result.EndTemperatures.Tank.Kelvins, 1e-9);
        Assert.Equal(s.PondTemperatureK[^1], result.EndTemperatures.Pond.Kelvins, 1e-9);
        Assert.Equal(s.ReceiverTemperatureK[^1], result.EndTemperatures.Receiver.Kelvins, 1e-9);
        Assert.Equal(s.PondDepthM.Max(), result.PeakPond.Meters, 1e-6);
    }

    /// <summary>While somebody rides the gate the series shows the opening that just passes what the gate passes.</summary>
    [Fact]
    public void A_ridden_gate_shows_the_opening_that_holds_the_pond()
    {
        StrainingSetup pail = Pail() with { Control = GateControl.RideAt(Length.FromMillimeters(20), Percent(90)) };
        pail = pail with { Tank = pail.Tank with { WallFilm = false, HeldAtTemperature = true } };
        StrainingResult result = Run(pail, 61);
        StrainingSeries s = result.Series;
        HoneyProperties honey = HoneyProperties.Of(pail.Honey);
        double density = honey.DensityAt(Celsius(36)).KilogramsPerCubicMeter, viscosity = honey.ViscosityAt(Celsius(36)).PascalSeconds;
        int ridden = 0;
        for (int i = 0; i < s.TimeS.Count; i++)
        {
            if (Math.Abs(s.PondDepthM[i] - 0.02) > 1e-9 || s.Opening[i] > 0.899)
                continue;
            ridden++;
            GateGeometry gate = GateFlow.GeometryOf(pail.Gate, s.Opening[i]);
            double pressure = density * 9.80665 * s.TankLevelM[i], r = viscosity * gate.ViscousPerM3, b = density * gate.InertialPerM4;
            Assert.Equal(1, density * 2 * pressure / (r + Math.Sqrt((r * r) + (4 * b * pressure))) / s.GateFlowKgPerS[i], 1e-6);
        }

        Assert.True(ridden > 10, $"{ridden} rows are ridden");
        Assert.Equal(0.9, s.Opening[0]);
        Assert.Equal(0.9, s.Opening[^1]);
        Assert.Equal(0.02, result.PeakPond.Meters, 1e-9);
    }

    /// <summary>A share of what can drain has left the tank, or passed the cloth, at its time: a run that ends then has given up just that much.</summary>
    [Fact]
    public void The_times_of_shares_are_when_they_are_reached()
    {
        StrainingSetup pail = Pail();
        StrainingResult whole = Run(pail, 0);
        double start = whole.Masses.Start.Kilograms, canDrain = whole.Masses.CanDrain.Kilograms;

        // 2 mm over the gate at the bottom stay: (110 − 2)/110 can drain.
        Assert.Equal(start * 108 / 110, canDrain, 1e-9);
        (double Share, Duration? Drain, Duration? Strain)[] shares = [(0.5, whole.Drain.To50, whole.Strain.To50), (0.9, whole.Drain.To90, whole.Strain.To90), (0.95, whole.Drain.To95, whole.Strain.To95), (0.99, whole.Drain.To99, whole.Strain.To99)];
        Assert.Contains(shares, share => share.Drain is not null);
        foreach ((double share, Duration? drain, Duration? strain) in shares)
        {
            if (drain is { } drained)
                Assert.Equal(share * canDrain, start - InTank(Run(pail with { Longest = drained }, 0)), 1e-5 * start);
            if (strain is { } strained)
                Assert.Equal(share * canDrain, Run(pail with { Longest = strained }, 0).Masses.Strained.Kilograms, 1e-5 * start);
        }

        Assert.True(whole.Drain.To50 < whole.Drain.To90 && whole.Drain.To90 < whole.Drain.To95 && whole.Drain.To50 < whole.Strain.To50);
        StrainingResult heel = Run(pail with { Longest = whole.DrainToHeel!.Value }, 0);
        Assert.Equal(0.002, heel.Masses.HeldInTank.Kilograms / HoneyProperties.Of(pail.Honey).DensityAt(heel.EndTemperatures.Tank).KilogramsPerCubicMeter / (Math.PI * 0.16 * 0.16 / 4), 1e-7);
        StrainingResult peak = Run(pail with { Longest = whole.PeakPondAt }, 3);
        Assert.Equal(whole.PeakPond.Meters, peak.Series.PondDepthM[^1], 1e-7);

        static double InTank(StrainingResult result) => (result.Masses.HeldInTank + result.Masses.HeldInFilm).Kilograms;
    }

    /// <summary>A gate that is moved shows both openings at its time; a scrape both shares.</summary>
    [Fact]
    public void A_moved_gate_and_a_scrape_give_two_rows_of_one_time()
    {
        StrainingSetup pail = Pail() with
        {
            Control = GateControl.Follow(new OpeningStep(Duration.Zero, Percent(30)), new OpeningStep(Duration.FromSeconds(20.123), Percent(10))),
            Scraping = new Scraping { Times = [Duration.FromSeconds(30.456)], Recovery = 0.5 },
            Longest = Duration.FromSeconds(60),
        };
        StrainingSeries s = Run(pail, 7).Series;
        int[] moved = [.. Enumerable.Range(0, s.TimeS.Count).Where(i => s.TimeS[i] == 20.123)];
        Assert.Equal([0.3, 0.1], moved.Select(i => s.Opening[i]));
        Assert.True(s.GateFlowKgPerS[moved[1]] < 0.7 * s.GateFlowKgPerS[moved[0]]);
        int[] scraped = [.. Enumerable.Range(0, s.TimeS.Count).Where(i => s.TimeS[i] == 30.456)];
        Assert.Equal(2, scraped.Length);
        double blinded = 1 - s.OpenShare[0][scraped[0]];
        Assert.True(blinded > 1e-4);
        Assert.Equal(1 - (0.5 * blinded), s.OpenShare[0][scraped[1]], 1e-12);
    }

    /// <summary>A free pond is deepest where the gate brings just what the cloth passes, but for the swelling; not merely at the end of some step.</summary>
    [Fact]
    public void A_pond_is_deepest_where_it_neither_gains_nor_loses()
    {
        StrainingSetup pail = Pail() with { RoomTemperature = Celsius(36) };
        StrainingResult whole = Run(pail, 0);
        StrainingSeries s = Run(pail with { Longest = whole.PeakPondAt }, 2).Series;
        Assert.Equal(s.GateFlowKgPerS[^1], s.ClothFlowKgPerS[^1], 1e-5 * s.GateFlowKgPerS[^1]);
    }

    /// <summary>Where the honey is, from the levels: the parts add up to the start, whatever happened.</summary>
    [Theory]
    [InlineData(OverflowPath.Bypass, true)]
    [InlineData(OverflowPath.Bypass, false)]
    [InlineData(OverflowPath.Spill, true)]
    [InlineData(OverflowPath.Spill, false)]
    public void The_account_adds_up(OverflowPath path, bool small)
    {
        StrainingSetup pail = Pail() with { Control = GateControl.LeaveAt(Percent(60)) };
        pail = pail with
        {
            Strainer = pail.Strainer with { Overflow = path, Shape = new FlatDisc(Length.FromMillimeters(120), Length.FromMillimeters(25)) },
            Receiver = small ? new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(140), Length.FromMillimeters(60)), ShutWhenFull = false } : pail.Receiver,
        };
        StrainingResult result = Run(pail, 2);
        MassAccount m = result.Masses;
        double over = result.Overflows.Sum(o => o.Mass.Kilograms);
        Assert.True(over > 0.1);
        Assert.Equal(m.Start.Kilograms, (m.Strained + m.Bypassed + m.SpilledAtStrainer + m.SpilledAtReceiver + m.HeldOnCloth + m.HeldInFilm + m.HeldInTank).Kilograms, 1e-9);
        Assert.InRange(m.BalanceRelative, -1e-10, 1e-10);
        Assert.Equal(path == OverflowPath.Spill ? over : 0, m.SpilledAtStrainer.Kilograms, 1e-9);
        Assert.Equal(small && path == OverflowPath.Bypass, m.SpilledAtReceiver.Kilograms > 0.1);
        Assert.Equal(result.Series.StrainedKg[^1] + (path == OverflowPath.Bypass ? over : 0), (m.Strained + m.Bypassed + m.SpilledAtReceiver).Kilograms, 1e-9);
        Assert.Equal(result.Series.PondMassKg[^1], m.HeldOnCloth.Kilograms, 1e-9);
        Assert.Equal(result.Series.TankMassKg[^1], (m.HeldInTank + m.HeldInFilm).Kilograms, 1e-9);
        if (result.ReceiverFullAt is not null)
        {
            // A brim-full receiver holds its capacity, weighed when it was full.
            double density = HoneyProperties.Of(pail.Honey).DensityAt(result.EndTemperatures.Receiver).KilogramsPerCubicMeter;
            Assert.Equal(1, (m.Strained + m.Bypassed).Kilograms / (density * pail.Receiver.Shape.Capacity.CubicMeters), 0.01);
        }

        // The same, as it is told of a run among many.
        var sample = new StrainingSample[1];
        new StrainingEnsemble(pail, [], new EnsembleOptions { Lanes = LaneWidth.OneByOne, RelativeTolerance = 1e-7 }).Run(default, sample);
        StrainingSample told = sample[0];
        Assert.True(told.RanOver);
        Assert.Equal(result.FirstOverflow!.Value.Seconds, told.FirstOverflowSeconds, 1e-9);
        Assert.Equal(result.Drain.To95!.Value.Seconds, told.DrainSeconds, 1e-9);
        Assert.Equal(result.Strain.To95?.Seconds ?? double.NaN, told.StrainSeconds, 1e-9);
        Assert.Equal(result.ReceiverFullAt?.Seconds ?? double.PositiveInfinity, told.ReceiverFullSeconds, 1e-9);
        Assert.Equal(over, told.OverRimKg, 1e-9);
        Assert.Equal(m.Bypassed.Kilograms, told.BypassedKg, 1e-9);
        Assert.Equal(m.Spilled.Kilograms, told.SpilledKg, 1e-9);
        Assert.Equal(m.SpilledAtReceiver.Kilograms, told.ReceiverSpilledKg, 1e-9);
        Assert.Equal(m.Strained.Kilograms, told.StrainedKg, 1e-9);
        Assert.Equal(1, told.PeakPondShare, 1e-9);
        Assert.Equal((result.Elapsed.Seconds, result.Ending, result.Scrapes.Count), (told.EndSeconds, told.Ending, told.Scrapes));
        Assert.Equal(HoneyProperties.Of(pail.Honey).ViscosityAt(Celsius(36)).PascalSeconds, result.StartViscosity.PascalSeconds, 1e-9);
        Assert.True(result.Solver.Steps > 10 && result.Solver.Events > 2 && result.Solver.DerivativeEvaluations > result.Solver.Steps);
    }

    [Fact]
    public void A_run_without_overflow_or_full_receiver_tells_so()
    {
        StrainingResult result = Run(Pail(), 0);
        Assert.Null(result.FirstOverflow);
        Assert.Null(result.ReceiverFullAt);
        Assert.Empty(result.Overflows);
        Assert.Equal((StrainingStatus.Drained, StrainingStatus.Drained), (result.Status, result.Ending));
        var sample = new StrainingSample[1];
        new StrainingEnsemble(Pail(), [], new EnsembleOptions { Lanes = LaneWidth.OneByOne }).Run(default, sample);
        Assert.True(sample[0] is { RanOver: false, FirstOverflowSeconds: double.PositiveInfinity, ReceiverFullSeconds: double.PositiveInfinity, OverRimKg: 0 });
        Assert.Equal(result.PeakPond.Meters / 0.09, sample[0].PeakPondShare, 1e-4);
    }

    [Theory]
    [InlineData(1e-12, 0, null)]
    [InlineData(1e-3, 100_000, null)]
    [InlineData(9e-13, 0, "RelativeTolerance")]
    [InlineData(1.01e-3, 0, "RelativeTolerance")]
    [InlineData(1e-6, -1, "SeriesPoints")]
    [InlineData(1e-6, 100_001, "SeriesPoints")]
    public void Options_are_taken_up_to_their_limits(double tolerance, int points, string? refused)
    {
        // Shut at once and for good: the run ends before it begins.
        StrainingSetup shut = Pail() with { Control = GateControl.LeaveAt(Percent(0)) };
        var options = new StrainingOptions { RelativeTolerance = tolerance, SeriesPoints = points };
        if (refused is null)
            Assert.Equal(StrainingStatus.Stalled, StrainingRun.Simulate(shut, options).Ending);
        else
            Assert.Equal(refused, Assert.Throws<ArgumentOutOfRangeException>(() => StrainingRun.Simulate(shut, options)).ParamName);
    }

    /// <summary>The numbers that follow from a setup, each from its definition.</summary>
    [Fact]
    public void Numbers_follow_from_the_setup()
    {
        StrainingSetup pail = Pail() with { RoomTemperature = Celsius(21) };
        pail = pail with { Tank = pail.Tank with { GateHeight = Length.FromMillimeters(10), HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(7) }, Strainer = pail.Strainer with { MinimumHead = Length.FromMillimeters(3), ScreenFactor = 0.8 } };
        var p = new StrainingParameters(pail);
        double density = HoneyProperties.Of(pail.Honey).DensityAt(Celsius(36)).KilogramsPerCubicMeter, floor = Math.PI * 0.16 * 0.16 / 4, disc = Math.PI * 0.15 * 0.15 / 4;
        Assert.Equal(density * 0.11 * floor, p.StartTankKg, 1e-9);
        Assert.Equal(0.012, p.HeelLevelM, 1e-12); // 2 mm over the gate
        Assert.Equal(density * 0.098 * floor, p.CanDrainKg, 1e-9);
        Assert.Equal(p.CanDrainKg / (7 * 24 * 3600), p.StallKgPerS, 1e-18);
        Assert.Equal(0.001 * p.StartTankKg, p.TankThermalKg, 1e-12);
        Assert.Equal(density * 0.003 * disc, p.PondThermalKg, 1e-12);
        Assert.Equal(0.09 * disc, p.RimVolumeM3, 1e-12);
        Assert.Equal(0.001 * density * 0.17 * Math.PI * 0.18 * 0.18 / 4, p.ReceiverThermalKg, 1e-12);
        Assert.Equal((7.0, 7.0), (p.TankLossWPerM2K, p.PondLossWPerM2K));
        Assert.Equal((294.15, 294.15), (p.StartReceiverK, p.RoomK));
        Assert.Equal([SquareCloth.ResistancePerMArmourCannon1968(425e-6, Cloth.FromAstmSieve(40).WireDiameter.Meters), SquareCloth.ResistancePerMArmourCannon1968(250e-6, Cloth.FromAstmSieve(60).WireDiameter.Meters)], p.ClothResistancesPerM, (a, b) => Math.Abs((a / b) - 1) < 1e-9);

        // A tank that is held loses nothing, but its honey does on the cloth; a wet cloth that holds back nothing keeps 1 mm of warmth.
        var held = new StrainingParameters(pail with { Tank = pail.Tank with { HeldAtTemperature = true }, Strainer = pail.Strainer with { MinimumHead = Length.Zero }, Receiver = pail.Receiver with { StartTemperature = Celsius(25) } });
        Assert.Equal((0.0, 7.0, 298.15), (held.TankLossWPerM2K, held.PondLossWPerM2K, held.StartReceiverK));
        Assert.Equal(density * 0.001 * disc, held.PondThermalKg, 1e-12);
        Assert.False(p.Bypass == p.SealedOn);
        Assert.Equal(StrainingParameters.HeelLevel(pail), p.HeelLevelM);
        Assert.Equal(FirstOpenShare + 2, new StrainingSystem(p, new StrainingRecord(p, null)).Dimension);
    }

    /// <summary>A pond that is not deeper than before by more than a rounding keeps its time.</summary>
    [Fact]
    public void The_deepest_pond_is_the_first_of_equals()
    {
        var p = new StrainingParameters(Pail());
        var record = new StrainingRecord(p, null);
        double[] y = new double[FirstOpenShare + 2];
        y[PondK] = p.StartTankK;
        y[PondKg] = 0.3;
        record.NoteDepth(5, y);
        double depth = 0.3 / p.StartDensityKgPerM3 / (Math.PI * 0.15 * 0.15 / 4);
        Assert.Equal(depth, record.PeakPondM, 1e-12);
        Assert.Equal(5, record.PeakPondS);
        y[PondKg] = 0.3 * (1 + 1e-10);
        record.NoteDepth(6, y);
        Assert.Equal(5, record.PeakPondS);
        y[PondKg] = 0.3 * (1 + 1e-8);
        record.NoteDepth(7, y);
        Assert.Equal(7, record.PeakPondS);
        y[PondKg] = 0.1;
        record.NoteDepth(8, y);
        Assert.Equal(7, record.PeakPondS);

        record.NoteScrape(3);
        record.NoteHeel(9);
        y[StrainedKg] = 1.5;
        y[OverRimKg] = 0.25;
        record.NoteReceiverFull(10, y);
        Assert.Equal([3.0], record.Scrapes);
        Assert.Equal((9.0, 10.0, 1.5, 0.25), (record.HeelS, record.ReceiverFullS, record.StrainedAtFullKg, record.OverRimAtFullKg));

        // Spells over the rim: from when it begins to when it ends, with what went over between.
        record.NoteMode(PondMode.Ridden, 11, y);
        record.NoteMode(PondMode.OverRim, 12, y);
        y[OverRimKg] = 0.75;
        record.NoteMode(PondMode.OverRim, 13, y);
        record.NoteMode(PondMode.Free, 14, y);
        y[OverRimKg] = 1;
        record.NoteMode(PondMode.OverRim, 20, y);
        y[OverRimKg] = 1.125;
        record.NoteEnd(new StrainingSystem(p, record), 21, y);
        Assert.Equal([(12, 14, 0.5), (20, 21, 0.125)], record.Overflows);
    }
}
