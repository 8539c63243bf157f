using FlowSim.Planning;
using FlowSim.WholeJob;
using SkiaSharp;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class DayFigureTests
{
    private static readonly DateOnly s_date = new(2026, 3, 14);

    public static TheoryData<string> Cases => [.. s_cases.Keys];

    private static readonly Dictionary<string, Func<DayPlan>> s_cases = new(StringComparer.Ordinal)
    {
        ["one vessel"] = () => Plan(1),
        ["a cabinet full"] = () => Plan(7, vessels: 4),
        ["more than a row shows"] = () => Plan(30, vessels: 30),
        ["nothing"] = () => Plan(1, strainMin: 2000),
        ["some left out"] = () => Plan(4, strainMin: 200),
        ["no warming"] = () => Plan(2, warmMin: 0),
        ["weeks"] = () => Plan(12, warmMin: 3000),
        ["minutes"] = () => Plan(1, warmMin: 1, strainMin: 1),
        ["long names"] = () => Plan(3, name: new string('W', 60) + " \u202E\u0007"),
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Words_stay_on_the_sheet_and_off_each_other(string name)
    {
        DayPlan plan = s_cases[name]();
        Sheet.AssertReadable(DayFigure.Of(plan, s_date, name: "Invented day").ToSvg());
        Sheet.AssertReadable(DayFigure.Of(plan, s_date, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Png_has_the_size_it_says(string name)
    {
        using SKBitmap picture = Sheet.AssertPicture(DayFigure.Of(s_cases[name](), s_date).ToPng(), DayFigure.Width);
        Assert.InRange(picture.Height, 100, 20_000);
    }

    [Fact]
    public void People_and_kit_have_a_row_and_tasks_a_letter()
    {
        string[] texts = Sheet.Texts(DayFigure.Of(Plan(2), s_date).ToSvg());
        Assert.All((string[])["A", "cabinet", "cone", "tank", "W warm", "S strain", "F fill", "C clean", "B bubbles rise"], word => Assert.Contains(word, texts, StringComparer.Ordinal));
        Assert.StartsWith("Plan for Saturday 2026-03-14: done by ", texts[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Grey_readers_tell_bars_by_pattern_or_letter()
    {
        // What has no pattern of its own differs in lightness from the others without one, by WCAG's relative luminance.
        double[] plain = [.. DayLook.All.Where(look => !look.HasPattern).Select(look => Luminance(look.Hex)).Order()];
        Assert.All(plain.Zip(plain.Skip(1)), pair => Assert.True((pair.Second + 0.05) / (pair.First + 0.05) > 1.1));
        Assert.Equal(DayLook.All.Count, DayLook.All.Select(look => look.Letter).Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(Enum.GetValues<PlanTask>().Order(), DayLook.All.SelectMany(look => look.Tasks).Order());
    }

    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    [InlineData(2)]
    public void Stripes_stay_in_their_bar(int slant)
    {
        DayLook look = DayLook.All[0] with { Slant = slant };
        foreach (float width in new[] { 2f, 20f, 333f })
        {
            List<(float X1, float Y1, float X2, float Y2)> stripes = look.Pattern(10, 50, 10 + width, 86);
            Assert.All(stripes, s => Assert.True(s.X1 >= 10 && s.X2 <= 10 + width && Math.Min(s.Y1, s.Y2) >= 50 - 0.01f && Math.Max(s.Y1, s.Y2) <= 86.01f));
        }
    }

    [Fact]
    public void The_same_plan_gives_the_same_bytes() =>
        Assert.Equal(DayFigure.Of(Plan(3), s_date).ToSvg(), DayFigure.Of(Plan(3), s_date).ToSvg());

    private static double Luminance(string hex)
    {
        SKColor colour = SKColor.Parse(hex);
        double Linear(byte part) => part / 255.0 is var c && c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
        return (0.2126 * Linear(colour.Red)) + (0.7152 * Linear(colour.Green)) + (0.0722 * Linear(colour.Blue));
    }

    private static DayPlan Plan(int batches, int vessels = 2, double warmMin = 300, double strainMin = 30, string name = "spring") => DayPlan.Of(new DayQuestion
    {
        Batches = [.. Enumerable.Range(1, batches).Select(i => new PlannedBatch
        {
            Name = FormattableString.Invariant($"{name} {i}"),
            Honey = "spring",
            Steps = new PlannedSteps { Warm = warmMin > 0 ? Min(warmMin) : null, Settle = i % 2 == 0 ? Min(90) : null, Strain = Min(strainMin), Stand = Min(60), Fill = Min(45) },
            Volume = Volume.FromLiters(20),
            Earliest = Duration.FromHours(-9),
        })],
        Places = [new WarmingPlace { Name = "cabinet", Vessels = vessels }],
        Strainers = [new PlannedStrainer("cone")],
        Tanks = [new BottlingTank { Name = "tank", Capacity = Volume.FromLiters(30) }],
        People = [new Worker { Name = "A", Hours = [.. Enumerable.Range(-1, 12).Select(day => new WorkSpan(Duration.FromHours((24 * day) + 8), Duration.FromHours((24 * day) + 17)))] }],
        Effort = new PlanEffort { Breadth = 1, Proof = 0 },
    });

    private static StepTimes Min(double minutes) => StepTimes.Exactly(Duration.FromMinutes(minutes));
}
