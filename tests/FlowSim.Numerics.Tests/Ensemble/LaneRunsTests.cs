using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>How runs come into lanes and leave them, when one is given up, and what the constructor refuses.</summary>
public class LaneRunsTests
{
    [Fact]
    public void All_lanes_are_filled_and_what_is_left_takes_those_that_are_free()
    {
        RunScript[] scripts = [.. Enumerable.Range(0, 11).Select(i => Steady(1 + i))];
        RunLog[] logs = ScriptedLanes<Lanes8>.Run(1e-6, LaneMethod.Rodas5P, 1000, scripts).Logs;
        Assert.Equal(Enumerable.Range(0, 8), logs.Take(8).Select(log => log.Lane));
        Assert.All(scripts.Zip(logs), pair => Assert.Equal((LaneEnding.ReachedEnd, pair.First.End), (pair.Second.Ending!.Value, pair.Second.Time)));
    }

    [Fact]
    public void No_runs_need_no_step()
    {
        var system = new ScriptedLanes<Lanes4>();
        var integrator = new EnsembleIntegrator<ScriptedLanes<Lanes4>, Lanes4>(system, 1e-6, 1e-8);
        integrator.Run(CancellationToken.None);
        Assert.Equal((0, 0), (integrator.Steps, integrator.RejectedSteps));
    }

    [Fact]
    public void Runs_that_end_at_once_are_handed_back_and_their_lanes_filled_again()
    {
        RunScript[] scripts = [.. Enumerable.Range(0, 9).Select(i => Steady(1) with { EndsAtOnce = i is 0 or 2 or 3 or 7 })];
        RunLog[] logs = ScriptedLanes<Lanes2>.Run(1e-6, LaneMethod.Rodas5P, 1000, scripts).Logs;
        for (int i = 0; i < scripts.Length; i++)
        {
            Assert.Equal(scripts[i].EndsAtOnce ? (LaneEnding.Stopped, 0, 0.0) : (LaneEnding.ReachedEnd, 1, 1.0), (logs[i].Ending!.Value, logs[i].Tries.Count, logs[i].Time));
            Assert.Equal(scripts[i].EndsAtOnce ? 2 : 3, logs[i].State[0], 1e-12);
        }
    }

    /// <summary>
    /// A run of N tries. The one more than the most that may be taken is the last that is taken: if it reaches the end, the run has reached it. Whether given up
    /// or not, the lane serves the next run.
    /// </summary>
    [Theory]
    [InlineData(0, LaneEnding.ReachedEnd)]
    [InlineData(1, LaneEnding.ReachedEnd)]
    [InlineData(2, LaneEnding.GaveUp)]
    public void The_most_steps(int fewer, LaneEnding ending)
    {
        RunScript script = Oscillation();
        int tries = ScriptedLanes<Lanes2>.Run(1e-6, LaneMethod.Rodas5P, 1000, script).Logs[0].Tries.Count;
        Assert.True(tries > 10);
        RunLog[] logs = ScriptedLanes<Lanes2>.Run(1e-6, LaneMethod.Rodas5P, tries - fewer, script, script, script, script, script).Logs;
        Assert.All(logs, log => Assert.Equal((ending, fewer < 2 ? tries : tries - fewer + 1), (log.Ending!.Value, log.Tries.Count)));
    }

    /// <summary>The same where the last step ends at an event that ends the run.</summary>
    [Theory]
    [InlineData(1, LaneEnding.Stopped)]
    [InlineData(2, LaneEnding.GaveUp)]
    public void The_most_steps_before_an_event(int fewer, LaneEnding ending)
    {
        RunScript script = Oscillation() with
        {
            EventCount = 1,
            Events = (t, _, values) => values[0] = t - 15.3,
            OnEvent = (_, _, _) => EventResponse.Stop,
        };
        int tries = ScriptedLanes<Lanes2>.Run(1e-6, LaneMethod.Rodas5P, 1000, script).Logs[0].Tries.Count;
        RunLog[] logs = ScriptedLanes<Lanes2>.Run(1e-6, LaneMethod.Rodas5P, tries - fewer, script, script, script).Logs;
        Assert.All(logs, log => Assert.Equal(ending, log.Ending));
    }

    /// <summary>Steps are shortened to a quarter until they no longer count beside the time, some two dozen times at t = 0.3 and between what few are still taken, not to the most steps.</summary>
    [Fact]
    public void Where_rates_end_a_run_is_given_up()
    {
        RunScript wall = Steady(1) with { Rates = (t, _, derivative) => derivative[0] = t < 0.3 ? 1 : double.NaN };
        (RunLog[] logs, long steps, long rejected) = ScriptedLanes<Lanes4>.Run(1e-6, LaneMethod.Rodas5P, 100_000, wall, Steady(2), wall, wall, wall);
        Assert.Equal([LaneEnding.GaveUp, LaneEnding.ReachedEnd, LaneEnding.GaveUp, LaneEnding.GaveUp, LaneEnding.GaveUp], logs.Select(log => log.Ending!.Value));
        foreach (RunLog log in logs.Where(log => log.Ending == LaneEnding.GaveUp))
        {
            Assert.Equal(0.3, log.Time, 1e-12);
            LaneTry last = log.Tries[^1];
            Assert.False(last.Accepted);
            Assert.InRange(last.End - log.Time, 0.3 * 0.9e-14, 0.3 * 4.1e-14);
            Assert.InRange(log.Tries.Count(made => !made.Accepted), 20, 90);
        }

        Assert.Equal(logs.Sum(log => log.Tries.Count(made => made.Accepted)), steps);
        Assert.Equal(logs.Sum(log => log.Tries.Count), steps + rejected);
    }

    /// <summary>At the start there is no time to compare a step with; a run that needs steps of 1e-30 of its end is not given up if they are taken.</summary>
    [Fact]
    public void A_first_step_may_be_as_short_as_it_must()
    {
        const double Rate = 1e30;
        RunScript fast = new([1], 1)
        {
            Rates = (_, y, derivative) => derivative[0] = -Rate * (y[0] - 0.5),
            Slopes = (_, _, jacobian, timeDerivative) => (jacobian[0], timeDerivative[0]) = (-Rate, 0),
        };
        RunLog log = ScriptedLanes<Lanes2>.Run(1e-6, LaneMethod.Rodas5P, 1000, fast).Logs[0];
        Assert.InRange(log.Tries[0].End, 0, 1e-27);
        Assert.Equal((LaneEnding.ReachedEnd, 1.0), (log.Ending!.Value, log.Time));
        Assert.Equal(0.5, log.State[0], 1e-6);
    }

    /// <summary>What is said of the cost: seven evaluations of the linearly implicit method, the eighth at the end of the step being also the first of the next, and five of the explicit one.</summary>
    [Theory]
    [InlineData(LaneMethod.Rodas5P, 8, 1)]
    [InlineData(LaneMethod.DormandPrince, 6, 2)]
    public void Evaluations_of_a_step(LaneMethod method, int perTry, int atStart)
    {
        RunLog log = ScriptedLanes<Lanes2>.Run(1e-6, method, 1000, Oscillation()).Logs[0];
        Assert.Equal(atStart + (perTry * log.Tries.Count), log.DerivativeCalls);
    }

    [Fact]
    public void A_system_is_needed() =>
        Assert.Throws<ArgumentNullException>(() => new EnsembleIntegrator<ScriptedLanes<Lanes2>, Lanes2>(null!, 1e-6, 1e-8));

    [Theory]
    [InlineData(0, 0)]
    [InlineData(-1, 0)]
    [InlineData(1, -1)]
    [InlineData(1, 33)]
    public void Numbers_of_unknowns_and_events_are_checked(int dimension, int events)
    {
        var system = new ScriptedLanes<Lanes2> { Dimension = dimension, EventCount = events };
        Assert.Throws<ArgumentOutOfRangeException>(() => new EnsembleIntegrator<ScriptedLanes<Lanes2>, Lanes2>(system, 1e-6, 1e-8));
    }

    /// <summary>The ends of the intervals are within.</summary>
    [Theory]
    [InlineData(1e-12)]
    [InlineData(0.1)]
    [InlineData(1e-3)]
    public void The_ends_of_the_options(double tolerance)
    {
        RunScript script = Oscillation();
        RunLog log = ScriptedLanes<Lanes2>.Run(tolerance, LaneMethod.Rodas5P, 100_000, script).Logs[0];
        Assert.Equal(LaneEnding.ReachedEnd, log.Ending);
        Assert.InRange(log.State[0] - Math.Cos(script.End), -40 * tolerance, 40 * tolerance);

        RunScript none = Steady(1) with { EventCount = 32, Events = (_, _, values) => values.Fill(-1) };
        Assert.Equal(LaneEnding.ReachedEnd, ScriptedLanes<Lanes2>.Run(tolerance, LaneMethod.Rodas5P, 1, none).Logs[0].Ending);
    }

    private static RunScript Steady(double end) => new([2], end) { Rates = (_, _, derivative) => derivative[0] = 1 };

    private static RunScript Oscillation() => new([1, 0], 16)
    {
        Rates = (_, y, derivative) => (derivative[0], derivative[1]) = (y[1], -y[0]),
        Slopes = (_, _, jacobian, timeDerivative) =>
        {
            ReadOnlySpan<double> rows = [0, 1, -1, 0];
            rows.CopyTo(jacobian);
            timeDerivative.Clear();
        },
    };
}
