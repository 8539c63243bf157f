using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Tests.OverflowRisk;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

/// <summary>The search for the small batch, done over by hand: one warming and one straining for each plan.</summary>
public class SmallSearchTests(SmallSearchTests.Plain plain) : IClassFixture<SmallSearchTests.Plain>
{
    private static readonly StrainingOptions Quick = new() { SeriesPoints = 0, RelativeTolerance = 1e-6 };

    private static SetpointAnswer Found(Func<SetpointQuestion, SetpointQuestion> change) => SetpointSearch.Find(change(SmallBatch.Plain()));

    private static SetpointQuestion With(SetpointQuestion question, Func<SetpointLimits, SetpointLimits> change) => question with { Limits = change(question.Limits) };

    private static double[] Curve(SetpointAnswer answer) => [.. answer.Curve.Select(point => Math.Round(point.Setpoint.DegreesCelsius, 9))];

    /// <summary>Warmed at a setpoint until the mean is there, then strained a fifth open.</summary>
    private static (WarmingResult Warming, StrainingResult Straining) ByHand(double setpointC, double strainC)
    {
        SetpointQuestion question = SmallBatch.Plain();
        WarmingResult warming = WarmingRun.Simulate(
            question.Warming with { Heating = question.Warming.Heating with { Thermostat = Thermostat.At(C(setpointC)) }, Targets = [WarmingTarget.Mean(C(strainC))], Longest = question.Limits.Longest },
            question.Options);
        return (warming, StrainingRun.Simulate(
            question.Straining with { HoneyTemperature = warming.End.Mean, Control = GateControl.LeaveAt(Ratio.FromPercent(20)) }, Quick));
    }

    private static double Seconds((WarmingResult Warming, StrainingResult Straining) job) => job.Warming.TimeToTarget!.Value.Seconds + job.Straining.Strain.To95!.Value.Seconds;

    [Fact]
    public void The_choice_is_the_run_that_it_stands_for()
    {
        SetpointPlan choice = plain.Answer.Choice!;
        Assert.Equal(SetpointStatus.Found, plain.Answer.Status);
        Assert.Equal((40.0, 30.0), (Math.Round(choice.Setpoint.DegreesCelsius, 9), Math.Round(choice.StrainAt.DegreesCelsius, 3)));
        (WarmingResult warming, StrainingResult straining) = ByHand(40, 30);
        Assert.Equal(warming.TimeToTarget!.Value.Seconds, choice.WarmTime.Seconds, 1e-3);
        Assert.Equal(straining.Strain.To95!.Value.Seconds, choice.StrainTime.Seconds, 1e-2);
        Assert.Equal(choice.WarmTime.Seconds + choice.StrainTime.Seconds, choice.Total.Seconds, 1e-9);
        Assert.Equal(warming.HottestHoney.Kelvins, choice.HottestHoney.Kelvins, 1e-6);
        Assert.Equal(warming.HottestWall.Temperature.Kelvins, choice.HottestWall.Kelvins, 1e-6);
        Assert.Equal(warming.Energy.Heater.Joules, choice.Heater.Joules, 1e-3 * warming.Energy.Heater.Joules);
        Assert.Equal(20, choice.Opening.Percent, 1e-9);
        Assert.Equal([40.0], choice.Warming!.Setup.Heating.Thermostat.Schedule.Select(step => Math.Round(step.Setpoint.DegreesCelsius, 9)));
        Assert.NotNull(choice.Straining);

        // While it is strained the honey is taken to stay as warm as it began.
        HoneyHeatDamage damage = warming.Damage.Then(HoneyHeatDamage.Of(TemperatureHistory.Hold(warming.End.Mean, choice.StrainTime), SmallBatch.Plain().Warming.Response));
        Assert.Equal(damage.HmfGainHigh.MilligramsPerKilogram, choice.Damage.HmfGainHigh.MilligramsPerKilogram, 1e-7);
        Assert.Equal(damage.DiastaseLeftLow.DecimalFractions, choice.Damage.DiastaseLeftLow.DecimalFractions, 1e-9);
        Assert.Equal(8 + damage.HmfGain.MilligramsPerKilogram, choice.After!.Hmf.MilligramsPerKilogram, 1e-7);
    }

    /// <summary>At each setpoint the soonest is to strain as soon as may be, at 30 °C; the trace reads the run to a thousandth.</summary>
    [Fact]
    public void The_curve_has_the_soonest_plan_of_each_setpoint()
    {
        Assert.Equal([38, 39, 40, 41, 42, 43, 44, 45], Curve(plain.Answer));
        foreach (CurvePoint point in plain.Answer.Curve)
        {
            double setpointC = point.Setpoint.DegreesCelsius, soonest = Seconds(ByHand(setpointC, 30));
            Assert.Equal(soonest, point.Plan!.Total.Seconds, 3e-3 * soonest);
            Assert.True(soonest < Seconds(ByHand(setpointC, 31)));
            Assert.Equal(setpointC <= 40, point.Allowed);
            Assert.Equal(setpointC <= 40 ? [] : [PlanLimit.Ceiling], point.Broken);
            Assert.Null(point.Plan.Warming);
            Assert.Null(point.Plan.Straining);
        }
    }

    [Fact]
    public void The_runner_up_is_the_next_that_is_elsewhere()
    {
        SetpointPlan runnerUp = plain.Answer.RunnerUp!;
        Assert.Equal((39.0, 30.0), (Math.Round(runnerUp.Setpoint.DegreesCelsius, 9), Math.Round(runnerUp.StrainAt.DegreesCelsius, 3)));
        Assert.Equal(Seconds(ByHand(39, 30)), runnerUp.Total.Seconds, 1);
        Assert.NotNull(runnerUp.Warming);

        // With one setpoint alone it is 2 K warmer at the strainer.
        SetpointPlan warmer = Found(q => q with { Lowest = C(40) }).RunnerUp!;
        Assert.Equal((40.0, 32.0), (Math.Round(warmer.Setpoint.DegreesCelsius, 9), Math.Round(warmer.StrainAt.DegreesCelsius, 3)));
    }

    /// <summary>Eight whole degrees, nine tenths below the ceiling, the choice, the next best, and one that strains colder.</summary>
    [Fact]
    public void Warming_runs_are_counted()
    {
        Assert.Equal(20, plain.Answer.WarmingRuns);
        Assert.Equal(8, Found(q => With(q, limits => limits with { Overflow = new SmallBatch.Opened(Ratio.Zero) })).WarmingRuns);
    }

    /// <summary>From the lowest over whole degrees and the ceiling itself to 5 K beyond it.</summary>
    [Theory]
    [InlineData(38.5, 39.3, new[] { 38.5, 39, 39.3, 40, 41, 42, 43, 44 })]
    [InlineData(39, 39, new double[] { 39, 40, 41, 42, 43, 44 })]
    [InlineData(38.9, 38.95, new[] { 38.9, 38.95, 39, 40, 41, 42, 43 })]
    [InlineData(94, 95, new double[] { 94, 95, 96, 97, 98, 99, 100 })]
    public void The_curve_goes_by_whole_degrees_to_a_little_beyond_the_ceiling(double lowestC, double ceilingC, double[] setpoints)
    {
        SetpointAnswer answer = Found(q => With(q with { Lowest = C(lowestC) }, limits => limits with { Ceiling = C(ceilingC) }));
        Assert.Equal(setpoints, Curve(answer));
        Assert.Equal(setpoints.Select(c => c <= ceilingC), answer.Curve.Select(point => point.Allowed));
        Assert.Equal(ceilingC, answer.Choice!.Setpoint.DegreesCelsius, 1e-6);
    }

    /// <summary>How much sooner with the ceiling a degree higher, whether that degree is on the curve or not.</summary>
    [Theory]
    [InlineData(40)]
    [InlineData(39.5)]
    public void A_degree_more_buys_what_the_choice_there_is_sooner(double ceilingC)
    {
        SetpointAnswer At(double celsius) => Found(q => With(q with { Lowest = C(39) }, limits => limits with { Ceiling = C(celsius) }));

        SetpointAnswer here = At(ceilingC), there = At(ceilingC + 1);
        Assert.Equal((here.Choice!.Total - there.Choice!.Total).Seconds, here.TimeADegreeBuys!.Value.Seconds, 10.0); // Each of the four runs is good to a thousandth.
        Assert.True(here.TimeADegreeBuys > Duration.FromMinutes(3));
    }

    /// <summary>The bounds are of the choice's own warming.</summary>
    [Fact]
    public void The_choice_comes_with_the_bounds_of_its_warming()
    {
        WarmingBounds bounds = plain.Answer.Bounds!;
        Assert.Equal(plain.Answer.Choice!.WarmTime.Seconds, bounds.Best.TimeToTarget!.Value.Seconds, 1.0);
        Assert.True(bounds.TimeToTargetLow < bounds.TimeToTargetHigh);
        Assert.Equal(InsideHeat.WellMixed, bounds.WellMixed.Inside);
    }

    [Fact]
    public void Progress_rises_and_ends_at_1()
    {
        var told = new Concurrently();
        SetpointSearch.Find(SmallBatch.Plain(), told);
        Assert.Equal(1, told.All[^1]);
        Assert.Equal(19, told.All.Count); // Each run of the search, the one that strains colder with them, and the end.
        Assert.All(told.All.SkipLast(1), share => Assert.InRange(share, 1 / 28.0, 0.99));
        Assert.Equal(Enumerable.Range(1, 17).Select(runs => runs / 28.0), told.All.Take(17).Order());
    }

    [Fact]
    public void It_can_be_cancelled_and_refuses_at_once_what_no_run_would_take()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => SetpointSearch.Find(SmallBatch.Plain(), cancellation: cancelled.Token));

        var told = new Concurrently();
        SetpointQuestion plain = SmallBatch.Plain();
        Assert.Throws<ArgumentOutOfRangeException>(() => SetpointSearch.Find(plain with { Warming = plain.Warming with { StartTemperature = C(90) } }, told));
        Assert.Throws<ArgumentOutOfRangeException>(() => SetpointSearch.Find(plain with { Straining = plain.Straining with { RoomTemperature = C(90) } }, told));
        Assert.Empty(told.All);
    }

    /// <summary>Keeps what several threads tell.</summary>
    private sealed class Concurrently : IProgress<double>
    {
        private readonly Lock _lock = new();
        private readonly Shares _shares = new();

        public List<double> All => _shares.All;

        public void Report(double value)
        {
            lock (_lock)
                _shares.Report(value);
        }
    }

    /// <summary>The plain search, made once.</summary>
    public sealed class Plain
    {
        /// <summary>What it found.</summary>
        public SetpointAnswer Answer { get; } = SetpointSearch.Find(SmallBatch.Plain());
    }
}
