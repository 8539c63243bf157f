using FlowSim.Planning;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using FlowSim.Tests.WholeJob;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Tests.Planning;

/// <summary>Times of steps as a plan counts them, against the job they come from.</summary>
public class BatchStepsTests
{
    private static readonly JobOptions s_likely = new() { Spread = false };

    private static BatchSteps Of(StrainingSetup straining) => BatchSteps.Of(new JobSetup { Straining = straining }, s_likely);

    [Fact]
    public void A_straining_alone_has_its_time_volume_and_mass()
    {
        StrainingSetup setup = SmallPail.Running();
        StrainingResult run = StrainingRun.Simulate(setup);
        BatchSteps steps = Of(setup);
        Assert.Equal(Math.Max(1, JobRun.Simulate(new JobSetup { Straining = setup }, s_likely).Steps.Single().Times!.Likely.Minutes), steps.Strain!.Likely.Minutes, 1e-9);
        Assert.Null(steps.Warm ?? steps.Settle ?? steps.Fill);
        Assert.Null(steps.Refusal);
        Assert.Equal(run.Masses.Start.Kilograms, steps.Mass.Kilograms, 1e-9);
        Assert.Equal(run.Masses.Strained / FlowSim.Properties.HoneyProperties.Of(setup.Honey).DensityAt(setup.HoneyTemperature), steps.Volume);
        Assert.Empty(steps.Scrapes);
        Assert.Equal([10.0, 20], Of(setup with { Scraping = new Scraping { Times = [Duration.FromSeconds(10), Duration.FromSeconds(20)] } }).Scrapes.Select(at => at.Seconds));
    }

    [Fact]
    public void What_ran_past_the_cloth_is_in_the_tank_too()
    {
        StrainingSetup setup = SmallPail.Running();
        setup = setup with { Strainer = setup.Strainer with { Overflow = OverflowPath.Bypass, Shape = new FlatDisc(Length.FromMillimeters(150), Length.FromMillimeters(8)) }, Control = GateControl.LeaveAt(Ratio.FromPercent(100)) };
        StrainingResult run = StrainingRun.Simulate(setup);
        Assert.True(run.Masses.Bypassed > Mass.FromGrams(100), $"{run.Masses.Bypassed}");
        double density = FlowSim.Properties.HoneyProperties.Of(setup.Honey).DensityAt(setup.HoneyTemperature).KilogramsPerCubicMeter;
        Assert.Equal((run.Masses.Strained + run.Masses.Bypassed).Kilograms / density, Of(setup).Volume.CubicMeters, 1e-9);
    }

    [Fact]
    public void A_step_takes_a_minute_at_least()
    {
        StrainingSetup quick = SmallPail.Running() with { HoneyTemperature = Temperature.FromDegreesCelsius(55), Control = GateControl.LeaveAt(Ratio.FromPercent(100)) };
        StrainingSetup slow = SmallPail.Running() with { HoneyTemperature = Temperature.FromDegreesCelsius(25), Control = GateControl.LeaveAt(Ratio.FromPercent(15)) };
        StepTimes Job(StrainingSetup setup) => JobRun.Simulate(new JobSetup { Straining = setup }, s_likely).Steps.Single().Times!;
        Assert.True(Job(quick).Likely < Duration.FromMinutes(1), $"{Job(quick).Likely}");
        Assert.Equal(StepTimes.Exactly(Duration.FromMinutes(1)), Of(quick).Strain);
        Assert.True(Job(slow).Likely > Duration.FromMinutes(2), $"{Job(slow).Likely}");
        Assert.Equal(Job(slow), Of(slow).Strain);
    }

    [Fact]
    public void What_never_ends_is_refused_with_the_step()
    {
        BatchSteps shut = Of(SmallPail.Running() with { Control = GateControl.LeaveAt(Ratio.Zero) });
        Assert.Null(shut.Strain);
        Assert.Contains("straining", shut.Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_step_of_a_whole_job_is_found()
    {
        JobSetup job = JobSetups.Pail();
        JobResult result = JobRun.Simulate(job, s_likely);
        BatchSteps steps = BatchSteps.Of(job, s_likely);
        Assert.Equal(result.Steps.Select(step => step.Times), [steps.Warm, steps.Settle, steps.Strain, steps.Fill]);
        Assert.Equal([JobStepKind.Warm, JobStepKind.Settle, JobStepKind.Strain, JobStepKind.Fill], result.Steps.Select(step => step.Kind));
        Assert.Equal(result.Notices.Select(notice => notice.Code), steps.Notices.Select(notice => notice.Code));
        Assert.Equal(result.Straining.Masses.Start, steps.Mass);
    }
}
