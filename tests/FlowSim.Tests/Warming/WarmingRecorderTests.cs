using FlowSim.HeatDamage;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.HeatNets;

namespace FlowSim.Tests.Warming;

/// <summary>What is kept of a run on its way: rows, extremes and maps of runs that are straight lines or exponentials.</summary>
public class WarmingRecorderTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 2)]
    [InlineData(2, 2)]
    [InlineData(7, 7)]
    public void A_series_has_as_many_even_rows_as_asked_for_and_at_least_two(int points, int rows)
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40));
        WarmingSeries series = PlainStuff.Run(p, 2000, 1e-3, points).Series;
        Assert.All(Columns(series), column => Assert.Equal(rows, column.Count));
        for (int j = 0; j < rows; j++)
        {
            Assert.Equal(2000.0 * j / (rows - 1), series.TimeS[j], 1e-9);
            Assert.Equal(293.15 + (20.0 * j / (rows - 1)), series.BodyK[j], 1e-7);
            Assert.Equal(100, series.HeaterW[j], 1e-6);
        }
    }

    /// <summary>A row every second and more: more than are kept, so that they are thinned several times over.</summary>
    [Theory]
    [InlineData(9, 6000)]
    [InlineData(600, 6000)]
    public void Rows_that_were_thinned_out_still_lie_on_the_line(int points, int seconds)
    {
        WarmingParameters p = PlainStuff.Climbing(2, [.. Enumerable.Range(0, seconds).Select(at => Step(at, 20 + (at % 2)))]) with { HeaterW = 100, HysteresisK = 1000, BodyStartK = 293.05 };
        WarmingSeries series = PlainStuff.Run(p, seconds + 0.5, 1e-3, points).Series;
        for (int j = 0; j < points; j++)
        {
            double t = (seconds + 0.5) * j / (points - 1);
            Assert.Equal(t, series.TimeS[j], 1e-9 * seconds);
            Assert.Equal(293.05 + (0.01 * t), series.BodyK[j], 1e-6);
            Assert.Equal(100, series.HeaterW[j], 1e-3);
        }
    }

    /// <summary>After 4000 rows of one moment, of which every second is kept, one of two steps is left out; the end is there whichever it is.</summary>
    [Theory]
    [InlineData(4001)]
    [InlineData(4002)]
    public void The_end_is_a_row_whatever_was_left_out_before_it(int before)
    {
        WarmingIntegration early = Ended(10), late = Ended(30);
        var recorder = new WarmingRecorder(s_climbing, PlainStuff.Setup(s_climbing, 30), 2);
        for (int i = 0; i < before; i++)
            recorder.Step(early);
        recorder.Step(late);
        recorder.End(late);
        WarmingSeries series = recorder.Series();
        Assert.Equal([0.0, 30], series.TimeS);
        Assert.Equal(late.Now.BodyK, series.BodyK[1]);
    }

    /// <summary>4000 rows, or eight for each point asked for, are kept as they are: a setpoint that jumps to and fro every second is shown as it was.</summary>
    [Theory]
    [InlineData(449, 101)]
    [InlineData(3900, 1001)]
    public void Rows_are_kept_as_long_as_they_are_few(int seconds, int points)
    {
        WarmingParameters p = PlainStuff.Climbing(1000, [.. Enumerable.Range(0, seconds).Select(at => Step(at, 20 + (at % 2)))]);
        WarmingSeries series = PlainStuff.Run(p, seconds, 1e-3, points).Series;
        for (int j = 0; j < points - 1; j++)
        {
            // At a jump itself rounding may show either side of it.
            double t = (double)seconds * j / (points - 1);
            if (t - Math.Floor(t) is > 1e-6 and < 1 - 1e-6)
                Assert.Equal(293.15 + (Math.Floor(t) % 2), series.SetpointK[j], 1e-9);
        }
    }

    [Fact]
    public void A_row_at_a_jump_shows_what_comes_after_it()
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 20), Step(1000, 30)) with { HeaterW = double.PositiveInfinity };
        WarmingSeries series = PlainStuff.Run(p, 2000, 1e-3, 3).Series;
        Assert.Equal([293.15, 303.15, 303.15], series.BodyK.Select(kelvins => Math.Round(kelvins, 9)));
    }

    [Fact]
    public void Of_walls_equally_hot_the_first_is_told()
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 50)) with
        {
            HeaterW = double.PositiveInfinity,
            Contacts = new KitContacts { RoomSide = Film.None, Top = Film.None, ElementRadiusM = 0.02, ElementToM = 0.1 },
        };
        WarmingResult result = PlainStuff.Run(p, 500, 1e-2);
        Assert.Equal((323.15, 0.0), (Math.Round(result.HottestWall.Temperature.Kelvins, 9), result.HottestWall.At.Seconds));
    }

    [Fact]
    public void What_is_kept_of_a_long_run_is_bounded()
    {
        // 10 000 rows of 17 figures would be 1.6 MB and what a list grows by; 4000, then every second, every fourth, are 1.12 with that.
        Assert.InRange(AllocatedBy(2), 600_000, 1_300_000);
    }

    [Fact]
    public void Nothing_is_kept_where_no_series_was_asked_for() => Assert.InRange(AllocatedBy(0), 0, 100_000);

    /// <summary>Bytes that 10 000 steps take.</summary>
    private static long AllocatedBy(int points)
    {
        WarmingIntegration run = Ended(10);
        var recorder = new WarmingRecorder(s_climbing, PlainStuff.Setup(s_climbing, 10), points);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 10_000; i++)
            recorder.Step(run);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    private static readonly WarmingParameters s_climbing = PlainStuff.Climbing(2, Step(0, 90));

    private static WarmingIntegration Ended(double afterS) => PlainStuff.Integrate(s_climbing, PlainStuff.Setup(s_climbing, afterS), 1e-3).Run;

    [Fact]
    public void A_run_that_ends_before_it_begins_has_rows_of_its_start()
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40));
        WarmingSeries series = PlainStuff.Run(p, 2000, 1e-3, 3, WarmingTarget.Mean(RandomWarmings.Celsius(15))).Series;
        Assert.Equal([0.0, 0, 0], series.TimeS);
        Assert.All(series.MeanK, kelvins => Assert.Equal(293.15, kelvins, 1e-9));
        Assert.All(series.HeaterW, watts => Assert.Equal(100, watts));
    }

    [Fact]
    public void Each_column_holds_what_it_says()
    {
        // Body and setpoint on a ramp from 20 °C by 0.05 K/s, the probe behind it, honey that nothing touches, a quarter of its crystals melted.
        var stuff = new PlainStuff { ThinsPerK = 0.08, Enthalpy = new HoneyEnthalpy(2500, 0, 8000, 20, 60), CrystalShare = 0.1 };
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 20), Step(900, 65, true)) with { Honey = stuff, HeaterW = double.PositiveInfinity, LagS = 40, StartK = 303.15 };
        WarmingSetup setup = PlainStuff.Setup(p, 900);
        HeatResponse response = setup.Response with { FloralMultiplier = 3, IncludeFloralSpread = true };
        WarmingSeries series = PlainStuff.Run(p, setup with { Response = response }, 1e-4, 4).Series;
        for (int j = 0; j < 4; j++)
        {
            double t = 300 * j;
            Assert.Equal(303.15, series.ColdestK[j], 1e-9);
            Assert.Equal(303.15, series.MeanK[j], 1e-9);
            Assert.Equal(303.15, series.HottestK[j], 1e-9);
            Assert.Equal(303.15, series.WallK[j], 1e-9);
            Assert.Equal(293.15 + (0.05 * t), series.BodyK[j], 1e-7);
            Assert.Equal(293.15 + (0.05 * t), series.SetpointK[j], 1e-7);
            Assert.Equal(293.15 + (0.05 * (t - (40 * (1 - Math.Exp(-t / 40))))), series.ProbeK[j], 0.05);
            Assert.Equal(0.075, series.CrystalsLeft[j], 1e-12);
            Assert.Equal(5 * Math.Exp(-0.08 * 3.15), series.ViscosityPaS[j], 1e-9);
            var doses = new CellDoses(response.Law, 1);
            doses.Start([303.15]);
            doses.Advance([303.15], t);
            var damage = doses.AverageNow([1.0], response);
            Assert.Equal(damage.HmfLow, series.HmfGainLow[j], 1e-12);
            Assert.Equal(damage.Hmf, series.HmfGain[j], 1e-12);
            Assert.Equal(damage.HmfHigh, series.HmfGainHigh[j], 1e-12);
            Assert.Equal(damage.DiastaseLow, series.DiastaseLeftLow[j], 1e-9);
            Assert.Equal(damage.Diastase, series.DiastaseLeft[j], 1e-9);
            Assert.Equal(damage.DiastaseHigh, series.DiastaseLeftHigh[j], 1e-9);
        }
    }

    /// <summary>An element on a ramp up and down again, whose honey follows it by Newton's law.</summary>
    [Fact]
    public void Extremes_are_those_on_the_way_not_those_at_the_end()
    {
        const double Slope = 0.04, Turn = 1000;
        WarmingParameters element = PlainStuff.Mixed(20) with
        {
            HeaterW = double.PositiveInfinity,
            Contacts = new KitContacts { RoomSide = Film.None, Top = Film.None, ElementRadiusM = 0.02, ElementToM = 0.1 },
            Setpoint = new SetpointCurve([Step(0, 20), Step(Turn, 60, true), Step(2 * Turn, 20, true)]),
            LagS = 50,
        };
        double time = PlainStuff.MixedJPerK / (100 * 2 * Math.PI * 0.02 * 0.1), kept = Math.Exp(-Turn / time);
        WarmingResult result = PlainStuff.Run(element, 2 * Turn, 1e-5);
        Assert.Equal(333.15, result.HottestWall.Temperature.Kelvins, 1e-9);
        Assert.Equal(Turn, result.HottestWall.At.Seconds, 1e-9);

        // On the way down T = 2 a t₁ − a t + a τ + a τ (e − 2) exp(−(t − t₁)/τ); it is hottest where it meets the element.
        Assert.Equal(293.15 + (Slope * (Turn - (time * Math.Log(2 - kept)))), result.HottestHoney.Kelvins, 2e-3);
        Assert.Equal(Slope * 50 * (1 - Math.Exp(-Turn / 50)), PlainStuff.Run(element, Turn, 1e-5).WallAboveProbe.Kelvins, 1e-3);
        Assert.Equal(293.15, result.End.Body.Kelvins, 1e-9);
        Assert.True(result.End.Hottest.Kelvins < result.HottestHoney.Kelvins - 0.5);
    }

    [Fact]
    public void A_wall_that_is_colder_than_the_probe_throughout_is_below_it_by_the_least()
    {
        // Well mixed the wall's inside is as warm as the honey: 25 K below the bath and e^(−1) of that after one time constant.
        WarmingParameters p = PlainStuff.Mixed(45, 200);
        WarmingResult result = PlainStuff.Run(p, PlainStuff.MixedTimeS(200), 1e-4);
        Assert.Equal(-25 / Math.E, result.WallAboveProbe.Kelvins, 1e-3);
    }

    [Fact]
    public void A_map_is_read_from_floor_to_surface_and_from_axis_to_wall()
    {
        var stuff = new PlainStuff { Enthalpy = new HoneyEnthalpy(2500, 0, 8000, 20, 25), CrystalShare = 0.1 };
        WarmingParameters p = Of("bath") with { Honey = stuff, LagS = 0, Vessels = 1 };
        (WarmingIntegration run, WarmingRecorder recorder) = PlainStuff.Integrate(p, PlainStuff.Setup(p, 3000), 1e-2, 0, 0, 1000, 3000, 4000);
        Assert.Equal([0.0, 1000, 3000], recorder.Maps.Select(map => map.At.Seconds));
        Assert.All(recorder.Maps[0].TemperatureK, kelvins => Assert.Equal(293.15, kelvins, 1e-9));
        Assert.All(recorder.Maps[0].CrystalsLeft, left => Assert.Equal(1, left, 1e-9));
        VesselMap end = recorder.Maps[2];
        Assert.Equal((0.12, 0.3, 3, 5), (end.Radius.Meters, end.Level.Meters, end.RadialCells, end.AxialCells));
        Assert.Equal((15, 15), (end.TemperatureK.Count, end.CrystalsLeft.Count));
        for (int k = 0; k < 5; k++)
        {
            for (int i = 0; i < 3; i++)
            {
                Assert.Equal(run.System.TemperatureK[(5 * i) + k], end.TemperatureK[(3 * k) + i]);
                Assert.Equal(1 - run.System.Melted[(5 * i) + k], end.CrystalsLeft[(3 * k) + i]);
            }
        }

        Assert.Contains(end.CrystalsLeft, left => left is > 0 and < 1);

        // Liquid honey has none left of what it never had.
        WarmingParameters liquid = p with { Honey = new PlainStuff() };
        Assert.All(PlainStuff.Run(liquid, PlainStuff.Setup(liquid, 100), 1e-2, 0, 50).Maps.Single().CrystalsLeft, left => Assert.Equal(0, left));
    }

    private static IReadOnlyList<double>[] Columns(WarmingSeries s) =>
    [
        s.TimeS, s.ColdestK, s.MeanK, s.HottestK, s.WallK, s.ProbeK, s.BodyK, s.SetpointK, s.HeaterW, s.CrystalsLeft, s.ViscosityPaS,
        s.HmfGainLow, s.HmfGain, s.HmfGainHigh, s.DiastaseLeftLow, s.DiastaseLeft, s.DiastaseLeftHigh,
    ];
}
