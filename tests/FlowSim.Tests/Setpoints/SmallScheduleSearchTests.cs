using FlowSim.Setpoints;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;

namespace FlowSim.Tests.Setpoints;

/// <summary>What the search makes of a schedule, of heaters that switch, and of honey that is warm enough at once.</summary>
public class SmallScheduleSearchTests
{
    private static SetpointAnswer Found(Func<SetpointQuestion, SetpointQuestion> change) => SetpointSearch.Find(change(SmallBatch.Plain()));

    private static SetpointQuestion Heated(SetpointQuestion question, Func<HeatingKit, HeatingKit> change) =>
        question with { Warming = question.Warming with { Heating = change(question.Warming.Heating) } };

    private static double[] WarmSeconds(SetpointAnswer answer) => [.. answer.Curve.Select(point => point.Plan!.WarmTime.Seconds)];

    /// <summary>Earlier steps stay as far as they are below the setpoint; the last one is the setpoint.</summary>
    [Fact]
    public void Earlier_steps_stay_below_the_setpoint()
    {
        Thermostat three = new() { Schedule = [new(Duration.Zero, C(28)), new(Duration.FromMinutes(20), C(60), Ramp: true), new(Duration.FromMinutes(40), C(33))] };
        SetpointAnswer answer = Found(q => Heated(q, kit => kit with { Thermostat = three }) with { Lowest = C(39) });
        IReadOnlyList<SetpointStep> steps = answer.Choice!.Warming!.Setup.Heating.Thermostat.Schedule;
        Assert.Equal([28.0, 40, 40], steps.Select(step => Math.Round(step.Setpoint.DegreesCelsius, 9)));
        Assert.Equal([false, true, false], steps.Select(step => step.Ramp));
        Assert.Equal([0.0, 20, 40], steps.Select(step => step.At.Minutes));
    }

    [Fact]
    public void Targets_and_times_are_the_searchs_own()
    {
        SetpointAnswer answer = Found(q => q with
        {
            Lowest = C(40),
            Warming = q.Warming with { Targets = [WarmingTarget.Coldest(C(35))], HoldAfter = Duration.FromHours(5), Longest = Duration.FromHours(1) },
            Limits = q.Limits with { Longest = Duration.FromHours(2) },
        });
        WarmingSetup setup = answer.Choice!.Warming!.Setup;
        WarmingTarget target = Assert.Single(setup.Targets);
        Assert.Equal(30, Assert.IsType<MeanAtLeast>(target).Temperature.DegreesCelsius, 1e-6);
        Assert.Equal((Duration.Zero, Duration.FromHours(2)), (setup.HoldAfter, setup.Longest));
    }

    /// <summary>A heater of 400 W about 33 °C, a narrow way to 30 °C: it switches before the honey is there.</summary>
    private static SetpointAnswer Switched(Func<Thermostat, Thermostat> change, double hysteresisK) => Found(q => Heated(q, kit => kit with
    {
        HeaterPower = Power.FromWatts(400),
        Thermostat = change(kit.Thermostat) with { Hysteresis = TemperatureDelta.FromKelvins(hysteresisK) },
    }) with { Lowest = C(33), Limits = q.Limits with { Ceiling = C(33) } });

    /// <summary>A heater of 400 W that switches by 4 K is searched as one that holds: the curve is the same to the last digit; the choice is run as it is.</summary>
    [Fact]
    public void A_heater_that_switches_is_searched_as_one_that_holds()
    {
        SetpointAnswer switching = Switched(t => t, 4);
        double[] holding = WarmSeconds(Switched(t => t, 0));
        Assert.Equal(holding, WarmSeconds(switching));
        Assert.Equal(4, switching.Choice!.Warming!.Setup.Heating.Thermostat.Hysteresis.Kelvins, 1e-12);
        Assert.NotEqual(holding[0], switching.Choice.WarmTime.Seconds, 10.0);
    }

    /// <summary>One whose sensor lags, or lies at the wall, is searched as it is.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_heater_that_overshoots_is_searched_as_it_is(bool lags)
    {
        Thermostat Changed(Thermostat thermostat) => lags ? thermostat with { Lag = Duration.FromMinutes(1) } : thermostat with { Sensor = SensorPlace.Wall };

        Assert.NotEqual(WarmSeconds(Switched(Changed, 1))[0], WarmSeconds(Switched(Changed, 6))[0], 5.0);
    }

    /// <summary>Strained colder than is wanted, from the start temperature on: the plan told is the best of a search that wants no warmer.</summary>
    [Fact]
    public void Straining_colder_is_told_with_the_best_plan_there()
    {
        SetpointAnswer wanted = Found(q => q with { Lowest = C(40) }), colder = Found(q => q with { Lowest = C(40), ColdestStraining = C(25) });
        Notice notice = Assert.Single(wanted.Notices, notice => notice.Code == "setpoint.colder-is-sooner");
        SetpointPlan best = colder.Choice!;
        Assert.True(best.StrainAt < C(30) && best.Total < wanted.Choice!.Total);
        Assert.Contains(FormattableString.Invariant($"{best.Total.Hours:0.0} h instead of {wanted.Choice!.Total.Hours:0.0} h"), notice.Seen, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"at {best.StrainAt.DegreesCelsius:0.#} °C"), notice.Seen, StringComparison.Ordinal);
        Assert.DoesNotContain(colder.Notices, other => other.Code == "setpoint.colder-is-sooner");
    }

    /// <summary>
    /// A degree warmer than is wanted and straining is as cold as asked for; more than a degree, and something else makes it so. Runs: six of the curve, the
    /// choice and the runner-up, and the one that strains colder where it is looked for, at 30.6 °C, and not at 33.4 °C.
    /// </summary>
    [Theory]
    [InlineData(10.5, 9)]
    [InlineData(8, 8)]
    public void Where_it_is_strained_warmer_than_was_asked_colder_is_not_looked_for(double minutes, int runs)
    {
        SetpointAnswer answer = Found(q => q with { Lowest = C(40), Limits = q.Limits with { LongestStraining = Duration.FromMinutes(minutes), WarmestAtStrainer = C(36) } });
        Assert.NotNull(answer.RunnerUp);
        Assert.Equal(runs, answer.WarmingRuns);
    }

    [Fact]
    public void Reminders_of_both_runs_come_once_each()
    {
        SetpointAnswer answer = Found(q => q with { Lowest = C(54), ColdestStraining = C(49), Limits = q.Limits with { Ceiling = C(54), WarmestAtStrainer = C(50) } });
        string[] codes = [.. answer.Cautions.Select(caution => caution.Code)];
        Assert.NotEmpty(codes);
        Assert.Equal(codes.Length, codes.Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(
            answer.Choice!.Warming!.Cautions.Concat(answer.Choice.Straining!.Cautions).Select(caution => caution.Code).Distinct(StringComparer.Ordinal), codes);
    }
}
