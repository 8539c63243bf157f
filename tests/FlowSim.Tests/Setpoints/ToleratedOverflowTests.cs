using System.Diagnostics;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Setpoints;
using FlowSim.Straining;
using UnitsNet;
using Xunit.Abstractions;

namespace FlowSim.Tests.Setpoints;

/// <summary>The setpoint whose straining runs over with no more than a chance that is put up with.</summary>
public class ToleratedOverflowTests(ITestOutputHelper output)
{
    private static readonly StrainingSetup Straining = Batches.Pail().Straining;

    [Fact]
    public void A_plan_keeps_the_tolerance_in_other_draws_and_opens_less_than_if_all_were_exact()
    {
        SetpointQuestion question = Batches.Pail() with { Limits = new SetpointLimits { Ceiling = Batches.C(45), Overflow = OverflowLimit.WithinTolerance(Ratio.FromPercent(5), runs: 512) } };
        var watch = Stopwatch.StartNew();
        SetpointAnswer answer = SetpointSearch.Find(question);
        output.WriteLine($"{watch.Elapsed.TotalSeconds:0.00} s");
        SetpointPlan choice = answer.Choice!;
        StrainingSetup setup = Straining with { Honey = question.Warming.Honey, HoneyTemperature = choice.StrainAt, Control = GateControl.LeaveAt(choice.Opening) };
        Assert.True(choice.Opening > Ratio.Zero && choice.Opening < WidestOpening.Find(setup));

        ProbabilityEstimate other = RiskAnalysis.Map(
            new RiskQuestion { Setup = setup, Runs = 4096, Seed = 77 }, [choice.Opening], [choice.StrainAt]).Cells[0][0].Overflow;
        Assert.True(other.Low <= 0.05, $"{other}");
    }

    [Fact]
    public void A_smaller_tolerance_never_opens_wider()
    {
        double before = 1;
        foreach (double percent in new[] { 50, 20, 5, 2 })
        {
            double opening = OverflowLimit.WithinTolerance(Ratio.FromPercent(percent), runs: 512).WidestOpeningFor(Straining, default).DecimalFractions;
            Assert.True(opening <= before, $"{percent} %: {opening} after {before}");
            before = opening;
        }

        Assert.InRange(before, 0.05, 0.5);
    }

    /// <summary>The spread of a temperature is carried along: 35 ± 2 °C asked at 40 °C is 40 ± 2 °C.</summary>
    [Fact]
    public void The_spread_of_the_temperature_goes_with_the_temperature()
    {
        var source = new Source("invented", Standing.GivenByUser);
        UncertainInput Warm(double celsius) => new(StrainingInputs.HoneyTemperature, new NormalDistribution(celsius + 273.15, 2), source);
        UncertainInput screen = new(StrainingInputs.ScreenFactor, new UniformDistribution(0.62, 1), source);
        StrainingSetup at40 = Straining with { HoneyTemperature = Batches.C(40) };
        Ratio carried = OverflowLimit.WithinTolerance(Ratio.FromPercent(5), [Warm(35), screen], runs: 256).WidestOpeningFor(at40, default);
        Ratio there = OverflowLimit.WithinTolerance(Ratio.FromPercent(5), [Warm(40), screen], runs: 256).WidestOpeningFor(at40, default);
        Assert.Equal(there, carried);
    }
}
