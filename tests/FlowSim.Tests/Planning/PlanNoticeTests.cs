using FlowSim.Planning;
using UnitsNet;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>What is told with a plan, and what is not: each notice at its limit.</summary>
public class PlanNoticeTests
{
    private static readonly DayPlan s_plain = new()
    {
        Question = Of(Vessel("one"), Vessel("two")),
        Entries = [],
        Ready = [],
        Finish = Min(200),
        FinishQuick = Min(150),
        FinishSlow = Min(300),
        NoSoonerThan = Min(200),
        IsProven = true,
        Conflicts = [],
        Notices = [],
        Cautions = [],
    };

    private static readonly BatchReady s_ready = new("one", Min(100), Min(90), Min(120), Min(120));

    private static string[] Codes(DayPlan plan, params string[] busy) => [.. PlanNotices.For(plan, busy).Select(notice => notice.Code)];

    private static Notice The(string code, DayPlan plan, params string[] busy) => PlanNotices.For(plan, busy).Single(notice => notice.Code == code);

    private static bool Says(Notice notice, string word) => notice.Seen.Split(' ').Contains(word);

    [Fact]
    public void A_plain_plan_needs_no_word() => Assert.Empty(Codes(s_plain));

    [Fact]
    public void Slow_steps_that_do_not_fit_are_told() => Assert.Equal(["slow-does-not-fit"], Codes(s_plain with { FinishSlow = null }));

    [Fact]
    public void In_time_but_late_if_slow_is_told_of_those_that_are()
    {
        string[] Late(params BatchReady[] ready) => Codes(s_plain with { Ready = ready });
        Assert.Empty(Late(s_ready));
        Assert.Equal(["late-if-slow"], Late(s_ready with { Slow = Min(120.1) }));
        Assert.Equal(["late-if-slow"], Late(s_ready with { Slow = null }));
        Assert.Equal(["late-if-slow"], Late(s_ready with { Slow = null, Due = Min(100) }));
        Assert.Empty(Late(s_ready with { Slow = null, Due = Min(99) }));
        Assert.Empty(Late(s_ready with { Slow = null, Due = null }));
        Notice told = The("late-if-slow", s_plain with { Ready = [s_ready, s_ready with { Batch = "two", Slow = null }, s_ready with { Batch = "three", Slow = Min(121) }] });
        Assert.DoesNotContain("one", told.Seen, StringComparison.Ordinal);
        Assert.Contains("\"two\"", told.Seen, StringComparison.Ordinal);
        Assert.Contains("\"three\"", told.Seen, StringComparison.Ordinal);
    }

    [Fact]
    public void Nobody_with_a_free_hand_is_told_by_name()
    {
        Assert.Equal(["no-free-hand"], Codes(s_plain, "one"));
        Assert.False(Says(The("no-free-hand", s_plain, "one"), "are"));
        Assert.True(Says(The("no-free-hand", s_plain, "one", "two"), "are"));
    }

    [Fact]
    public void What_is_not_proven_is_told_with_what_may_be_gained()
    {
        DayPlan open = s_plain with { IsProven = false, NoSoonerThan = Min(115) };
        Assert.Equal(["not-proven"], Codes(open));
        Assert.Contains("1 h 25 min", The("not-proven", open).Seen, StringComparison.Ordinal);
        Assert.Empty(Codes(open with { IsProven = true }));
        Assert.Empty(Codes(open with { NoSoonerThan = null }));
        Assert.Empty(Codes(open with { Finish = null }));
    }

    [Fact]
    public void What_stays_in_a_tank_is_told_if_it_is_planned()
    {
        DayPlan stays = s_plain with { Question = Of(Vessel("one", fill: 0), Vessel("two"), Vessel("three", fill: 0)), Ready = [s_ready with { Due = null }, s_ready with { Due = null, Batch = "two" }] };
        Assert.Equal(["stays-in-tank"], Codes(stays));
        Notice told = The("stays-in-tank", stays);
        Assert.Contains("\"one\"", told.Seen, StringComparison.Ordinal);
        Assert.DoesNotContain("\"two\"", told.Seen, StringComparison.Ordinal);
        Assert.DoesNotContain("\"three\"", told.Seen, StringComparison.Ordinal);
        Assert.True(Says(told, "is"));
        Assert.True(Says(The("stays-in-tank", stays with { Ready = [stays.Ready[0], stays.Ready[0] with { Batch = "three" }] }), "are"));
        Assert.Empty(Codes(stays with { Ready = [stays.Ready[1]] }));
    }

    [Fact]
    public void Cautions_go_with_heat_and_weight()
    {
        string[] Cautions(params PlannedBatch[] batches) => [.. PlanNotices.CautionsFor(Problem(Of(batches))).Select(caution => caution.Code)];
        Assert.Equal(["open-gate", "slip", "infants", "local-rules"], Cautions(Vessel("one")));
        Assert.Equal(["open-gate", "unattended-heat", "slip", "infants", "local-rules"], Cautions(Vessel("one"), Vessel("two", warm: 5)));
        Assert.Equal(["open-gate", "lift", "slip", "infants", "local-rules"], Cautions(Vessel("one") with { Mass = Mass.FromKilograms(23.1) }, Vessel("two") with { Mass = Mass.FromKilograms(5) }));
        Assert.DoesNotContain("lift", Cautions(Vessel("one") with { Mass = Mass.FromKilograms(23) }, Vessel("two")));
        Assert.Contains(PlanNotices.CautionsFor(Problem(Of(Vessel("one") with { Mass = Mass.FromKilograms(24) }, Vessel("two") with { Mass = Mass.FromKilograms(31.4) }))), caution => caution.Text.Contains("31.4 kg", StringComparison.Ordinal));
    }
}
