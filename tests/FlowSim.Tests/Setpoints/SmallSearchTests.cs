using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using FlowSim.Tests.OverflowRisk;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;
using static FlowSim.Tests.Setpoints.SmallBatch;

namespace FlowSim.Tests.Setpoints;

/// <summary>The search for the small batch, done over by hand: one warming and one straining for each plan.</summary>
public class SmallSearchTests
{
    private static double Celsius(Temperature temperature, int digits = 9) => Math.Round(temperature.DegreesCelsius, digits);

    private static double[] Curve(SetpointAnswer answer) => [.. answer.Curve.Select(point => Celsius(point.Setpoint))];

    /// <summary>
    /// At each setpoint the soonest is to strain as soon as may be, at 30 °C, and the hotter the sooner up to the ceiling of 40 °C. A trace reads a run to a
    /// few thousandths. One search, looked at from all sides.
    /// </summary>
    [Fact]
    public void The_soonest_plan_comes_with_all_that_goes_with_it()
    {
        var told = new Concurrently();
        SetpointQuestion question = SmallBatch.Plain();
        SetpointAnswer answer = SetpointSearch.Find(question, told);
        (WarmingResult warming, var straining) = ByHand(40, 30);
        double at40 = warming.TimeToTarget!.Value.Seconds + straining.Strain.To95!.Value.Seconds, at39 = SmallBatch.Seconds(ByHand(39, 30)), at41 = SmallBatch.Seconds(ByHand(41, 30));

        // The choice is the run that it stands for; while it is strained the honey is taken to stay as warm as it began.
        SetpointPlan choice = answer.Choice!;
        Assert.Same(question, answer.Question);
        Assert.Equal((SetpointStatus.Found, 40.0, 30.0), (answer.Status, Celsius(choice.Setpoint), Celsius(choice.StrainAt, 3)));
        Assert.Equal(warming.TimeToTarget.Value.Seconds, choice.WarmTime.Seconds, 1e-3);
        Assert.Equal(straining.Strain.To95.Value.Seconds, choice.StrainTime.Seconds, 1e-2);
        Assert.Equal(at40, choice.Total.Seconds, 0.1);
        Assert.Equal(warming.HottestHoney.Kelvins, choice.HottestHoney.Kelvins, 1e-6);
        Assert.Equal(warming.HottestWall.Temperature.Kelvins, choice.HottestWall.Kelvins, 1e-6);
        Assert.Equal(warming.Energy.Heater.Joules, choice.Heater.Joules, 1e-3 * warming.Energy.Heater.Joules);
        Assert.Equal((20.0, 40.0), (Math.Round(choice.Opening.Percent, 9), Celsius(Assert.Single(choice.Warming!.Setup.Heating.Thermostat.Schedule).Setpoint)));
        HoneyHeatDamage damage = warming.Damage.Then(HoneyHeatDamage.Of(TemperatureHistory.Hold(warming.End.Mean, choice.StrainTime), question.Warming.Response));
        Assert.Equal(damage.HmfGainHigh.MilligramsPerKilogram, choice.Damage.HmfGainHigh.MilligramsPerKilogram, 1e-7);
        Assert.Equal(damage.DiastaseLeftLow.DecimalFractions, choice.Damage.DiastaseLeftLow.DecimalFractions, 1e-9);
        Assert.Equal(8 + damage.HmfGain.MilligramsPerKilogram, choice.After!.Hmf.MilligramsPerKilogram, 1e-7);

        // The curve has the soonest plan of each setpoint.
        Assert.Equal([38, 39, 40, 41, 42, 43, 44, 45], Curve(answer));
        foreach ((int point, double soonest) in new[] { (1, at39), (2, at40), (3, at41) })
            Assert.Equal(soonest, answer.Curve[point].Plan!.Total.Seconds, 7e-3 * soonest);
        foreach (CurvePoint point in answer.Curve)
        {
            bool allowed = point.Setpoint.DegreesCelsius < 40.5;
            Assert.Equal((allowed, allowed ? 0 : 1), (point.Allowed, point.Broken.Count));
            Assert.All(point.Broken, broken => Assert.Equal(PlanLimit.Ceiling, broken));
            Assert.Equal((30.0, true, true), (Celsius(point.Plan!.StrainAt, 3), point.Plan.Warming is null, point.Plan.Straining is null));
        }

        // The traces count the damage of the straining too: as much as the whole run but for the reading.
        Assert.Equal(choice.Damage.HmfGain.MilligramsPerKilogram, answer.Curve[2].Plan!.Damage.HmfGain.MilligramsPerKilogram, 0.01 * choice.Damage.HmfGain.MilligramsPerKilogram);

        // What stands in the way, what a degree more buys, what is next, how sure the warming is.
        Assert.Equal(PlanLimit.Ceiling, answer.BindingLimit);
        Assert.Equal(at40 - at41, answer.TimeADegreeBuys!.Value.Seconds, 15.0);
        Assert.Equal((39.0, 30.0), (Celsius(answer.RunnerUp!.Setpoint), Celsius(answer.RunnerUp.StrainAt, 3)));
        Assert.Equal(at39, answer.RunnerUp.Total.Seconds, 1.0);
        Assert.Equal(choice.WarmTime.Seconds, answer.Bounds!.Best.TimeToTarget!.Value.Seconds, 1.0);
        Assert.Null(answer.NearestMiss);
        Assert.Contains(answer.Notices, notice => notice.Code == "setpoint.colder-is-sooner");

        // Eight whole degrees, nine tenths below the ceiling, the choice, the next best, and one that strains colder; the search tells of its own.
        Assert.Equal(20, answer.WarmingRuns);
        Assert.Equal([.. Enumerable.Range(1, 17).Select(runs => runs / 28.0), 20 / 28.0, 1], told.All.Order());
        Assert.Equal(1, told.All[^1]);
    }

    /// <summary>One setpoint alone: next best is to strain it 2 K warmer. Runs: to 5 K beyond, the choice, the next best, and one that strains colder.</summary>
    [Fact]
    public void With_one_setpoint_the_next_best_is_two_kelvins_warmer_at_the_strainer()
    {
        SetpointAnswer answer = SetpointSearch.Find(SmallBatch.Plain() with { Lowest = C(40) });
        Assert.Equal((40.0, 32.0), (Celsius(answer.RunnerUp!.Setpoint), Celsius(answer.RunnerUp.StrainAt, 3)));
        Assert.Equal([40, 41, 42, 43, 44, 45], Curve(answer));
        Assert.Equal(6 + 3, answer.WarmingRuns);
    }

    /// <summary>From the lowest over whole degrees and the ceiling itself to 5 K beyond it; a degree more than that is not on the curve, and found all the same.</summary>
    [Fact]
    public void The_curve_goes_by_whole_degrees_and_over_the_ceiling_itself()
    {
        SetpointAnswer answer = SetpointSearch.Find(With(limits => limits with { Ceiling = C(39.5) }) with { Lowest = C(38.5) });
        Assert.Equal([38.5, 39, 39.5, 40, 41, 42, 43, 44], Curve(answer));
        Assert.Equal([true, true, true, false, false, false, false, false], answer.Curve.Select(point => point.Allowed));
        Assert.Equal(39.5, answer.Choice!.Setpoint.DegreesCelsius, 1e-6);
        Assert.Equal(SmallBatch.Seconds(ByHand(39.5, 30)) - SmallBatch.Seconds(ByHand(40.5, 30)), answer.TimeADegreeBuys!.Value.Seconds, 15.0);
    }

    [Fact]
    public void It_can_be_cancelled_and_refuses_at_once_what_no_run_would_take()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        SetpointQuestion question = SmallBatch.Plain();
        Assert.ThrowsAny<OperationCanceledException>(() => SetpointSearch.Find(question, cancellation: cancelled.Token));

        var told = new Concurrently();
        Assert.Throws<ArgumentOutOfRangeException>(() => SetpointSearch.Find(question with { Warming = question.Warming with { StartTemperature = C(90) } }, told));
        Assert.Throws<ArgumentOutOfRangeException>(() => SetpointSearch.Find(question with { Straining = question.Straining with { RoomTemperature = C(90) } }, told));
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

    /// <summary>Beyond the ceiling it is strained at the tenth of a degree that serves best, as below it: what a degree buys is what the search one degree up gains, as far as a trace reads a run.</summary>
    [Theory]
    [InlineData(10.5)]
    [InlineData(6)]
    public void A_degree_more_is_compared_at_the_same_fineness(double minutes)
    {
        SetpointAnswer At(double ceilingC) => SetpointSearch.Find(
            With(l => l with { Ceiling = C(ceilingC), WarmestAtStrainer = C(38), LongestStraining = Duration.FromMinutes(minutes) }) with { Lowest = C(39) });
        SetpointAnswer here = At(40), there = At(41);
        Assert.Equal((40.0, 41.0), (Celsius(here.Choice!.Setpoint), Celsius(there.Choice!.Setpoint)));
        Assert.Equal((here.Choice.Total - there.Choice.Total).Seconds, here.TimeADegreeBuys!.Value.Seconds, 0.008 * here.Choice.Total.Seconds);
    }
}
