using FlowSim.Bottling;
using FlowSim.Gates;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Settling;
using FlowSim.Straining;
using FlowSim.Tests.Bottling;
using FlowSim.Tests.OverflowRisk;
using FlowSim.Vessels;
using FlowSim.Warming;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Tests.WholeJob;

/// <summary>The parts of a job one by one, on results made up for them.</summary>
public class JobPartsTests
{
    private static Mass Kg(double kilograms) => Mass.FromKilograms(kilograms);

    /// <summary>10 kg at the start: 6 strained, 1 over the rim, 0.25 spilled, 0.5 on the cloth, 0.75 on the wall, 1 in the tank; the rest was scum.</summary>
    private static StrainingResult Strained(StrainingStatus ending = StrainingStatus.Drained) => new()
    {
        Setup = RiskSetups.Pail(),
        Status = ending,
        Ending = ending,
        Elapsed = Duration.FromHours(3),
        Drain = null!,
        Strain = null!,
        DrainToHeel = null,
        PeakPond = Length.Zero,
        PeakPondAt = Duration.Zero,
        Overflows = [],
        ReceiverFullAt = null,
        Scrapes = [],
        Masses = new MassAccount
        {
            Start = Kg(9.5),
            CanDrain = Kg(8.5),
            Strained = Kg(6),
            Bypassed = Kg(1),
            SpilledAtStrainer = Kg(0.2),
            SpilledAtReceiver = Kg(0.05),
            HeldOnCloth = Kg(0.5),
            HeldInFilm = Kg(0.75),
            HeldInTank = Kg(1),
            BalanceRelative = 0,
        },
        Blinded = [],
        StartViscosity = DynamicViscosity.FromPascalSeconds(6),
        EndTemperatures = null!,
        Series = null!,
        Notices = [],
        Cautions = [],
        Solver = null!,
    };

    /// <summary>Of 7 kg, 5.5 went into jars, 0.5 of it above the label; 0.25 dripped, 0.2 are on the wall, 0.75 above the heel and 0.3 in it.</summary>
    private static FillingResult Filled(double givenPerDayKg = 4, double savedPerDayKg = 1) => FillingRun.Simulate(Fillings.Plain() with { MostJars = 1 }) with
    {
        Elapsed = Duration.FromHours(1.25),
        GivenAwayPerDay = Kg(givenPerDayKg),
        SavedPerDayAtHalfScatter = Kg(savedPerDayKg),
        Masses = new FillingMasses { Start = Kg(7), InJars = Kg(5.5), GivenAway = Kg(0.5), Drips = Kg(0.25), Film = Kg(0.2), Rest = Kg(0.75), Heel = Kg(0.3), BalanceRelative = 0 },
    };

    private static WarmingResult Warmed(double meanC, double? hours = 5, WarmingSetup? setup = null) => new()
    {
        Setup = setup ?? JobSetups.Pail().Warming!,
        Inside = InsideHeat.BestEstimate,
        Status = WarmingStatus.Reached,
        Elapsed = Duration.FromHours(168),
        TimeToTarget = hours is { } time ? Duration.FromHours(time) : null,
        TargetTimes = [],
        End = new HoneyTemperatures(default, Temperature.FromDegreesCelsius(meanC), default, default, default, default),
        ColdestPlace = default,
        HottestWall = default,
        HottestHoney = default,
        WallAboveProbe = default,
        CrystalsLeft = default,
        Viscosity = default,
        HoneyPerVessel = default,
        Energy = null!,
        CutOutAt = null,
        Switchings = 0,
        Damage = null!,
        WorstDamage = null!,
        Series = null!,
        Maps = [],
        Notices = [],
        Cautions = [],
        Steps = 0,
    };

    [Fact]
    public void Every_place_has_its_line()
    {
        JobAccount account = JobAccounts.Of(Kg(10), Kg(7), Kg(0.5), Strained(), Filled());
        (JobPlace Place, double Kilograms)[] expected =
        [
            (JobPlace.Scum, 0.5), (JobPlace.TankHeel, 1), (JobPlace.TankFilm, 0.75), (JobPlace.Cloth, 0.5), (JobPlace.Floor, 0.25),
            (JobPlace.BottlingHeel, 1.05), (JobPlace.BottlingFilm, 0.2), (JobPlace.Drips, 0.25), (JobPlace.InJars, 5), (JobPlace.GivenAway, 0.5),
        ];
        Assert.Equal(expected, account.Lines.Select(line => (line.Place, Math.Round(line.Mass.Kilograms, 12))));
        Assert.Equal(0, account.BalanceRelative, 1e-14);
        Assert.Equal(0.5, account.Yield.DecimalFractions, 1e-12);
        Assert.Equal(1, account.Unstrained.Kilograms);

        // 8 kg at the start would be 2 kg less than was found.
        Assert.Equal(0.25, JobAccounts.Of(Kg(8), Kg(7), Kg(0.5), Strained(), Filled()).BalanceRelative, 1e-12);
    }

    [Fact]
    public void A_job_may_end_in_the_bottling_tank()
    {
        JobAccount account = JobAccounts.Of(Kg(10), Kg(7), Kg(0.5), Strained(), filling: null);
        Assert.Equal((JobPlace.BottlingTank, 7.0), (account.Lines[^1].Place, account.Lines[^1].Mass.Kilograms));
        Assert.Equal(6, account.Lines.Count);
        Assert.Equal(0, account.BalanceRelative, 1e-14);
        Assert.Equal(0, account.Yield.DecimalFractions);
    }

    /// <summary>A film thins as one over the root of the time: of one that drained for 3 h another hour brings 1 − √(3/4), of 1.25 h 1 − √(5/9). Half the scatter saves a quarter of what is given away.</summary>
    [Fact]
    public void What_could_be_had_back_by_hand()
    {
        JobAccount account = JobAccounts.Of(Kg(10), Kg(7), Kg(0.5), Strained(), Filled());
        IReadOnlyList<Recovery> all = Recoveries.Of(account, Strained(), Filled());
        (JobPlace Place, double Kilograms)[] expected =
        [
            (JobPlace.BottlingHeel, 1.05), (JobPlace.TankHeel, 1), (JobPlace.Scum, 0.5), (JobPlace.Cloth, 0.5), (JobPlace.Floor, 0.25), (JobPlace.Drips, 0.25),
            (JobPlace.GivenAway, 0.125), (JobPlace.TankFilm, 0.75 * (1 - Math.Sqrt(0.75))), (JobPlace.BottlingFilm, 0.2 * (1 - Math.Sqrt(1.25 / 2.25))),
        ];
        Assert.Equal(expected.Select(place => (place.Place, Math.Round(place.Kilograms, 9))), all.Select(recovery => (recovery.Place, Math.Round(recovery.Mass.Kilograms, 9))));

        // Nothing given away is nothing to save; and without a filling there is no bottling tank to drain.
        Assert.DoesNotContain(Recoveries.Of(account, Strained(), Filled(0, 0)), recovery => recovery.Place == JobPlace.GivenAway);
        Assert.DoesNotContain(Recoveries.Of(account, Strained(), null), recovery => recovery.Place is JobPlace.GivenAway or JobPlace.BottlingFilm);
    }

    /// <summary>Five grams are worth a word, less is not.</summary>
    [Theory]
    [InlineData(0.005, 1)]
    [InlineData(0.00499, 0)]
    public void Little_is_not_worth_a_word(double scumKg, int lines)
    {
        JobAccount account = new() { Start = Kg(1), Lines = [new AccountLine(JobPlace.Scum, Kg(scumKg))], Unstrained = Mass.Zero, BalanceRelative = 0 };
        Assert.Equal(lines, Recoveries.Of(account, Strained(), null).Count);
    }

    [Theory]
    [InlineData(37, false)]
    [InlineData(37.1, true)]
    [InlineData(33, false)]
    [InlineData(32.9, true)]
    [InlineData(35, false)]
    public void A_jump_of_more_than_two_kelvins_is_told(double warmedC, bool told)
    {
        JobSetup setup = JobSetups.Pail() with { Settling = null };
        IReadOnlyList<Notice> notices = JobNotices.Of(setup, Warmed(warmedC), setup.Straining);
        Assert.Equal(told, notices.Count == 1);
        if (told)
            Assert.Equal(FormattableString.Invariant($"the warming ends at {warmedC:0.0} °C on average and the straining begins at 35.0 °C"), notices[0].Seen);
        Assert.Empty(JobNotices.Of(setup, null, setup.Straining));
        Assert.Empty(JobNotices.Of(JobSetups.Pail(), Warmed(warmedC), setup.Straining)); // stands between, and cools
        Assert.Empty(JobNotices.Of(JobSetups.Pail(), null, setup.Straining));
    }

    [Theory]
    [InlineData(2, 1, 3)]
    [InlineData(2, 3, 1)]
    [InlineData(2, 3, 4)]
    [InlineData(2, 1, 0.5)]
    [InlineData(2, 2, 2)]
    public void Times_in_order(double likely, double one, double other)
    {
        StepTimes times = StepTimes.Around(Duration.FromHours(likely), Duration.FromHours(one), Duration.FromHours(other));
        Assert.Equal((new[] { likely, one, other }.Min(), likely, new[] { likely, one, other }.Max()), (times.Quick.Hours, times.Likely.Hours, times.Slow.Hours));
        Assert.Equal((3.0, 3.0, 3.0), (StepTimes.Exactly(Duration.FromHours(3)).Quick.Hours, StepTimes.Exactly(Duration.FromHours(3)).Likely.Hours, StepTimes.Exactly(Duration.FromHours(3)).Slow.Hours));
    }

    private static StepTimes Hours(double quick, double likely, double slow) => new(Duration.FromHours(quick), Duration.FromHours(likely), Duration.FromHours(slow));

    private static JobResult Of(params JobStep[] steps) => new()
    {
        Setup = null!,
        Steps = steps,
        Warming = null,
        Settling = null,
        Straining = null!,
        Filling = null,
        Account = null!,
        Recoveries = [],
        Notices = [],
        Cautions = [],
    };

    [Fact]
    public void The_total_is_the_sum_of_the_steps()
    {
        JobStep strain = new() { Kind = JobStepKind.Strain, Times = Hours(1, 2, 4) }, fill = new() { Kind = JobStepKind.Fill, Times = Hours(0.5, 1, 3) }, never = new() { Kind = JobStepKind.Warm, Times = null };
        StepTimes total = Of(strain, fill).Total!;
        Assert.Equal((1.5, 3.0, 7.0), (Math.Round(total.Quick.Hours, 12), Math.Round(total.Likely.Hours, 12), Math.Round(total.Slow.Hours, 12)));
        Assert.Null(Of(strain, never).Total);
        Assert.Null(Of(never).Total);
        Assert.True(new JobOptions().Spread);
    }

    /// <summary>A jar of 1 L warmed by little, then held for two hours: the hold is on top of each time; quick and slow are the outermost of both sets of runs.</summary>
    [Fact]
    public void Times_of_a_warming()
    {
        WarmingSetup setup = JobSetups.Pail().Warming! with
        {
            StartTemperature = Temperature.FromDegreesCelsius(33.7),
            Vessel = new WarmedVessel { Shape = new UprightCylinder(Length.FromMillimeters(100), Length.FromMillimeters(140)), Level = Length.FromMillimeters(130) },
            Targets = [WarmingTarget.Mean(Temperature.FromDegreesCelsius(34))],
            HoldAfter = Duration.FromHours(2),
        };
        WarmingOptions brief = new() { SeriesPoints = 0 };
        WarmingBounds bounds = WarmingBounds.Of(setup, brief);
        WarmingSpread spread = WarmingSpread.Of(setup, brief);
        WarmingResult best = bounds.Best;
        JobStep step = new JobTimes(new JobOptions(), default).OfWarming(best);
        Assert.Equal(JobStepKind.Warm, step.Kind);
        double low = Math.Min(bounds.TimeToTargetLow!.Value.Hours, spread.TimeToTarget.Low!.Value.Hours), high = Math.Max(bounds.TimeToTargetHigh!.Value.Hours, spread.TimeToTarget.High!.Value.Hours);
        Assert.True(low < best.TimeToTarget!.Value.Hours && high > best.TimeToTarget.Value.Hours);
        Assert.NotEqual(bounds.TimeToTargetLow.Value.Hours, spread.TimeToTarget.Low.Value.Hours, 1e-3);
        Assert.NotEqual(bounds.TimeToTargetHigh.Value.Hours, spread.TimeToTarget.High.Value.Hours, 1e-3);
        Assert.Equal(low + 2, step.Times!.Quick.Hours, 1e-9);
        Assert.Equal(best.TimeToTarget.Value.Hours + 2, step.Times.Likely.Hours, 1e-9);
        Assert.Equal(high + 2, step.Times.Slow.Hours, 1e-9);

        // Where the slowest would not get there, the longest that was looked at stands for it.
        WarmingSetup shorter = setup with { Longest = Duration.FromHours((high + best.TimeToTarget.Value.Hours) / 2) };
        JobStep cut = new JobTimes(new JobOptions(), default).OfWarming(best with { Setup = shorter });
        Assert.Equal(shorter.Longest.Hours + 2, cut.Times!.Slow.Hours, 1e-9);
    }

    [Fact]
    public void Times_without_a_spread()
    {
        var times = new JobTimes(new JobOptions { Spread = false }, default);
        WarmingSetup held = JobSetups.Pail().Warming! with { HoldAfter = Duration.FromHours(2) };
        Assert.Equal(Hours(7, 7, 7), times.OfWarming(Warmed(35, 5, held)).Times);
        JobStep cold = times.OfWarming(Warmed(35, null));
        Assert.Null(cold.Times);
        Assert.Equal("it is not warm enough after 168 h", cold.Never);

        Assert.Equal(Hours(3, 3, 3), times.OfStraining(Strained()).Times);
        Assert.Equal(Hours(3, 3, 3), times.OfStraining(Strained(StrainingStatus.Overflowed)).Times);
        foreach (StrainingStatus never in new[] { StrainingStatus.Stalled, StrainingStatus.TimeLimit })
        {
            JobStep stuck = times.OfStraining(Strained(never));
            Assert.Null(stuck.Times);
            Assert.Equal("after 3 h honey still stands in the tank or on the strainer", stuck.Never);
        }

        FillingResult filled = Filled();
        Assert.Equal(Hours(1.25, 1.25, 1.25), times.OfFilling(filled.Setup, filled).Times);
        Assert.Equal("no jar can be filled from what is in the bottling tank", times.OfFilling(null, null).Never);
        Assert.Equal("no jar can be filled from what is in the bottling tank", times.OfFilling(filled.Setup, null).Never);
        Assert.Equal("no jar can be filled from what is in the bottling tank", times.OfFilling(filled.Setup, filled with { Jars = 0 }).Never);
        Assert.Equal("the jar cannot hold the fill", times.OfFilling(filled.Setup, filled with { Jars = 0, Status = FillingStatus.JarTooSmall }).Never);
        Assert.Null(times.OfFilling(null, filled).Times);
        Assert.Empty(times.OfFilling(filled.Setup, filled).Never);
    }

    [Fact]
    public void Times_of_a_filling_are_those_of_its_band()
    {
        FillingSetup setup = Fillings.Plain() with { MostJars = 2 };
        FillingBand band = FillingBand.Of(setup);
        StepTimes times = new JobTimes(new JobOptions(), default).OfFilling(setup, band.Likely).Times!;
        Assert.Equal((band.Quick.Elapsed, band.Likely.Elapsed, band.Slow.Elapsed), (times.Quick, times.Likely, times.Slow));
        Assert.True(times.Quick < times.Likely && times.Likely < times.Slow);
    }

    /// <summary>
    /// Only the lot factor varies, evenly from 0.5 to 1.5: one run in ten is thinner than 0.6 and one thicker than 1.4, and thicker is slower. So the times are those of runs at 0.6 and 1.4, as
    /// near as 1024 draws tell. Where nothing varies there is one time.
    /// </summary>
    [Fact]
    public void Times_of_a_straining_are_those_of_one_in_ten()
    {
        StrainingSetup setup = RiskSetups.Pail(100);
        setup = setup with { Tank = setup.Tank with { Level = RiskSetups.Mm(12) } };
        UncertainInput[] lot = [new(StrainingInputs.LotFactor, new UniformDistribution(0.5, 1.5), LotFactorSpread.Source)];
        StrainingResult At(double factor) => StrainingRun.Simulate(setup with { Honey = setup.Honey with { LotFactor = factor } });
        double quick = At(0.6).Elapsed.Seconds, slow = At(1.4).Elapsed.Seconds;
        Assert.True(slow > 1.3 * quick);
        StepTimes times = new JobTimes(new JobOptions { StrainingSpreads = lot }, default).OfStraining(At(1)).Times!;
        Assert.Equal(quick, times.Quick.Seconds, 0.03 * quick);
        Assert.Equal(slow, times.Slow.Seconds, 0.03 * slow);
        Assert.Null(StrainingTimes.Of(setup, [], 1, default));
    }

    /// <summary>The bottling tank of 0.1 m² and 0.5 m: what arrives stands as high as its volume says; 4 mm above the gate's axis nothing drains, and 50 L are its brim.</summary>
    [Fact]
    public void What_arrives_in_the_bottling_tank()
    {
        FillingSetup filling = Fillings.Plain();
        filling = filling with { Tank = filling.Tank with { Shape = new RectangularTank(Length.FromMeters(0.5), Length.FromMeters(0.2), Length.FromMeters(0.5)), GateHeight = Length.FromMillimeters(30) } };
        double density = HoneyProperties.Of(filling.Honey).DensityAt(filling.Temperature).KilogramsPerCubicMeter;
        FillingSetup? Arrived(double litres) => JobChain.Arrived(filling, Kg(litres * 1e-3 * density));
        Assert.Equal(0.25, Arrived(25)!.Tank.Level.Meters, 1e-12);
        Assert.Null(Arrived(3.3)); // 33 mm
        Assert.NotNull(Arrived(3.41));
        Assert.Equal(0.5, Arrived(50 * (1 + 0.5e-9))!.Tank.Level.Meters, 1e-9);
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => Arrived(50.001));
        Assert.Equal(nameof(JobSetup.Filling), refused.ParamName);
        Assert.Contains(FormattableString.Invariant($"holds {50e-3 * density:0.##} kg to its brim; {50.001e-3 * density:0.##} kg come"), refused.Message, StringComparison.Ordinal);

        Assert.Equal("filling.Honey", Assert.Throws<ArgumentNullException>(() => JobChain.Arrived(filling with { Honey = null! }, Kg(1))).ParamName);
        Assert.Equal("filling.Tank", Assert.Throws<ArgumentNullException>(() => JobChain.Arrived(filling with { Tank = null! }, Kg(1))).ParamName);
        Assert.Equal("filling.Gate", Assert.Throws<ArgumentNullException>(() => JobChain.Arrived(filling with { Gate = null! }, Kg(1))).ParamName);
    }

    [Fact]
    public void Parts_that_are_missing_are_named()
    {
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => JobRun.Simulate(null!)).ParamName);
        Assert.Equal("setup.Straining", Assert.Throws<ArgumentNullException>(() => JobRun.Simulate(new JobSetup { Straining = null! })).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => StandingWorth.Of(null!, [])).ParamName);
        Assert.Equal("times", Assert.Throws<ArgumentNullException>(() => StandingWorth.Of(JobSetups.Pail(), null!)).ParamName);
        Assert.Equal("Settling", Assert.Throws<ArgumentNullException>(() => StandingWorth.Of(JobSetups.Pail() with { Settling = null }, [])).ParamName);
    }

    /// <summary>
    /// A small straining alone, two litres in the bottling tank already, through a cloth with a rim so low that some runs over: start and places by hand, and its own notices and reminders are the job's.
    /// </summary>
    [Fact]
    public void A_job_of_one_step()
    {
        StrainingSetup straining = RiskSetups.Pail(100);
        straining = straining with
        {
            Tank = straining.Tank with { Level = RiskSetups.Mm(60) },
            Strainer = new Strainer { Shape = new FlatDisc(RiskSetups.Mm(60), RiskSetups.Mm(20)), Cloths = [Cloth.FromAstmSieve(40)] },
            Receiver = straining.Receiver with { AlreadyIn = Volume.FromLiters(2), StartTemperature = Temperature.FromDegreesCelsius(22) },
        };
        JobResult job = JobRun.Simulate(new JobSetup { Straining = straining }, new JobOptions { Spread = false });
        Assert.True(job.Straining.Masses.Bypassed.Grams > 10);
        HoneyProperties honey = HoneyProperties.Of(straining.Honey);
        double start = Math.PI / 4 * 0.285 * 0.285 * 0.06 * honey.DensityAt(straining.HoneyTemperature).KilogramsPerCubicMeter + 2e-3 * honey.DensityAt(Temperature.FromDegreesCelsius(22)).KilogramsPerCubicMeter;
        Assert.Equal(start, job.Account.Start.Kilograms, 1e-9);
        Assert.Equal(0, job.Account.BalanceRelative, 1e-9);
        Assert.Equal(
            2e-3 * honey.DensityAt(Temperature.FromDegreesCelsius(22)).KilogramsPerCubicMeter + (job.Straining.Masses.Strained + job.Straining.Masses.Bypassed).Kilograms,
            job.Account.Of(JobPlace.BottlingTank).Kilograms,
            1e-9);
        Assert.Equal([JobStepKind.Strain], job.Steps.Select(step => step.Kind));
        Assert.Null(job.Filling);
        Assert.NotEmpty(job.Straining.Notices);
        Assert.Equal(job.Straining.Notices.Select(notice => notice.Code).Distinct(), job.Notices.Select(notice => notice.Code));
        Assert.Equal(job.Straining.Cautions.Select(caution => caution.Code).Distinct(), job.Cautions.Select(caution => caution.Code));
    }
}
