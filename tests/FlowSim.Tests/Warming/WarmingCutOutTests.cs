using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.HeatNets;

namespace FlowSim.Tests.Warming;

/// <summary>Cut-out and overheating of a body whose every moment is a division; targets and the time held after them.</summary>
public class WarmingCutOutTests
{
    private const double Unlimited = double.PositiveInfinity;

    private static WarmingResult Run(WarmingParameters p, double longestS) => PlainStuff.Run(p, longestS, 1e-3, 2);

    [Fact]
    public void The_cut_out_takes_the_heater_off_where_it_is_set_and_for_good()
    {
        // 35 °C after 1500 s.
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40), Step(5000, 60)) with { CutOutK = 308.15 };
        WarmingResult result = Run(p, 9000), before = Run(p, 1499);
        Assert.Equal(1500, result.CutOutAt!.Value.Seconds, 1e-4);
        Assert.Equal(35, result.End.Body.DegreesCelsius, 1e-6);
        Assert.Equal(150_000, result.Energy.Heater.Joules, 0.01);
        Assert.Equal((1, WarmingStatus.CutOut), (result.Switchings, result.Status));
        Assert.Equal((0, WarmingStatus.TimeLimit), (before.Switchings, before.Status));
        Assert.Null(before.CutOutAt);
    }

    [Theory]
    [InlineData(34.999, null)]
    [InlineData(35, 0.0)]
    [InlineData(36, 0.0)]
    public void A_body_at_the_cut_out_when_it_begins_is_cut_out_at_once(double startC, double? at)
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 30)) with { CutOutK = 308.15, BodyStartK = startC + 273.15 };
        WarmingResult result = Run(p, 100);
        Assert.Equal(at, result.CutOutAt?.Seconds);
        Assert.Equal(0, result.Energy.Heater.Joules);
        Assert.Equal(startC, result.End.Body.DegreesCelsius, 1e-9);
        Assert.Equal(0, result.Switchings);
    }

    /// <summary>A body that was held, or followed the setpoint, is left where it had got to, and no further than the cut-out.</summary>
    [Theory]
    [InlineData(Unlimited)]
    [InlineData(100)]
    public void A_held_body_is_cut_out_where_it_is(double watts)
    {
        // On a ramp of 0.005 K/s from 20 °C: 25 °C after 1000 s.
        WarmingParameters p = PlainStuff.Climbing(0, Step(0, 20), Step(2000, 30, true)) with { CutOutK = 298.15, HeaterW = watts };
        WarmingResult result = Run(p, 1500);
        Assert.Equal(1000, result.CutOutAt!.Value.Seconds, 1e-3);
        Assert.Equal(25, result.End.Body.DegreesCelsius, 1e-5);
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-9);
        Assert.Equal(double.IsInfinity(watts) ? 0 : 50_000, result.Energy.Heater.Joules, 0.1);
    }

    /// <summary>A jump of the setpoint beyond the cut-out gets the body to the cut-out or the room, whichever is warmer, and no further than the setpoint.</summary>
    [Theory]
    [InlineData(30, 80, 50, 50)]
    [InlineData(5, 15, 10, 15)]
    [InlineData(5, 40, 10, 20)]
    public void A_jump_past_the_cut_out_ends_there(double firstC, double thenC, double cutOutC, double celsius)
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, firstC), Step(1000, thenC)) with { HeaterW = Unlimited, CutOutK = cutOutC + 273.15 };
        WarmingResult result = Run(p, 1100);
        Assert.Equal(1000, result.CutOutAt!.Value.Seconds);
        Assert.Equal(celsius, result.End.Body.DegreesCelsius, 1e-9);
        Assert.Equal(1, result.Switchings);

        // Counted from where it became free: what an endless heater's body takes before is no account of its.
        Assert.Equal(0, result.Energy.IntoBody.Joules, 1e-6);
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-9);
        WarmingResult losing = Run(p with { BodyLossWPerK = 10 }, 1000 + 693.1471805599453);
        Assert.Equal(20 + ((celsius - 20) / 2), losing.End.Body.DegreesCelsius, 0.02);
        Assert.Equal(-10_000 * (celsius - 20) / 2, losing.Energy.IntoBody.Joules, 200.0);
        Assert.Equal(0, losing.Energy.BalanceRelative, 1e-9);
    }

    [Fact]
    public void What_gets_to_150_degrees_ends_the_run()
    {
        // 130 K at 0.01 K/s.
        WarmingResult body = Run(PlainStuff.Climbing(2, Step(0, 200)), 20_000);
        Assert.Equal(WarmingStatus.Overheated, body.Status);
        Assert.Equal(13_000, body.Elapsed.Seconds, 1e-3);
        Assert.Equal(150, body.End.Body.DegreesCelsius, 1e-6);
        Assert.Equal(WarmingStatus.TimeLimit, Run(PlainStuff.Climbing(2, Step(0, 200)), 12_999).Status);

        // Honey that starts as hot ends it with the first step, of 1 s.
        WarmingResult honey = Run(PlainStuff.Climbing(2, Step(0, 40)) with { StartK = 424 }, 20_000);
        Assert.Equal((WarmingStatus.Overheated, 1.0), (honey.Status, honey.Elapsed.Seconds));
        Assert.Equal(WarmingStatus.Overheated, Run(PlainStuff.Climbing(2, Step(0, 40)) with { StartK = 423.15 }, 100).Status);
        Assert.Equal(WarmingStatus.TimeLimit, Run(PlainStuff.Climbing(2, Step(0, 40)) with { StartK = 423 }, 100).Status);
    }

    /// <summary>Newton's law of honey in a bath: the moment of each target is a logarithm.</summary>
    [Fact]
    public void Targets_are_landed_on_and_the_honey_is_held_after_the_last()
    {
        WarmingParameters p = PlainStuff.Mixed(45, 200);
        double time = PlainStuff.MixedTimeS(200);
        double At(double celsius) => time * Math.Log(25 / (45 - celsius));
        WarmingTarget[] targets = [WarmingTarget.Mean(RandomWarmings.Celsius(40)), WarmingTarget.Coldest(RandomWarmings.Celsius(30)), WarmingTarget.CooledTo(RandomWarmings.Celsius(25))];
        WarmingSetup setup = PlainStuff.Setup(p, 5000, targets);
        WarmingResult result = PlainStuff.Run(p, setup, 1e-6);
        Assert.Equal(WarmingStatus.Reached, result.Status);
        Assert.Equal(At(40), result.TargetTimes[0]!.Value.Seconds, 0.02);
        Assert.Equal(At(30), result.TargetTimes[1]!.Value.Seconds, 0.02);
        Assert.Equal(Duration.Zero, result.TargetTimes[2]);
        Assert.Equal(result.TargetTimes[0], result.TimeToTarget);
        Assert.Equal(result.TimeToTarget, result.Elapsed);
        Assert.InRange(result.End.Mean.DegreesCelsius, 40 - 1e-9, 40 + 2e-7);

        WarmingResult held = PlainStuff.Run(p, setup with { HoldAfter = Duration.FromSeconds(100) }, 1e-6);
        Assert.Equal(held.TimeToTarget!.Value.Seconds + 100, held.Elapsed.Seconds, 1e-9);
        Assert.Equal(WarmingStatus.Reached, held.Status);
        Assert.Equal(5000, PlainStuff.Run(p, setup with { HoldAfter = Duration.FromHours(9) }, 1e-3).Elapsed.Seconds);

        // Never: the time limit, and no word of when.
        WarmingResult never = PlainStuff.Run(p, PlainStuff.Setup(p, 300, targets), 1e-3);
        Assert.Equal((WarmingStatus.TimeLimit, 300.0), (never.Status, never.Elapsed.Seconds));
        Assert.Null(never.TimeToTarget);
        Assert.Null(never.TargetTimes[0]);
        Assert.Equal(At(30), never.TargetTimes[1]!.Value.Seconds, 0.5);
    }

    /// <summary>5 Pa·s is at most and at least 5 Pa·s.</summary>
    [Fact]
    public void A_target_that_is_met_exactly_is_reached()
    {
        DynamicViscosity just = DynamicViscosity.FromPascalSeconds(5);
        WarmingResult result = PlainStuff.Run(PlainStuff.Mixed(45), 1000, 1e-2, 0, WarmingTarget.Thin(just), WarmingTarget.Thick(just));
        Assert.Equal([Duration.Zero, Duration.Zero], result.TargetTimes);
    }

    [Fact]
    public void A_target_reached_before_the_cut_out_counts_as_reached()
    {
        WarmingParameters p = PlainStuff.Mixed(45, 200) with { HeaterW = 1e5, BodyJPerK = 1e6, BodyStartK = 313.15, CutOutK = 318.15, HysteresisK = 20 };
        WarmingSetup setup = PlainStuff.Setup(p, 600, WarmingTarget.Mean(RandomWarmings.Celsius(21)));
        WarmingResult result = PlainStuff.Run(p, setup with { HoldAfter = Duration.FromSeconds(200) }, 1e-3);
        Assert.NotNull(result.CutOutAt);
        Assert.Equal(WarmingStatus.Reached, result.Status);
        Assert.True(result.TimeToTarget < result.CutOutAt);
    }
}
