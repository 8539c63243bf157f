using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>What the search finds, and what it says of it.</summary>
public class PlanSearchTests
{
    private static readonly PlannedBatch[] s_honeys = [Vessel("one", stand: 5), Vessel("two", stand: 5) with { Honey = "heather" }];
    private static readonly DayQuestion s_two = Of(s_honeys) with { Cleaning = Cleans(5, 8) };

    private static PlanSearch Search(DayQuestion day, int breadth = 5, int proof = 100_000) => PlanSearch.Of(Problem(day), new PlanEffort { Breadth = breadth, Proof = proof }, CancellationToken.None);

    /// <summary>Small days of two and of three vessels.</summary>
    private static IEnumerable<(int Seed, DayQuestion Day)> Small(int count) => Enumerable.Range(0, count).Select(seed => (seed, RandomDays.Small(seed, 2 + (seed % 2))));

    private static (int Late, int Finish)? Found(PlanSearch search) => search.Best is { } best ? (best.Late, best.Finish) : null;

    /// <summary>A week in which little is looked at, so that its plan is there at once.</summary>
    private static DayQuestion Week(int seed) => RandomDays.Large(seed) with { Effort = new PlanEffort { Breadth = 2, Proof = 20 } };

    [Fact]
    public void One_vessel_is_done_when_all_its_work_is()
    {
        PlanSearch search = Search(Of(Vessel("one", stand: 5)) with { Cleaning = Cleans(5, 8) });
        Assert.Equal([Strain(0), CleanStrainer(), Fill(0), CleanTank()], search.Best!.Actions.Select(timed => timed.Action));
        Assert.Equal([(0, 10), (10, 15), (15, 35), (35, 43)], search.Best.Actions.Select(timed => (timed.Start, timed.End)));
        Assert.Equal((0, 43), (search.Best.Late, search.Best.Finish));
        Assert.Equal((0, 43), search.Bound);
        Assert.True(search.IsProven);
    }

    [Fact]
    public void What_reaches_the_bound_needs_no_proof()
    {
        Assert.True(Search(Of(Vessel("one")), breadth: 1, proof: 0).IsProven);
        Assert.True(Search(Of(Vessel("one")) with { People = [Person(0, 29)] }, breadth: 1, proof: 0).IsProven);
        Assert.Null(Search(Of(Vessel("one")) with { People = [Person(0, 29)] }, breadth: 1, proof: 0).Best);
    }

    [Fact]
    public void Two_honeys_in_one_tank_take_turns()
    {
        // Strained, cleaned, stood, filled, tank cleaned, and the same again: the strainer is cleaned while the bubbles rise.
        PlanSearch search = Search(s_two);
        Assert.Equal(2 * (10 + 5 + 20 + 8), search.Best!.Finish);
        Assert.Equal((0, 86), search.Bound);
        Assert.True(search.IsProven);
    }

    [Fact]
    public void The_least_late_comes_before_the_soonest_done()
    {
        // Alone the one that is due would be in time only if it went first, which leaves the other's standing unused.
        DayQuestion day = Of(Vessel("slow", stand: 60), Vessel("due", fill: 30) with { Due = Min(40) }) with { Tanks = Tanks(2) };
        PlanSearch due = Search(day), free = Search(day with { Batches = [day.Batches[0], Vessel("due", fill: 30)] });
        Assert.Equal((0, 130), (due.Best!.Late, due.Best.Finish));
        Assert.Equal(Strain(1).Item, due.Best.Actions[0].Action.Item);
        Assert.Equal((0, 90), (free.Best!.Late, free.Best.Finish));
    }

    [Fact]
    public void Without_a_proof_it_is_said_what_is_not_known()
    {
        // 21 min of work for two is 11 for each; but the third straining ends at 10 at the soonest, and its jars at 12.
        DayQuestion day = Of(Vessel("one", strain: 5, fill: 2), Vessel("two", strain: 5, fill: 2), Vessel("three", strain: 5, fill: 2)) with { People = People(2, 0, 20), Strainers = Strainers(3), Tanks = Tanks(3) };
        PlanSearch brief = Search(day, breadth: 1, proof: 0), whole = Search(day);
        Assert.False(brief.IsProven);
        Assert.Equal((0, 11), brief.Bound);
        Assert.True(whole.IsProven);
        Assert.Equal((0, 12), (whole.Best!.Late, whole.Best.Finish));
        Assert.Equal((0, 12), whole.Bound);
        Assert.True(brief.Best!.Finish >= 12);
    }

    [Fact]
    public void Where_there_is_no_plan_it_is_proven_or_not_known()
    {
        // The bound does not know that two honeys that stay need two tanks.
        DayQuestion day = Of(Vessel("one", fill: 0), Vessel("two", fill: 0));
        Assert.True(PlanBound.Of(State(day)).Finish < HourGrid.Never);
        PlanSearch search = Search(day);
        Assert.Null(search.Best);
        Assert.True(search.IsProven);
        PlanSearch none = Search(day, proof: 0);
        Assert.Null(none.Best);
        Assert.False(none.IsProven);
    }

    [Fact]
    public void It_ends_when_it_is_told()
    {
        using CancellationTokenSource stop = new();
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => PlanSearch.Of(Problem(s_two), Thorough, stop.Token));
    }

    [Theory]
    [InlineData(0, 99, true)]
    [InlineData(0, 100, true)]
    [InlineData(1, 99, true)]
    [InlineData(1, 100, false)]
    [InlineData(1, 101, false)]
    [InlineData(2, 50, false)]
    public void A_plan_is_worse_than_what_is_less_late_or_as_late_and_sooner_done(int late, int finish, bool better) =>
        Assert.Equal(better, new FoundPlan([], 1, 100).IsWorseThan((late, finish)));

    [Fact]
    public void Small_days_are_as_good_as_trying_everything_finds()
    {
        // Those of which everything is tried in some milliseconds.
        int[] two = [12, 14, 15, 21, 27, 28, 30, 31, 38, 39, 46], three = [1, 2, 5, 9, 18, 22, 29, 32, 35, 37, 39];
        foreach ((int seed, int vessels) in two.Select(seed => (seed, 2)).Concat(three.Select(seed => (seed, 3))))
        {
            DayQuestion day = RandomDays.Small(seed, vessels);
            PlanSearch search = Search(day);
            Assert.True(TriedDays.Best(day) == Found(search), $"seed {seed}: {Found(search)}");
            Assert.True(search.IsProven, $"seed {seed}");
            if (search.Best is not null)
                Assert.Equal(search.Bound, Found(search));
        }
    }

    /// <summary>Days of two vessels of which one partial plan at a time finds none, or not the best; everything is tried in some milliseconds.</summary>
    private static readonly int[] s_misled =
    [
        93, 114, 133, 149, 154, 233, 236, 321, 329, 383, 394, 435, 436, 456, 496, 502, 546, 553, 562, 569, 576, 605, 628, 637, 639, 684, 700, 711, 781, 838, 850, 854, 863, 874, 884, 894, 905, 926, 942,
        967, 981, 986,
    ];

    [Fact]
    public void One_by_one_or_ten_side_by_side_find_what_one_alone_misses() => FindsWhatOneAloneMisses(s_misled);

    [Fact]
    public void So_they_do_on_the_quickest_of_these_days() => FindsWhatOneAloneMisses(93, 233, 321, 329, 435, 496, 502, 569, 700, 863, 905, 942);

    private static void FindsWhatOneAloneMisses(params int[] seeds)
    {
        foreach (int seed in seeds)
        {
            DayQuestion day = RandomDays.Small(seed, 2);
            (int Late, int Finish)? tried = TriedDays.Best(day);
            PlanSearch search = Search(day, breadth: 1);
            Assert.True(search.IsProven && tried == Found(search), $"seed {seed}: {tried}, {Found(search)} one by one");
            Assert.True(tried == Found(Search(day, breadth: 10, proof: 0)), $"seed {seed}: {tried} side by side");
            Assert.NotEqual(tried, Found(Search(day, breadth: 1, proof: 0)));
        }
    }

    [Fact]
    public void Without_effort_enough_nothing_is_proven()
    {
        DayQuestion day = RandomDays.Small(321, 2);
        Assert.Null(Search(day, breadth: 1, proof: 1).Best);
        Assert.False(Search(day, breadth: 1, proof: 1).IsProven);
        Assert.False(Search(day, breadth: 1, proof: 2).IsProven);
        Assert.True(Search(day, breadth: 1).IsProven);
    }

    /// <summary>Eight unlike vessels, which a first plan is found for at once; to see all others would take hours.</summary>
    [Fact]
    public void A_proof_ends_when_it_is_told()
    {
        DayQuestion day = Of([.. Enumerable.Range(0, 8).Select(i => Vessel("v" + i, strain: 7 + (3 * i), fill: 50 - (5 * i), stand: 4 * i))]) with { People = People(2, 0, 1000), Strainers = Strainers(2), Tanks = Tanks(3), Cleaning = Cleans(5, 8) };
        PlanProblem problem = Problem(day);
        Assert.False(PlanSearch.Of(problem, new PlanEffort { Breadth = 1, Proof = 100 }, CancellationToken.None).IsProven);
        using CancellationTokenSource stop = new(TimeSpan.FromMilliseconds(200));
        Assert.Throws<OperationCanceledException>(() => PlanSearch.Of(problem, new PlanEffort { Breadth = 1, Proof = 100_000_000 }, stop.Token));
    }

    [Fact]
    public void Weeks_keep_every_rule()
    {
        for (int seed = 16; seed < 32; seed++)
            new DayPlanRules(DayPlan.Of(Week(seed)), $"seed {seed}").Check();
    }

    [Fact]
    public void One_by_one_alone_finds_the_same()
    {
        foreach ((int seed, DayQuestion day) in Small(30))
        {
            PlanSearch wide = Search(day, breadth: 200), narrow = Search(day, breadth: 1);
            Assert.True((wide.Best?.Late, wide.Best?.Finish) == (narrow.Best?.Late, narrow.Best?.Finish), $"seed {seed}");
        }
    }

    /// <summary>After each decision of a best plan the bound is no more than what the plan comes to.</summary>
    [Fact]
    public void The_bound_is_never_above_what_is_reached()
    {
        int seen = 0;
        foreach ((int seed, DayQuestion day) in Small(60))
        {
            if (Search(day).Best is not { } plan)
                continue;
            PlanState state = State(day);
            foreach (TimedAction timed in plan.Actions)
            {
                (int late, int finish) = PlanBound.Of(state);
                Assert.True(late <= plan.Late && finish <= plan.Finish, $"seed {seed}: {late}, {finish} above {plan.Late}, {plan.Finish}");
                state.Apply(timed);
                seen++;
            }

            Assert.True(state.IsDone, $"seed {seed}");
            Assert.Equal((plan.Late, plan.Finish), (state.Late, state.Finish));
            Assert.Equal((plan.Late, plan.Finish), PlanBound.Of(state));
        }

        Assert.True(seen > 100, $"{seen} decisions");
    }
}
