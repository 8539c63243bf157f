using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests;

/// <summary>Van der Pol's oscillator with the stiffness in ε: <c>y₁′ = y₂, ε·y₂′ = (1 − y₁²)·y₂ − y₁</c>.</summary>
internal struct VanDerPol(double epsilon) : IOdeSystem
{
    public readonly int Dimension => 2;

    public readonly void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
    {
        derivative[0] = y[1];
        derivative[1] = ((1 - y[0] * y[0]) * y[1] - y[0]) / epsilon;
    }

    public readonly void Jacobian(
        double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
    {
        jacobian[0] = 0;
        jacobian[1] = 1;
        jacobian[2] = (-2 * y[0] * y[1] - 1) / epsilon;
        jacobian[3] = (1 - y[0] * y[0]) / epsilon;
        timeDerivative.Clear();
    }
}
