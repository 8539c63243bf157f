using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>The steps handed out join without gaps and follow the solution between their ends.</summary>
public sealed class DenseStepTests
{
    [Fact]
    public void Pieces_join_in_time_and_state_and_follow_the_solution()
    {
        // sin and cos, with events that cut steps and let them go on.
        const double End = 10;
        double lastEnd = 0;
        double[] last = [0, 1];
        double[] now = new double[2];
        double worst = 0;
        var system = new ScriptedSystem(2)
        {
            Rhs = (_, y, f) => (f[0], f[1]) = (y[1], -y[0]),
            Events = (_, y, g) => (g[0], g[1]) = (y[0] - 0.3, y[1] - 0.6),
            Directions = [EventDirection.Either, EventDirection.Either],
            Stops = [1, 2, 3],
            Observe = (in step) =>
            {
                Assert.Equal(lastEnd, step.Start);
                step.Evaluate(step.Start, now);

                // One rounding of the state where an event cut the step, exactly nothing elsewhere.
                Assert.Equal(last[0], now[0], 2.3e-16);
                Assert.Equal(last[1], now[1], 2.3e-16);
                for (int k = 0; k <= 10; k++)
                {
                    double t = step.Start + (step.End - step.Start) * k / 10;
                    step.Evaluate(t, now);
                    worst = Math.Max(worst, Math.Max(Math.Abs(now[0] - Math.Sin(t)), Math.Abs(now[1] - Math.Cos(t))));
                    Assert.Equal(now[1], step.Evaluate(t, 1));
                }

                step.Evaluate(step.End, last);
                lastEnd = step.End;
            },
        };
        double[] y = [0, 1];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, End, y);
        Assert.InRange(result.Events, 6, 7);
        Assert.Equal(End, lastEnd);
        Assert.Equal(last, y);

        // Ten time units at a relative tolerance of 1e−8 per step.
        Assert.InRange(worst, 0, 2e-7);
    }

    [Fact]
    public void Times_outside_the_step_are_refused()
    {
        int refused = 0;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Observe = (in step) =>
            {
                foreach (double t in (double[])[step.Start - 0.01, step.End + 0.01, double.NaN])
                {
                    try
                    {
                        step.Evaluate(t, 0);
                    }
                    catch (ArgumentOutOfRangeException)
                    {
                        refused++;
                    }
                }
            },
        };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, new double[1]);
        Assert.Equal(3 * result.StepsAccepted, refused);
    }
}
