using FlowSim.Bottling;
using FlowSim.Properties;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using FlowSim.Vessels;
using FlowSim.WholeJob;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.WholeJob;

/// <summary>A job hands on from step to step what there is, and loses nothing.</summary>
public class JobRunTests
{
    private static readonly JobOptions Brief = new() { Spread = false };

    [Property(MaxTest = 400)]
    public void Every_kilogram_is_somewhere(DoNotSize<int> any)
    {
        JobSetup setup = Random(any.Item);
        JobResult job;
        try
        {
            job = JobRun.Simulate(setup, Brief);
        }
        catch (ArgumentException refused)
        {
            // The only thing that may not go together in these setups: the bottling tank is too small, or all that stood was scum.
            Assert.True(refused.ParamName is nameof(JobSetup.Filling) or nameof(Tank.Level), $"seed {any.Item}: {refused.Message}");
            return;
        }

        Assert.True(Math.Abs(job.Account.BalanceRelative) <= 1e-10, $"seed {any.Item}: {job.Account.BalanceRelative:g3}");
        Assert.All(job.Account.Lines, line => Assert.True(line.Mass.Kilograms >= -1e-9 * job.Account.Start.Kilograms, $"seed {any.Item}: {line}"));
        Assert.InRange(job.Account.Yield.DecimalFractions, 0, 1 + 1e-12);
    }

    /// <summary>The rule above would say nothing if most random jobs were refused.</summary>
    [Fact]
    public void Most_random_jobs_go_together()
    {
        int refused = 0;
        for (int seed = 0; seed < 100; seed++)
        {
            try
            {
                JobRun.Simulate(Random(seed), Brief);
            }
            catch (ArgumentException)
            {
                refused++;
            }
        }

        Assert.InRange(refused, 0, 30);
    }

    /// <summary>The start is counted from levels by hand here, so that a slip in the account's own start would show.</summary>
    [Fact]
    public void The_account_starts_with_what_stands_in_tank_and_bottling_tank()
    {
        JobSetup setup = JobSetups.Pail();
        setup = setup with { Straining = setup.Straining with { Receiver = setup.Straining.Receiver with { AlreadyIn = Volume.FromLiters(2), StartTemperature = Temperature.FromDegreesCelsius(22) } } };
        JobAccount account = JobRun.Simulate(setup, Brief).Account;

        StrainingSetup straining = setup.Straining;
        HoneyProperties honey = HoneyProperties.Of(straining.Honey);
        double expected = (straining.Tank.Shape.VolumeAt(straining.Tank.Level).CubicMeters * honey.DensityAt(straining.HoneyTemperature).KilogramsPerCubicMeter)
            + (2e-3 * honey.DensityAt(Temperature.FromDegreesCelsius(22)).KilogramsPerCubicMeter);
        Assert.Equal(expected, account.Start.Kilograms, 1e-9);
        Assert.Equal(expected, account.Lines.Sum(line => line.Mass.Kilograms), 1e-9);
    }

    [Fact]
    public void Each_step_takes_over_what_the_one_before_it_leaves()
    {
        JobSetup setup = JobSetups.Pail();
        setup = setup with
        {
            Settling = setup.Settling! with
            {
                Depth = Length.FromMeters(3), // Replaced by the tank's.
                Temperature = new TemperatureHistory([(Duration.Zero, Temperature.FromDegreesCelsius(38)), (Duration.FromHours(24), Temperature.FromDegreesCelsius(33))]),
            },
        };
        JobResult job = JobRun.Simulate(setup, Brief);

        SettlingResult stood = job.Settling!;
        Assert.Equal(setup.Straining.Tank.Level, stood.Setup.Depth);
        StrainingSetup strained = job.Straining.Setup;
        Assert.Equal(33, strained.HoneyTemperature.DegreesCelsius, 1e-9);
        Assert.Equal(stood.DebrisLeft, strained.Debris);
        Assert.Equal(job.Account.Start.Kilograms - stood.Scum.Honey!.Value.Kilograms, job.Straining.Masses.Start.Kilograms, 1e-9);
        Assert.Equal((job.Straining.Masses.Strained + job.Straining.Masses.Bypassed).Kilograms, job.Filling!.Masses.Start.Kilograms, 1e-9);
        Assert.Equal([JobStepKind.Warm, JobStepKind.Settle, JobStepKind.Strain, JobStepKind.Fill], job.Steps.Select(step => step.Kind));
    }

    [Fact]
    public void Likely_times_are_those_of_the_steps_and_lie_between_quick_and_slow()
    {
        JobResult job = JobRun.Simulate(JobSetups.Pail());
        Assert.All(job.Steps, step => Assert.True(step.Times!.Quick <= step.Times.Likely && step.Times.Likely <= step.Times.Slow, $"{step}"));
        Assert.Equal(
            [job.Warming!.TimeToTarget!.Value, job.Settling!.Setup.StandsFor, job.Straining.Elapsed, job.Filling!.Elapsed],
            job.Steps.Select(step => step.Times!.Likely));
        Assert.Equal(job.Steps.Sum(step => step.Times!.Slow.Seconds), job.Total!.Slow.Seconds, 1e-6);

        // Nine in ten of honeys at this temperature differ by e^±0.38 and more in viscosity (common spread of the lot factor), so quick and slow cannot be near.
        StepTimes strain = job.Steps.Single(step => step.Kind == JobStepKind.Strain).Times!;
        Assert.True(strain.Slow > 1.3 * strain.Quick);
    }

    [Fact]
    public void What_could_be_had_back_is_there_and_the_most_comes_first()
    {
        JobResult job = JobRun.Simulate(JobSetups.Pail(), Brief);
        Assert.NotEmpty(job.Recoveries);
        Assert.All(job.Recoveries, recovery => Assert.InRange(recovery.Mass.Kilograms, 0.005, job.Account.Of(recovery.Place).Kilograms * (1 + 1e-12)));
        Assert.Equal(job.Recoveries.OrderByDescending(recovery => recovery.Mass), job.Recoveries);
        Assert.DoesNotContain(job.Recoveries, recovery => recovery.Place == JobPlace.InJars);
    }

    [Fact]
    public void A_bottling_tank_that_is_too_small_is_refused_with_both_figures()
    {
        JobSetup setup = JobSetups.Pail();
        setup = setup with { Filling = setup.Filling! with { Tank = setup.Filling.Tank with { Shape = new UprightCylinder(Length.FromMillimeters(200), Length.FromMillimeters(300)) } } };
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => JobRun.Simulate(setup, Brief));
        Assert.Contains("holds 13.", refused.Message, StringComparison.Ordinal); // π/4 · 0.2² · 0.3 m³ by about 1417 kg/m³: 13.4 kg
        Assert.Contains("come into it", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_warming_that_never_gets_there_says_so()
    {
        JobSetup setup = JobSetups.Pail();
        setup = setup with { Warming = setup.Warming! with { Longest = Duration.FromHours(1) } };
        JobResult job = JobRun.Simulate(setup);
        Assert.Null(job.Steps[0].Times);
        Assert.NotEmpty(job.Steps[0].Never);
        Assert.Null(job.Total);
        Assert.Contains(job.Notices, notice => notice.Code == "job-temperature-jump" || notice.Code.Length > 0);
    }

    /// <summary>Longer standing leaves fewer bits, and on flat cloth fewer bits never strain slower (the rule of the straining).</summary>
    [Fact]
    public void Every_further_day_leaves_less_for_the_strainer()
    {
        JobSetup setup = JobSetups.Pail();
        IReadOnlyList<StandingChoice> choices = StandingWorth.Of(setup, [.. new[] { 1.0, 6, 24, 48, 96 }.Select(hours => Duration.FromHours(hours))]);
        for (int i = 1; i < choices.Count; i++)
        {
            Assert.True(choices[i].DebrisLeft!.Load < choices[i - 1].DebrisLeft!.Load);
            Assert.True(choices[i].Scum >= choices[i - 1].Scum);
            Assert.True(choices[i].Blinded[0] <= choices[i - 1].Blinded[0]);
        }

        Assert.True(choices[^1].StrainTime < choices[0].StrainTime);
    }

    private static JobSetup Random(int seed)
    {
        StrainingSetup straining = RandomSetups.Any(seed);
        var random = new Random(seed ^ 0x5eed);
        Temperature temperature = straining.HoneyTemperature;
        Length level = straining.Receiver.Shape.Height * 0.5;
        return new JobSetup
        {
            Settling = random.Next(3) == 0
                ? null
                : new SettlingSetup
                {
                    Honey = straining.Honey,
                    Depth = straining.Tank.Level,
                    Temperature = TemperatureHistory.Hold(temperature, Duration.FromHours(1)),
                    StandsFor = Duration.FromHours(Math.Exp(random.NextDouble() * 5)),
                    Debris = straining.Debris.Load > Ratio.Zero ? straining.Debris : null,
                },
            Straining = straining,
            Filling = random.Next(4) == 0
                ? null
                : new FillingSetup
                {
                    Honey = straining.Honey,
                    Temperature = temperature,
                    Tank = new Tank { Shape = straining.Receiver.Shape, Level = level, GateHeight = straining.Receiver.Shape.Height * 0.05 },
                    Gate = new FlowSim.Gates.Gate { Bore = Length.FromMillimeters(20 + (20 * random.NextDouble())), TubeLength = Length.FromMillimeters(40) },
                    Jar = new Jar { Brimful = Volume.FromMilliliters(380), SoldAs = Mass.FromGrams(500) },
                    LongestFill = Duration.FromHours(2),
                },
        };
    }
}
