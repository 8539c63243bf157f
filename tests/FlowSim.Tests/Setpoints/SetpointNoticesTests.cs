using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using FlowSim.Straining;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Setpoints.Batches;
using static FlowSim.Tests.Setpoints.SmallBatch;

namespace FlowSim.Tests.Setpoints;

/// <summary>What is said of an answer, and when not.</summary>
public class SetpointNoticesTests
{
    private static readonly SetpointQuestion Question = SmallBatch.Plain();

    /// <summary>The two runs of a plan, a minute and a second long, with what they say left out.</summary>
    private static readonly WarmingResult Warmed = WarmingRun.Simulate(Question.Warming with { Longest = Duration.FromMinutes(1) }, Question.Options) with { Notices = [] };
    private static readonly StrainingResult Strained = StrainingRun.Simulate(Question.Straining with { Longest = Duration.FromSeconds(1) }, new StrainingOptions { SeriesPoints = 0 }) with { Notices = [] };

    private static IReadOnlyList<Notice> Of(SetpointPlan? choice = null, IReadOnlyList<CurvePoint>? curve = null, SetpointPlan? colder = null, SetpointQuestion? question = null) =>
        SetpointNotices.For(question ?? Question, new PlanJudge(question ?? Question), choice, curve ?? [], colder);

    private static string[] Codes(IReadOnlyList<Notice> notices) => [.. notices.Select(notice => notice.Code)];

    private static CurvePoint At(double celsius, double hours, double hmf = 1) => new(
        C(celsius), Plan() with { Setpoint = C(celsius), WarmTime = Duration.FromHours(hours), StrainTime = Duration.Zero, Damage = Damage(hmf, hmf, hmf, 1, 1, 1) }, true, []);

    private static CurvePoint Nothing(double celsius) => new(C(celsius), null, false, []);

    [Fact]
    public void Of_a_plain_answer_nothing_is_said()
    {
        Assert.Empty(Of());
        Assert.Empty(Of(Plan() with { Warming = Warmed, Straining = Strained }, [At(38, 5), At(39, 4)], Plan()));
    }

    [Fact]
    public void What_is_not_known_of_the_honey_is_said()
    {
        SetpointQuestion Before(HoneyBeforeHeat? before, HeatLimit limit) => Question with { Warming = Question.Warming with { Before = before }, Limits = Question.Limits with { Heat = limit } };

        HeatLimit eu = HeatLimits.ByName("eu"), hmfOnly = HeatLimit.House(MgPerKg(40));
        Assert.Equal(["setpoint.hmf-unknown", "setpoint.diastase-unknown"], Codes(Of(question: Before(null, eu))));
        Assert.Equal(["setpoint.diastase-unknown"], Codes(Of(question: Before(new HoneyBeforeHeat { Hmf = MgPerKg(8) }, eu))));
        Assert.Empty(Of(question: Before(new HoneyBeforeHeat { Hmf = MgPerKg(8) }, hmfOnly)));
        Assert.Equal(["setpoint.hmf-unknown"], Codes(Of(question: Before(null, hmfOnly))));
    }

    /// <summary>Longer by more than a hundredth than one degree colder: 5.05 h after 5 h is not, 5.06 h is.</summary>
    [Fact]
    public void A_hotter_setpoint_that_takes_longer_is_told_once()
    {
        Assert.Empty(Of(curve: [At(38, 5), At(39, 5.05)]));
        Notice notice = Assert.Single(Of(curve: [At(37, 6), At(38, 5), At(39, 5.06), At(40, 9)]));
        Assert.Equal("setpoint.time-not-monotone", notice.Code);
        Assert.Contains("longer at 39 °C than at 38 °C", notice.Seen, StringComparison.Ordinal);

        // A setpoint without a plan is passed over.
        Assert.Contains("longer at 40 °C than at 38 °C", Assert.Single(Of(curve: [Nothing(37), At(38, 5), Nothing(39), At(40, 6)])).Seen, StringComparison.Ordinal);
        Assert.Empty(Of(curve: [Nothing(37), At(38, 5)]));
    }

    /// <summary>Less by more than a hundredth: 0.99 mg/kg after 1 is not, 0.98 is.</summary>
    [Fact]
    public void A_hotter_setpoint_that_costs_less_is_told_once()
    {
        Assert.Empty(Of(curve: [At(38, 5, 1), At(39, 4, 0.99)]));
        Notice notice = Assert.Single(Of(curve: [At(37, 6, 0.5), At(38, 5, 1), At(39, 4, 0.98), At(40, 3, 0.5)]));
        Assert.Equal("setpoint.damage-not-monotone", notice.Code);
        Assert.Contains("less HMF at 39 °C than at 38 °C", notice.Seen, StringComparison.Ordinal);

        // Of both only the time is told.
        Assert.Equal(["setpoint.time-not-monotone"], Codes(Of(curve: [At(38, 5, 1), At(39, 6, 0.5)])));
    }

    [Fact]
    public void A_ceiling_above_the_usual_is_echoed()
    {
        SetpointQuestion Ceiling(double celsius) => Question with { Limits = Question.Limits with { Ceiling = C(celsius) } };

        Assert.Empty(Of(question: Ceiling(50)));
        Notice notice = Assert.Single(Of(question: Ceiling(50.5)));
        Assert.Equal("setpoint.ceiling-raised", notice.Code);
        Assert.Contains("50.5 °C", notice.Seen, StringComparison.Ordinal);
        Assert.Contains("it is 50 °C", notice.Seen, StringComparison.Ordinal);
        Assert.Equal(50, SetpointLimits.DefaultCeiling.DegreesCelsius, 1e-9);
    }

    /// <summary>Sooner by a hundredth at least: of 10 h, 9.9 h is told and 9.95 h is not.</summary>
    [Fact]
    public void Straining_colder_is_told_when_it_is_sooner()
    {
        SetpointPlan choice = Plan() with { WarmTime = Duration.FromHours(9.5), StrainTime = Duration.FromMinutes(30) };
        SetpointPlan Colder(double hours) => Plan() with { StrainAt = C(28), WarmTime = Duration.FromHours(hours - 1), StrainTime = Duration.FromMinutes(60) };

        Assert.Empty(Of(choice, colder: Colder(9.95)));
        SetpointPlan In(double seconds) => Plan() with { WarmTime = Duration.FromSeconds(seconds), StrainTime = Duration.Zero };
        Assert.NotEmpty(Of(In(36_000), colder: In(35_640))); // Just a hundredth.
        Assert.Empty(Of(choice));
        Assert.Empty(Of(colder: Colder(5)));
        Notice notice = Assert.Single(Of(choice, colder: Colder(9.8)));
        Assert.Equal("setpoint.colder-is-sooner", notice.Code);
        Assert.Contains("at 28 °C", notice.Seen, StringComparison.Ordinal);
        Assert.Contains("9.8 h instead of 10.0 h", notice.Seen, StringComparison.Ordinal);
        Assert.Contains("60 min at the strainer instead of 30", notice.Seen, StringComparison.Ordinal);
        Assert.Contains("30 °C", notice.MayMean, StringComparison.Ordinal);
    }

    /// <summary>Warmed and strained alike within a twentieth: of several vessels all are warmed, one is strained.</summary>
    [Theory]
    [InlineData(1, 1.04, false)]
    [InlineData(1, 1.06, true)]
    [InlineData(1, 0.96, false)]
    [InlineData(1, 0.94, true)]
    [InlineData(2, 1, true)]
    [InlineData(2, 0.5, false)]
    public void Masses_that_do_not_belong_together_are_told(int vessels, double perStrained, bool told)
    {
        double strainedKg = Strained.Masses.Start.Kilograms;
        WarmingResult warmed = Warmed with { HoneyPerVessel = Mass.FromKilograms(perStrained * strainedKg), Setup = Warmed.Setup with { Vessels = vessels } };
        IReadOnlyList<Notice> notices = Of(Plan() with { Warming = warmed, Straining = Strained });
        Assert.Equal(told ? ["setpoint.other-mass"] : [], Codes(notices));
        if (told)
            Assert.Contains(FormattableString.Invariant($"{vessels * perStrained * strainedKg:0.0} kg are warmed and {strainedKg:0.0} kg strained"), notices[0].Seen, StringComparison.Ordinal);
        Assert.Empty(Of(Plan() with { Warming = warmed }));
        Assert.Empty(Of(Plan() with { Straining = Strained }));
    }

    /// <summary>What the runs say comes last, what both say once, by the word of the warming.</summary>
    [Fact]
    public void What_the_two_runs_say_is_passed_on()
    {
        Notice Said(string code, string by) => new(code, by, "may mean", "helps");

        SetpointPlan choice = Plan() with
        {
            Warming = Warmed with { Notices = [Said("honey.own", "warming"), Said("warming.slow", "warming")] },
            Straining = Strained with { Notices = [Said("honey.own", "straining"), Said("tank.film", "straining")] },
        };
        IReadOnlyList<Notice> notices = Of(choice, question: Question with { Limits = Question.Limits with { Ceiling = C(60) } });
        Assert.Equal(["setpoint.ceiling-raised", "honey.own", "warming.slow", "tank.film"], Codes(notices));
        Assert.Equal(["warming", "warming", "straining"], notices.Skip(1).Select(notice => notice.Seen));
    }
}
