using FlowSim.HeatDamage;
using FlowSim.Plots.Drawing;
using FlowSim.Setpoints;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class SetpointFigureTests
{
    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<SetpointAnswer>> s_cases = new(StringComparer.Ordinal)
    {
        ["ceiling in the way"] = () => new InventedSetpoints().Answer(),
        ["hmf in the way"] = () => new InventedSetpoints { Binding = PlanLimit.Hmf, MostGain = 2.5, ChoiceC = 38, HmfPerHour = 0.12, Before = Hmf(37.5) }.Answer(),
        ["time in the way"] = () => new InventedSetpoints { Binding = PlanLimit.Time, Limits = new() { Longest = Duration.FromHours(30) } }.Answer(),
        ["diastase in the way"] = () => new InventedSetpoints { Binding = PlanLimit.Diastase }.Answer(),
        ["diastase in the way, not known"] = () => new InventedSetpoints { Binding = PlanLimit.Diastase, Before = null }.Answer(),
        ["overflow in the way"] = () => new InventedSetpoints { Binding = PlanLimit.Overflow }.Answer(),
        ["straining in the way"] = () => new InventedSetpoints { Binding = PlanLimit.StrainingTime, Limits = new() { LongestStraining = Duration.FromMinutes(15) } }.Answer(),
        ["wax in the way"] = () => new InventedSetpoints { Binding = PlanLimit.WaxAtStrainer, Limits = new() { WarmestAtStrainer = Temperature.FromDegreesCelsius(45), WarmestForHands = Temperature.FromDegreesCelsius(45.2) } }.Answer(),
        ["nothing in the way"] = () => new InventedSetpoints { Binding = null, RunnerUpC = null, HighestC = 50 }.Answer(),
        ["none allowed"] = () => new InventedSetpoints { ChoiceC = null, Binding = PlanLimit.Hmf, HmfPerHour = 0.4, MostGain = 0.1, Before = Hmf(39.9) }.Answer(),
        ["beyond the limit from the start"] = () => new InventedSetpoints { ChoiceC = null, Binding = PlanLimit.Hmf, Before = Hmf(60) }.Answer(),
        ["never warm enough"] = () => new InventedSetpoints { TooColdC = 60, ChoiceC = null }.Answer(),
        ["cold half"] = () => new InventedSetpoints { TooColdC = 41 }.Answer(),
        ["one setpoint"] = () => new InventedSetpoints { LowestC = 45, HighestC = 45, ChoiceC = 45, RunnerUpC = null }.Answer(),
        ["no curve"] = () => new InventedSetpoints { HighestC = 29, ChoiceC = null }.Answer(),
        ["tenths"] = () => new InventedSetpoints { StepC = 0.1 }.Answer(),
        ["minutes"] = () => new InventedSetpoints { Hours = 0.3 }.Answer(),
        ["weeks"] = () => new InventedSetpoints { Hours = 900 }.Answer(),
        ["tiny gains"] = () => new InventedSetpoints { HmfPerHour = 1e-5 }.Answer(),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        SetpointAnswer answer = s_cases[name]();
        Sheet.AssertReadable(SetpointFigure.Of(answer, name: "Invented lot").ToSvg());
        Sheet.AssertReadable(SetpointFigure.Of(answer, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
        using SKBitmap picture = Sheet.AssertPicture(SetpointFigure.Of(answer).ToPng(), SetpointFigure.Width);
        Assert.Equal(SetpointFigure.Height, picture.Height);
    }

    [Fact]
    public void Choice_runner_up_limits_and_axes_are_named()
    {
        string[] texts = Sheet.Texts(SetpointFigure.Of(new InventedSetpoints().Answer()).ToSvg());
        string[] expected =
        [
            "band of HMF", "within the limits", "breaks a limit", "warming", "straining", "together", "hottest wall", "hottest honey", "strained at",
            "ceiling", "wall", "wax", "in the way", "Gain of HMF, mg/kg", "Time, h", "Temperature, °C", "Setpoint, °C", "Time for warming and straining, h (numbers: setpoints in °C)",
        ];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));

        // Once in the legend of the upper panel, once over the lower ones.
        Assert.Equal(2, texts.Count(t => t == "choice 50 °C"));
        Assert.Equal(2, texts.Count(t => t == "runner-up 48.5 °C"));
        Assert.Contains("ceiling 50 °C", texts, StringComparer.Ordinal);
        Assert.StartsWith("50 °C: done in ", texts[0], StringComparison.Ordinal);
        Assert.Contains(texts, t => t.Contains("Limit in the way: ceiling.", StringComparison.Ordinal));
        Assert.Contains("Its warming takes between 12:00 h and 24:00 h by the bounds.", texts, StringComparer.Ordinal);

        // The invented ceiling is 50 °C, the curve goes to 55 °C in whole degrees.
        Assert.Contains(texts, t => t.StartsWith("Broken: ceiling at 51–55 °C", StringComparison.Ordinal));
    }

    [Fact]
    public void Setpoints_are_written_at_their_points()
    {
        string[] texts = Sheet.Texts(SetpointFigure.Of(new InventedSetpoints { LowestC = 31, HighestC = 34, ChoiceC = 34, RunnerUpC = null }.Answer()).ToSvg());
        Assert.All((string[])["31", "32", "33"], e => Assert.Contains(e, texts, StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(PlanLimit.Hmf, "limit 28")]
    [InlineData(PlanLimit.Time, "longest")]
    [InlineData(PlanLimit.Diastase, "limit 8")]
    [InlineData(PlanLimit.Ceiling, "ceiling")]
    [InlineData(PlanLimit.Wall, "wall")]
    [InlineData(PlanLimit.WaxAtStrainer, "wax")]
    public void The_limit_in_the_way_has_its_line(PlanLimit limit, string word)
    {
        SetpointAnswer answer = new InventedSetpoints { Binding = limit }.Answer();
        Assert.Contains(word, Sheet.Texts(SetpointFigure.Of(answer).ToSvg()), StringComparer.Ordinal);

        // More of the colour of that line than without it: nothing else differs but a word or two.
        using SKBitmap with = SKBitmap.Decode(SetpointFigure.Of(answer).ToPng());
        using SKBitmap without = SKBitmap.Decode(SetpointFigure.Of(answer with { BindingLimit = null }).ToPng());
        Assert.True(Sheet.Count(with, OkabeIto.Vermillion) > Sheet.Count(without, OkabeIto.Vermillion) + 1000);
    }

    [Fact]
    public void A_limit_on_hmf_is_drawn_less_what_the_honey_had_before()
    {
        // 40 mg/kg less 37.5 mg/kg.
        SetpointAnswer answer = new InventedSetpoints { Binding = PlanLimit.Hmf, Before = Hmf(37.5) }.Answer();
        Assert.Contains("limit 2.5", Sheet.Texts(SetpointFigure.Of(answer).ToSvg()), StringComparer.Ordinal);

        SetpointAnswer beyond = new InventedSetpoints { Binding = PlanLimit.Hmf, Before = Hmf(41), ChoiceC = null }.Answer();
        Assert.Contains("limit < 0", Sheet.Texts(SetpointFigure.Of(beyond).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void Where_none_is_allowed_the_nearest_miss_is_marked()
    {
        string[] texts = Sheet.Texts(SetpointFigure.Of(new InventedSetpoints { ChoiceC = null, Binding = PlanLimit.Hmf }.Answer()).ToSvg());
        Assert.Equal("No setpoint meets these limits", texts[0]);
        Assert.Equal(2, texts.Count(t => t == "nearest miss 30 °C"));
        Assert.Contains(texts, t => t.Contains("HMF 42.3 mg/kg, 2.3 over the limit", StringComparison.Ordinal));
        Assert.DoesNotContain("within the limits", texts, StringComparer.Ordinal);
    }

    [Fact]
    public void Setpoints_that_break_a_limit_are_shaded()
    {
        using SKBitmap some = SKBitmap.Decode(SetpointFigure.Of(new InventedSetpoints().Answer()).ToPng());
        using SKBitmap none = SKBitmap.Decode(SetpointFigure.Of(new InventedSetpoints { HighestC = 50 }.Answer()).ToPng());
        Assert.True(Sheet.Count(some, TimeSpell.PaleVermillion) > 20_000);
        Assert.Equal(0, Sheet.Count(none, TimeSpell.PaleVermillion));
    }

    [Fact]
    public void A_search_without_a_plan_says_so()
    {
        Assert.Contains("No setpoint was tried.", Sheet.Texts(SetpointFigure.Of(s_cases["no curve"]()).ToSvg()), StringComparer.Ordinal);
        Assert.Contains("The honey never gets warm enough to strain.", Sheet.Texts(SetpointFigure.Of(s_cases["never warm enough"]()).ToSvg()), StringComparer.Ordinal);
        Assert.Contains("never warm enough", Sheet.Texts(SetpointFigure.Of(s_cases["cold half"]()).ToSvg()), StringComparer.Ordinal);
    }

    [Fact]
    public void Us_units_stand_in_the_labels()
    {
        string[] texts = Sheet.Texts(SetpointFigure.Of(new InventedSetpoints().Answer(), DisplayUnits.UsCustomary).ToSvg());

        // 50 °C are 122 °F.
        Assert.StartsWith("122 °F: done in ", texts[0], StringComparison.Ordinal);
        Assert.Contains("Setpoint, °F", texts, StringComparer.Ordinal);
        Assert.DoesNotContain(texts, t => t.Contains("°C", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(FigureFormat.Png)]
    [InlineData(FigureFormat.Svg)]
    public void The_same_answer_gives_the_same_bytes(FigureFormat format) =>
        Assert.Equal(SetpointFigure.Of(new InventedSetpoints().Answer()).Encode(format), SetpointFigure.Of(new InventedSetpoints().Answer()).Encode(format));

    private static HoneyBeforeHeat Hmf(double mgPerKg) => new() { Hmf = MassFraction.FromMilligramsPerKilogram(mgPerKg), DiastaseNumber = 17 };
}
