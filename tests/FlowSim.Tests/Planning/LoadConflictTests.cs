using FlowSim.Planning;
using UnitsNet;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>Why a load cannot be done, at the limit and just beyond.</summary>
public class LoadConflictTests
{
    private static readonly PlannedBatch s_half = Vessel("one") with { Joined = "x" }, s_otherHalf = Vessel("two") with { Joined = "x" };

    private static PlanConflict? Conflict(DayQuestion day, int load = 0)
    {
        PlanProblem problem = Problem(day);
        return LoadConflicts.Of(problem, problem.Loads[load], CancellationToken.None);
    }

    private static string? Code(DayQuestion day, int load = 0) => Conflict(day, load)?.Code;

    [Fact]
    public void What_can_be_done_alone_has_none()
    {
        Assert.Null(Conflict(Of(Vessel("one"))));
        Assert.Null(Conflict(Of(Vessel("one"), Vessel("two")), load: 1));
        Assert.Equal("hours-too-short", Code(Of(Vessel("one", settle: 999), Vessel("two"))));
        Assert.Null(Conflict(Of(Vessel("one", settle: 999), Vessel("two")), load: 1));
    }

    [Fact]
    public void Somebody_must_be_there_while_the_house_is_open()
    {
        Assert.Equal("nobody-there", Code(Of(Vessel("one")) with { Open = Spans(1000, 1100) }));
        Assert.NotEqual("nobody-there", Code(Of(Vessel("one")) with { Open = Spans(999, 1100) }));
        Assert.Null(Code(Of(Vessel("one")) with { People = [Person(2000, 2010), Person(0, 1000) with { Name = "B" }], Open = Spans(0, 1000) }));
    }

    [Fact]
    public void Some_tank_must_hold_it()
    {
        DayQuestion day = Of(s_half, s_otherHalf) with { Tanks = [new BottlingTank { Name = "small", Capacity = Volume.FromLiters(15) }, new BottlingTank { Name = "large", Capacity = Volume.FromLiters(45), KeptFree = Volume.FromLiters(5.5) }] };
        PlanConflict conflict = Conflict(day)!;
        Assert.Equal("tank-too-small", conflict.Code);
        Assert.Equal(["one", "two"], conflict.Batches);
        Assert.Contains("40 L", conflict.Why, StringComparison.Ordinal);
        Assert.Contains("39.5 L", conflict.Why, StringComparison.Ordinal);
        Assert.Contains("Join", conflict.Helps, StringComparison.Ordinal);
        Assert.DoesNotContain("Join", Conflict(day with { Batches = [Vessel("one") with { Volume = Volume.FromLiters(40) }] })!.Helps, StringComparison.Ordinal);
        Assert.Null(Conflict(day with { Tanks = [day.Tanks[0], day.Tanks[1] with { KeptFree = Volume.FromLiters(5) }] }));
    }

    [Fact]
    public void What_is_to_be_warmed_needs_a_place()
    {
        Assert.Equal("no-warming-place", Code(Of(Vessel("one", warm: 5)) with { Places = [] }));
        Assert.Equal("no-warming-place", Code(Of(s_half, Vessel("two", warm: 5) with { Joined = "x" }) with { Places = [] }));
        Assert.Null(Code(Of(Vessel("one"), Vessel("two", warm: 5)) with { Places = [] }));
        Assert.Null(Code(Of(Vessel("one", warm: 5))));
    }

    [Fact]
    public void A_straining_must_fit_somebody_s_longest_hours()
    {
        DayQuestion day = Of(Vessel("one", strain: 51)) with { People = [Person(0, 50, 60, 100), Person(200, 240) with { Name = "B" }] };
        PlanConflict conflict = Conflict(day)!;
        Assert.Equal("straining-too-long", conflict.Code);
        Assert.Contains("51 min", conflict.Why, StringComparison.Ordinal);
        Assert.Contains("50 min", conflict.Why, StringComparison.Ordinal);
        Assert.Null(Code(day with { Batches = [Vessel("one", strain: 50)] }));
        Assert.Equal("straining-too-long", Code(day with { Batches = [s_half, Vessel("two", strain: 51) with { Joined = "x" }] }));
        Assert.Null(Code(day with { Batches = [Vessel("one"), Vessel("two", strain: 51)] }));
    }

    [Fact]
    public void So_must_the_cleaning_at_the_end()
    {
        DayQuestion day = Of(Vessel("one")) with { People = [Person(0, 50, 60, 110, 120, 170)] };
        Assert.Null(Code(day with { Cleaning = Cleans(50, 50) }));
        Assert.Equal("cleaning-too-long", Code(day with { Cleaning = Cleans(51, 5) }));
        Assert.Equal("cleaning-too-long", Code(day with { Cleaning = Cleans(5, 51) }));
        Assert.Contains("51 min", Conflict(day with { Cleaning = Cleans(5, 51) })!.Why, StringComparison.Ordinal);
        Assert.Null(Code(day with { Cleaning = Cleans(51, 51, atTheEnd: false) }));
    }

    [Fact]
    public void All_of_it_must_fit_the_hours()
    {
        Assert.Null(Code(Of(Vessel("one", settle: 970))));
        Assert.Equal("hours-too-short", Code(Of(Vessel("one", settle: 971))));
        Assert.Null(Code(Of(Vessel("one", settle: 965)) with { Cleaning = Cleans(2, 3) }));
        Assert.Equal("hours-too-short", Code(Of(Vessel("one", settle: 966)) with { Cleaning = Cleans(2, 3) }));
        PlannedBatch slow = Vessel("one") with { Steps = new PlannedSteps { Settle = new(Min(1), Min(2), Min(971)), Strain = InventedDay.Min(10), Fill = InventedDay.Min(20) } };
        Assert.Null(Code(Of(slow)));
        Assert.Equal("hours-too-short", Code(Of(slow) with { Pace = Pace.Slow }));
    }

    [Theory]
    [InlineData(50, null)]
    [InlineData(49, "hold-too-short")]
    public void Where_a_longer_hold_would_do_it_is_named(int hold, string? code)
    {
        // Put there as people leave at 100 it is warm at 200, and nobody comes before 250; put there then it would be too late.
        DayQuestion day = Of(Vessel("one", warm: 100, strain: 5, fill: 15) with { Earliest = Min(50), LongestHold = Min(hold) }) with { People = [Person(0, 100, 250, 275)] };
        Assert.Equal(code, Code(day));
    }

    [Fact]
    public void A_load_for_want_of_time_is_told_with_all_work_and_all_hours()
    {
        PlanProblem problem = Problem(Of(s_half, s_otherHalf, Vessel("three", strain: 60, fill: 61)) with { People = [Person(0, 100, 200, 230), Person(0, 50) with { Name = "B" }] });
        PlanConflict known = LoadConflicts.TooMuch(problem, problem.Loads[0], 1, known: true), unknown = LoadConflicts.TooMuch(problem, problem.Loads[1], 2, known: false);
        Assert.Equal("too-much", known.Code);
        Assert.Equal(["one", "two"], known.Batches);
        Assert.Contains("3 h 01 min", known.Why, StringComparison.Ordinal); // 10 + 10 + 60 strained, 20 + 20 + 61 filled.
        Assert.Contains("3 h of", known.Why, StringComparison.Ordinal); // 130 + 50.
        Assert.Contains("1 other load remains", known.Why, StringComparison.Ordinal);
        Assert.Contains("2 other loads remain", unknown.Why, StringComparison.Ordinal);
        Assert.NotEqual(known.Why.Split('(')[0], unknown.Why.Split('(')[0]);
        Assert.Contains("are", known.What.Split(' '));
        Assert.Contains("is", unknown.What.Split(' '));
    }

    [Fact]
    public void How_late_a_load_is_told_in_minutes()
    {
        PlanProblem problem = Problem(Of(s_half with { Due = Min(100) }, s_otherHalf, Vessel("three") with { Due = Min(30) }));
        PlanConflict pair = LoadConflicts.Late(problem.Loads[0], 190), alone = LoadConflicts.Late(problem.Loads[1], 31);
        Assert.Equal("late", pair.Code);
        Assert.Equal(["one", "two"], pair.Batches);
        Assert.Contains("1 h 30 min", pair.What, StringComparison.Ordinal);
        Assert.Contains(" 1 min", alone.What, StringComparison.Ordinal);
        Assert.Contains("are", pair.What.Split(' '));
        Assert.Contains("is", alone.What.Split(' '));
    }

    [Theory]
    [InlineData(0, "0 min")]
    [InlineData(59, "59 min")]
    [InlineData(60, "1 h")]
    [InlineData(61, "1 h 01 min")]
    [InlineData(120, "2 h")]
    [InlineData(605, "10 h 05 min")]
    public void Minutes_are_told_in_hours_from_sixty_on(int minutes, string text) => Assert.Equal(text, LoadConflicts.Text(minutes));
}
