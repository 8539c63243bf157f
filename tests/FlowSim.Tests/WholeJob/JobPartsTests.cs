using FlowSim.Bottling;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Tests.OverflowRisk;
using FlowSim.Vessels;
using FlowSim.Warming;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Tests.WholeJob;

/// <summary>The parts of a job one by one: what is handed on, counted, said and timed.</summary>
public class JobPartsTests
{
    private static readonly JobOptions Brief = new() { Spread = false };

    /// <summary>One job that several tests look at; none changes it.</summary>
    private static readonly Lazy<JobResult> Pail = new(() => JobRun.Simulate(JobSetups.Pail(), Brief));

    private static Mass Kg(double kilograms) => Mass.FromKilograms(kilograms);

    private static Duration Hours(double hours) => Duration.FromHours(hours);

    private static double[] InHours(StepTimes times) => [times.Quick.Hours, times.Likely.Hours, times.Slow.Hours];

    [Theory]
    [InlineData(10, 5, 20, 5, 20)]
    [InlineData(10, 20, 5, 5, 20)]
    [InlineData(10, 12, 15, 10, 15)]
    [InlineData(10, 15, 12, 10, 15)]
    [InlineData(10, 3, 7, 3, 10)]
    [InlineData(10, 7, 3, 3, 10)]
    public void Times_come_in_order_around_the_likely_one(double likely, double one, double other, double quick, double slow) =>
        Assert.Equal([quick, likely, slow], InHours(StepTimes.Around(Hours(likely), Hours(one), Hours(other))));

    [Fact]
    public void Quick_and_slow_times_are_found_unless_told_not_to() => Assert.True(new JobOptions().Spread);

    /// <summary>All steps one after the other: 1 + 4, 2 + 5 and 3 + 6 h; none when a step does not end.</summary>
    [Fact]
    public void The_total_is_the_sum_of_the_steps()
    {
        JobStep first = new() { Kind = JobStepKind.Settle, Times = new StepTimes(Hours(1), Hours(2), Hours(3)) }, second = first with { Kind = JobStepKind.Fill, Times = new StepTimes(Hours(4), Hours(5), Hours(6)) };
        Assert.Equal([5, 7, 9], InHours((Pail.Value with { Steps = [first, second] }).Total!));
        Assert.Null((Pail.Value with { Steps = [first, second with { Times = null }] }).Total);
        Assert.Null((Pail.Value with { Steps = [first with { Times = null }, second] }).Total);
    }

    /// <summary>Each place of the account is that of the step that counts it, in the order of the job.</summary>
    [Fact]
    public void Every_line_of_the_account_is_that_of_its_step()
    {
        JobResult job = Pail.Value;
        MassAccount strained = job.Straining.Masses;
        FillingMasses filled = job.Filling!.Masses;
        Assert.True(filled.GivenAway > Mass.Zero && filled.Heel > Mass.Zero && filled.Film > Mass.Zero && job.Settling!.Scum.Honey > Mass.Zero);
        AccountLine[] expected =
        [
            new(JobPlace.Scum, job.Settling!.Scum.Honey!.Value), new(JobPlace.TankHeel, strained.HeldInTank), new(JobPlace.TankFilm, strained.HeldInFilm), new(JobPlace.Cloth, strained.HeldOnCloth),
            new(JobPlace.Floor, strained.Spilled), new(JobPlace.BottlingHeel, filled.Rest + filled.Heel), new(JobPlace.BottlingFilm, filled.Film), new(JobPlace.Drips, filled.Drips),
            new(JobPlace.InJars, filled.InJars - filled.GivenAway), new(JobPlace.GivenAway, filled.GivenAway),
        ];
        Assert.Equal(expected.Select(line => (line.Place, line.Mass.Kilograms)), job.Account.Lines.Select(line => (line.Place, line.Mass.Kilograms)));
        Assert.Equal((filled.InJars - filled.GivenAway) / job.Account.Start, job.Account.Yield.DecimalFractions, 1e-12);

        // Without a filling all that arrived stays in the bottling tank.
        JobAccount unfilled = JobAccounts.Of(Kg(20), Kg(15), Kg(1), job.Straining, null);
        Assert.Equal([JobPlace.Scum, JobPlace.TankHeel, JobPlace.TankFilm, JobPlace.Cloth, JobPlace.Floor, JobPlace.BottlingTank], unfilled.Lines.Select(line => line.Place));
        Assert.Equal(15, unfilled.Of(JobPlace.BottlingTank).Kilograms);
        Assert.Equal(0, unfilled.Of(JobPlace.InJars).Kilograms);
        double sum = 16 + (strained.HeldInTank + strained.HeldInFilm + strained.HeldOnCloth + strained.Spilled).Kilograms;
        Assert.Equal((sum - 20) / 20, unfilled.BalanceRelative, 1e-12);
    }

    /// <summary>A strainer that runs over into the bottling tank: what went past the cloth is there with the rest, and with what was in it before.</summary>
    [Fact]
    public void Honey_past_the_cloth_arrives_too()
    {
        StrainingSetup pail = RiskSetups.Pail(100);
        JobSetup setup = JobSetups.Pail() with
        {
            Warming = null,
            Settling = null,
            Straining = pail with
            {
                Strainer = pail.Strainer with { Overflow = OverflowPath.Bypass, Shape = new FlatDisc(RiskSetups.Mm(150), RiskSetups.Mm(30)) },
                Receiver = new Receiver { Shape = UprightCylinder.OfCapacity(Volume.FromLiters(40), RiskSetups.Mm(300)), AlreadyIn = Volume.FromLiters(3), StartTemperature = Temperature.FromDegreesCelsius(25) },
            },
        };
        setup = setup with { Filling = setup.Filling! with { Tank = setup.Filling.Tank with { Shape = setup.Straining.Receiver.Shape } } };
        JobResult job = JobRun.Simulate(setup, Brief);
        MassAccount masses = job.Straining.Masses;
        Assert.True(masses.Bypassed.Kilograms > 0.1, $"{masses.Bypassed}");
        double before = 3e-3 * HoneyProperties.Of(pail.Honey).DensityAt(Temperature.FromDegreesCelsius(25)).KilogramsPerCubicMeter;
        Assert.Equal(before + masses.Strained.Kilograms + masses.Bypassed.Kilograms, job.Filling!.Masses.Start.Kilograms, 1e-9);
        Assert.Equal(masses.Bypassed, job.Account.Unstrained);
        Assert.Equal([JobStepKind.Strain, JobStepKind.Fill], job.Steps.Select(step => step.Kind));
        Assert.Equal(0, job.Account.Of(JobPlace.Scum).Kilograms);
        Assert.Null(job.Warming);

        // Nobody settled: the straining is run as it was given.
        Assert.Equal(setup.Straining, job.Straining.Setup);

        JobResult unfilled = JobRun.Simulate(setup with { Filling = null }, Brief);
        Assert.Equal([JobStepKind.Strain], unfilled.Steps.Select(step => step.Kind));
        Assert.Equal(job.Filling.Masses.Start.Kilograms, unfilled.Account.Of(JobPlace.BottlingTank).Kilograms, 1e-9);
    }

    /// <summary>
    /// A bottling tank 300 mm wide whose gate sits at 25 mm drains from 2 mm above it and is worth opening from 4 mm: 29 mm of honey are not, a little more is; and it takes what fills it
    /// to the brim.
    /// </summary>
    [Fact]
    public void What_arrives_in_the_bottling_tank_sets_its_level()
    {
        FillingSetup filling = JobSetups.Pail().Filling!;
        double density = HoneyProperties.Of(filling.Honey).DensityAt(filling.Temperature).KilogramsPerCubicMeter;
        Mass At(double metres) => Kg(Math.PI / 4 * 0.09 * metres * density);
        Assert.Null(JobChain.Arrived(filling, At(0.02899)));
        Assert.Equal(29.01, JobChain.Arrived(filling, At(0.02901))!.Tank.Level.Millimeters, 1e-9);
        Assert.Equal(120, JobChain.Arrived(filling, At(0.12))!.Tank.Level.Millimeters, 1e-9);

        double brim = filling.Tank.Shape.HeightM;
        Assert.Equal(brim, JobChain.Arrived(filling, At(brim))!.Tank.Level.Meters, 1e-12);
        Assert.Equal(brim, JobChain.Arrived(filling, At(brim * (1 + 5e-10)))!.Tank.Level.Meters, 1e-12);
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => JobChain.Arrived(filling, At(brim * 1.01)));
        Assert.Equal("Filling", refused.ParamName);
        Assert.Contains(FormattableString.Invariant($"holds {0.025 * density:0.##} kg to its brim; {0.025 * 1.01 * density:0.##} kg come into it"), refused.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => JobChain.Arrived(filling, At(brim * (1 + 2e-9))));
    }

    [Fact]
    public void What_is_missing_is_named()
    {
        JobSetup setup = JobSetups.Pail();
        FillingSetup filling = setup.Filling!;
        Assert.Equal("filling.Honey", Assert.Throws<ArgumentNullException>(() => JobChain.Arrived(filling with { Honey = null! }, Kg(10))).ParamName);
        Assert.Equal("filling.Tank", Assert.Throws<ArgumentNullException>(() => JobChain.Arrived(filling with { Tank = null! }, Kg(10))).ParamName);
        Assert.Equal("filling.Gate", Assert.Throws<ArgumentNullException>(() => JobChain.Arrived(filling with { Gate = null! }, Kg(10))).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => JobRun.Simulate(null!)).ParamName);
        Assert.Equal("setup.Straining", Assert.Throws<ArgumentNullException>(() => JobRun.Simulate(setup with { Straining = null! })).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => StandingWorth.Of(null!, [])).ParamName);
        Assert.Equal("times", Assert.Throws<ArgumentNullException>(() => StandingWorth.Of(setup, null!)).ParamName);
        Assert.Equal("Settling", Assert.Throws<ArgumentNullException>(() => StandingWorth.Of(setup with { Settling = null }, [])).ParamName);
    }

    /// <summary>Warmed to one temperature and strained at another: from 2 K apart it is said, unless it stands in between.</summary>
    [Fact]
    public void A_jump_of_temperature_between_warming_and_straining()
    {
        JobSetup setup = JobSetups.Pail() with { Settling = null };
        WarmingResult warming = Pail.Value.Warming!;
        double ends = warming.End.Mean.DegreesCelsius;
        StrainingSetup At(double celsius) => setup.Straining with { HoneyTemperature = Temperature.FromDegreesCelsius(celsius) };
        foreach (double apart in new[] { -1.99, 0, 1.99 })
            Assert.Empty(JobNotices.Of(setup, warming, At(ends + apart)));
        foreach (double apart in new[] { -7, -2.01, 2.01, 7 })
        {
            Notice notice = Assert.Single(JobNotices.Of(setup, warming, At(ends + apart)));
            Assert.Equal("job-temperature-jump", notice.Code);
            Assert.Equal(FormattableString.Invariant($"the warming ends at {ends:0.0} °C on average and the straining begins at {ends + apart:0.0} °C"), notice.Seen);
        }

        Assert.Empty(JobNotices.Of(setup, null, At(ends + 7)));
        Assert.Empty(JobNotices.Of(JobSetups.Pail(), warming, At(ends + 7)));
    }

    /// <summary>
    /// A wall's film thins as 1/√t: after 1 h another hour takes 1 − √(1/2) of it, after 3 h 1 − √(3/4). Half the scatter saves a quarter of what is given away when a day gives away 8 kg
    /// and saves 2. Less than 5 g is not worth a word, and the most comes first.
    /// </summary>
    [Fact]
    public void What_could_be_had_back_by_hand()
    {
        StrainingResult straining = Pail.Value.Straining with { Elapsed = Hours(1) };
        FillingResult filling = Pail.Value.Filling! with { Elapsed = Hours(3), GivenAwayPerDay = Kg(8), SavedPerDayAtHalfScatter = Kg(2) };
        JobAccount account = Pail.Value.Account with
        {
            Lines =
            [
                new(JobPlace.Scum, Kg(0.005)), new(JobPlace.TankHeel, Kg(0.00499)), new(JobPlace.TankFilm, Kg(0.2)), new(JobPlace.Cloth, Kg(0.7)), new(JobPlace.Floor, Kg(0.1)),
                new(JobPlace.BottlingHeel, Kg(0.3)), new(JobPlace.BottlingFilm, Kg(0.4)), new(JobPlace.Drips, Kg(0.02)), new(JobPlace.InJars, Kg(15)), new(JobPlace.GivenAway, Kg(0.6)),
            ],
        };
        (JobPlace Place, double Kilograms)[] expected =
        [
            (JobPlace.Cloth, 0.7), (JobPlace.BottlingHeel, 0.3), (JobPlace.GivenAway, 0.15), (JobPlace.Floor, 0.1), (JobPlace.TankFilm, 0.2 * (1 - Math.Sqrt(0.5))),
            (JobPlace.BottlingFilm, 0.4 * (1 - Math.Sqrt(0.75))), (JobPlace.Drips, 0.02), (JobPlace.Scum, 0.005),
        ];
        IReadOnlyList<Recovery> all = Recoveries.Of(account, straining, filling);
        Assert.Equal(expected.Select(e => e.Place), all.Select(recovery => recovery.Place));
        foreach (((_, double kilograms), Recovery recovery) in expected.Zip(all))
            Assert.Equal(kilograms, recovery.Mass.Kilograms, 1e-12);

        Assert.DoesNotContain(Recoveries.Of(account, straining, filling with { GivenAwayPerDay = Mass.Zero }), recovery => recovery.Place == JobPlace.GivenAway);
        Assert.DoesNotContain(Recoveries.Of(account, straining, null), recovery => recovery.Place is JobPlace.GivenAway or JobPlace.BottlingFilm);
    }

    /// <summary>What any step says is said by the job, each thing once.</summary>
    [Fact]
    public void Notices_and_cautions_of_all_steps_come_once()
    {
        JobResult job = Pail.Value;
        string[] cautions = [.. job.Warming!.Cautions.Concat(job.Settling!.Cautions).Concat(job.Straining.Cautions).Concat(job.Filling!.Cautions).Select(caution => caution.Code)];
        string[] notices = [.. job.Warming.Notices.Concat(job.Settling.Notices).Concat(job.Straining.Notices).Concat(job.Filling.Notices).Select(notice => notice.Code)];
        Assert.Equal(cautions.Distinct(), job.Cautions.Select(caution => caution.Code));
        Assert.Equal(notices.Distinct(), job.Notices.Select(notice => notice.Code));
        Assert.Contains("infants", cautions);
        Assert.True(cautions.Length > job.Cautions.Count);
    }

    /// <summary>A warming lasts until the targets and the hold after them; one that gets nowhere says after how long.</summary>
    [Fact]
    public void Times_of_warming()
    {
        WarmingResult warming = Pail.Value.Warming!;
        warming = warming with { Setup = warming.Setup with { HoldAfter = Hours(2) } };
        var brief = new JobTimes(Brief, CancellationToken.None);
        double target = warming.TimeToTarget!.Value.Hours;
        JobStep step = brief.OfWarming(warming);
        Assert.Equal((JobStepKind.Warm, ""), (step.Kind, step.Never));
        Assert.All(InHours(step.Times!), hours => Assert.Equal(target + 2, hours, 1e-9));

        JobStep never = brief.OfWarming(warming with { TimeToTarget = null, Elapsed = Hours(71.46) });
        Assert.Null(never.Times);
        Assert.Equal("it is not warm enough after 71.5 h", never.Never);
    }

    /// <summary>Quick and slow are the outermost of the bounds on the heat inside and of the corners of films and properties, each with the hold; a slow bound that never gets there takes the longest.</summary>
    [Fact]
    public void Quick_and_slow_times_of_warming()
    {
        JobSetup job = JobSetups.Pail();
        WarmingSetup setup = job.Warming! with { Targets = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(21.5))], HoldAfter = Hours(2), Longest = Hours(40) };
        WarmingOptions brief = new() { SeriesPoints = 0 };
        foreach (Duration longest in new[] { Hours(40), Duration.FromHours(WarmingRun.Simulate(setup, brief).TimeToTarget!.Value.Hours * 1.05) })
        {
            WarmingSetup within = setup with { Longest = longest };
            WarmingResult best = WarmingRun.Simulate(within, brief);
            WarmingBounds bounds = WarmingBounds.Of(within, brief);
            WarmingSpread spread = WarmingSpread.Of(within, brief);
            StepTimes times = new JobTimes(new JobOptions(), CancellationToken.None).OfWarming(best).Times!;
            double quick = Math.Min(bounds.TimeToTargetLow!.Value.Hours, spread.TimeToTarget.Low!.Value.Hours);
            double slow = bounds.TimeToTargetHigh is { } inside && spread.TimeToTarget.High is { } outside ? Math.Max(inside.Hours, outside.Hours) : longest.Hours;
            Assert.Equal(quick + 2, times.Quick.Hours, 1e-9);
            Assert.Equal(best.TimeToTarget!.Value.Hours + 2, times.Likely.Hours, 1e-9);
            Assert.Equal(slow + 2, times.Slow.Hours, 1e-9);
            Assert.True(quick < best.TimeToTarget.Value.Hours && best.TimeToTarget.Value.Hours < slow);
        }
    }

    /// <summary>A straining that stops with honey left has no time; one that ends otherwise has, drained or not.</summary>
    [Theory]
    [InlineData(StrainingStatus.Stalled, true)]
    [InlineData(StrainingStatus.TimeLimit, true)]
    [InlineData(StrainingStatus.Drained, false)]
    [InlineData(StrainingStatus.ReceiverFull, false)]
    public void Times_of_straining(StrainingStatus ending, bool never)
    {
        JobStep step = new JobTimes(Brief, CancellationToken.None).OfStraining(Pail.Value.Straining with { Ending = ending, Elapsed = Hours(3.25) });
        Assert.Equal(JobStepKind.Strain, step.Kind);
        Assert.Equal(never, step.Times is null);
        Assert.Equal(never ? "after 3.3 h honey still stands in the tank or on the strainer" : "", step.Never);
        if (step.Times is { } times)
            Assert.Equal([3.25, 3.25, 3.25], InHours(times));
    }

    /// <summary>
    /// Viscosities spread evenly from half to one and a half of the lot: one run in ten ends before that of 0.6 of it, one in ten after that of 1.4. Of 1024 draws the share below lies within
    /// 0.1 ± 0.03 (three standard deviations), which is ± 0.03 of the lot and some 5 % of the quick time.
    /// </summary>
    [Fact]
    public void Quick_and_slow_straining_are_those_of_thin_and_thick_honey()
    {
        StrainingSetup setup = JobSetups.Pail().Straining;
        setup = setup with { Tank = setup.Tank with { WallFilm = false, HeldAtTemperature = true }, Debris = new Debris { Load = Ratio.Zero } };
        UncertainInput[] spreads = [new(StrainingInputs.LotFactor, new UniformDistribution(0.5, 1.5), new Source("invented", Standing.EngineeringChoice))];
        (Duration quick, Duration slow) = StrainingTimes.Of(setup, spreads, 1, CancellationToken.None)!.Value;
        Assert.Equal(1, quick / Elapsed(0.6), 0.05);
        Assert.Equal(1, slow / Elapsed(1.4), 0.025);

        // Where nothing varies, there is nothing to find.
        Assert.Null(StrainingTimes.Of(setup, [], 1, CancellationToken.None));
        StepTimes certain = new JobTimes(new JobOptions { StrainingSpreads = [] }, CancellationToken.None).OfStraining(StrainingRun.Simulate(setup)).Times!;
        Assert.All(InHours(certain), hours => Assert.Equal(Elapsed(1).Hours, hours));

        Duration Elapsed(double lotFactor) => StrainingRun.Simulate(setup with { Honey = setup.Honey with { LotFactor = lotFactor } }).Elapsed;
    }

    /// <summary>The filling lasts as long as its run; quick and slow are those of thinner and thicker honey; no jar filled is no time, and why.</summary>
    [Fact]
    public void Times_of_filling()
    {
        FillingResult best = Pail.Value.Filling!;
        var brief = new JobTimes(Brief, CancellationToken.None);
        Assert.All(InHours(brief.OfFilling(best.Setup, best).Times!), hours => Assert.Equal(best.Elapsed.Hours, hours));
        Assert.Equal("no jar can be filled from what is in the bottling tank", Never(brief.OfFilling(null, null)));
        Assert.Equal("no jar can be filled from what is in the bottling tank", Never(brief.OfFilling(best.Setup, null)));
        Assert.Equal("no jar can be filled from what is in the bottling tank", Never(brief.OfFilling(best.Setup, best with { Jars = 0, Status = FillingStatus.TooSlow })));
        Assert.Equal("the jar cannot hold the fill", Never(brief.OfFilling(best.Setup, best with { Jars = 0, Status = FillingStatus.JarTooSmall })));

        FillingBand band = FillingBand.Of(best.Setup);
        StepTimes times = new JobTimes(new JobOptions(), CancellationToken.None).OfFilling(best.Setup, best).Times!;
        Assert.True(band.Quick.Elapsed < best.Elapsed && best.Elapsed < band.Slow.Elapsed);
        Assert.Equal([band.Quick.Elapsed.Hours, best.Elapsed.Hours, band.Slow.Elapsed.Hours], InHours(times));

        static string Never(JobStep step)
        {
            Assert.Equal(JobStepKind.Fill, step.Kind);
            Assert.Null(step.Times);
            return step.Never;
        }
    }

    /// <summary>What standing is worth is what a job that stands as long does.</summary>
    [Fact]
    public void Standing_is_worth_what_the_job_says()
    {
        JobSetup setup = JobSetups.Pail();
        StandingChoice choice = Assert.Single(StandingWorth.Of(setup, [setup.Settling!.StandsFor]));
        StrainingResult straining = Pail.Value.Straining;
        Assert.Equal(setup.Settling.StandsFor, choice.StandsFor);
        Assert.Equal(Pail.Value.Settling!.DebrisLeft, choice.DebrisLeft);
        Assert.Equal(Pail.Value.Settling.Scum.Honey, choice.Scum);
        Assert.Equal((straining.Strain.To95, straining.PeakPond, straining.FirstOverflow), (choice.StrainTime, choice.PeakPond, choice.FirstOverflow));
        Assert.Equal(straining.Blinded, choice.Blinded);
    }
}
