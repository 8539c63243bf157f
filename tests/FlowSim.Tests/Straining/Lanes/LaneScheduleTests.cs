using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining.Lanes;

/// <summary>What a lane does at set times.</summary>
public class LaneScheduleTests
{
    /// <summary>Gate moved at 0, 10 and 30 s; scrapes at 5 and 20 s.</summary>
    private static StrainingParameters Parameters(Length? byDepth) => new(Any(1) with
    {
        Control = GateControl.Follow(
            new OpeningStep(Duration.Zero, Percent(10)),
            new OpeningStep(Duration.FromSeconds(10), Percent(0)),
            new OpeningStep(Duration.FromSeconds(30), Percent(40))),
        Scraping = new Scraping { Times = [Duration.FromSeconds(5), Duration.FromSeconds(20)], AtPondDepth = byDepth, Recovery = 0.6, Pause = Duration.FromSeconds(45) },
    });

    private static LaneSchedule Schedule(Length? byDepth = null)
    {
        StrainingParameters parameters = Parameters(byDepth);
        var schedule = new LaneSchedule(parameters.Openings.Length);
        schedule.Take(parameters);
        Assert.Equal(parameters.OpeningGeometries[0], schedule.Gate);
        Assert.Equal(0.6, schedule.Recovery);
        return schedule;
    }

    [Fact]
    public void The_next_is_the_earliest_of_what_is_left()
    {
        LaneSchedule schedule = Schedule();
        Assert.Equal(5, schedule.Next);
        Assert.False(schedule.MoveGate(9.99));
        Assert.False(schedule.TakeScrape(4.99));
        Assert.True(schedule.TakeScrape(5));
        Assert.False(schedule.TakeScrape(5));
        Assert.Equal(1, schedule.NextScrape);
        Assert.Equal(10, schedule.Next);
        Assert.True(schedule.MoveGate(10));
        Assert.False(schedule.MoveGate(10));
        Assert.Equal(1, schedule.OpeningStep);
        Assert.True(schedule.Gate.IsShut);
        Assert.Equal(20, schedule.Next);
        Assert.True(schedule.TakeScrape(20));
        Assert.False(schedule.TakeScrape(1000));
        Assert.Equal(30, schedule.Next);
        Assert.False(schedule.IsOver);
        Assert.True(schedule.MoveGate(30));
        Assert.False(schedule.MoveGate(1000));
        Assert.False(schedule.Gate.IsShut);
        Assert.True(schedule.IsOver);
        Assert.Equal(double.PositiveInfinity, schedule.Next);
    }

    [Fact]
    public void What_was_missed_is_made_up_for_at_once()
    {
        LaneSchedule schedule = Schedule();
        Assert.True(schedule.TakeScrape(25));
        Assert.Equal(2, schedule.NextScrape);
        Assert.True(schedule.MoveGate(31));
        Assert.Equal(2, schedule.OpeningStep);
        Assert.True(schedule.IsOver);
    }

    [Fact]
    public void A_scrape_is_followed_by_a_pause_only_where_somebody_scrapes_by_depth()
    {
        LaneSchedule schedule = Schedule();
        schedule.NoteScrape(7);
        Assert.Equal(1, schedule.Scrapes);
        Assert.Equal(double.PositiveInfinity, schedule.LookAgainAtS);
        Assert.False(schedule.TakeEndOfPause(1000));

        schedule = Schedule(Length.FromMillimeters(20));
        schedule.MoveGate(40);
        schedule.TakeScrape(40);
        Assert.True(schedule.IsOver);
        schedule.NoteScrape(40);
        schedule.NoteScrape(41);
        Assert.Equal(2, schedule.Scrapes);
        Assert.Equal(86, schedule.LookAgainAtS); // 41 s and the pause of 45 s
        Assert.Equal(86, schedule.Next);
        Assert.False(schedule.TakeEndOfPause(85.9));
        Assert.True(schedule.TakeEndOfPause(86));
        Assert.False(schedule.TakeEndOfPause(86));
        Assert.True(schedule.IsOver);
    }

    [Fact]
    public void A_run_begins_anew()
    {
        StrainingParameters parameters = Parameters(Length.FromMillimeters(20));
        LaneSchedule schedule = Schedule(Length.FromMillimeters(20));
        schedule.MoveGate(40);
        schedule.TakeScrape(40);
        schedule.NoteScrape(40);
        schedule.Take(parameters);
        Assert.Equal((0, 0, 0), (schedule.OpeningStep, schedule.NextScrape, schedule.Scrapes));
        Assert.Equal(double.PositiveInfinity, schedule.LookAgainAtS);
    }
}
