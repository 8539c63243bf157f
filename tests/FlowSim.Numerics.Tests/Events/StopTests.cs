using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>Stops are reached bit for bit, with no crumbs before them.</summary>
public sealed class StopTests
{
    [Fact]
    public void Stops_are_hit_exactly_and_in_order()
    {
        // Times that are not sums of round steps.
        double[] stops = [0.1, 1.0 / 3, Math.Sqrt(2), Math.E, Math.PI];
        ScriptedSystem system = Decay(stops, EventResponse.Continue);
        double[] y = [1];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 5, y);

        Assert.Equal(stops, system.StopLog);
        foreach (double stop in stops)
            Assert.Contains(system.StepLog, step => step.End == stop);
        Assert.Equal(5, result.Time);
        Assert.Equal(Math.Exp(-5), y[0], 1e-8);
        Assert.Equal(0, result.Restarts);
    }

    [Fact]
    public void Stop_at_the_end_is_called()
    {
        ScriptedSystem system = Decay([5], EventResponse.Continue);
        new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 5, new double[] { 1 });
        Assert.Equal([5.0], system.StopLog);
    }

    [Fact]
    public void Stop_can_change_the_state_and_restart()
    {
        // Closed form: e⁻¹ doubled at 1, decaying on to 2·e⁻².
        ScriptedSystem system = new(1)
        {
            Rhs = (_, y, f) => f[0] = -y[0],
            Stops = [1],
            RespondToStop = (_, _, y) =>
            {
                y[0] *= 2;
                return EventResponse.Restart;
            },
        };
        double[] y = [1];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 2, y);
        Assert.Equal(2 * Math.Exp(-2), y[0], 1e-8);
        Assert.Equal(1, result.Restarts);
    }

    [Fact]
    public void Stop_can_end_the_integration()
    {
        ScriptedSystem system = Decay([1], EventResponse.Stop);
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 2, new double[] { 1 });
        Assert.Equal((IntegrationStatus.StoppedByEvent, 1.0), (result.Status, result.Time));
    }

    [Fact]
    public void No_crumbs_are_left_before_stops()
    {
        // Steps of at most 0.1 and stops at whole numbers, which sums of 0.1 miss by roundings.
        double[] stops = [.. Enumerable.Range(1, 20).Select(k => (double)k)];
        ScriptedSystem system = Decay(stops, EventResponse.Continue);
        var options = new IntegratorOptions { MaxStep = 0.1 };
        new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 20, new double[] { 1 });
        Assert.Equal(stops, system.StopLog);

        // A step is never more than halved by a stop once the largest step is in use.
        foreach ((double start, double end) in system.StepLog.Where(step => step.Start > 1))
            Assert.InRange(end - start, 0.0499, 0.1000001);
    }

    [Fact]
    public void A_step_cut_short_by_a_stop_does_not_shorten_the_next()
    {
        ScriptedSystem system = Decay([1, 1.000001], EventResponse.Continue);
        new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 2, new double[] { 1 });
        (double start, double end) = system.StepLog.Single(step => step.End == 1);
        (double nextStart, double nextEnd) = system.StepLog.Single(step => step.Start == 1.000001);
        Assert.True(nextEnd - nextStart > 0.4 * (end - start));
    }

    [Theory]
    [InlineData(EventResponse.Continue)]
    [InlineData(EventResponse.Restart)]
    public void Event_at_a_stop_comes_before_it_and_both_come(EventResponse response)
    {
        // The event function t − 1 is exactly zero at the stop.
        List<string> calls = [];
        ScriptedSystem system = new(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, _, g) => g[0] = t - 1,
            Directions = [EventDirection.Rising],
            Stops = [1],
            Respond = (_, t, _) =>
            {
                calls.Add($"event {t:R}");
                return response;
            },
            RespondToStop = (_, t, _) =>
            {
                calls.Add($"stop {t:R}");
                return response;
            },
        };
        double[] y = [0];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 2, y);
        Assert.Equal(["event 1", "stop 1"], calls);
        Assert.Equal(response == EventResponse.Restart ? 1 : 0, result.Restarts);
        Assert.Equal(2, y[0], 1e-12);
    }

    [Fact]
    public void Event_within_rounding_of_a_stop_is_moved_to_it()
    {
        ScriptedSystem system = new(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, _, g) => g[0] = t - 0.99999999999999,
            Directions = [EventDirection.Rising],
            Respond = (_, _, _) => EventResponse.Restart,
            Stops = [1],
        };
        new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 2, new double[1]);
        Assert.Equal(1, Assert.Single(system.EventLog).Time);
        Assert.Equal([1.0], system.StopLog);
    }

    [Fact]
    public void Event_that_is_zero_at_the_end_fires()
    {
        ScriptedSystem system = new(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, _, g) => g[0] = t - 1,
            Directions = [EventDirection.Rising],
        };
        new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, new double[1]);
        Assert.Equal(1, Assert.Single(system.EventLog).Time);
    }

    [Fact]
    public void A_stop_that_is_not_later_is_refused()
    {
        var system = new Backwards();
        var integrator = new HybridIntegrator<Backwards>(system);
        Assert.Throws<InvalidOperationException>(() => integrator.Integrate(0, 1, new double[1]));
    }

    private static ScriptedSystem Decay(double[] stops, EventResponse response) =>
        new(1) { Rhs = (_, y, f) => f[0] = -y[0], Stops = stops, RespondToStop = (_, _, _) => response };

    private sealed class Backwards() : HybridSystemBase(1)
    {
        public override void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) => derivative[0] = 1;

        public override double NextStop(double t) => t;
    }
}
