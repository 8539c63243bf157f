using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;
using FsCheck.Xunit;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>Which crossings are found, where, and how often, on solutions known in closed form.</summary>
public sealed class CrossingTests
{
    [Theory]
    [InlineData(0.9)]
    [InlineData(0.999999)]
    [InlineData(0.9999999)]
    public void Both_crossings_of_a_short_peak_inside_one_step_are_found(double level)
    {
        // sin t exceeds the level between arcsin(level) and π − arcsin(level).
        ScriptedSystem system = Oscillator([EventDirection.Either], (_, y, g) => g[0] = y[0] - level);
        IntegrationResult result = Integrate(system, 0, 3);

        Assert.Equal(2, result.Events);
        double rise = Math.Asin(level);

        // Near the peak the level is met at a slope of cos(rise), which turns the error of the solution, some 1e−9, into one of time.
        double tolerance = 5e-9 / Math.Cos(rise);
        Assert.Equal(rise, system.EventLog[0].Time, tolerance);
        Assert.Equal(Math.PI - rise, system.EventLog[1].Time, tolerance);
        Assert.True(system.EventLog[0].State[0] >= level);
        Assert.True(system.EventLog[1].State[0] <= level);
    }

    [Fact]
    public void Both_crossings_are_found_whatever_the_place_of_the_peak_in_the_step()
    {
        // A parabola in t, which Rodas5P integrates exactly in one step: 1 − (t − c)²/w² is positive within w of its centre c.
        for (double centre = 0.02; centre < 1; centre += 0.007)
        {
            foreach (double width in (double[])[1e-2, 1e-4, 1e-6])
            {
                var system = new ScriptedSystem(1)
                {
                    Rhs = (t, _, f) => f[0] = -2 * (t - centre),
                    TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = -2,
                    Events = (_, y, g) => g[0] = y[0] + width * width,
                    Directions = [EventDirection.Either],
                };
                double[] y = [-centre * centre];
                var options = new IntegratorOptions { InitialStep = 1 };
                IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 1, y);
                Assert.Equal(1, result.StepsAccepted);
                int expected = centre + width > 1 ? 1 : 2;
                Assert.True(result.Events == expected, $"{result.Events} crossings, centre {centre}, width {width}");

                // The tolerance of location, and rounding of y (stages enter the extension with weights up to 80) over the
                // slope 2·width of the event function.
                Assert.Equal(centre - width, system.EventLog[0].Time, 3e-13 + 1e-13 / width);
            }
        }
    }

    [Fact]
    public void Grazing_does_not_fire()
    {
        // The amplitude stays short of the level by 1e−6, far above the error of the solution.
        ScriptedSystem system = Oscillator([EventDirection.Either], (_, y, g) => g[0] = y[0] - 1.000001);
        Assert.Equal(0, Integrate(system, 0, 100).Events);
    }

    [Fact]
    public void Touching_zero_exactly_does_not_fire()
    {
        // A function of time alone, exactly zero at the sample t = 0.5 and positive elsewhere.
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 0,
            Events = (t, _, g) => g[0] = (t - 0.5) * (t - 0.5),
            Directions = [EventDirection.Either],
        };
        var options = new IntegratorOptions { InitialStep = 1 };
        Assert.Equal(0, new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 1, new double[1]).Events);
    }

    [Theory]
    [InlineData(EventDirection.Rising, 5)]
    [InlineData(EventDirection.Falling, 5)]
    [InlineData(EventDirection.Either, 10)]
    public void Direction_selects_crossings(EventDirection direction, int expected)
    {
        // sin t − 1/2 rises at π/6 and falls at 5π/6 in each of five periods.
        ScriptedSystem system = Oscillator([direction], (_, y, g) => g[0] = y[0] - 0.5);
        Assert.Equal(expected, Integrate(system, 0, 10 * Math.PI).Events);
        for (int k = 0; k < expected; k++)
        {
            double within = system.EventLog[k].Time % (2 * Math.PI);
            bool rising = direction == EventDirection.Rising || (direction == EventDirection.Either && k % 2 == 0);
            Assert.Equal(rising ? Math.PI / 6 : 5 * Math.PI / 6, within, 1e-6);
        }
    }

    [Theory]
    [InlineData(EventResponse.Continue)]
    [InlineData(EventResponse.Restart)]
    public void A_crossing_fires_once_whatever_the_response(EventResponse response)
    {
        ScriptedSystem system = Oscillator([EventDirection.Either], (_, y, g) => g[0] = y[0] - 0.5, (_, _, _) => response);
        IntegrationResult result = Integrate(system, 0, 10 * Math.PI);
        Assert.Equal(10, result.Events);
        Assert.Equal(response == EventResponse.Restart ? 10 : 0, result.Restarts);
    }

    [Fact]
    public void Zero_at_the_start_is_no_crossing()
    {
        // sin t is zero at the start, then positive; it falls at π.
        ScriptedSystem system = Oscillator([EventDirection.Either], (_, y, g) => g[0] = y[0]);
        Integrate(system, 0, 4);
        Assert.Equal(Math.PI, Assert.Single(system.EventLog).Time, 1e-8);
    }

    [Fact]
    public void Several_events_in_one_step_come_in_order_and_cut_the_step()
    {
        // y = t in a single step; levels are passed at their own values, listed here out of order.
        double[] levels = [0.9, 0.1, 0.5, 0.7, 0.3];
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (_, y, g) =>
            {
                for (int i = 0; i < levels.Length; i++)
                    g[i] = y[0] - levels[i];
            },
            Directions = [.. levels.Select(_ => EventDirection.Rising)],
        };
        var options = new IntegratorOptions { InitialStep = 1 };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 1, new double[1]);

        Assert.Equal(1, result.StepsAccepted);
        Assert.Equal([1, 4, 2, 3, 0], system.EventLog.Select(e => e.Index));
        Assert.Equal(6, system.StepLog.Count);
        for (int k = 0; k < 5; k++)
        {
            Assert.Equal(levels[system.EventLog[k].Index], system.EventLog[k].Time, 1e-12);
            Assert.Equal(system.EventLog[k].Time, system.StepLog[k].End);
            Assert.Equal(system.StepLog[k].End, system.StepLog[k + 1].Start);
        }
    }

    [Theory]
    [InlineData(EventResponse.Continue)]
    [InlineData(EventResponse.Restart)]
    public void Simultaneous_events_are_all_handled_at_one_time(EventResponse response)
    {
        // Three functions of y = t that vanish together at 1/3, one from the other side.
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (_, y, g) => (g[0], g[1], g[2]) = (y[0] - 1.0 / 3, 1.0 / 3 - y[0], 7 * (y[0] - 1.0 / 3)),
            Directions = [EventDirection.Rising, EventDirection.Falling, EventDirection.Rising],
            Respond = (_, _, _) => response,
        };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, new double[1]);
        Assert.Equal(3, result.Events);
        Assert.Equal([0, 1, 2], system.EventLog.Select(e => e.Index));
        Assert.Single(system.EventLog.Select(e => e.Time).Distinct());
        Assert.Equal(response == EventResponse.Restart ? 1 : 0, result.Restarts);
    }

    [Fact]
    public void An_event_undone_by_another_at_the_same_time_is_dropped()
    {
        // The first of two simultaneous events puts the state back before the second's level.
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, y, g) => (g[0], g[1]) = (t - 0.5, y[0] - 0.5),
            Directions = [EventDirection.Rising, EventDirection.Rising],
            Respond = (index, _, y) =>
            {
                if (index == 0)
                    y[0] = 0;
                return EventResponse.Restart;
            },
        };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1.25, new double[1]);

        // Restarted from 0 at 0.5, y reaches 0.5 again at 1.
        Assert.Equal([0, 1], system.EventLog.Select(e => e.Index));
        Assert.Equal(0.5, system.EventLog[0].Time, 1e-12);
        Assert.Equal(1.0, system.EventLog[1].Time, 1e-12);
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
    }

    [Fact]
    public void A_function_switched_off_and_on_does_not_fire_by_the_switching()
    {
        // The level counts only between the stops at 1 and 2, while y = t is far above it: never a crossing.
        bool on = false;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (_, y, g) => g[0] = on ? y[0] - 0.5 : -1,
            Directions = [EventDirection.Either],
            Stops = [1, 2],
            RespondToStop = (_, _, _) =>
            {
                on = !on;
                return EventResponse.Restart;
            },
        };
        Assert.Equal(0, new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 3, new double[1]).Events);
    }

    [Fact]
    public void A_chattering_switch_ends_with_a_status()
    {
        // y′ = −sign(y) by modes: each crossing turns the slope back at once, a sliding mode.
        double slope = -1;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = slope,
            Events = (_, y, g) => g[0] = y[0],
            Directions = [EventDirection.Either],
            Respond = (_, _, _) =>
            {
                slope = -slope;
                return EventResponse.Restart;
            },
        };
        double[] y = [1];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 10, y);
        Assert.Equal(IntegrationStatus.TooManyEvents, result.Status);
        Assert.Equal(1, result.Time, 1e-6);
    }

    [Property(MaxTest = 100)]
    public void Every_crossing_of_a_random_wave_is_found(int seed)
    {
        // y₀ = A·sin(ωt + φ) against a level: crossings at (arcsin(level/A) − φ + 2πk)/ω and (π − arcsin(level/A) − φ + 2πk)/ω.
        var random = new Random(seed);
        double omega = 0.5 + 3 * random.NextDouble(), phase = 2 * Math.PI * random.NextDouble();
        double level = 1.9 * random.NextDouble() - 0.95;
        const double End = 20;
        var system = new ScriptedSystem(2)
        {
            Rhs = (_, y, f) => (f[0], f[1]) = (omega * y[1], -omega * y[0]),
            Events = (_, y, g) => g[0] = y[0] - level,
            Directions = [EventDirection.Either],
        };
        double[] y = [Math.Sin(phase), Math.Cos(phase)];
        new HybridIntegrator<ScriptedSystem>(system).Integrate(0, End, y);

        double angle = Math.Asin(level);
        double[] expected = [.. Enumerable.Range(-2, 30)
            .SelectMany(k => new[] { angle - phase + 2 * Math.PI * k, Math.PI - angle - phase + 2 * Math.PI * k })
            .Select(x => x / omega).Where(t => t is > 0 and < End).Order()];
        Assert.Equal(expected.Length, system.EventLog.Count);
        foreach ((double time, (int Index, double Time, double[] State) found) in expected.Zip(system.EventLog))
            Assert.Equal(time, found.Time, 1e-5);
    }

    private static ScriptedSystem Oscillator(EventDirection[] directions, RightHandSide events, Response? respond = null) =>
        new(2)
        {
            Rhs = (_, y, f) => (f[0], f[1]) = (y[1], -y[0]),
            Events = events,
            Directions = directions,
            Respond = respond ?? ((_, _, _) => EventResponse.Continue),
        };

    /// <summary>From (sin 0, cos 0) at tolerances that leave errors of some 1e−9.</summary>
    private static IntegrationResult Integrate(ScriptedSystem system, double start, double end)
    {
        double[] y = [0, 1];
        var options = new IntegratorOptions { RelativeTolerance = 1e-10, AbsoluteTolerance = 1e-10 };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, options).Integrate(start, end, y);
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        return result;
    }
}
