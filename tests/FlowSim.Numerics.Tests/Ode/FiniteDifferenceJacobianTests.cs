using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>Difference Jacobians against analytic ones.</summary>
public sealed class FiniteDifferenceJacobianTests
{
    [Fact]
    public void Agrees_with_the_analytic_Jacobian_to_half_the_digits()
    {
        double[] y = [0.7, 2.0];
        double[] f = new double[2], jacobian = new double[4], time = new double[2], scratch = new double[4];
        new Forced().Derivative(0.4, y, f);
        FiniteDifferenceJacobian.Forward(new Forced(), 0.4, y, f, jacobian, time, scratch);

        // Derivatives of (y₀²·y₁·sin t, y₁·e⁻ʸ⁰) by the rules of calculus.
        double s = Math.Sin(0.4), e = Math.Exp(-0.7);
        double[] expected = [2 * 0.7 * 2 * s, 0.49 * s, -2 * e, e];
        for (int i = 0; i < 4; i++)
            Assert.Equal(expected[i], jacobian[i], 1e-7);
        Assert.Equal(0.49 * 2 * Math.Cos(0.4), time[0], 1e-7);
        Assert.Equal(0, time[1]);
    }

    [Fact]
    public void Typical_sizes_set_the_perturbation_of_small_unknowns()
    {
        // y₀² near 1e−10: the slope 2e−10 drowns in a perturbation of 3e−11 unless the size is told.
        double[] y = [1e-10, 0];
        double[] f = new double[2], jacobian = new double[4], time = new double[2], scratch = new double[4];
        new Square().Derivative(0, y, f);
        FiniteDifferenceJacobian.Forward(new Square(), 0, y, f, jacobian, time, scratch, autonomous: true, [1e-10, 1]);
        Assert.Equal(2e-10, jacobian[0], 2e-10 * 1e-6);
        FiniteDifferenceJacobian.Forward(new Square(), 0, y, f, jacobian, time, scratch, autonomous: true);
        Assert.NotEqual(2e-10, jacobian[0], 2e-10 * 0.1);
    }

    [Fact]
    public void Integration_with_it_is_as_accurate()
    {
        // y = exp(sin t) with y′ = y·cos t.
        double[] y = [1];
        IntegrationResult result = new OdeIntegrator<Growth>(default).Integrate(0, 5, y);
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        Assert.Equal(Math.Exp(Math.Sin(5)), y[0], 1e-7);
    }

    private struct Forced : IOdeSystem
    {
        public readonly int Dimension => 2;

        public readonly void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) =>
            (derivative[0], derivative[1]) = (y[0] * y[0] * y[1] * Math.Sin(t), y[1] * Math.Exp(-y[0]));

        public readonly void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch) =>
            throw new NotSupportedException();
    }

    private struct Square : IOdeSystem
    {
        public readonly int Dimension => 2;

        public readonly void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) =>
            (derivative[0], derivative[1]) = (y[0] * y[0], 0);

        public readonly void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch) =>
            throw new NotSupportedException();
    }

    private struct Growth : IOdeSystem
    {
        public readonly int Dimension => 1;

        public readonly void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) =>
            derivative[0] = y[0] * Math.Cos(t);

        public readonly void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch) =>
            FiniteDifferenceJacobian.Forward(this, t, y, derivative, jacobian, timeDerivative, scratch);
    }
}
