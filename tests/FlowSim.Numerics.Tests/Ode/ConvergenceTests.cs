using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;
using Xunit.Abstractions;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>Measured orders, with steps of fixed length on problems whose solutions are known in closed form.</summary>
public sealed class ConvergenceTests(ITestOutputHelper output)
{
    [Fact]
    public void Order_is_5_on_a_smooth_non_autonomous_problem()
    {
        // Large enough steps to stay clear of rounding, small enough for the leading term.
        double coarse = ErrorAtEnd(40), fine = ErrorAtEnd(80);
        double order = Math.Log2(coarse / fine);
        output.WriteLine($"order {order:F3}, errors {coarse:E2} {fine:E2}");
        Assert.Equal(Rodas5PTableau.Order, order, 0.1);
    }

    [Fact]
    public void Extension_has_order_4_within_a_step()
    {
        // A single step from exact data: the error of a formula of order 4 behaves like h⁵.
        double coarse = ErrorWithinStep(0.04), fine = ErrorWithinStep(0.02);
        double order = Math.Log2(coarse / fine) - 1;
        output.WriteLine($"order {order:F3}, errors {coarse:E2} {fine:E2}");
        Assert.Equal(4, order, 0.1);
    }

    [Fact]
    public void Error_estimate_behaves_like_the_fifth_power()
    {
        // The leading term rules only at small steps: its coefficient nearly vanishes in this method.
        double coarse = EstimateOfStep(0.005), fine = EstimateOfStep(0.0025);
        double power = Math.Log2(coarse / fine);
        output.WriteLine($"power {power:F3}");
        Assert.Equal(Rodas5PTableau.EmbeddedOrder + 1, power, 0.1);
    }

    [Theory]
    [InlineData(1e-4)]
    [InlineData(1e-7)]
    [InlineData(1e-10)]
    public void Adaptive_error_follows_the_tolerance(double tolerance)
    {
        var integrator = new OdeIntegrator<Known>(
            default, new IntegratorOptions { RelativeTolerance = tolerance, AbsoluteTolerance = tolerance });
        double[] y = Known.Solution(0);
        IntegrationResult result = integrator.Integrate(0, 2, y);
        double error = Distance(y, Known.Solution(2));
        output.WriteLine($"{error:E2} {result}");
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        Assert.InRange(error, 0, 10 * tolerance);
    }

    private static double ErrorAtEnd(int steps)
    {
        const double End = 2;
        var w = new Rodas5PWorkspace(2);
        Known.Solution(0).CopyTo(w.Y0, 0);
        for (int i = 0; i < steps; i++)
        {
            Step(w, i * End / steps, End / steps);
            w.Advance();
        }

        return Distance(w.Y0, Known.Solution(End));
    }

    private static double ErrorWithinStep(double h)
    {
        const double Start = 1;
        var w = new Rodas5PWorkspace(2);
        Known.Solution(Start).CopyTo(w.Y0, 0);
        Step(w, Start, h);
        Rodas5PStep.ComputeExtension(w);
        DenseStep dense = DenseStep.Whole(Start, h, Start + h, w);
        double worst = 0;
        double[] y = new double[2];
        for (int k = 1; k < 20; k++)
        {
            double t = Start + h * k / 20;
            dense.Evaluate(t, y);
            worst = Math.Max(worst, Distance(y, Known.Solution(t)));
        }

        return worst;
    }

    private static double EstimateOfStep(double h)
    {
        const double Start = 1;
        var w = new Rodas5PWorkspace(2);
        Known.Solution(Start).CopyTo(w.Y0, 0);
        Step(w, Start, h);
        return Distance(w.Error.ToArray(), [0, 0]);
    }

    private static void Step(Rodas5PWorkspace w, double t, double h)
    {
        Known system = default;
        int evaluations = 0;
        system.Derivative(t, w.Y0, w.F0);
        system.Jacobian(t, w.Y0, w.F0, w.Jacobian, w.TimeDerivative, w.JacobianScratch);
        Assert.True(Rodas5PStep.TryStep(ref system, t, h, w, ref evaluations));
        Assert.Equal(Rodas5PTableau.Stages - 1, evaluations);
    }

    private static double Distance(double[] a, double[] b) => a.Zip(b, (x, y) => Math.Abs(x - y)).Max();

    /// <summary>y₁ = 1/(1 + t²) and y₂ = exp(sin t), coupled and non-autonomous, by construction.</summary>
    private struct Known : IOdeSystem
    {
        public readonly int Dimension => 2;

        internal static double[] Solution(double t) => [1 / (1 + t * t), Math.Exp(Math.Sin(t))];

        public readonly void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            derivative[0] = -2 * t * y[0] * y[0];
            derivative[1] = Math.Cos(t) * y[1] * y[0] * (1 + t * t);
        }

        public readonly void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
        {
            double s = 1 + t * t;
            jacobian[0] = -4 * t * y[0];
            jacobian[1] = 0;
            jacobian[2] = Math.Cos(t) * y[1] * s;
            jacobian[3] = Math.Cos(t) * y[0] * s;
            timeDerivative[0] = -2 * y[0] * y[0];
            timeDerivative[1] = y[1] * y[0] * (-Math.Sin(t) * s + Math.Cos(t) * 2 * t);
        }
    }
}
