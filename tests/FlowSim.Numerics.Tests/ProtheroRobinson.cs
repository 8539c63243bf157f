using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests;

/// <summary>Prothero and Robinson's problem <c>y′ = −λ·(y − cos t) − sin t</c>, whose solution from 1 is cos t for every λ.</summary>
internal readonly struct ProtheroRobinson(double stiffness) : IOdeSystem
{
    public int Dimension => 1;

    public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) =>
        derivative[0] = -stiffness * (y[0] - Math.Cos(t)) - Math.Sin(t);

    public void Jacobian(
        double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
    {
        jacobian[0] = -stiffness;
        timeDerivative[0] = -stiffness * Math.Sin(t) - Math.Cos(t);
    }
}
