using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>After construction, integrating allocates nothing at all.</summary>
public sealed class AllocationTests
{
    [Fact]
    public void Integration_with_events_stops_restarts_and_rejections_allocates_nothing()
    {
        var integrator = new HybridIntegrator<Ball>(default, new IntegratorOptions { InitialStep = 10 });
        double[] y = [1, 0];
        IntegrationResult result = default;
        Assert.Equal(0, Allocated.By(() =>
        {
            (y[0], y[1]) = (1, 0);
            result = integrator.Integrate(0, 3, y);
        }));
        Assert.True(result is { Events: > 3, Restarts: > 3, StepsRejected: > 0 }, result.ToString());
    }

    [Fact]
    public void First_integration_of_a_plain_system_allocates_nothing_beyond_the_coefficients()
    {
        // The coefficients are allocated once per process, at their first use.
        Assert.NotEmpty(Rodas5PTableau.A);

        var integrator = new OdeIntegrator<VanDerPol>(new VanDerPol(1e-3));
        double[] y = [2, 0];
        long before = GC.GetAllocatedBytesForCurrentThread();
        IntegrationResult result = integrator.Integrate(0, 2, y);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.InRange(result.StepsAccepted, 100, int.MaxValue);
    }

    /// <summary>A struct: a bouncing ball in air, with stops, a dip to look for and a reader of the dense output.</summary>
    private struct Ball : IHybridSystem
    {
        private double _sum;

        public readonly int Dimension => 2;

        public readonly int EventCount => 2;

        public readonly void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) =>
            (derivative[0], derivative[1]) = (y[1], -9.81 - 0.1 * y[1] * Math.Abs(y[1]) * (1 + 0.1 * Math.Sin(50 * t)));

        public readonly void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch) =>
            FiniteDifferenceJacobian.Forward(this, t, y, derivative, jacobian, timeDerivative, scratch);

        public readonly void EventValues(double t, ReadOnlySpan<double> y, Span<double> values) =>
            (values[0], values[1]) = (y[0], y[0] - 0.5);

        public readonly EventDirection DirectionOf(int index) => index == 0 ? EventDirection.Falling : EventDirection.Either;

        public readonly EventResponse OnEvent(int index, double t, Span<double> y)
        {
            if (index == 1)
                return EventResponse.Continue;
            (y[0], y[1]) = (0, -0.8 * y[1]);
            return EventResponse.Restart;
        }

        public readonly double NextStop(double t) => Math.Floor(t / 0.7 + 1.5) * 0.7;

        public readonly EventResponse OnStop(double t, Span<double> y) => EventResponse.Restart;

        public void OnStep(in DenseStep step) => _sum += step.Evaluate((step.Start + step.End) / 2, 0);
    }
}
