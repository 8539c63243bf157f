using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;
using Xunit.Abstractions;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>The driver: order of calls, cost, limits on steps, reuse.</summary>
public sealed class HybridIntegratorTests(ITestOutputHelper output)
{
    [Fact]
    public void Thermostat_keeps_its_period_over_a_thousand_switchings()
    {
        // y′ = 1 − y until 0.7, y′ = −y until 0.3. Closed form: both branches are exponentials, each lasts ln(7/3).
        bool heating = true;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, y, f) => f[0] = (heating ? 1 : 0) - y[0],
            Events = (_, y, g) => (g[0], g[1]) = (heating ? y[0] - 0.7 : -1, heating ? -1 : 0.3 - y[0]),
            Directions = [EventDirection.Rising, EventDirection.Rising],
            Respond = (index, _, _) =>
            {
                Assert.Equal(heating ? 0 : 1, index);
                heating = !heating;
                return EventResponse.Restart;
            },
        };
        double half = Math.Log(7.0 / 3);
        double[] y = [0.3];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1000.5 * half, y);

        output.WriteLine(result.ToString());
        Assert.Equal((IntegrationStatus.ReachedEnd, 1000), (result.Status, result.Events));
        for (int k = 0; k < 1000; k++)
            Assert.Equal((k + 1) * half, system.EventLog[k].Time, 1e-8 * (k + 1));
    }

    [Fact]
    public void Step_comes_before_its_event_and_ends_at_it()
    {
        List<string> calls = [];
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, _, g) => g[0] = t - 0.5,
            Directions = [EventDirection.Rising],
            Stops = [0.75],
            Observe = (in step) => calls.Add($"step to {step.End:F2}"),
            Respond = (_, t, _) =>
            {
                calls.Add($"event {t:F2}");
                return EventResponse.Restart;
            },
            RespondToStop = (_, t, _) =>
            {
                calls.Add($"stop {t:F2}");
                return EventResponse.Restart;
            },
        };
        new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { InitialStep = 1 }).Integrate(0, 1, new double[1]);
        Assert.Equal(["step to 0.50", "event 0.50", "step to 0.75", "stop 0.75", "step to 1.00"], calls);
    }

    [Fact]
    public void Costs_are_those_of_the_method()
    {
        // Seven new stages per step tried, the derivative at the end of each step that passes and at the start; a rejected
        // step reuses derivative and Jacobian.
        double[] y = [2, 0];
        IntegrationResult result = new OdeIntegrator<VanDerPol>(new VanDerPol(1e-3)).Integrate(0, 2, y);
        Assert.InRange(result.StepsRejected, 1, int.MaxValue);
        Assert.Equal(7 * (result.StepsAccepted + result.StepsRejected) + result.StepsAccepted + 1, result.DerivativeEvaluations);
        Assert.Equal(result.StepsAccepted, result.JacobianEvaluations);
        Assert.Equal(result.StepsAccepted + result.StepsRejected, result.LuFactorizations);
        Assert.Equal(0, result.EventFunctionEvaluations);
    }

    [Fact]
    public void First_and_largest_step_are_respected_also_after_restarts()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, y, f) => f[0] = -y[0],
            Stops = [0.5],
            RespondToStop = (_, _, _) => EventResponse.Restart,
        };
        var options = new IntegratorOptions { InitialStep = 1e-3, MaxStep = 0.02, RelativeTolerance = 1e-4 };
        new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 1, new double[] { 1 });

        Assert.Equal(1e-3, system.StepLog[0].End, 1e-15);
        Assert.Equal(1e-3, system.StepLog.First(step => step.Start == 0.5) is var first ? first.End - first.Start : 0, 1e-15);
        Assert.InRange(system.StepLog.Max(step => step.End - step.Start), 0.019, 0.02 + 1e-15);
    }

    [Fact]
    public void Scales_set_the_tolerance_of_each_component()
    {
        // The second component is 1e−9 of the first and only matters if its scale says so. Closed forms: cos t and 1e−9·cos 5t.
        double ErrorOfSmall(double scale)
        {
            var system = new ScriptedSystem(4)
            {
                Rhs = (_, y, f) => (f[0], f[1], f[2], f[3]) = (y[1], -y[0], 5 * y[3], -5 * y[2]),
            };
            double[] y = [1, 0, 1e-9, 0];
            var options = new IntegratorOptions { AbsoluteTolerance = 1e-8, ComponentScales = [1, 1, scale, scale] };
            new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 10, y);
            return Math.Abs(y[2] / (1e-9 * Math.Cos(50)) - 1);
        }

        Assert.InRange(ErrorOfSmall(1e-9), 0, 1e-5);
        Assert.InRange(ErrorOfSmall(1), 1e-4, double.PositiveInfinity);
    }

    [Fact]
    public void An_integrator_can_be_used_again_with_the_same_result()
    {
        var integrator = new OdeIntegrator<VanDerPol>(new VanDerPol(1e-3));
        double[] first = [2, 0], second = [2, 0];
        IntegrationResult a = integrator.Integrate(0, 2, first);
        IntegrationResult b = integrator.Integrate(0, 2, second);
        Assert.Equal(a, b);
        Assert.Equal(first, second);
    }

    [Fact]
    public void Integration_in_pieces_agrees_with_integration_in_one()
    {
        var integrator = new OdeIntegrator<VanDerPol>(new VanDerPol(1e-3));
        double[] whole = [2, 0], pieces = [2, 0];
        integrator.Integrate(0, 2, whole);
        integrator.Integrate(0, 0.7, pieces);
        integrator.Integrate(0.7, 2, pieces);
        Assert.Equal(whole[0], pieces[0], 1e-6);
    }
}
