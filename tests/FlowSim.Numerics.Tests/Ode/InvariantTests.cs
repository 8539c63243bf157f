using FlowSim.Numerics.Ode;
using Xunit.Abstractions;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>Sums that the equations conserve are conserved by the steps, to rounding.</summary>
public sealed class InvariantTests(ITestOutputHelper output)
{
    [Fact]
    public void Cascade_of_stiff_exchanges_keeps_its_sum_over_thousands_of_steps()
    {
        var options = new IntegratorOptions { MaxStep = 0.05 };
        double[] y = [0.5, 1, 0, 2, 0, 0.25, 0, 3];
        double sum = y.Sum();
        IntegrationResult result = new OdeIntegrator<Exchanges>(default, options).Integrate(0, 200, y);
        double drift = Math.Abs(y.Sum() / sum - 1);
        output.WriteLine($"drift {drift:E2}, {result}");
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        Assert.InRange(result.StepsAccepted, 3000, int.MaxValue);

        // Each step rounds some ten times; 4000 steps of random rounding leave about 4000^½ · 1e−16 and twice that in bad luck.
        Assert.InRange(drift, 0, 2e-13);
    }

    [Fact]
    public void Robertson_keeps_its_sum_over_eleven_decades()
    {
        double[] y = [1, 0, 0];
        IntegrationResult result = new OdeIntegrator<Robertson>(
            new Robertson(), new IntegratorOptions { ComponentScales = [1e-8, 1e-12, 1] }).Integrate(0, 1e11, y);
        output.WriteLine($"drift {y.Sum() - 1:E2}, {result}");
        Assert.Equal(1, y.Sum(), 1e-12);
    }

    /// <summary>Eight vessels in a ring that exchange by rates from 1e−2 to 1e5, driven in time; columns of the Jacobian sum to zero.</summary>
    private struct Exchanges : IOdeSystem
    {
        private const int N = 8;

        public readonly int Dimension => N;

        public readonly void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            derivative.Clear();
            for (int i = 0; i < N; i++)
            {
                int next = (i + 1) % N;
                double flow = Rate(i, t) * y[i] * y[i];
                derivative[i] -= flow;
                derivative[next] += flow;
            }
        }

        public readonly void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
        {
            jacobian.Clear();
            timeDerivative.Clear();
            for (int i = 0; i < N; i++)
            {
                int next = (i + 1) % N;
                double slope = 2 * Rate(i, t) * y[i];
                jacobian[i * N + i] -= slope;
                jacobian[next * N + i] += slope;
                double change = Math.Pow(10, i - 2) * 0.5 * Math.Cos(t) * y[i] * y[i];
                timeDerivative[i] -= change;
                timeDerivative[next] += change;
            }
        }

        private static double Rate(int i, double t) => Math.Pow(10, i - 2) * (1 + 0.5 * Math.Sin(t));
    }
}
