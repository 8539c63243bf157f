using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;
using Xunit.Abstractions;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>Problems of the IVP test set of the University of Bari, with reference solutions as given there.</summary>
public sealed class StiffReferenceTests(ITestOutputHelper output)
{
    /// <summary>y2 of Robertson falls to 1e−13; the scales make its tolerance follow.</summary>
    private static readonly IntegratorOptions s_robertsonOptions =
        new() { RelativeTolerance = 1e-8, AbsoluteTolerance = 1e-10, ComponentScales = [1e-8, 1e-12, 1] };

    [Fact]
    public void Robertson_at_40()
    {
        // Reference: IVP test set, University of Bari, as given in this project's list of references.
        double[] y = [1, 0, 0];
        IntegrationResult result = new OdeIntegrator<Robertson>(new Robertson(), s_robertsonOptions).Integrate(0, 40, y);
        AssertDigits([0.71582706872, 9.1855347646e-6, 0.28416374575], y, 6, result);
    }

    [Fact]
    public void Robertson_at_1e11()
    {
        // Reference: as above.
        double[] y = [1, 0, 0];
        IntegrationResult result = new OdeIntegrator<Robertson>(new Robertson(), s_robertsonOptions).Integrate(0, 1e11, y);
        AssertDigits([0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050], y, 6, result);
    }

    [Fact]
    public void Van_der_Pol_at_2()
    {
        // Reference: as above; the form with ε = 1e−6, whose limit cycle has corners of width 1e−6.
        double[] y = [2, 0];
        IntegrationResult result = new OdeIntegrator<VanDerPol>(new VanDerPol(1e-6)).Integrate(0, 2, y);
        AssertDigits([1.706167732170469, -0.8928097010248], y, 6, result);
    }

    [Fact]
    public void Robertson_events()
    {
        // Reference: output printed in the SUNDIALS example cvRoberts_dns (CVODE at relative tolerance 1e−4, of which builds
        // differ in the fourth digit: 2.0790e+07 and 2.0803e+07), read in public copies of it; hence three digits.
        var system = new Robertson(withEvents: true);
        double[] y = [1, 0, 0];
        IntegrationResult result = new HybridIntegrator<Robertson>(system, s_robertsonOptions).Integrate(0, 4e10, y);

        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        Assert.Equal([1, 0], system.Log.Select(e => e.Index));
        output.WriteLine($"{system.Log[0].Time:R} {system.Log[1].Time:R} {result}");
        Assert.Equal(2.6391e-1, system.Log[0].Time, 2.6391e-1 * 1e-3);
        Assert.Equal(2.0790e7, system.Log[1].Time, 2.0790e7 * 1e-3);
    }

    [Fact]
    public void First_Robertson_event_agrees_with_another_method()
    {
        // Reference: the classical fourth-order Runge–Kutta method with 26 400 steps of 1e−5, whose own error
        // (1e−5·2e3)⁵ per fast time is below 1e−8 of the fast component and far below on the slow ones.
        var system = new Robertson(withEvents: true);
        double[] y = [1, 0, 0];
        new HybridIntegrator<Robertson>(system, s_robertsonOptions).Integrate(0, 1, y);
        (int index, double time, double[] state) = Assert.Single(system.Log);
        double[] reference = RungeKutta4(system, time, 26_400, [1, 0, 0]);

        Assert.Equal(1, index);
        output.WriteLine($"{reference[0] - state[0]:E2} {reference[1] - state[1]:E2} {reference[2] - 0.01:E2}");
        Assert.Equal(0.01, reference[2], 0.01 * 1e-7);
        Assert.Equal(reference[0], state[0], 1e-8);
    }

    private static double[] RungeKutta4(Robertson system, double end, int steps, double[] y)
    {
        double h = end / steps;
        double[] k1 = new double[3], k2 = new double[3], k3 = new double[3], k4 = new double[3], x = new double[3];
        for (int step = 0; step < steps; step++)
        {
            system.Derivative(0, y, k1);
            for (int i = 0; i < 3; i++)
                x[i] = y[i] + h / 2 * k1[i];
            system.Derivative(0, x, k2);
            for (int i = 0; i < 3; i++)
                x[i] = y[i] + h / 2 * k2[i];
            system.Derivative(0, x, k3);
            for (int i = 0; i < 3; i++)
                x[i] = y[i] + h * k3[i];
            system.Derivative(0, x, k4);
            for (int i = 0; i < 3; i++)
                y[i] += h / 6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
        }

        return y;
    }

    private void AssertDigits(double[] expected, double[] actual, int digits, IntegrationResult result)
    {
        Assert.Equal(IntegrationStatus.ReachedEnd, result.Status);
        double worst = expected.Zip(actual, (e, a) => Math.Abs(a / e - 1)).Max();
        output.WriteLine($"{-Math.Log10(worst):F2} digits, {result}");
        Assert.True(worst < 0.5 * Math.Pow(10, -digits), $"{-Math.Log10(worst):F2} digits agree");
    }
}
