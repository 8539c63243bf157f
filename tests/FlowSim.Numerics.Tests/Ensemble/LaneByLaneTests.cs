using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>
/// The lanes do what the integrator of single runs does: every step that a lane tries has the length that the plain controller asks for, is taken or not by
/// the plain error and ends in the plain step's state. A coarse tolerance, so that any slip in these is far above rounding.
/// </summary>
public class LaneByLaneTests
{
    private const double Tolerance = 1e-5;

    /// <summary>One unknown: what a first step can meet, in units of time that differ by thirty decades.</summary>
    private static readonly RunScript[] One =
    [
        Growth(0.01, 10, 1),
        Growth(0.01, 1e-15, 1e15),
        Growth(0.01, 1e15, 1e-15),
        Relaxing(1, 200),
        Relaxing(1, 1e6),
        Pulse(1),
        Pulse(1e15),

        // From zero; nothing moves and nothing bends at first; no bend at all; a bend only.
        Quadrature(0, 6, Math.Cos, t => -Math.Sin(t)),
        Quadrature(1, 3, t => t * t, t => 2 * t),
        Quadrature(0, 7, _ => 1, _ => 0),
        Quadrature(1, 7, _ => 1, _ => 0),
        Quadrature(1, 4, t => t + (t * t), t => 1 + (2 * t)),

        // A bend so small that the state's size is a shorter time, with and without a slope.
        Quadrature(1, 1e8, t => 1e-20 * t, _ => 1e-20),
        Quadrature(1, 5, t => -10 + (1e-3 * t), _ => 1e-3),
        Quadrature(-3, 40, t => 1e-3 + (0.2 * Math.Sin(t)), t => 0.2 * Math.Cos(t)),

        // Nothing moves and nothing bends after a stop.
        Quadrature(1, 3, t => (t - 1) * (t - 1), t => 2 * (t - 1)) with { Stops = [1] },
    ];

    private static readonly RunScript[] Two =
    [
        VanDerPolOf(0.05, [1, 1]),
        VanDerPolOf(2, [1, 1]),
        VanDerPolOf(1e-3, [1, 100]),
        VanDerPolOf(0.05, [1e-3, 1e3]),
        Linear([0, 1, -1, 0], [1, 0], 20),
        Linear([-1, 50, 0, -200], [1, 1], 3),
        Linear([-200, 3, -40, -0.5], [0, 1], 3),
    ];

    private static readonly RunScript[] Three =
    [
        Lorenz([1, 1, 1]),
        Lorenz([1, 10, 1e-2]),
        Linear([-1, 2, 3, -4, -5, 6, 7, -8, -90], [1, -2, 0.5], 2),
        Linear([-3, 20, 0, 0, -1, 0.5, 4, 0, -6], [0, 1, 2], 4),
        RobertsonScript(),
    ];

    [Fact]
    public void One_unknown() => AssertFollowed(One);

    [Fact]
    public void Two_unknowns() => AssertFollowed(Two);

    [Fact]
    public void Three_unknowns() => AssertFollowed(Three);

    /// <summary>Some of the steps above were tried in vain, or nothing were shown of what follows then.</summary>
    [Fact]
    public void There_are_steps_in_vain()
    {
        Assert.True(SingleRun.Of(Pulse(1), Tolerance).Result.StepsRejected > 5);
        Assert.True(SingleRun.Of(Pulse(1e15), Tolerance).Result.StepsRejected > 5);
        Assert.True(SingleRun.Of(VanDerPolOf(0.05, [1, 1]), Tolerance).Result.StepsRejected > 5);
    }

    /// <summary>After a first step with an error near to what is tolerated the second is shorter.</summary>
    [Fact]
    public void A_second_step_may_be_shorter_than_the_first()
    {
        const double Fifth = 10240;
        RunLog log = AssertFollowed(Quadrature(1, 5, t => 1 + t + (Fifth * t * t * t * t), t => 1 + (4 * Fifth * t * t * t)))[0];
        Assert.True(log.Tries[0].Accepted);
        Assert.True(log.Tries[1].End - log.Tries[0].End < 0.98 * log.Tries[0].End);
    }

    /// <summary>Three events on one unknown: two at one place, one that is never reached because the state is set back before.</summary>
    [Fact]
    public void Several_events_on_one_unknown()
    {
        RunScript Saw(double rate, double back) => Quadrature(0, 9, t => rate * (1 + (0.3 * Math.Sin(t))), t => rate * 0.3 * Math.Cos(t)) with
        {
            EventCount = 3,
            Events = (_, y, values) => (values[0], values[1], values[2]) = (y[0] - 1, y[0] - 2, 10 * (y[0] - 1)),
            OnEvent = (index, _, y) =>
            {
                if (index == 2)
                    y[0] = back;
                return EventResponse.Restart;
            },
        };

        RunLog[] logs = AssertFollowed(Saw(1, 0), Saw(2, 0.3), Saw(0.5, -1), Saw(3, 0), Saw(1.1, 0.5));
        Assert.All(logs, log => Assert.True(log.Events.Count > 3));
        Assert.All(logs, log => Assert.DoesNotContain(log.Events, e => e.Index == 1));
    }

    /// <summary>Events in turn, 32 of them: the least and the last of the bits.</summary>
    [Fact]
    public void Thirty_two_events_in_turn()
    {
        RunScript Stairs(double rate) => Quadrature(0, 4, t => rate * (2 + Math.Sin(t)), t => rate * Math.Cos(t)) with
        {
            EventCount = 32,
            Events = (_, y, values) =>
            {
                for (int i = 0; i < 32; i++)
                    values[i] = y[0] - (0.25 * (i + 1));
            },
        };

        RunLog[] logs = AssertFollowed(Stairs(1), Stairs(0.2), Stairs(0.7));
        Assert.Equal(Enumerable.Range(0, 32), logs[0].Events.Select(e => e.Index));
    }

    /// <summary>A ball that touches the ceiling within a step, twice, and is not over it at either end.</summary>
    [Fact]
    public void Events_hidden_within_a_step()
    {
        const double G = 9.81;
        RunScript Ball(double speed, double ceiling) => new([0, speed], 1.9 * speed / G)
        {
            Rates = (_, y, derivative) => (derivative[0], derivative[1]) = (y[1], -G),
            Slopes = (_, _, jacobian, timeDerivative) =>
            {
                jacobian.Clear();
                jacobian[1] = 1;
                timeDerivative.Clear();
            },
            EventCount = 1,
            Events = (_, y, values) => values[0] = y[0] - ceiling,
            OnEvent = (_, _, y) =>
            {
                y[1] = -0.5 * y[1];
                return EventResponse.Restart;
            },
            HidesAtTheTop = true,
        };

        (double Speed, double Ceiling)[] balls = [(5, 1), (5, 1.27), (5, 1.28), (7, 0.5), (3, 0.45)];
        RunLog[] logs = AssertFollowed([.. balls.Select(ball => Ball(ball.Speed, ball.Ceiling))]);
        Assert.Empty(logs[2].Events);
        for (int i = 0; i < balls.Length; i++)
        {
            if (i == 2)
                continue;

            // The way up: v t − g t²/2 = ceiling.
            (double v, double ceiling) = balls[i];
            Assert.Equal((v - Math.Sqrt((v * v) - (2 * G * ceiling))) / G, logs[i].Events[0].Time, 1e-9);
        }
    }

    /// <summary>"Located past their crossing by at most 1e-10 of the function's rise over the step", which here is the whole run.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(1e-3)]
    [InlineData(1e4)]
    public void An_event_is_as_near_as_is_said(double size)
    {
        RunScript Line(double place) => Quadrature(-place, 2, _ => size, _ => 0) with
        {
            Scales = [size],
            EventCount = 1,
            Events = (_, y, values) => values[0] = y[0],
            OnEvent = (_, _, _) => EventResponse.Stop,
        };

        double[] places = [0.3 * size, 0.01 * size, 0.6 * size];
        RunLog[] logs = AssertFollowed([.. places.Select(Line)]);
        Assert.All(logs, log => Assert.InRange(log.Events[0].State[0], 0, 1.01e-10 * 2 * size));
    }

    /// <summary>A straight line is hit at once: few evaluations, also where the end of the step is hardly past zero or the start hardly before.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(1e-3)]
    [InlineData(0.9)]
    public void An_event_on_a_straight_line_takes_few_looks(double place)
    {
        RunLog log = AssertFollowed(Quadrature(0, 1, _ => 1, _ => 0) with
        {
            EventCount = 1,
            Events = (_, y, values) => values[0] = y[0] - place,
        })[0];
        Assert.InRange(log.EventCalls, 2, 4);
    }

    /// <summary>A function that is zero at the start and rises has not crossed.</summary>
    [Fact]
    public void An_event_at_zero_from_the_start_is_none()
    {
        RunScript rises = Quadrature(0, 3, t => 1 + t, _ => 1) with { EventCount = 2, Events = (_, y, values) => (values[0], values[1]) = (y[0], y[0] - 1) };
        Assert.Equal([1], AssertFollowed(rises)[0].Events.Select(e => e.Index));
    }

    /// <summary>Stops cut steps short, and what is due afterwards is not forgotten; some are near to each other, some at odd places, each changes the state.</summary>
    [Fact]
    public void Stops()
    {
        RunScript With(RunScript script, params double[] stops) => script with
        {
            Stops = stops,
            OnStop = (_, _, y) =>
            {
                y[0] += 0.1;
                return EventResponse.Restart;
            },
        };

        RunLog[] logs = AssertFollowed(
            With(VanDerPolOf(0.05, [1, 1]), 0.1, 0.1001, 0.5, 1, 1.0000001),
            With(VanDerPolOf(2, [1, 1]), 0.7, 1.4),
            With(Linear([0, 1, -1, 0], [1, 0], 20), 1, 2, 3, 3.9, 7.7, 19.999),
            Linear([0, 1, -1, 0], [1, 0], 5),
            With(Linear([-1, 50, 0, -200], [1, 1], 3), 1e-6, 2e-6, 2.5));
        Assert.Equal([0.1, 0.1001, 0.5, 1, 1.0000001], logs[0].Stops);
    }

    /// <summary>
    /// A function that is zero at the end of the step and not above has crossed there. At a stop both come, at the stop's time to the last bit, though the
    /// step's start and length may add up to a neighbour of it.
    /// </summary>
    [Fact]
    public void Events_at_stops()
    {
        var random = new Random(3);
        RunScript At(double first, double second) => Quadrature(0, 2, _ => 1, _ => 0) with
        {
            EventCount = 2,
            Events = (_, y, values) => (values[0], values[1]) = (Math.Min(y[0] - second + 0.01, 0), y[0] - 1.99),
            Stops = [first, second],
        };

        RunScript[] scripts = [.. Enumerable.Range(0, 30).Select(_ => At(0.4 * random.NextDouble(), 1 + (0.9 * random.NextDouble())))];
        RunLog[] logs = ScriptedLanes<Lanes4>.Run(Tolerance, LaneMethod.Rodas5P, 100, scripts).Logs;
        for (int i = 0; i < scripts.Length; i++)
        {
            LaneFollower.Follow($"run {i}", scripts[i], logs[i], Tolerance, LaneMethod.Rodas5P);
            Assert.Equal(scripts[i].Stops, logs[i].Stops);
            Assert.Equal([0, 1], logs[i].Events.Select(e => e.Index));
            Assert.Equal(scripts[i].Stops[1], logs[i].Events[0].Time);
        }
    }

    /// <summary>What an event at the last time says of the run goes before its end.</summary>
    [Theory]
    [InlineData(EventResponse.Stop, LaneEnding.Stopped)]
    [InlineData(EventResponse.Restart, LaneEnding.ReachedEnd)]
    public void An_event_at_the_end(EventResponse response, LaneEnding ending)
    {
        RunScript script = Quadrature(0, 2, _ => 1, _ => 0) with
        {
            EventCount = 1,
            Events = (_, y, values) => values[0] = Math.Min(y[0] - 1.9, 0),
            OnEvent = (_, _, _) => response,
        };
        RunLog[] logs = ScriptedLanes<Lanes2>.Run(Tolerance, LaneMethod.Rodas5P, 100, script, script, script).Logs;
        Assert.All(logs, log => Assert.Equal((ending, 2.0, 1), (log.Ending!.Value, log.Time, log.Events.Count)));
    }

    [Fact]
    public void Runs_that_events_or_stops_end()
    {
        RunScript Until(double height, double stop) => Quadrature(0, 10, _ => 1, _ => 0) with
        {
            EventCount = 1,
            Events = (_, y, values) => values[0] = y[0] - height,
            OnEvent = (_, _, _) => EventResponse.Stop,
            Stops = [stop],
            OnStop = (_, _, _) => EventResponse.Stop,
        };

        RunScript[] scripts = [Until(3, 20), Until(20, 3), Until(4, 4.5), Until(30, 20), Until(2, 20)];
        RunLog[] logs = AssertFollowed(scripts);
        Assert.Equal(
            [LaneEnding.Stopped, LaneEnding.Stopped, LaneEnding.Stopped, LaneEnding.ReachedEnd, LaneEnding.Stopped],
            logs.Select(log => log.Ending!.Value));
        Assert.Equal([3, 3, 4, 10, 2], logs.Select(log => Math.Round(log.Time, 8)));
    }

    /// <summary>Rates beyond 1e150 make an error that overflows; event functions may not be numbers beyond some time. Either way a step is a quarter of what was tried.</summary>
    [Fact]
    public void Steps_that_cannot_be_computed()
    {
        RunScript wall = Quadrature(0, 1, t => t < 0.5 ? 1 : 1e170, _ => 0) with
        {
            EventCount = 1,
            Events = (_, y, values) => values[0] = y[0] - 0.4,
            OnEvent = (_, _, _) => EventResponse.Stop,
        };
        RunScript root = Quadrature(0, 100, _ => 1, _ => 0) with
        {
            EventCount = 1,
            Events = (t, _, values) => values[0] = 0.5 - Math.Sqrt(1 - t),
            OnEvent = (_, _, _) => EventResponse.Stop,
        };
        RunScript notANumber = Quadrature(0, 1, t => t < 0.5 ? 1 : double.NaN, _ => 0) with { EventCount = 1, Events = wall.Events, OnEvent = wall.OnEvent };
        RunLog[] logs = AssertFollowed(wall, root, notANumber);
        Assert.Equal(0.4, logs[0].Time, 1e-9);
        Assert.Equal(0.75, logs[1].Time, 1e-9);
        Assert.Equal(0.4, logs[2].Time, 1e-9);
    }

    private static RunScript Quadrature(double start, double end, Func<double, double> f, Func<double, double> slope) => new([start], end)
    {
        Rates = (t, _, derivative) => derivative[0] = f(t),
        Slopes = (t, _, jacobian, timeDerivative) => (jacobian[0], timeDerivative[0]) = (0, slope(t)),
    };

    private static RunScript Growth(double start, double end, double rate) => new([start], end)
    {
        Rates = (_, y, derivative) => derivative[0] = rate * y[0] * (1 - y[0]),
        Slopes = (_, y, jacobian, timeDerivative) => (jacobian[0], timeDerivative[0]) = (rate * (1 - (2 * y[0])), 0),
    };

    private static RunScript Relaxing(double start, double stiffness) => new([start], 5)
    {
        Rates = (t, y, derivative) => derivative[0] = (-stiffness * (y[0] - Math.Cos(t))) - Math.Sin(t),
        Slopes = (t, _, jacobian, timeDerivative) => (jacobian[0], timeDerivative[0]) = (-stiffness, (-stiffness * Math.Sin(t)) - Math.Cos(t)),
    };

    /// <summary>Quiet, then short pulses: steps that had grown are tried in vain.</summary>
    private static RunScript Pulse(double perTime)
    {
        static double Bell(double t, double at, double width) => Math.Exp(-Math.Pow((t - at) / width, 2)) / width;
        static double BellSlope(double t, double at, double width) => -2 * (t - at) / (width * width) * Bell(t, at, width);
        return new([1], 10 / perTime)
        {
            Rates = (t, y, derivative) => derivative[0] = perTime * (-y[0] + Bell(t * perTime, 3, 0.2) + Bell(t * perTime, 6, 0.6)),
            Slopes = (t, _, jacobian, timeDerivative) =>
                (jacobian[0], timeDerivative[0]) = (-perTime, perTime * perTime * (BellSlope(t * perTime, 3, 0.2) + BellSlope(t * perTime, 6, 0.6))),
        };
    }

    private static RunScript VanDerPolOf(double epsilon, double[] scales) => new([2, 0], 3)
    {
        Rates = (_, y, derivative) => (derivative[0], derivative[1]) = (y[1], (((1 - (y[0] * y[0])) * y[1]) - y[0]) / epsilon),
        Slopes = (_, y, jacobian, timeDerivative) =>
        {
            (jacobian[0], jacobian[1], jacobian[2], jacobian[3]) = (0, 1, ((-2 * y[0] * y[1]) - 1) / epsilon, (1 - (y[0] * y[0])) / epsilon);
            timeDerivative.Clear();
        },
        Scales = scales,
    };

    private static RunScript Linear(double[] matrix, double[] start, double end) => new(start, end)
    {
        Rates = (t, y, derivative) =>
        {
            for (int i = 0; i < y.Length; i++)
            {
                derivative[i] = Math.Sin(t + i);
                for (int j = 0; j < y.Length; j++)
                    derivative[i] += matrix[(i * y.Length) + j] * y[j];
            }
        },
        Slopes = (t, y, jacobian, timeDerivative) =>
        {
            matrix.CopyTo(jacobian);
            for (int i = 0; i < y.Length; i++)
                timeDerivative[i] = Math.Cos(t + i);
        },
    };

    private static RunScript Lorenz(double[] scales) => new([1, 2, 20], 2)
    {
        Rates = (_, y, derivative) => (derivative[0], derivative[1], derivative[2]) = (10 * (y[1] - y[0]), (y[0] * (28 - y[2])) - y[1], (y[0] * y[1]) - (8.0 / 3 * y[2])),
        Slopes = (_, y, jacobian, timeDerivative) =>
        {
            ReadOnlySpan<double> rows = [-10, 10, 0, 28 - y[2], -1, -y[0], y[1], y[0], -8.0 / 3];
            rows.CopyTo(jacobian);
            timeDerivative.Clear();
        },
        Scales = scales,
    };

    private static RunScript RobertsonScript()
    {
        var single = new Robertson();
        return new([1, 0, 0], 1e3)
        {
            Rates = single.Derivative,
            Slopes = (t, y, jacobian, timeDerivative) => single.Jacobian(t, y, [], jacobian, timeDerivative, []),
            Scales = [1, 1e-4, 1],
        };
    }

    /// <summary>Runs all scripts in two lanes, so that most are put into a lane that another has left.</summary>
    private static RunLog[] AssertFollowed(params RunScript[] scripts)
    {
        (RunLog[] logs, long steps, long rejected) = ScriptedLanes<Lanes2>.Run(Tolerance, LaneMethod.Rodas5P, 100_000, scripts);
        for (int i = 0; i < scripts.Length; i++)
        {
            LaneFollower.Follow($"run {i}", scripts[i], logs[i], Tolerance, LaneMethod.Rodas5P);
            AssertNear(i, scripts[i], logs[i]);
        }

        Assert.Equal(logs.Sum(log => log.Tries.Count(made => made.Accepted)), steps);
        Assert.Equal(logs.Sum(log => log.Tries.Count(made => !made.Accepted)), rejected);
        return logs;
    }

    /// <summary>The same run by the integrator of single runs: ending, events and states, as far as the tolerance goes.</summary>
    private static void AssertNear(int run, RunScript script, RunLog log)
    {
        (RunLog single, IntegrationResult result) = SingleRun.Of(script, Tolerance);
        Assert.True(result.Succeeded);
        // A rounding of t + h is no cut: where nothing has to be located both take the same steps from the first to the last.
        if (script.EventCount == 0)
            Assert.Equal((run, result.StepsAccepted, result.StepsRejected), (run, log.Tries.Count(made => made.Accepted), log.Tries.Count(made => !made.Accepted)));
        Assert.Equal((run, result.Status == IntegrationStatus.ReachedEnd ? LaneEnding.ReachedEnd : LaneEnding.Stopped), (run, log.Ending!.Value));
        Assert.Equal(single.Events.Select(e => (run, e.Index)), log.Events.Select(e => (run, e.Index)));
        Assert.All(single.Events.Zip(log.Events), pair => Assert.InRange(pair.Second.Time - pair.First.Time, -1e-4 * script.End, 1e-4 * script.End));
        Assert.Equal(single.Stops, log.Stops);
        Assert.Equal(1, log.Time / single.Time, 1e-4);
        for (int i = 0; i < log.State.Length; i++)
        {
            double bound = 2e-3 * Math.Max(Math.Abs(single.State[i]), script.Scales?[i] ?? 1);
            Assert.True(Math.Abs(log.State[i] - single.State[i]) <= bound, $"run {run}, unknown {i}: {log.State[i]:R} in the lane, {single.State[i]:R} by itself");
        }
    }
}
