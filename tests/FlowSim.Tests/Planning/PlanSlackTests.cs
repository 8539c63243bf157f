using FlowSim.Planning;
using static FlowSim.Tests.Planning.MinuteDay;

namespace FlowSim.Tests.Planning;

/// <summary>How much later something may end, by hand, on plans of two or three decisions.</summary>
public class PlanSlackTests
{
    private static readonly DayQuestion s_day = Of(Vessel("one", warm: 5) with { Setting = "35 °C" }, Vessel("two", warm: 5, stand: 7) with { Setting = "45 °C" }, Vessel("three", warm: 5)) with
    {
        People = People(2, 0, 100, 200, 300),
        Strainers = Strainers(2),
        Tanks = Tanks(2),
        Places = [.. Place(2), new WarmingPlace { Name = "jacket", DrainedInPlace = true }, new WarmingPlace { Name = "bath" }],
    };

    private static PlanSlack Slack(int[] warmFrom, params (int Start, int End, PlanAction Action)[] actions) =>
        new(Problem(s_day), Plan(actions).Actions, warmFrom);

    private static int First(params (int Start, int End, PlanAction Action)[] actions) => Slack([0, 0, 0], actions).Of(0);

    private static int Put(int warmFrom, PlanAction first, PlanAction second) =>
        Slack([warmFrom, warmFrom, warmFrom], (10, 20, first), (60, 70, second with { Person = 1, Strainer = 1, Tank = 1 })).Of(0);

    [Fact]
    public void What_nothing_follows_has_the_hours()
    {
        Assert.Equal(80, First((10, 20, Strain(0))));
        Assert.Equal(0, First((10, 100, Strain(0))));
        Assert.Equal(55, First((90, 245, Fill(0))));
        Assert.Equal(80, First((10, 20, Strain(0)), (40, 50, Strain(1, person: 1, strainer: 1, tank: 1))));
        Assert.Equal(0, Slack([0, 0, 0], (0, 10, Strain(0)), (10, 100, Fill(0))).Of(1));
        Assert.Equal(30, Slack([0, 0, 0], (0, 10, Strain(0)), (10, 70, Fill(0))).Of(1));
    }

    [Fact]
    public void The_same_person_strainer_or_tank_comes_next()
    {
        Assert.Equal(20, First((10, 20, Strain(0)), (40, 50, Strain(1, strainer: 1, tank: 1))));
        Assert.Equal(21, First((10, 20, Strain(0)), (41, 50, Strain(1, person: 1, tank: 1))));
        Assert.Equal(22, First((10, 20, Strain(0)), (42, 50, Strain(1, person: 1, strainer: 1))));
        Assert.Equal(23, First((10, 20, Strain(0)), (43, 50, CleanStrainer(person: 1))));
        Assert.Equal(80, First((10, 20, Strain(0)), (43, 50, CleanStrainer(strainer: 1, person: 1))));
        Assert.Equal(24, First((10, 20, Fill(0)), (44, 50, CleanTank(person: 1))));
        Assert.Equal(80, First((10, 20, Fill(0)), (44, 50, CleanTank(tank: 1, person: 1))));
        Assert.Equal(25, First((10, 20, CleanTank()), (45, 50, Strain(0, person: 1))));
        Assert.Equal(26, First((10, 20, CleanStrainer()), (46, 50, Strain(0, person: 1))));
        Assert.Equal(80, First((10, 20, CleanTank(1)), (46, 50, CleanStrainer(1, person: 1))));
        Assert.Equal(80, First((10, 20, Fill(0)), (46, 50, Fill(1, person: 1, tank: 1))));
        Assert.Equal(80, First((10, 20, CleanStrainer(1)), (46, 50, Fill(0, person: 1, tank: 1))));
    }

    [Fact]
    public void The_nearest_of_several_counts_and_never_less_than_nothing()
    {
        (int, int, PlanAction) mine = (10, 20, Strain(0)), near = (30, 35, Strain(1, strainer: 1, tank: 1)), far = (50, 60, CleanStrainer(person: 1));
        Assert.Equal(10, First(mine, near, far));
        Assert.Equal(10, First(mine, far, near));
        Assert.Equal(0, First(mine, (15, 35, Strain(1, strainer: 1, tank: 1))));
        Assert.Equal(0, First(mine, (20, 35, Strain(1, strainer: 1, tank: 1))));
    }

    [Fact]
    public void Jars_wait_for_the_bubbles()
    {
        Assert.Equal(13, First((10, 20, Strain(1)), (40, 60, Fill(1, person: 1))));
        Assert.Equal(20, First((10, 20, Strain(1)), (40, 60, CleanTank(person: 1))));
        Assert.Equal(13, First((10, 20, Strain(1)), (40, 60, Fill(1))));
        Assert.Equal(20, First((10, 20, Fill(1)), (40, 60, Fill(1, person: 1))));
    }

    [Fact]
    public void How_long_a_load_may_stand()
    {
        PlanSlack slack = Slack([0, 0, 0], (10, 20, Strain(1)), (40, 60, Fill(1)), (60, 70, CleanTank(0)), (70, 90, Fill(0)));
        Assert.Equal(13, slack.OfStanding(1, 27));
        Assert.Equal(20, slack.OfStanding(0, 50));
        Assert.Null(slack.OfStanding(2, 27));
        Assert.Null(Slack([0, 0, 0], (10, 20, CleanTank(1))).OfStanding(1, 27));
    }

    [Fact]
    public void A_vessel_leaves_its_spot_before_the_next_is_put_there()
    {
        Assert.Equal(35, Put(45, Strain(2, spot: 0), Strain(0, spot: 0)));
        Assert.Equal(35, Put(45, Strain(0, spot: 0), Strain(2, spot: 0)));
        Assert.Equal(80, Put(45, Strain(0, spot: 0), Strain(2, spot: 1)));
        Assert.Equal(35, Put(45, Strain(0, spot: 0), Strain(1, spot: 1)));
        Assert.Equal(35, Put(45, Strain(1, spot: 0), Strain(0, spot: 1)));
        Assert.Equal(80, Put(45, Strain(0, spot: 0), Strain(1, spot: 3)));
        Assert.Equal(80, Put(45, Strain(2, spot: 0), Strain(0, spot: 1)));
        Assert.Equal(80, Put(45, Strain(0), Strain(1, spot: 0)));
        Assert.Equal(80, Put(45, Strain(0, spot: 0), Strain(1)));

        // Drained in place it leaves when it is empty.
        Assert.Equal(25, Put(45, Strain(0, spot: 2), Strain(2, spot: 2)));
        Assert.Equal(80, Put(45, Strain(0, spot: 2), Strain(2, spot: 3)));
    }

    [Fact]
    public void Vessels_of_one_setting_stand_side_by_side()
    {
        DayQuestion alike = s_day with { Batches = [s_day.Batches[0], s_day.Batches[1] with { Setting = "35 °C" }] };
        PlanSlack slack = new(Problem(alike), [new TimedAction(Strain(0, spot: 0), 10, 20, 5), new TimedAction(Strain(1, spot: 1, person: 1, strainer: 1, tank: 1), 60, 70, 45)], [5, 45]);
        Assert.Equal(80, slack.Of(0));
    }

    [Fact]
    public void The_next_vessel_is_looked_up_by_its_number_in_the_question()
    {
        PlanProblem some = new(s_day, Pace.Likely, [1, 2]);
        PlanSlack slack = new(some, [new TimedAction(Strain(0, spot: 0), 10, 20, 5), new TimedAction(Strain(1, spot: 0, person: 1, strainer: 1, tank: 1), 60, 70, 45)], [0, 1, 45]);
        Assert.Equal(35, slack.Of(0));
    }
}
