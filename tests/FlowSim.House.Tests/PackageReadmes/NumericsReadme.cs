using FlowSim.Numerics.Ode;

namespace ReadmeExample;

/// <summary>The program in the README of the package FlowSim.Numerics, held to the published solution at t = 40.</summary>
public class NumericsReadme
{
    [Fact]
    public void Runs_and_agrees_with_the_published_solution()
    {
        // README begins
        double[] y = [1, 0, 0];
        var options = new IntegratorOptions { ComponentScales = [1, 1e-4, 1] };
        IntegrationResult result = new OdeIntegrator<Robertson>(new Robertson(), options).Integrate(0, 40, y);
        Console.WriteLine($"{result.Status} in {result.StepsAccepted} steps: {y[0]:g6} {y[1]:g6} {y[2]:g6}");
        // README ends

        // Reference: IVP test set, University of Bari, as in StiffReferenceTests.
        Assert.True(result.Succeeded);
        Assert.InRange(y[0], 0.71582706872 * (1 - 1e-6), 0.71582706872 * (1 + 1e-6));
        Assert.InRange(y[1], 9.1855347646e-6 * (1 - 1e-6), 9.1855347646e-6 * (1 + 1e-6));
        Assert.InRange(y[2], 0.28416374575 * (1 - 1e-6), 0.28416374575 * (1 + 1e-6));
    }

    // README begins
    internal readonly struct Robertson : IOdeSystem
    {
        public int Dimension => 3;

        public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            derivative[0] = -0.04 * y[0] + 1e4 * y[1] * y[2];
            derivative[2] = 3e7 * y[1] * y[1];
            derivative[1] = -derivative[0] - derivative[2];
        }

        public void Jacobian(double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch) =>
            FiniteDifferenceJacobian.Forward(this, t, y, derivative, jacobian, timeDerivative, scratch, autonomous: true);
    }
    // README ends
}
