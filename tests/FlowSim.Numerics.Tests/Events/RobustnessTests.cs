using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>Numerical trouble ends with a status and a finite state, never with an exception, a hang or a silent NaN.</summary>
public sealed class RobustnessTests
{
    [Fact]
    public void NaN_from_the_start_is_reported()
    {
        double[] y = [1];
        IntegrationResult result = Integrate((_, _, f) => f[0] = double.NaN, y, 0, 1);
        Assert.Equal((IntegrationStatus.NotFinite, 0.0, 1.0), (result.Status, result.Time, y[0]));
    }

    [Fact]
    public void NaN_state_is_reported()
    {
        double[] y = [double.NaN];
        Assert.Equal(IntegrationStatus.NotFinite, Integrate((_, y, f) => f[0] = -y[0], y, 0, 1).Status);
    }

    [Fact]
    public void NaN_past_a_barrier_stops_before_it()
    {
        // f cannot be computed from t = 1 on.
        double[] y = [0];
        IntegrationResult result = Integrate((t, _, f) => f[0] = t < 1 ? 1 : double.NaN, y, 0, 2);
        Assert.Equal(IntegrationStatus.NotFinite, result.Status);
        Assert.InRange(result.Time, 1 - 1e-9, 1);
        Assert.Equal(result.Time, y[0], 1e-9);
        Assert.InRange(result.StepsRejected, 1, 1000);
    }

    [Fact]
    public void NaN_only_at_the_end_of_a_step_rejects_it()
    {
        // Call 1 is the start, calls 2 to 8 the later stages, call 9 the end of the first step.
        int calls = 0;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = ++calls == 9 ? double.NaN : 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
        };
        double[] y = [0];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, y);
        Assert.Equal((IntegrationStatus.ReachedEnd, 1), (result.Status, result.StepsRejected));

        // Coefficients up to 10² leave some hundred roundings.
        Assert.Equal(1, y[0], 1e-13);
    }

    [Fact]
    public void NaN_where_only_too_long_steps_go_is_avoided()
    {
        // y = 1 − t + t²/4 = (1 − t/2)² from y′ = −√y; stages that overshoot below zero give NaN.
        double[] y = [1];
        IntegrationResult result = Integrate((_, y, f) => f[0] = -Math.Sqrt(y[0]), y, 0, 1.9);
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        Assert.Equal(0.0025, y[0], 1e-8);
    }

    [Fact]
    public void Blow_up_in_finite_time_is_reported()
    {
        // y′ = y² from 1 is 1/(1 − t).
        double[] y = [1];
        IntegrationResult result = Integrate((_, y, f) => f[0] = y[0] * y[0], y, 0, 2);
        Assert.False(result.Succeeded);
        Assert.Contains(result.Status, new[] { IntegrationStatus.StepTooSmall, IntegrationStatus.NotFinite });
        Assert.Equal(1, result.Time, 1e-6);
        Assert.True(double.IsFinite(y[0]));
    }

    [Fact]
    public void Noise_below_the_tolerance_it_is_asked_for_ends_with_step_too_small()
    {
        // The slope jumps with the last bits of t: no step is short enough.
        double[] y = [0];
        IntegrationResult result = Integrate((t, _, f) => f[0] = 1e6 * Math.Sin(1e17 * t), y, 1, 2);
        Assert.Equal(IntegrationStatus.StepTooSmall, result.Status);
        Assert.True(double.IsFinite(y[0]));
    }

    [Fact]
    public void NaN_event_values_are_reported()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, _, g) => g[0] = t < 0.5 ? -1 : double.NaN,
            Directions = [EventDirection.Rising],
        };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, new double[1]);
        Assert.Equal(IntegrationStatus.NotFinite, result.Status);
        Assert.InRange(result.Time, 0.5 - 1e-9, 0.5);
    }

    [Fact]
    public void Infinite_event_values_count_by_their_sign()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, _, g) => g[0] = t < 0.5 ? double.NegativeInfinity : double.PositiveInfinity,
            Directions = [EventDirection.Rising],
        };
        new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, new double[1]);
        Assert.Equal(0.5, Assert.Single(system.EventLog).Time, 1e-12);
    }

    [Fact]
    public void State_made_NaN_by_an_event_is_reported()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (_, y, g) => g[0] = y[0] - 0.5,
            Directions = [EventDirection.Rising],
            Respond = (_, _, y) =>
            {
                y[0] = double.NaN;
                return EventResponse.Stop;
            },
        };
        Assert.Equal(IntegrationStatus.NotFinite, new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, new double[1]).Status);
    }

    [Fact]
    public void Limit_on_steps_holds()
    {
        double[] y = [1];
        IntegrationResult result = Integrate((_, y, f) => f[0] = -y[0], y, 0, 100, new IntegratorOptions { MaxSteps = 7 });
        Assert.Equal((IntegrationStatus.TooManySteps, 7), (result.Status, result.StepsAccepted + result.StepsRejected));

        // The state returned is the one at the time returned: e⁻ᵗ.
        Assert.Equal(Math.Exp(-result.Time), y[0], 1e-8);
    }

    [Fact]
    public void Limit_on_events_holds()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            Events = (t, _, g) => g[0] = Math.Sin(t),
            Directions = [EventDirection.Either],
        };
        var options = new IntegratorOptions { MaxEvents = 3, MaxStep = 1 };
        double[] y = [0];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 100, y);
        Assert.Equal((IntegrationStatus.TooManyEvents, 3), (result.Status, result.Events));
        Assert.Equal(4 * Math.PI, result.Time, 1e-11);
        Assert.Equal(result.Time, y[0], 1e-11);
    }

    [Fact]
    public void Cancellation_ends_without_an_exception()
    {
        using var source = new CancellationTokenSource();
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, y, f) => f[0] = -y[0],
            Observe = (in step) =>
            {
                if (step.End > 1)
                    source.Cancel();
            },
        };
        double[] y = [1];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1e6, y, source.Token);
        Assert.Equal(IntegrationStatus.Cancelled, result.Status);
        Assert.Equal(system.StepLog[^1].End, result.Time);
        Assert.Equal(Math.Exp(-result.Time), y[0], 1e-8);
    }

    [Fact]
    public void Empty_interval_is_its_own_end()
    {
        double[] y = [3];
        IntegrationResult result = Integrate((_, _, f) => f[0] = 1, y, 5, 5);
        Assert.Equal((IntegrationStatus.ReachedEnd, 5.0, 3.0), (result.Status, result.Time, y[0]));
    }

    [Theory]
    [InlineData(1, 0, 1)]
    [InlineData(double.NaN, 1, 1)]
    [InlineData(0, double.PositiveInfinity, 1)]
    [InlineData(0, 1, 2)]
    public void Bad_arguments_are_refused(double start, double end, int length)
    {
        var integrator = new HybridIntegrator<ScriptedSystem>(new ScriptedSystem(1) { Rhs = (_, _, f) => f[0] = 1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => integrator.Integrate(start, end, new double[length]));
    }

    public static TheoryData<IntegratorOptions> BadOptions =>
    [
        new() { RelativeTolerance = 0 },
        new() { RelativeTolerance = double.NaN },
        new() { AbsoluteTolerance = 0 },
        new() { AbsoluteTolerance = double.PositiveInfinity },
        new() { ComponentScales = [1, 1] },
        new() { ComponentScales = [-1] },
        new() { InitialStep = 0 },
        new() { MaxStep = 0 },
        new() { MaxStep = double.NaN },
        new() { MinStepRatio = 0 },
        new() { MaxSteps = 0 },
        new() { MaxEvents = -1 },
    ];

    [Theory]
    [MemberData(nameof(BadOptions))]
    public void Bad_options_are_refused(IntegratorOptions options) =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => new HybridIntegrator<ScriptedSystem>(new ScriptedSystem(1) { Rhs = (_, _, f) => f[0] = 1 }, options));

    private static IntegrationResult Integrate(RightHandSide rhs, double[] y, double start, double end, IntegratorOptions? options = null) =>
        new HybridIntegrator<ScriptedSystem>(new ScriptedSystem(y.Length) { Rhs = rhs }, options).Integrate(start, end, y);
}
