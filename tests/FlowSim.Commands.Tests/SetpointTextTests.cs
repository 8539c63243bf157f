using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.HeatDamage;
using FlowSim.Setpoints;
using UnitsNet;

namespace FlowSim.Commands.Tests;

/// <summary>Sentences about answers, on answers invented for the purpose: figures here stand for nothing.</summary>
public class SetpointTextTests
{
    [Theory]
    [InlineData(600, "One degree more would save 10 min.")]
    [InlineData(-600, "One degree more would cost 10 min.")]
    [InlineData(5, "One degree more would save nothing.")]
    public void A_degree_more(double seconds, string said) =>
        Assert.Contains(said, Text(Answer() with { TimeADegreeBuys = Duration.FromSeconds(seconds) }), StringComparison.Ordinal);

    [Fact]
    public void Every_limit_has_its_sentence_and_its_key()
    {
        SetpointLimits limits = new() { WarmestForHands = Temperature.FromDegreesCelsius(47), LongestStraining = Duration.FromMinutes(20) };
        string[] sentences = [.. Enum.GetValues<PlanLimit>().Select(limit => PlanLimitText.Of(limit, limits, new Display(UnitChoice.Metric)))];
        Assert.Equal(sentences.Length, sentences.ToHashSet(StringComparer.Ordinal).Count);
        Assert.Equal(sentences.Length, Enum.GetValues<PlanLimit>().Select(PlanLimitText.Short).ToHashSet(StringComparer.Ordinal).Count);
        HashSet<string> keys = new(Keys.All.Select(key => key.ToString()), StringComparer.Ordinal);
        Assert.All(Enum.GetValues<PlanLimit>().Where(limit => limit != PlanLimit.Overflow), limit => Assert.Contains(PlanLimitText.Key(limit, limits), keys));
        foreach (PlanLimit limit in Enum.GetValues<PlanLimit>())
            Assert.Contains($"What stands in the way of less time: {PlanLimitText.Of(limit, limits, new Display(UnitChoice.Metric))}.", Text(Answer(limits) with { BindingLimit = limit }), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_binding_limit_it_says_so() =>
        Assert.Contains("No limit stands in the way of less time.", Text(Answer() with { BindingLimit = null }), StringComparison.Ordinal);

    [Fact]
    public void Without_a_runner_up_there_is_none() =>
        Assert.DoesNotContain("Next best", Text(Answer() with { RunnerUp = null }), StringComparison.Ordinal);

    [Fact]
    public void A_plan_that_cannot_be_strained_shows_no_time_of_straining()
    {
        SetpointPlan dead = Plan(50, 30) with { Opening = Ratio.Zero, StrainTime = Duration.Zero, Broken = [PlanLimit.Overflow] };
        string text = Text(Answer() with
        {
            Status = SetpointStatus.NoneMeetsTheLimits,
            Choice = null,
            RunnerUp = null,
            BindingLimit = null,
            TimeADegreeBuys = null,
            NearestMiss = new NearestMiss(dead, [(PlanLimit.Overflow, "it runs over")]),
        });
        Assert.Contains("where it cannot be strained", text, StringComparison.Ordinal);
        Assert.Contains("change the kit: the strainer in [screen]", text, StringComparison.Ordinal);
    }

    [Fact]
    public void No_plan_at_all_is_an_answer_too()
    {
        string text = Text(Answer() with { Status = SetpointStatus.NoneMeetsTheLimits, Choice = null, RunnerUp = null, BindingLimit = null, TimeADegreeBuys = null, NearestMiss = null, Curve = [] });
        Assert.Contains("never gets warm enough to strain", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_long_curve_keeps_its_ends_the_choice_and_whole_degrees_and_fits_a_screen()
    {
        CurvePoint[] curve = [.. Enumerable.Range(0, 101).Select(i => 30 + 0.2 * i).Select(c => new CurvePoint(Temperature.FromDegreesCelsius(c), Plan(c, 30), c <= 45, c <= 45 ? [] : [PlanLimit.Ceiling, PlanLimit.Wall, PlanLimit.Hmf]))];
        SetpointAnswer answer = Answer() with { Curve = curve, Choice = Plan(44.4, 35), RunnerUp = Plan(43.2, 35) };
        StringWriter writer = new();
        new SetpointText(new Page(writer, 80, colour: false), new Display(UnitChoice.Metric)).Write(Story(answer));
        string[] rows = [.. writer.ToString().Split('\n').SkipWhile(line => !line.StartsWith("set, ", StringComparison.Ordinal)).Skip(1).TakeWhile(line => line.Length > 0)];
        Assert.InRange(rows.Length, 5, 12);
        Assert.All(rows, row => Assert.InRange(row.Length, 1, 80));
        Assert.StartsWith("  30.0", rows[0], StringComparison.Ordinal);
        Assert.StartsWith("  50.0", rows[^1], StringComparison.Ordinal);
        Assert.EndsWith("  ceiling, …", rows[^1], StringComparison.Ordinal);
        Assert.Contains(rows, row => row.StartsWith("> 44.4", StringComparison.Ordinal));
        Assert.Contains(rows, row => row.StartsWith("  43.2", StringComparison.Ordinal));
        Assert.Contains(rows, row => row.StartsWith("  40.0", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_a_schedule_the_last_step_is_set()
    {
        SetpointAnswer answer = Answer();
        Warming.HeatingKit kit = answer.Question.Warming.Heating;
        IReadOnlyList<Warming.SetpointStep> steps = [new(Duration.Zero, Temperature.FromDegreesCelsius(35)), new(Duration.FromHours(12), Temperature.FromDegreesCelsius(40))];
        Warming.WarmingSetup stepped = answer.Question.Warming with { Heating = kit with { Thermostat = kit.Thermostat with { Schedule = steps } } };
        string text = Text(answer with { Question = answer.Question with { Warming = stepped } });
        Assert.Contains("SET THE LAST STEP AT 48 °C", text, StringComparison.Ordinal);
        Assert.Contains("Set the thermostat's last step at 48 °C", text, StringComparison.Ordinal);
        Assert.Contains("SET THE HEAT AT 48 °C", Text(answer), StringComparison.Ordinal);
    }

    [Fact]
    public void An_opening_by_a_chance_is_called_that()
    {
        SetpointAnswer answer = Answer(new SetpointLimits { Overflow = OverflowLimit.WithinTolerance(Ratio.FromPercent(1)) });
        StringWriter writer = new();
        SetpointStory story = Story(answer) with { Limits = new LimitInput(answer.Question.Limits, CeilingIsGiven: false, null, null, Ratio.FromPercent(1)) };
        new SetpointText(new Page(writer, 80, colour: false), new Display(UnitChoice.Metric)).Write(story);
        string text = string.Join(' ', writer.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("Open the gate to at most 25 %: up to there the chance of an overflow is within the 1 % you set", text, StringComparison.Ordinal);
        Assert.Contains("the strainer runs over with no more than the chance you set", text, StringComparison.Ordinal);
        Assert.Contains("if every figure is exact", Text(Answer()), StringComparison.Ordinal);
    }

    [Fact]
    public void Us_units()
    {
        // 50 °C = 122 °F, 48 °C = 118.4 °F.
        StringWriter writer = new();
        new SetpointText(new Page(writer, 80, colour: false), new Display(UnitChoice.Us)).Write(Story(Answer()));
        Assert.Contains("SET THE HEAT AT 118.4 °F", writer.ToString(), StringComparison.Ordinal);
        Assert.Contains("the ceiling of 122 °F", writer.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("°C", writer.ToString(), StringComparison.Ordinal);
    }

    private static string Text(SetpointAnswer answer)
    {
        StringWriter writer = new();
        new SetpointText(new Page(writer, 80, colour: false), new Display(UnitChoice.Metric)).WriteOutcome(Story(answer));
        return string.Join(' ', writer.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    private static SetpointStory Story(SetpointAnswer answer) =>
        new(answer, new LimitInput(answer.Question.Limits, CeilingIsGiven: false, null, null), new Journal(new Spot("invented", 1, 1)), "invented");

    private static SetpointAnswer Answer(SetpointLimits? limits = null)
    {
        Problems problems = new();
        SetpointInput demo = WarmingReader.ReadQuestion(TomlReader.Read(Demo.Text, "demo", problems), problems, new Journal(new Spot("demo", 1, 1)))!;
        return new SetpointAnswer
        {
            Question = demo.Question with { Limits = limits ?? new SetpointLimits() },
            Status = SetpointStatus.Found,
            Choice = Plan(48, 35),
            RunnerUp = Plan(46, 35),
            BindingLimit = PlanLimit.Ceiling,
            Bounds = null,
            TimeADegreeBuys = Duration.FromMinutes(10),
            Curve = [new CurvePoint(Temperature.FromDegreesCelsius(48), Plan(48, 35), Allowed: true, [])],
            NearestMiss = null,
            Notices = [],
            Cautions = [],
            WarmingRuns = 1,
        };
    }

    private static SetpointPlan Plan(double setpointC, double strainAtC) => new()
    {
        Setpoint = Temperature.FromDegreesCelsius(setpointC),
        StrainAt = Temperature.FromDegreesCelsius(strainAtC),
        Opening = Ratio.FromPercent(25),
        WarmTime = Duration.FromHours(5),
        StrainTime = Duration.FromMinutes(12),
        Damage = HoneyHeatDamage.Of(TemperatureHistory.Hold(Temperature.FromDegreesCelsius(40), Duration.FromHours(5))),
        After = null,
        HeatCheck = null,
        HottestHoney = Temperature.FromDegreesCelsius(setpointC - 5),
        HottestWall = Temperature.FromDegreesCelsius(setpointC - 4),
        Heater = Energy.FromKilowattHours(0.4),
        Broken = [],
    };
}
