using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>First step, controller and single step as their comments define them; options and differences at their borders.</summary>
public class StepControlTests
{
    /// <summary>h = max((e s³/c⁴)^(1/5), √(e/c)), e = 0.01, of the norms s of f and c of J f + ∂f/∂t; at most the state's own time and the interval.</summary>
    [Theory]
    [InlineData(0, 0, 1, 2, 1, 1)]
    [InlineData(0, 0, 1, 2, 1e6, 1e3)]
    [InlineData(3, -1, 1, 2, 1e-7, 1e-7)]
    [InlineData(3, -1, 1e-12, 1e-13, 1, 0)]
    [InlineData(0, 0, 1e3, 0, 1e-3, 0)]
    public void The_first_step(double y0, double y1, double f0, double f1, double slope, double forcing)
    {
        const double Relative = 1e-6, Interval = 1e5;
        double[] absolute = [1e-8, 2e-8];
        var w = new Rodas5PWorkspace(2);
        (w.Y0[0], w.Y0[1], w.F0[0], w.F0[1]) = (y0, y1, f0, f1);
        ((double[])[0.1 * slope, slope, -2 * slope, 0.7 * slope]).CopyTo(w.Jacobian, 0);
        (w.TimeDerivative[0], w.TimeDerivative[1]) = (forcing, -forcing);

        double[] second = [(0.1 * slope * f0) + (slope * f1) + forcing, (-2 * slope * f0) + (0.7 * slope * f1) - forcing];
        double Norm(double a, double b) => Math.Sqrt((Math.Pow(a / (absolute[0] + (Relative * Math.Abs(y0))), 2) + Math.Pow(b / (absolute[1] + (Relative * Math.Abs(y1))), 2)) / 2);
        double size = Norm(y0, y1), speed = Norm(f0, f1), bend = Norm(second[0], second[1]);
        double expected = Math.Max(Math.Pow(0.01 * Math.Pow(speed, 3) / Math.Pow(bend, 4), 0.2), Math.Sqrt(0.01 / bend));
        if (size > 1)
            expected = Math.Min(expected, size / speed);
        Assert.Equal(1, InitialStep.Estimate(w, absolute, Relative, Interval) / Math.Min(expected, Interval), 1e-12);
    }

    /// <summary>Where nothing moves, or the powers overflow, a fraction of the interval.</summary>
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1e120, 1)]
    public void The_first_step_without_a_hint(double f, double forcing)
    {
        var w = new Rodas5PWorkspace(1);
        (w.F0[0], w.TimeDerivative[0]) = (f, forcing);
        foreach (double interval in (double[])[7, 0.02])
            Assert.Equal(InitialStep.FractionWhenNothingMoves * interval, InitialStep.Estimate(w, [1], 1e-6, interval), 1e-15);
    }

    /// <summary>Gustafsson's controller by hand: h over max(e^(1/5), (h₋/h) (e²/e₋)^(1/5))/0.9, within a growth of 6 and a shrinking to a fifth.</summary>
    [Theory]
    [InlineData(1, 0.5, 1, 0.8)]
    [InlineData(1, 0.5, 0.5, 0.3)]
    [InlineData(1, 0.9, 3, 0.2)]
    [InlineData(0.1, 1e-9, 0.6, 0.02)]
    [InlineData(1, 0.5, 1, 1e-12)]
    [InlineData(2, 0.01, 0.1, 0.9)]
    public void The_step_after_two(double before, double errorBefore, double h, double error)
    {
        var controller = default(StepSizeController);
        Assert.Equal(before / Math.Clamp(Math.Pow(errorBefore, 0.2) / 0.9, 1.0 / 6, 5), controller.AfterAccepted(before, errorBefore), 1e-13);
        double shrink = Math.Max(Math.Pow(error, 0.2), before / h * Math.Pow(error * error / Math.Max(errorBefore, 0.01), 0.2)) / 0.9;
        Assert.Equal(h / Math.Clamp(shrink, 1.0 / 6, 5), controller.AfterAccepted(h, error), 1e-13);
    }

    [Fact]
    public void The_step_after_one_in_vain_does_not_grow_and_the_next_may()
    {
        foreach (bool finite in (bool[])[true, false])
        {
            var controller = default(StepSizeController);
            double h = finite ? controller.AfterRejected(1, 32) : controller.AfterNotFinite(1);
            Assert.Equal(finite ? 0.45 : 0.25, h, 1e-15);
            Assert.Equal(h, controller.AfterAccepted(h, 1e-3));
            Assert.True(controller.AfterAccepted(h, 1e-3) > 2 * h);
        }

        var other = default(StepSizeController);
        Assert.Equal(1, other.AfterRejected(1, 0.1));
        Assert.Equal(0.2, other.AfterRejected(1, 1e9), 1e-15);
    }

    /// <summary>A step whose matrix is singular, or with a stage that is no number, cannot be computed; the system is asked nothing more.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_step_that_cannot_be_computed(bool singular)
    {
        int calls = 0;
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, y, f) =>
            {
                Assert.True(double.IsFinite(y[0]));
                f[0] = ++calls == 3 ? double.NaN : 1;
            },
        };
        var w = new Rodas5PWorkspace(1);
        (w.F0[0], w.Jacobian[0]) = (1, singular ? 1 / (Rodas5PTableau.Gamma * 0.5) : 0);
        int evaluations = 0;
        Assert.False(Rodas5PStep.TryStep(ref system, 0, 0.5, w, ref evaluations));
        Assert.Equal(singular ? 0 : 3, calls);
        Assert.Equal(calls, evaluations);
    }

    [Fact]
    public void The_ends_of_the_options()
    {
        var system = new ScriptedSystem(1) { Rhs = (_, _, f) => f[0] = 1, TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0 };
        foreach (IntegratorOptions options in (IntegratorOptions[])
            [
                new() { RelativeTolerance = 1e-14 }, new() { RelativeTolerance = 0.1 }, new() { MinStepRatio = 1e-15 }, new() { MaxSteps = 1 }, new() { MaxEvents = 0 },
            ])
        {
            double[] y = [0];
            Assert.True(new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 1, y).Succeeded);
            Assert.Equal(1, y[0], 1e-12);
        }

        Assert.Equal(
            nameof(IntegratorOptions.AbsoluteTolerance),
            Assert.Throws<ArgumentOutOfRangeException>(() => new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { AbsoluteTolerance = -1 })).ParamName);
        Assert.Throws<ArgumentOutOfRangeException>(() => new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { MinStepRatio = 1 }));
    }

    /// <summary>Differences are taken forwards: rates need not exist below a state of zero. Without time the slope in time is zero, whatever stood there.</summary>
    [Fact]
    public void Differences_look_ahead()
    {
        var system = new ScriptedSystem(2) { Rhs = (_, y, f) => (f[0], f[1]) = (Math.Pow(y[0], 1.5), y[1] < 0 ? double.NaN : 3 * y[1]) };
        double[] jacobian = [7, 7, 7, 7], time = [7, 7];
        foreach (double[] sizes in (double[][])[[], [1e-3, 1e-3]])
        {
            FiniteDifferenceJacobian.Forward(system, 0, [0, 0], [0, 0], jacobian, time, new double[4], autonomous: true, typicalSizes: sizes);
            Assert.InRange(jacobian[0], 0, 0.02);
            Assert.Equal([0, 0], [jacobian[1], jacobian[2]]);
            Assert.Equal(3, jacobian[3], 1e-6);
            Assert.Equal([0, 0], time);
        }
    }

    [Theory]
    [InlineData(1, 4, 2, 4, 0, "derivative")]
    [InlineData(2, 2, 2, 4, 0, "jacobian")]
    [InlineData(2, 1, 2, 4, 0, "jacobian")]
    [InlineData(2, 4, 3, 4, 0, "timeDerivative")]
    [InlineData(2, 4, 2, 3, 0, "scratch")]
    [InlineData(2, 4, 2, 4, 1, "typicalSizes")]
    [InlineData(2, 4, 2, 4, 3, "typicalSizes")]
    public void Lengths_of_differences_are_checked(int derivative, int jacobian, int time, int scratch, int sizes, string name)
    {
        var system = new ScriptedSystem(2) { Rhs = (_, _, f) => f.Clear() };
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => FiniteDifferenceJacobian.Forward(
            system, 0, new double[2], new double[derivative], new double[jacobian], new double[time], new double[scratch], typicalSizes: new double[sizes])).ParamName);
    }

    [Fact]
    public void Differences_need_a_system() => Assert.Throws<ArgumentNullException>(
        () => FiniteDifferenceJacobian.Forward<ScriptedSystem>(null!, 0, new double[1], new double[1], new double[1], new double[1], new double[2]));

    /// <summary>
    /// The matrix is kept where rates were evaluated at the start of steps, and again when a step is made: of y′ = −y², begun at 1 and stepped with a long step, every new start
    /// has its own slope −2 y.
    /// </summary>
    [Fact]
    public void A_factored_step_keeps_the_matrix_of_its_start()
    {
        var step = new FactoredRosenbrock(1);
        var system = new Squares();
        step.Start[0] = 1;
        step.Begin(system, 0);
        Assert.Equal(-2, system.Kept);
        for (int i = 0; i < 3; i++)
        {
            step.Step(system, i, 0.5);
            step.EvaluateEnd(system, i + 0.5);
            double end = step.End[0];
            step.Accept(system);
            Assert.Equal(-2 * end, system.Kept);
            Assert.Equal((end, -end * end), (step.Start[0], step.StartDerivative[0]));
        }
    }

    private sealed class Squares : IFactoredOdeSystem
    {
        private double _slope;
        private double _gamma;

        public double Kept { get; private set; }

        public int Dimension => 1;

        public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) => (derivative[0], _slope) = (-y[0] * y[0], -2 * y[0]);

        public void KeepMatrix() => Kept = _slope;

        public void Factor(double gammaStep) => _gamma = gammaStep;

        public void Solve(Span<double> rightHandSide) => rightHandSide[0] /= 1 - (_gamma * Kept);
    }
}
