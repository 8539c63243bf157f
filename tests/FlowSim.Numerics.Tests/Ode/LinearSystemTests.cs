using FlowSim.Numerics.Ode;
using FsCheck.Xunit;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>Linear systems, whose solutions are known from how they are built.</summary>
public sealed class LinearSystemTests
{
    [Property(MaxTest = 100)]
    public void Random_stiff_spectra_follow_the_matrix_exponential(int seed)
    {
        // A = Q·D·Qᵀ with orthogonal Q and chosen D, so exp(A·t) = Q·exp(D·t)·Qᵀ; decay rates over seven decades and
        // one damped oscillation.
        var random = new Random(seed);
        int n = random.Next(3, 9);
        double t = Math.Pow(10, 2 * random.NextDouble() - 1);
        Matrix<double> q = Matrix<double>.Build.Dense(n, n, (_, _) => random.NextDouble() - 0.5).QR().Q;
        Matrix<double> d = Matrix<double>.Build.Dense(n, n);
        Matrix<double> exponential = Matrix<double>.Build.Dense(n, n);
        for (int i = 2; i < n; i++)
        {
            d[i, i] = -Math.Pow(10, 7 * random.NextDouble() - 2);
            exponential[i, i] = Math.Exp(d[i, i] * t);
        }

        double decay = -random.NextDouble(), turn = 1 + 3 * random.NextDouble();
        (d[0, 0], d[0, 1], d[1, 0], d[1, 1]) = (decay, turn, -turn, decay);
        double c = Math.Exp(decay * t) * Math.Cos(turn * t), s = Math.Exp(decay * t) * Math.Sin(turn * t);
        (exponential[0, 0], exponential[0, 1], exponential[1, 0], exponential[1, 1]) = (c, s, -s, c);

        Vector<double> start = Vector<double>.Build.Dense(n, _ => 2 * random.NextDouble() - 1);
        Vector<double> expected = q * exponential * q.Transpose() * start;

        double[] y = start.ToArray();
        var system = new Linear((q * d * q.Transpose()).ToRowMajorArray(), n);
        IntegrationResult result = new OdeIntegrator<Linear>(system).Integrate(0, t, y);

        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        double error = (Vector<double>.Build.Dense(y) - expected).InfinityNorm();

        // Up to a few hundred steps at a relative tolerance of 1e−8 of components of size 1.
        Assert.InRange(error, 0, 1e-6);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(1e3)]
    [InlineData(1e6)]
    public void Stiff_non_autonomous_scalar_follows_its_closed_form(double stiffness)
    {
        // Prothero and Robinson's problem: y′ = −λ·(y − cos t) − sin t has the solution cos t for every λ.
        double[] y = [1];
        IntegrationResult result = new OdeIntegrator<ProtheroRobinson>(new ProtheroRobinson(stiffness)).Integrate(0, 10, y);
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        Assert.Equal(Math.Cos(10), y[0], 1e-7);
    }

    [Fact]
    public void Result_does_not_depend_on_the_unit_of_time()
    {
        // The same problem in microseconds and in years takes the same steps.
        double[] scales = [1e-6, 1, 3e7];
        int[] steps = [.. scales.Select(scale =>
        {
            double[] y = [1, 0];
            var system = new Linear([-1 / scale, 0.5 / scale, 1 / scale, -0.5 / scale], 2);
            return new OdeIntegrator<Linear>(system).Integrate(0, 3 * scale, y).StepsAccepted;
        })];
        Assert.Equal(steps[0], steps[1]);
        Assert.Equal(steps[1], steps[2]);
    }

    private readonly struct Linear(double[] matrix, int n) : IOdeSystem
    {
        public int Dimension => n;

        public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            for (int i = 0; i < n; i++)
            {
                derivative[i] = 0;
                for (int j = 0; j < n; j++)
                    derivative[i] += matrix[i * n + j] * y[j];
            }
        }

        public void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch)
        {
            matrix.CopyTo(jacobian);
            timeDerivative.Clear();
        }
    }
}
