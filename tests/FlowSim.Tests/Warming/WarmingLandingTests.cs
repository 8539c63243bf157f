using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.HeatNets;

namespace FlowSim.Tests.Warming;

/// <summary>Where events are landed on: just past the crossing, on the soonest of several, in few tries.</summary>
public class WarmingLandingTests
{
    [Fact]
    public void A_crossing_of_a_straight_line_takes_a_few_tries()
    {
        // Two evaluations a step and a try; one each where it begins, begins again and has switched.
        (int evaluations, WarmingIntegration run) = Evaluations(stuff => PlainStuff.Climbing(2, Step(0, 40)) with { Honey = stuff }, 2200, 1e-2);
        Assert.Equal(1, run.Switchings);
        Assert.InRange(evaluations - (2 * run.Steps), 3, 15);
        Assert.InRange(run.Now.BodyK - 314.15, 0, 1e-7);
    }

    [Theory]
    [InlineData(30)]
    [InlineData(43)]
    [InlineData(44.9)]
    public void A_crossing_of_an_exponential_takes_a_few(double celsius)
    {
        (int evaluations, WarmingIntegration run) = Evaluations(stuff => PlainStuff.Mixed(45, 200) with { Honey = stuff }, 1e5, 0.1, WarmingTarget.Mean(RandomWarmings.Celsius(celsius)));
        Assert.InRange(evaluations - (2 * run.Steps), 3, 20);
        Assert.InRange(run.Now.MeanK - 273.15 - celsius, -1e-12, 1e-7);
        Assert.True(run.EndS < 1e5);
    }

    /// <summary>A long step past three crossings ends at the first, and the others come in their order.</summary>
    [Fact]
    public void Of_several_crossings_in_a_step_the_soonest_counts()
    {
        WarmingParameters p = PlainStuff.Mixed(45, 200) with { CutOutK = 400 };
        double time = PlainStuff.MixedTimeS(200);
        double[] celsius = [44, 30, 38, 30.5, 21];
        WarmingSetup setup = PlainStuff.Setup(p, 1e5, [.. celsius.Select(c => WarmingTarget.Mean(RandomWarmings.Celsius(c)))]);
        (WarmingIntegration run, _) = PlainStuff.Integrate(p, setup, 0.02);
        for (int i = 0; i < celsius.Length; i++)
            Assert.Equal(time * Math.Log(25 / (45 - celsius[i])), run.Targets.ReachedS[i], 0.01 * time);
        Assert.Equal(run.Targets.ReachedS.Max(), run.EndS);
    }

    /// <summary>On a ramp of 0.01 K/s the cut-out at 30 °C comes before the setpoint's end, which the steps would have gone past.</summary>
    [Theory]
    [InlineData(30, 1000)]
    [InlineData(20.001, 0.1)]
    [InlineData(59.999, 3999.9)]
    public void A_body_on_a_ramp_is_caught_where_it_crosses(double cutOutC, double seconds)
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 20), Step(4000, 60, true)) with { HeaterW = double.PositiveInfinity, CutOutK = cutOutC + 273.15 };
        WarmingResult result = PlainStuff.Run(p, 10_000, 1e-2);
        Assert.Equal(seconds, result.CutOutAt!.Value.Seconds, 1e-4);
        Assert.Equal(cutOutC, result.End.Body.DegreesCelsius, 1e-6);
    }

    /// <summary>
    /// A body of next to no heat capacity goes through the cut-out within less time than is looked at, a thousand-millionth of the run's: it is past it, no
    /// further than that time takes it, and where it is by then.
    /// </summary>
    [Theory]
    [InlineData(0, 1e6, 1e11)]
    [InlineData(1e6, 1e2, 1e5)]
    public void However_steep_a_crossing_the_body_is_just_past_it(double onAtS, double lowW, double highW)
    {
        SetpointStep[] steps = onAtS > 0 ? [Step(0, 10), Step(onAtS, 90)] : [Step(0, 90)];
        double looked = 1e-9 * Math.Max(1, onAtS);
        for (double watts = lowW; watts < highW; watts *= 1.15)
        {
            WarmingParameters p = PlainStuff.Climbing(2, steps) with { BodyJPerK = 1, HeaterW = watts, CutOutK = 323.15 };
            (WarmingIntegration run, _) = PlainStuff.Integrate(p, PlainStuff.Setup(p, onAtS + 10), 1e-2);
            double climbed = run.Now.BodyK - 293.15;
            Assert.InRange(climbed, 30 - 1e-9, 30 + Math.Max(1e-6, 1.01 * looked * watts));
            Assert.Equal(climbed, watts * (run.CutOutS!.Value - onAtS), (1e-6 * climbed) + (1e-3 * looked * watts));
        }
    }

    [Fact]
    public void A_run_that_is_given_up_from_without_ends_at_once()
    {
        WarmingParameters p = PlainStuff.Climbing(2, Step(0, 40));
        var run = new WarmingIntegration(p, PlainStuff.Setup(p, 2000), 1e-2, []);
        Assert.Throws<OperationCanceledException>(() => run.Run(new WarmingRecorder(p, PlainStuff.Setup(p, 2000), 0), new CancellationToken(true)));
        Assert.Equal((0, 0.0), (run.Steps, run.EndS));
    }

    /// <summary>Evaluations of a run: each asks for the conductivity of every cell.</summary>
    private static (int Evaluations, WarmingIntegration Run) Evaluations(Func<PlainStuff, WarmingParameters> of, double longestS, double toleranceK, params WarmingTarget[] targets)
    {
        var stuff = new PlainStuff();
        WarmingParameters p = of(stuff);
        (WarmingIntegration run, _) = PlainStuff.Integrate(p, PlainStuff.Setup(p, longestS, targets), toleranceK);
        return (stuff.Asked / p.Grid.Count, run);
    }
}
