using FlowSim.Calibration;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Calibration;

public class NotedStepsTests
{
    private static Duration S(double seconds) => Duration.FromSeconds(seconds);

    private static (double, double)[] Openings(StrainingSetup setup) =>
        [.. Assert.IsType<OpeningSchedule>(setup.Control).Steps.Select(step => (step.At.Seconds, step.Opening.Percent))];

    [Fact]
    public void Nothing_noted_leaves_the_plan_as_it_is()
    {
        StrainingSetup planned = SmallPail.Running();
        Assert.Same(planned, NotedSteps.ApplyTo(planned, []));
    }

    [Fact]
    public void Openings_take_the_place_of_the_control()
    {
        StrainingSetup planned = SmallPail.Running() with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(20) } };
        StrainingSetup run = NotedSteps.ApplyTo(planned, [new NotedStep(S(0), Percent(50)), new NotedStep(S(60), Percent(0))]);
        Assert.Equal([(0, 50), (60, 0)], Openings(run));
        Assert.Same(planned.Scraping, run.Scraping);
    }

    [Fact]
    public void Before_the_first_opening_noted_the_gate_is_as_planned()
    {
        NotedStep[] later = [new NotedStep(S(1), Percent(50))];
        StrainingSetup left = SmallPail.Running();
        Assert.Equal([(0, 30), (1, 50)], Openings(NotedSteps.ApplyTo(left, later)));
        StrainingSetup followed = left with { Control = GateControl.Follow(new OpeningStep(S(0), Percent(12)), new OpeningStep(S(9), Percent(80))) };
        Assert.Equal([(0, 12), (1, 50)], Openings(NotedSteps.ApplyTo(followed, later)));
        StrainingSetup ridden = left with { Control = GateControl.RideAt(Length.FromMillimeters(20), Percent(70)) };
        Assert.Equal([(0, 70), (1, 50)], Openings(NotedSteps.ApplyTo(ridden, later)));
    }

    [Fact]
    public void Scrapes_take_the_place_of_the_scraping_and_keep_how_well_it_is_done()
    {
        StrainingSetup planned = SmallPail.Running() with { Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(20), Recovery = 0.4 } };
        StrainingSetup run = NotedSteps.ApplyTo(planned, [NotedStep.Scrape(S(30)), NotedStep.Scrape(S(90))]);
        Assert.Equal([30, 90], run.Scraping.Times.Select(at => at.Seconds));
        Assert.Null(run.Scraping.AtPondDepth);
        Assert.Equal(0.4, run.Scraping.Recovery);
        Assert.Same(planned.Control, run.Control);
        Assert.Null(NotedStep.Scrape(S(30)).Opening);
    }

    [Fact]
    public void What_is_not_there_is_named()
    {
        Assert.Equal("planned", Assert.Throws<ArgumentNullException>(() => NotedSteps.ApplyTo(null!, [])).ParamName);
        Assert.Equal("steps", Assert.Throws<ArgumentNullException>(() => NotedSteps.ApplyTo(SmallPail.Running(), null!)).ParamName);
    }
}
