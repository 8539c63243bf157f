using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.HeatNets;

namespace FlowSim.Tests.Warming;

/// <summary>What the thermostat does to a body that climbs by 0.01 K/s from 20 °C or stays as it is: every moment of it is a division.</summary>
public class WarmingSwitchingTests
{
    private const double Tolerance = 1e-3;

    /// <summary>What holding takes has to be more than nothing, or the heater is off: a ten-millionth of a watt.</summary>
    private const double HardlyALoss = 1e-8;

    private static WarmingParameters Held(params SetpointStep[] steps) => PlainStuff.Climbing(0, steps) with { BodyLossWPerK = HardlyALoss };

    private static (WarmingIntegration Run, WarmingResult Result) Follow(WarmingParameters p, double longestS)
    {
        WarmingSetup setup = PlainStuff.Setup(p, longestS);
        (WarmingIntegration run, WarmingRecorder recorder) = PlainStuff.Integrate(p, setup, Tolerance, 2);
        return (run, WarmingReport.Write(p, setup, run, recorder));
    }

    /// <summary>Ends of runs of one setup after several times, °C; what the body took is what the heater gave, at most its power.</summary>
    private static void AssertBody(WarmingParameters p, params (double AtS, double Celsius, double GivenJ)[] ends)
    {
        foreach ((double at, double celsius, double given) in ends)
        {
            (_, WarmingResult result) = Follow(p, at);
            Assert.Equal(celsius, result.End.Body.DegreesCelsius, 1e-6);
            Assert.Equal(given, result.Energy.Heater.Joules, 0.01);
            Assert.Equal((p.BodyJPerK * (celsius + 273.15 - p.BodyStartK)), result.Energy.IntoBody.Joules, 0.01);
            Assert.Equal(0, result.Energy.BalanceRelative, 1e-9);
        }
    }

    [Fact]
    public void It_heats_to_half_the_hysteresis_above_the_setpoint_and_then_no_more()
    {
        // 41 °C after 2100 s.
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40));
        AssertBody(p, (2000, 40, 200_000), (2099, 40.99, 209_900), (2101, 41, 210_000), (9000, 41, 210_000));
        Assert.Equal(0, Follow(p, 2099).Run.Switchings);
        (WarmingIntegration run, WarmingResult result) = Follow(p, 9000);
        Assert.Equal(1, run.Switchings);
        Assert.Equal(1, result.Switchings);
        Assert.Equal(HeaterMode.Off, run.System.Mode);
        Assert.Equal(100, result.Series.HeaterW[0]);
    }

    [Theory]
    [InlineData(39.999, nameof(HeaterMode.On))]
    [InlineData(40, nameof(HeaterMode.Off))]
    [InlineData(40.001, nameof(HeaterMode.Off))]
    [InlineData(45, nameof(HeaterMode.Off))]
    public void It_begins_on_below_the_setpoint_only(double startC, string mode)
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40)) with { BodyStartK = startC + 273.15 };
        (WarmingIntegration run, _) = Follow(p, 60);
        Assert.Equal(mode, run.System.Mode.ToString());
        Assert.Equal(0, run.Switchings);
        Assert.Equal(startC + (mode == nameof(HeaterMode.On) ? 0.6 : 0), run.Now.BodyK - 273.15, 1e-6);
    }

    /// <summary>Nothing warms this honey: a sensor in it, or on its wall, feels what it began with.</summary>
    [Theory]
    [InlineData(SensorPlace.Honey, 312, nameof(HeaterMode.On))]
    [InlineData(SensorPlace.Honey, 314, nameof(HeaterMode.Off))]
    [InlineData(SensorPlace.Wall, 312, nameof(HeaterMode.On))]
    [InlineData(SensorPlace.Wall, 314, nameof(HeaterMode.Off))]
    public void A_sensor_elsewhere_says_whether_it_begins_on(SensorPlace place, double startK, string mode)
    {
        foreach (double lag in new[] { 0, 25.0 })
        {
            WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40)) with { Sensor = place, SensorCell = 3, StartK = startK, LagS = lag };
            (WarmingIntegration run, _) = Follow(p, 60);
            Assert.Equal((mode, 0), (run.System.Mode.ToString(), run.Switchings));
            Assert.Equal(startK, run.Now.ProbeK, 1e-9);
        }
    }

    /// <summary>Off until the setpoint is half the hysteresis above the body.</summary>
    [Fact]
    public void It_comes_on_half_the_hysteresis_below_the_setpoint()
    {
        // The setpoint climbs from 40 °C by 0.002 K/s, past a body that stands at 40.5 °C: 41.5 °C after 750 s.
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40), Step(5000, 50, true)) with { BodyStartK = 313.65 };
        AssertBody(p, (749, 40.5, 0), (751, 40.51, 100));
        Assert.Equal(0, Follow(p, 749).Run.Switchings);
        Assert.Equal(1, Follow(p, 751).Run.Switchings);
    }

    [Fact]
    public void Without_hysteresis_it_gets_to_the_setpoint_and_holds()
    {
        WarmingParameters p = Held(Step(0, 40));
        AssertBody(p, (1999, 39.99, 199_900), (2001, 40, 200_000), (5000, 40, 200_000));
        (WarmingIntegration run, _) = Follow(p, 5000);
        Assert.Equal((HeaterMode.Holds, 1), (run.System.Mode, run.Switchings));

        // Where holding takes nothing at all it is left to itself.
        Assert.Equal(HeaterMode.Off, Follow(p with { BodyLossWPerK = 0 }, 5000).Run.System.Mode);
    }

    [Theory]
    [InlineData(0, nameof(HeaterMode.Holds))]
    [InlineData(5e-7, nameof(HeaterMode.Holds))]
    [InlineData(-5e-7, nameof(HeaterMode.Holds))]
    [InlineData(2e-6, nameof(HeaterMode.Off))]
    [InlineData(-1e-3, nameof(HeaterMode.On))]
    public void A_body_at_the_setpoint_to_a_millionth_of_a_kelvin_is_held_from_the_start(double above, string mode)
    {
        // It would take 50 W to hold it.
        WarmingParameters p = PlainStuff.Climbing(0, Step(0, 40)) with { BodyStartK = 313.15 + above, BodyLossWPerK = 2.5 };
        WarmingSetup setup = PlainStuff.Setup(p, 1e-7);
        (WarmingIntegration run, WarmingRecorder recorder) = PlainStuff.Integrate(p, setup, Tolerance, 2);
        Assert.Equal((mode, 0), (run.System.Mode.ToString(), run.Switchings));
        Assert.Equal(mode switch { nameof(HeaterMode.On) => 100, nameof(HeaterMode.Off) => 0, _ => 50 }, recorder.Series().HeaterW[0], 1e-2);
    }

    [Fact]
    public void What_cannot_be_held_is_left_again_at_once()
    {
        // Held on a ramp that takes half the power, on one that takes twice as much, and on one that would have to cool it.
        WarmingParameters can = Held(Step(0, 20), Step(1000, 25, true), Step(2000, 25));
        AssertBody(can, (500, 22.5, 25_000), (1000, 25, 50_000), (1500, 25, 50_000));
        Assert.Equal((HeaterMode.Holds, 0), (Follow(can, 1500).Run.System.Mode, Follow(can, 1500).Run.Switchings));

        WarmingParameters tooSteep = Held(Step(0, 20), Step(1000, 40, true));
        AssertBody(tooSteep, (500, 25, 50_000), (1000, 30, 100_000), (1999, 39.99, 199_900), (3000, 40, 200_000));
        Assert.Equal((HeaterMode.On, 0), (Follow(tooSteep, 1500).Run.System.Mode, Follow(tooSteep, 1500).Run.Switchings));
        Assert.Equal((HeaterMode.Holds, 1), (Follow(tooSteep, 3000).Run.System.Mode, Follow(tooSteep, 3000).Run.Switchings));

        WarmingParameters falls = Held(Step(0, 20), Step(1000, 10, true));
        AssertBody(falls, (500, 20, 0), (3000, 20, 0));
        Assert.Equal((HeaterMode.Off, 0), (Follow(falls, 500).Run.System.Mode, Follow(falls, 500).Run.Switchings));
    }

    /// <summary>The body climbs at the power it has, the setpoint comes down to meet it: held for no time at all, then off.</summary>
    [Fact]
    public void A_setpoint_that_falls_past_the_body_takes_the_heater_off()
    {
        // 20 + 0.01 t meets 40 − 0.01 t after 1000 s, at 30 °C.
        WarmingParameters p = Held(Step(0, 40), Step(2000, 20, true), Step(2500, 31));
        AssertBody(p, (999, 29.99, 99_900), (1001, 30, 100_000), (2400, 30, 100_000), (2550, 30.5, 105_000), (3000, 31, 110_000));
        Assert.Equal((HeaterMode.Off, 2), (Follow(p, 2400).Run.System.Mode, Follow(p, 2400).Run.Switchings));
        Assert.Equal((HeaterMode.On, 3), (Follow(p, 2550).Run.System.Mode, Follow(p, 2550).Run.Switchings));
        Assert.Equal((HeaterMode.Holds, 4), (Follow(p, 3000).Run.System.Mode, Follow(p, 3000).Run.Switchings));
    }

    [Theory]
    [InlineData(50, nameof(HeaterMode.On), 41)]
    [InlineData(30, nameof(HeaterMode.Off), 40)]
    [InlineData(40, nameof(HeaterMode.Holds), 40)]
    public void A_jump_of_the_setpoint_is_not_held_but_gone_to(double thenC, string mode, double celsius)
    {
        WarmingParameters p = Held(Step(0, 40), Step(3000, thenC));
        AssertBody(p, (3000, 40, 200_000), (3100, celsius, 200_000 + (10_000 * (celsius - 40))));
        (WarmingIntegration run, _) = Follow(p, 3100);
        Assert.Equal((mode, mode == nameof(HeaterMode.Holds) ? 1 : 2), (run.System.Mode.ToString(), run.Switchings));
        Assert.Equal(1, run.System.Segment);
    }

    /// <summary>Held by part of the power: what a room and a loss take.</summary>
    [Fact]
    public void Holding_takes_what_is_lost_and_no_more_than_there_is()
    {
        // 2 W/K: 40 W hold it at 40 °C; from 20 °C it takes 500 s · ln(50/(50 − 20)) · 10 to get there.
        WarmingParameters p = PlainStuff.Climbing(0, Step(0, 40)) with { BodyLossWPerK = 2 };
        double there = 5000 * Math.Log(50.0 / 30);
        WarmingSetup setup = PlainStuff.Setup(p, there + 1000);
        (WarmingIntegration run, WarmingRecorder recorder) = PlainStuff.Integrate(p, setup, 1e-5, 2);
        WarmingResult result = WarmingReport.Write(p, setup, run, recorder);
        Assert.Equal(HeaterMode.Holds, run.System.Mode);
        Assert.Equal((100 * there) + 40_000, result.Energy.Heater.Joules, 20.0);
        Assert.Equal(200_000, result.Energy.IntoBody.Joules, 0.01);
        Assert.Equal(40, run.Now.HeaterW, 1e-6);

        // At 70 °C it would take 100 W: a little above, it is on for good.
        WarmingParameters more = p with { BodyStartK = 343.65, Setpoint = new SetpointCurve([Step(0, 70.5)]) };
        (WarmingIntegration weak, _) = PlainStuff.Integrate(more, PlainStuff.Setup(more, 60), 1e-5);
        Assert.Equal((HeaterMode.On, 0), (weak.System.Mode, weak.Switchings));
        WarmingParameters less = p with { BodyStartK = 342.65, Setpoint = new SetpointCurve([Step(0, 69.5)]) };
        Assert.Equal(HeaterMode.Holds, PlainStuff.Integrate(less, PlainStuff.Setup(less, 60), 1e-5).Run.System.Mode);
    }
}
