using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>What the search for events counts, keeps and forgets.</summary>
public class EventBookkeepingTests
{
    private static readonly IntegratorOptions UnitSteps = new() { InitialStep = 1, MaxStep = 1 };

    /// <summary>Samples: one at the start, four of each step, four more right after the start; every one that is taken is counted, and from zero in every run.</summary>
    [Fact]
    public void Evaluations_of_event_functions()
    {
        int calls = 0;
        double level = 100;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (_, y, g) =>
            {
                calls++;
                g[0] = y[0] - level;
            },
            Directions = [EventDirection.Rising],
        };
        var integrator = new HybridIntegrator<ScriptedSystem>(system, UnitSteps);
        Assert.Equal((5, 1 + 4 + (5 * 4)), (integrator.Integrate(0, 5, [0.0]).StepsAccepted, calls));

        // With an event to be located.
        (calls, level) = (0, 2.3);
        IntegrationResult result = integrator.Integrate(0, 5, [0.0]);
        Assert.Equal((1, calls), (result.Events, result.EventFunctionEvaluations));
        Assert.True(calls > 25);
    }

    /// <summary>A peak between samples, of an event that is not the first, among others that have peaks elsewhere or none.</summary>
    [Fact]
    public void Peaks_of_several_events_within_one_step()
    {
        double[] tops = [0.37, 0.63, 0.1, 0.88];
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (t, _, g) =>
            {
                g[0] = -1 - t;
                for (int i = 0; i < 4; i++)
                    g[i + 1] = 1e-3 - Math.Pow(t - tops[i], 2);
                g[5] = t - 2;
            },
            Directions = [.. Enumerable.Repeat(EventDirection.Either, 6)],
        };
        Assert.Equal(1, new HybridIntegrator<ScriptedSystem>(system, UnitSteps).Integrate(0, 1, [0.0]).StepsAccepted);
        double half = Math.Sqrt(1e-3);
        double[] expected = [.. tops.SelectMany(top => (double[])[top - half, top + half]).Order()];
        Assert.Equal(expected.Length, system.EventLog.Count);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], system.EventLog[i].Time, 1e-11);
            Assert.InRange(Math.Abs(expected[i] - tops[system.EventLog[i].Index - 1]), 0.99 * half, 1.01 * half);
        }
    }

    /// <summary>A step is looked at with the values at its own start: a function that was far below zero a step earlier has its peak found all the same.</summary>
    [Fact]
    public void A_peak_in_a_later_step()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (t, _, g) => g[0] = t <= 1 ? -1.359 - (1000 * (1 - t)) : 0.01 - (10 * Math.Pow(t - 1.37, 2)),
            Directions = [EventDirection.Either],
        };
        Assert.Equal(2, new HybridIntegrator<ScriptedSystem>(system, UnitSteps).Integrate(0, 2, [0.0]).StepsAccepted);
        Assert.Equal(2, system.EventLog.Count);
        Assert.Equal(1.37 - Math.Sqrt(0.001), system.EventLog[0].Time, 1e-11);
        Assert.Equal(1.37 + Math.Sqrt(0.001), system.EventLog[1].Time, 1e-11);
    }

    /// <summary>Where an event function is not a number within a step, the step is shortened, and if that does not help the run ends; neither right after the start nor later is it passed over.</summary>
    [Theory]
    [InlineData(0, 2e-3)]
    [InlineData(0.2, 0.3)]
    public void Event_values_that_are_no_numbers_within_a_step(double from, double to)
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (t, _, g) => g[0] = t > from && t < to ? double.NaN : -1,
            Directions = [EventDirection.Rising],
        };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, UnitSteps).Integrate(0, 1, [0.0]);
        Assert.Equal(IntegrationStatus.NotFinite, result.Status);
        Assert.InRange(result.Time, from - 1e-12, from + 1e-12);
    }

    /// <summary>The tolerance of location goes with the times, whatever the unit, and holds before zero too.</summary>
    [Theory]
    [InlineData(0, 1e-9)]
    [InlineData(0, 1e9)]
    [InlineData(-2e-3, 1e-3)]
    [InlineData(-200, 100)]
    [InlineData(-0.5, 1)]
    public void Events_that_cannot_be_told_apart_at_any_scale(double start, double length)
    {
        double place = start + (0.3 * length);
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1 / length,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (t, _, g) =>
            {
                double x = (t - place) / length;
                (g[0], g[1], g[2]) = (x, Math.Exp(3 * x) - 1, x + (x * x));
            },
            Directions = [EventDirection.Rising, EventDirection.Rising, EventDirection.Rising],
        };
        new HybridIntegrator<ScriptedSystem>(system).Integrate(start, start + length, [0.0]);
        Assert.Equal([0, 1, 2], system.EventLog.Select(e => e.Index));
        Assert.All(system.EventLog, e => Assert.Equal(system.EventLog[0].Time, e.Time));
        Assert.InRange(system.EventLog[0].Time - place, 0, 1e-12 * (length + Math.Abs(place)));
    }

    /// <summary>An integrator used again begins anew: what fired late in one run has not fired in the next, which begins earlier.</summary>
    [Fact]
    public void A_second_run_knows_nothing_of_the_first()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (t, _, g) => g[0] = Math.Sin(t - 0.5),
            Directions = [EventDirection.Either],
        };
        var integrator = new HybridIntegrator<ScriptedSystem>(system, UnitSteps);
        IntegrationResult first = integrator.Integrate(-10, 40, [0.0]), second = integrator.Integrate(-10, 40, [0.0]);
        Assert.Equal((IntegrationStatus.ReachedEnd, 16), (first.Status, first.Events));
        Assert.Equal(first, second);
    }

    /// <summary>A run that ended because an event fired without end leaves nothing of that behind.</summary>
    [Fact]
    public void A_run_after_a_chattering_one()
    {
        bool chatters = true;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (_, y, g) => g[0] = y[0],
            Directions = [EventDirection.Rising],
            Respond = (_, _, y) =>
            {
                y[0] = chatters ? -1e-14 : -1;
                return EventResponse.Restart;
            },
        };
        var integrator = new HybridIntegrator<ScriptedSystem>(system);
        Assert.Equal(IntegrationStatus.TooManyEvents, integrator.Integrate(0, 10, [-1.0]).Status);
        chatters = false;
        IntegrationResult result = integrator.Integrate(-20, 0.5, [-1.0]);
        Assert.Equal((IntegrationStatus.ReachedEnd, 20), (result.Status, result.Events));
    }

    /// <summary>One event may fire five times at one instant, at time zero too; any other event or time begins a new count.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(-1e6)]
    public void Five_firings_at_one_instant(double t)
    {
        var guard = new ChatterGuard(2);
        guard.Restart();
        for (int i = 0; i < 5; i++)
            Assert.True(guard.Permits(1, t));
        Assert.True(guard.Permits(0, t));
        Assert.False(guard.Permits(1, t));
        Assert.True(guard.Permits(1, t + 1e-3));
        for (int i = 0; i < 4; i++)
            Assert.True(guard.Permits(1, t + 1e-3));
        Assert.False(guard.Permits(1, t + 1e-3));
        guard.Restart();
        Assert.True(guard.Permits(1, t));
    }

    /// <summary>The places do not depend on the unit of the function; a sample that touches zero and stays on its side hides nothing; nor does a function that is far from zero.</summary>
    [Fact]
    public void Where_a_function_may_dip()
    {
        Span<(int Cell, int Sign)> dips = stackalloc (int, int)[QuarticScreen.MaxDips];
        foreach (double unit in (double[])[1e-3, 1, 1e3])
        {
            Assert.Equal(1, QuarticScreen.FindDips([4.1 * unit, 1.1 * unit, 0.1 * unit, 1.1 * unit, 4.1 * unit], dips));
            Assert.Equal((QuarticScreen.Cells / 2, 1), dips[0]);
            Assert.Equal(0, QuarticScreen.FindDips([9 * unit, 6 * unit, 5 * unit, 6 * unit, 9 * unit], dips));
        }

        Assert.Equal(0, QuarticScreen.FindDips([4, 1, 0, 1, 4], dips));
    }
}
