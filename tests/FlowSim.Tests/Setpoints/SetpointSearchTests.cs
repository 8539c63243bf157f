using FlowSim.HeatDamage;
using FlowSim.OverflowRisk;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

public class SetpointSearchTests(SetpointSearchTests.PailSearch plain) : IClassFixture<SetpointSearchTests.PailSearch>
{
    private static readonly StrainingOptions Quick = new() { SeriesPoints = 0 };

    [Fact]
    public void The_choice_keeps_every_limit_when_it_is_run_again_by_hand()
    {
        SetpointQuestion question = Pail();
        SetpointPlan choice = plain.Answer.Choice!;

        (WarmingResult warming, StrainingResult straining) = ByHand(question, choice.Setpoint, choice.StrainAt, choice.Opening);
        HoneyHeatDamage damage = warming.Damage.Then(HoneyHeatDamage.Of(
            TemperatureHistory.Hold(warming.End.Mean, straining.Strain.To95!.Value), question.Warming.Response));

        Assert.Equal(WarmingStatus.Reached, warming.Status);
        Assert.Empty(straining.Overflows);
        Assert.True(choice.Setpoint <= question.Limits.Ceiling);
        Assert.True(warming.HottestHoney <= question.Limits.Ceiling);
        Assert.True(warming.HottestWall.Temperature.DegreesCelsius <= question.Limits.Ceiling.DegreesCelsius + 5);
        Assert.Equal(LimitConfidence.OverTheWholeBand, LimitCheck.Of(damage.After(question.Warming.Before!), question.Limits.Heat).Overall);
        Assert.Equal(warming.TimeToTarget!.Value.Seconds, choice.WarmTime.Seconds, 1e-6 * choice.WarmTime.Seconds);
        Assert.Equal(straining.Strain.To95!.Value.Seconds, choice.StrainTime.Seconds, 1e-6 * choice.StrainTime.Seconds);
        Assert.Equal(damage.HmfGainHigh.MilligramsPerKilogram, choice.Damage.HmfGainHigh.MilligramsPerKilogram, 1e-9);
        Assert.Equal(damage.DiastaseLeftLow.DecimalFractions, choice.Damage.DiastaseLeftLow.DecimalFractions, 1e-9);
    }

    [Fact]
    public void No_plan_of_a_search_by_brute_force_is_sooner()
    {
        SetpointQuestion question = Pail();
        SetpointPlan choice = plain.Answer.Choice!;

        foreach (double setpointC in new[] { 39.0, 42, 44.5, 45 })
        {
            foreach (double strainC in new[] { 30.0, 31.3, 33, 36 })
            {
                WarmingResult warming = Warm(question, C(setpointC), C(strainC));
                StrainingSetup setup = question.Straining with { HoneyTemperature = warming.End.Mean };
                StrainingResult straining = StrainingRun.Simulate(setup with { Control = GateControl.LeaveAt(WidestOpening.Find(setup)) }, Quick);
                double total = warming.TimeToTarget!.Value.Seconds + straining.Strain.To95!.Value.Seconds;

                // A tenth of a degree is as fine as the search looks; here that is worth some 20 s of some 3 h.
                Assert.True(total >= choice.Total.Seconds - 60, $"{setpointC} °C, strained at {strainC} °C: {total} s, choice {choice.Total.Seconds} s");
            }
        }
    }

    [Fact]
    public void In_warm_air_the_ceiling_binds_and_a_degree_more_buys_time()
    {
        SetpointAnswer answer = plain.Answer;
        Assert.Equal(SetpointStatus.Found, answer.Status);
        Assert.Equal(45, answer.Choice!.Setpoint.DegreesCelsius, 1e-9);
        Assert.Equal(PlanLimit.Ceiling, answer.BindingLimit);
        Assert.True(answer.TimeADegreeBuys > Duration.Zero);
        Assert.True(answer.RunnerUp!.Total >= answer.Choice.Total);
        Assert.True(Math.Abs(answer.RunnerUp.Setpoint.Kelvins - answer.Choice.Setpoint.Kelvins) >= 1 - 1e-3
            || Math.Abs(answer.RunnerUp.StrainAt.Kelvins - answer.Choice.StrainAt.Kelvins) >= 2 - 1e-3);
        Assert.Empty(answer.RunnerUp.Broken);
    }

    [Fact]
    public void The_curve_covers_all_whole_degrees_and_says_what_the_hotter_ones_break()
    {
        SetpointAnswer answer = plain.Answer;
        Assert.Equal(Enumerable.Range(38, 13).Select(c => (double)c), answer.Curve.Select(point => Math.Round(point.Setpoint.DegreesCelsius, 9)));
        Assert.All(answer.Curve, point =>
        {
            bool beyond = point.Setpoint.DegreesCelsius > 45 + 1e-9;
            Assert.Equal(!beyond, point.Allowed);
            Assert.Equal(beyond, point.Broken.Contains(PlanLimit.Ceiling));
            Assert.NotNull(point.Plan);
        });
    }

    [Fact]
    public void A_strict_house_limit_binds_instead_of_the_ceiling()
    {
        // In hot water the wall layer is harmed; in air, whose film holds back, a hotter setpoint is the gentler one: it is left sooner.
        SetpointQuestion loose = Pail() with
        {
            Warming = Pail().Warming with { Heating = new HeatedBath { Thermostat = Thermostat.At(C(60)), WaterLevel = Length.FromMillimeters(290) } },
            ColdestStraining = C(50),
            Lowest = C(66),
            Limits = new SetpointLimits { Ceiling = C(80), HottestWall = C(90), WarmestAtStrainer = C(60), Heat = HeatLimit.House(hmfAtMost: MgPerKg(1000)) },
        };
        SetpointPlan[] plans = [.. SetpointSearch.Find(loose).Curve.Where(point => point.Allowed).Select(point => point.Plan!)];
        double gentlest = plans.Max(plan => plan.Damage.DiastaseLeftLow.DecimalFractions), soonest = plans.MinBy(plan => plan.Total)!.Damage.DiastaseLeftLow.DecimalFractions;
        Assert.True(soonest < gentlest);

        double limit = 15 * (soonest + gentlest) / 2;
        SetpointAnswer strict = SetpointSearch.Find(loose with { Limits = loose.Limits with { Heat = HeatLimit.House(diastaseAtLeast: limit) } });
        Assert.True(15 * strict.Choice!.Damage.DiastaseLeftLow.DecimalFractions >= limit);
        Assert.Equal(PlanLimit.Diastase, strict.BindingLimit);
    }

    [Fact]
    public void When_no_setpoint_meets_the_limits_the_nearest_miss_says_by_how_much()
    {
        SetpointQuestion question = Pail() with
        {
            Limits = new SetpointLimits { Ceiling = C(45), Heat = HeatLimit.House(hmfAtMost: MgPerKg(8)) },
        };
        SetpointAnswer answer = SetpointSearch.Find(question);
        Assert.Equal(SetpointStatus.NoneMeetsTheLimits, answer.Status);
        Assert.Null(answer.Choice);
        Assert.Null(answer.RunnerUp);
        Assert.Null(answer.BindingLimit);
        (PlanLimit limit, string byHowMuch) = Assert.Single(answer.NearestMiss!.Misses);
        Assert.Equal(PlanLimit.Hmf, limit);
        Assert.StartsWith("HMF 8.", byHowMuch, StringComparison.Ordinal);
        Assert.All(answer.Curve, point => Assert.False(point.Allowed));
    }

    [Fact]
    public void Crystals_that_melt_above_the_ceiling_are_a_miss_of_the_ceiling()
    {
        SetpointQuestion question = Pail() with { Warming = Pail().Warming with { Crystals = Crystals.Coarse() } };
        SetpointAnswer answer = SetpointSearch.Find(question);
        Assert.Equal(SetpointStatus.NoneMeetsTheLimits, answer.Status);
        Assert.Contains(answer.NearestMiss!.Misses, miss => miss.Limit == PlanLimit.Ceiling);
        Assert.True(answer.NearestMiss.Plan.Setpoint.DegreesCelsius > 60);
    }

    [Fact]
    public void A_higher_ceiling_is_never_later()
    {
        SetpointQuestion question = Pail();
        Duration at42 = SetpointSearch.Find(question with { Limits = new SetpointLimits { Ceiling = C(42) } }).Choice!.Total;
        Duration at46 = SetpointSearch.Find(question with { Limits = new SetpointLimits { Ceiling = C(46) } }).Choice!.Total;
        Assert.True(at46 < at42);
    }

    [Fact]
    public void Warm_enough_means_the_coldest_straining_asked_for_and_colder_is_told_when_it_is_sooner()
    {
        SetpointAnswer answer = plain.Answer;
        Assert.InRange(answer.Choice!.StrainAt.DegreesCelsius, 30 - 1e-6, 45);
        Assert.Contains(answer.Notices, notice => notice.Code == "setpoint.colder-is-sooner");
    }

    [Fact]
    public void A_limit_on_the_time_at_the_strainer_makes_the_honey_warmer()
    {
        SetpointQuestion question = Pail();
        SetpointPlan free = plain.Answer.Choice!;
        Duration half = Duration.FromSeconds(free.StrainTime.Seconds * 0.6);
        SetpointAnswer bound = SetpointSearch.Find(question with { Limits = question.Limits with { LongestStraining = half } });
        Assert.True(bound.Choice!.StrainTime <= half);
        Assert.True(bound.Choice.StrainAt > free.StrainAt);
        Assert.True(bound.Choice.Total > free.Total);
    }

    [Fact]
    public void The_answer_is_the_same_each_time()
    {
        SetpointAnswer first = plain.Answer, second = SetpointSearch.Find(Pail());
        Assert.Equal(first.Choice!.Total, second.Choice!.Total);
        Assert.Equal(first.Choice.Damage.HmfGain, second.Choice.Damage.HmfGain);
        Assert.Equal(first.RunnerUp!.Total, second.RunnerUp!.Total);
        Assert.Equal(first.Curve.Select(point => point.Plan?.Total), second.Curve.Select(point => point.Plan?.Total));
    }

    [Fact]
    public void Another_overflow_limit_takes_the_place_of_the_nominal_one()
    {
        SetpointQuestion question = Pail();
        SetpointPlan nominal = plain.Answer.Choice!;
        SetpointPlan careful = SetpointSearch.Find(question with { Limits = question.Limits with { Overflow = new HalfOf(OverflowLimit.Nominal) } }).Choice!;
        Assert.True(careful.Opening < nominal.Opening);
        Assert.True(careful.Total > nominal.Total);

        SetpointAnswer shut = SetpointSearch.Find(question with { Limits = question.Limits with { Overflow = new Never() } });
        Assert.Equal(SetpointStatus.NoneMeetsTheLimits, shut.Status);
        Assert.Contains(shut.NearestMiss!.Misses, miss => miss.Limit == PlanLimit.Overflow);
    }

    [Fact]
    public void An_earlier_hold_of_the_schedule_stays()
    {
        SetpointQuestion question = Pail();
        Thermostat overnight = new() { Schedule = [new SetpointStep(Duration.Zero, C(28)), new SetpointStep(Duration.FromHours(8), C(40))] };
        SetpointQuestion held = question with { Warming = question.Warming with { Heating = question.Warming.Heating with { Thermostat = overnight } } };
        SetpointPlan choice = SetpointSearch.Find(held).Choice!;
        IReadOnlyList<SetpointStep> steps = choice.Warming!.Setup.Heating.Thermostat.Schedule;
        Assert.Equal(28, steps[0].Setpoint.DegreesCelsius, 1e-9);
        Assert.Equal(choice.Setpoint, steps[1].Setpoint);
        Assert.True(choice.WarmTime > Duration.FromHours(8));
    }

    [Fact]
    public void A_switching_heater_is_searched_as_one_that_holds_and_answered_as_it_is()
    {
        SetpointQuestion question = Pail();
        HeatingKit kit = question.Warming.Heating with { HeaterPower = Power.FromWatts(250) };
        SetpointPlan switching = SetpointSearch.Find(question with { Warming = question.Warming with { Heating = kit } }).Choice!;
        Assert.Equal(2, switching.Warming!.Setup.Heating.Thermostat.Hysteresis.Kelvins, 1e-12);
        Assert.True(switching.Warming.Switchings > 4);

        kit = kit with { Thermostat = kit.Thermostat with { Hysteresis = TemperatureDelta.Zero } };
        SetpointPlan holding = SetpointSearch.Find(question with { Warming = question.Warming with { Heating = kit } }).Choice!;
        Assert.Equal(holding.Setpoint.DegreesCelsius, switching.Setpoint.DegreesCelsius, 0.1 + 1e-9);
        Assert.Equal(1, switching.Total.Seconds / holding.Total.Seconds, 0.03);
    }

    [Fact]
    public void A_raised_ceiling_is_echoed()
    {
        SetpointQuestion question = Pail() with { Lowest = C(52), ColdestStraining = C(49), Limits = new SetpointLimits { Ceiling = C(54) } };
        SetpointAnswer answer = SetpointSearch.Find(question);
        Assert.Contains(answer.Notices, notice => notice.Code == "setpoint.ceiling-raised");
        Assert.Contains(answer.Cautions, caution => caution.Code.StartsWith("scald", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_values_before_warming_the_notices_say_what_was_not_checked()
    {
        SetpointQuestion question = Pail() with { Warming = Pail().Warming with { Before = null } };
        SetpointAnswer answer = SetpointSearch.Find(question);
        Assert.Contains(answer.Notices, notice => notice.Code == "setpoint.hmf-unknown");
        Assert.Contains(answer.Notices, notice => notice.Code == "setpoint.diastase-unknown");
        Assert.Null(answer.Choice!.After);
    }

    [Fact]
    public void Progress_rises_to_1()
    {
        var told = new Told();
        SetpointSearch.Find(Pail(), told);
        Assert.Equal(1, told.Last);
        Assert.True(told.Count > 10);
    }

    [Fact]
    public void It_can_be_cancelled()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => SetpointSearch.Find(Pail(), cancellation: source.Token));
    }

    private static WarmingResult Warm(SetpointQuestion question, Temperature setpoint, Temperature mean) => WarmingRun.Simulate(
        question.Warming with
        {
            Heating = question.Warming.Heating with { Thermostat = Thermostat.At(setpoint) },
            Targets = [WarmingTarget.Mean(mean)],
        },
        question.Options with { SeriesPoints = 0 });

    private static (WarmingResult Warming, StrainingResult Straining) ByHand(SetpointQuestion question, Temperature setpoint, Temperature mean, Ratio opening)
    {
        WarmingResult warming = Warm(question, setpoint, mean);
        return (warming, StrainingRun.Simulate(
            question.Straining with { HoneyTemperature = warming.End.Mean, Control = GateControl.LeaveAt(opening) }, Quick));
    }

    private sealed record HalfOf(OverflowLimit Other) : OverflowLimit
    {
        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation) => Other.WidestOpeningFor(setup, cancellation) / 2;
    }

    private sealed record Never : OverflowLimit
    {
        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation) => Ratio.Zero;
    }

    private sealed class Told : IProgress<double>
    {
        private readonly Lock _lock = new();

        public double Last { get; private set; }

        public int Count { get; private set; }

        public void Report(double value)
        {
            lock (_lock)
            {
                Last = value;
                Count++;
            }
        }
    }

    /// <summary>The search most of these look at, made once for all of them.</summary>
    public sealed class PailSearch
    {
        /// <summary>What it found.</summary>
        public SetpointAnswer Answer { get; } = SetpointSearch.Find(Pail());
    }
}
