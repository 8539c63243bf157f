using FlowSim.Attending;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.Attending.SmallRun;

namespace FlowSim.Tests.Attending;

/// <summary>The setups that a run that goes on is followed with, from what was planned and what was noted.</summary>
public class RunPlansTests
{
    private static readonly OpeningStep[] s_opens = [Opens(0, 10), Opens(50, 20), Opens(100, 30)];

    private static OpeningStep Opens(double s, double percent) => new(S(s), Ratio.FromPercent(percent));

    private static AttendedRun Run(GateControl? control = null, Scraping? scraping = null) => AttendedRuns.Of(Pail with { Control = control ?? Pail.Control, Scraping = scraping ?? Scraping.Never });

    private static Scraping At(params double[] seconds) => new() { Times = [.. seconds.Select(S)], Recovery = 0.5 };

    private static double[] Scrapes(StrainingSetup setup) => [.. setup.Scraping.Times.Select(at => at.Seconds)];

    private static OpeningStep[] Moves(StrainingSetup setup) => [.. Assert.IsType<OpeningSchedule>(setup.Control).Steps];

    [Fact]
    public void As_noted_there_are_the_scrapes_that_were_noted_and_no_others()
    {
        AttendedRun run = Run(scraping: At(40, 80));
        Assert.Empty(Scrapes(RunPlans.AsNoted(run)));
        Assert.Equal([33], Scrapes(RunPlans.AsNoted(run with { Steps = [Gate(30, 20), Scraped(33)] })));
        Assert.Equal(0.5, RunPlans.AsNoted(run).Scraping.Recovery);
        Assert.Null(RunPlans.AsNoted(Run(scraping: new Scraping { AtPondDepth = Length.FromMillimeters(20) })).Scraping.AtPondDepth);
        Assert.Equal(Pail.Control, RunPlans.AsNoted(run).Control);
        Assert.Equal([Opens(0, 30), Opens(30, 20)], Moves(RunPlans.AsNoted(run with { Steps = [Gate(30, 20)] })));
    }

    [Fact]
    public void Left_alone_the_gate_stays_where_it_is()
    {
        Assert.Equal(Pail.Control, RunPlans.Left(Run()).Control);
        Assert.Equal(GateControl.LeaveAt(Ratio.FromPercent(60)), RunPlans.Left(Run(GateControl.RideAt(Length.FromMillimeters(20), Ratio.FromPercent(60)))).Control);
        AttendedRun follows = Run(GateControl.Follow(s_opens), At(70));
        Assert.Equal(s_opens[..1], Moves(RunPlans.Left(follows)));
        Assert.Equal(s_opens[..1], Moves(RunPlans.Left(follows with { Steps = [Scraped(49)] })));
        Assert.Equal(s_opens[..2], Moves(RunPlans.Left(follows with { Steps = [Scraped(50)] })));
        Assert.Equal(s_opens, Moves(RunPlans.Left(follows with { Steps = [Scraped(101)] })));
        Assert.Empty(Scrapes(RunPlans.Left(follows)));
        Assert.Equal([50], Scrapes(RunPlans.Left(follows with { Steps = [Scraped(50)] })));
    }

    [Fact]
    public void As_planned_the_scrapes_that_are_still_to_be_done_come_after_the_last_entry()
    {
        AttendedRun run = Run(scraping: At(40, 80, 120));
        Assert.Equal([40, 80, 120], Scrapes(RunPlans.Planned(run)));
        Assert.Equal([47, 80, 120], Scrapes(RunPlans.Planned(run with { Steps = [Scraped(47)] })));
        Assert.Equal([31, 85, 120], Scrapes(RunPlans.Planned(run with { Steps = [Scraped(31), Gate(84, 20)] })));
        Assert.Equal([131, 132, 133], Scrapes(RunPlans.Planned(run with { Steps = [Gate(130, 20)] })));
        Assert.Equal([80.5, 81.5, 120], Scrapes(RunPlans.Planned(run with { Steps = [Scraped(80.5)] })));
        Assert.Equal([40, 41, 42], Scrapes(RunPlans.Planned(Run(scraping: At(40, 40.5, 42)))));
        Assert.Equal([1, 2, 3, 4], Scrapes(RunPlans.Planned(run with { Steps = [Scraped(1), Scraped(2), Scraped(3), Scraped(4)] })));
        Assert.Equal(0.5, RunPlans.Planned(run).Scraping.Recovery);
    }

    [Fact]
    public void Scrapes_by_depth_stay_by_depth()
    {
        AttendedRun run = Run(scraping: new Scraping { AtPondDepth = Length.FromMillimeters(20) }) with { Steps = [Scraped(10)] };
        Assert.Same(run.Setup.Scraping, RunPlans.Planned(run).Scraping);
        Assert.Equal([10], Scrapes(RunPlans.Left(run)));
        Assert.Null(RunPlans.Left(run).Scraping.AtPondDepth);
    }

    [Fact]
    public void One_step_more_is_a_scrape_or_a_move_after_the_last_entry()
    {
        AttendedRun run = Run() with { Steps = [Scraped(20)] };
        Assert.Equal([20, 60], Scrapes(RunPlans.LeftAfter(run, S(60), opening: null)));
        Assert.Equal([20, 21], Scrapes(RunPlans.LeftAfter(run, S(20), opening: null)));
        Assert.Equal([20, 21], Scrapes(RunPlans.LeftAfter(run, S(3), opening: null)));
        Assert.Equal([20, 21.5], Scrapes(RunPlans.LeftAfter(run, S(21.5), opening: null)));
        Assert.Equal(Pail.Control, RunPlans.LeftAfter(run, S(60), opening: null).Control);

        StrainingSetup moved = RunPlans.LeftAfter(run, S(60), Ratio.FromPercent(5));
        Assert.Equal([Opens(0, 30), Opens(60, 5)], Moves(moved));
        Assert.Equal([20], Scrapes(moved));
        Assert.Equal([Opens(0, 10), Opens(21, 5)], Moves(RunPlans.LeftAfter(Run(GateControl.Follow(s_opens)) with { Steps = [Scraped(20)] }, S(3), Ratio.FromPercent(5))));
        Assert.Equal([Opens(0, 10), Opens(50, 20), Opens(99, 0)], Moves(RunPlans.LeftAfter(Run(GateControl.Follow(s_opens)) with { Steps = [Scraped(60)] }, S(99), Ratio.FromPercent(0))));
    }

    [Fact]
    public void Of_the_planned_scrapes_as_many_are_done_as_were_noted()
    {
        AttendedRun run = Run(scraping: At(40, 80, 120));
        Assert.Equal([S(40), S(80), S(120)], RunPlans.ScrapesToCome(run));
        Assert.Equal([S(80), S(120)], RunPlans.ScrapesToCome(run with { Steps = [Gate(1, 20), Scraped(99), Gate(100, 10)] }));
        Assert.Empty(RunPlans.ScrapesToCome(run with { Steps = [Scraped(1), Scraped(2), Scraped(3), Scraped(4)] }));
    }

    [Fact]
    public void The_opening_now_is_the_last_one_set()
    {
        Assert.Equal(0.3, RunPlans.OpeningNow(Run()), 1e-12);
        Assert.Equal(0.1, RunPlans.OpeningNow(Run(GateControl.Follow(s_opens))), 1e-12);
        Assert.Equal(0.2, RunPlans.OpeningNow(Run(GateControl.Follow(s_opens)) with { Steps = [Scraped(50)] }), 1e-12);
        Assert.Equal(0.07, RunPlans.OpeningNow(Run() with { Steps = [Gate(10, 50), Gate(20, 7)] }), 1e-12);
        Assert.Equal(0.6, RunPlans.OpeningNow(Run(GateControl.RideAt(Length.FromMillimeters(20), Ratio.FromPercent(60)))), 1e-12);
    }
}
