using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>What the integrator's own words promise of arguments, ends of steps and statuses.</summary>
public class HybridContractTests
{
    [Fact]
    public void A_system_with_unknowns_is_needed()
    {
        Assert.Throws<ArgumentNullException>(() => new HybridIntegrator<ScriptedSystem>(null!));
        Assert.Throws<ArgumentNullException>(() => new OdeIntegrator<ScriptedSystem>(null!));
        Assert.Equal("system", Assert.Throws<ArgumentOutOfRangeException>(() => new HybridIntegrator<ScriptedSystem>(Constant(0))).ParamName);
        Assert.Equal("system", Assert.Throws<ArgumentOutOfRangeException>(() => new HybridIntegrator<FewerEvents>(new FewerEvents())).ParamName);
    }

    [Theory]
    [InlineData(double.NaN, 1, "start")]
    [InlineData(double.NegativeInfinity, 1, "start")]
    [InlineData(0, double.NaN, "end")]
    [InlineData(0, -1, "end")]
    [InlineData(-1e308, 1e308, "end")]
    public void Times_that_are_refused(double start, double end, string name)
    {
        var integrator = new HybridIntegrator<ScriptedSystem>(Constant(1));
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => integrator.Integrate(start, end, new double[1])).ParamName);
    }

    [Fact]
    public void An_interval_is_as_long_as_its_ends_are_apart() =>
        Assert.Equal(IntegrationStatus.ReachedEnd, new HybridIntegrator<ScriptedSystem>(Constant(1)).Integrate(1e308, 1e308, new double[1]).Status);

    /// <summary>At the end nothing is asked of the rates any more, whatever was changed there.</summary>
    [Fact]
    public void Past_the_end_nothing_need_be_computable()
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, y, f) => f[0] = Math.Sqrt(y[0]),
            Stops = [1],
            RespondToStop = (_, _, y) =>
            {
                y[0] = -1;
                return EventResponse.Restart;
            },
        };
        double[] state = [1];
        Assert.Equal(IntegrationStatus.ReachedEnd, new HybridIntegrator<ScriptedSystem>(system).Integrate(0, 1, state).Status);
        Assert.Equal([-1], state);
        Assert.Equal(IntegrationStatus.ReachedEnd, new HybridIntegrator<ScriptedSystem>(system).Integrate(1, 1, state).Status);
    }

    [Theory]
    [InlineData(double.NaN, 0)]
    [InlineData(0, double.NaN)]
    [InlineData(double.PositiveInfinity, 0)]
    public void Slopes_that_are_no_numbers(double jacobian, double timeDerivative)
    {
        var system = new Sloped(jacobian, timeDerivative);
        IntegrationResult result = new HybridIntegrator<Sloped>(system).Integrate(0, 1, new double[1]);
        Assert.Equal((IntegrationStatus.NotFinite, 0.0, 0), (result.Status, result.Time, result.StepsRejected));
    }

    /// <summary>The most steps are those tried, in vain or not.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(17)]
    [InlineData(60)]
    public void Steps_in_vain_count(int most)
    {
        var system = new ScriptedSystem(1) { Rhs = (t, _, f) => f[0] = Math.Exp(30 * (Math.Cos(2 * Math.PI * t) - 1)) };
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { MaxSteps = most, InitialStep = 0.4 }).Integrate(0, 10, new double[1]);
        Assert.Equal((IntegrationStatus.TooManySteps, most), (result.Status, result.StepsAccepted + result.StepsRejected));
        Assert.True(most == 1 || result.StepsRejected > 2);
    }

    /// <summary>A stop within 1.1 steps is reached at once unless that is longer than a step may be; one within 2 in two even steps.</summary>
    [Theory]
    [InlineData(1.05, double.PositiveInfinity, 1)]
    [InlineData(1.05, 1, 2)]
    [InlineData(1.05, 1.05, 1)]
    [InlineData(1, 1, 1)]
    [InlineData(0.5, 1, 1)]
    [InlineData(1.2, double.PositiveInfinity, 2)]
    public void Steps_before_an_end(double end, double longest, int steps)
    {
        ScriptedSystem system = Constant(1);
        new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { InitialStep = 1, MaxStep = longest }).Integrate(0, end, new double[1]);
        Assert.Equal(steps, system.StepLog.Count);
        Assert.All(system.StepLog, step => Assert.Equal(end / steps, step.End - step.Start, 1e-12));
    }

    /// <summary>The error goes with h⁵, so a step in vain says exactly how long the next may be: it comes out the same from 1.1 to 4 times too long.</summary>
    [Fact]
    public void The_step_after_one_in_vain()
    {
        double First(double tried)
        {
            var system = new ScriptedSystem(1) { Rhs = (t, _, f) => f[0] = 1e4 * t * t * t * t, TimeDerivativeOfQuadrature = (t, _, ft) => ft[0] = 4e4 * t * t * t };

            // The tolerance all but absolute, so that it is the same at any length.
            var options = new IntegratorOptions { InitialStep = tried, RelativeTolerance = 1e-14, AbsoluteTolerance = 1 };
            IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 100, new double[1]);
            Assert.Equal(1, result.StepsRejected);
            return system.StepLog[0].End;
        }

        var longest = Enumerable.Range(0, 400).Select(i => 0.01 * Math.Pow(1.02, i)).First(h =>
        {
            var system = new ScriptedSystem(1) { Rhs = (t, _, f) => f[0] = 1e4 * t * t * t * t, TimeDerivativeOfQuadrature = (t, _, ft) => ft[0] = 4e4 * t * t * t };
            new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { InitialStep = h, RelativeTolerance = 1e-14, AbsoluteTolerance = 1 }).Integrate(0, h, new double[1]);
            return system.StepLog[0].End < h;
        });
        double first = First(1.1 * longest);
        Assert.InRange(first, 0.85 * longest, 0.92 * longest);
        foreach (double times in (double[])[1.3, 2, 3, 4])
            Assert.Equal(1, First(times * longest) / first, 1e-6);
    }

    /// <summary>
    /// After a first step whose error is near to what is tolerated the next is shorter, though nothing was tried in vain. (The case is one of those of the lanes.)
    /// </summary>
    [Fact]
    public void A_second_step_may_be_shorter_than_the_first()
    {
        const double Fifth = 10240;
        var system = new ScriptedSystem(1)
        {
            Rhs = (t, _, f) => f[0] = 1 + t + (Fifth * t * t * t * t),
            TimeDerivativeOfQuadrature = (t, _, ft) => ft[0] = 1 + (4 * Fifth * t * t * t),
        };
        new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { RelativeTolerance = 1e-5, AbsoluteTolerance = 1e-7 }).Integrate(0, 5, [1.0]);
        Assert.True(system.StepLog[1].End - system.StepLog[0].End < 0.98 * system.StepLog[0].End);
    }

    /// <summary>A run with a time unit of 1e-22 s, and one that begins anew late in its interval with nothing moving: what is left counts, not the clock.</summary>
    [Fact]
    public void The_unit_and_origin_of_time_do_not_matter()
    {
        var fast = new ScriptedSystem(1) { Rhs = (_, y, f) => f[0] = -1e22 * y[0] };
        double[] y = [1];
        Assert.Equal(IntegrationStatus.ReachedEnd, new HybridIntegrator<ScriptedSystem>(fast).Integrate(0, 3e-22, y).Status);
        Assert.Equal(Math.Exp(-3), y[0], 1e-7);

        var late = new ScriptedSystem(1)
        {
            Rhs = (t, _, f) => f[0] = t > 100 ? Math.Pow(t - 100, 4) : 0,
            TimeDerivativeOfQuadrature = (t, _, ft) => ft[0] = t > 100 ? 4 * Math.Pow(t - 100, 3) : 0,
            Stops = [100],
            RespondToStop = (_, _, _) => EventResponse.Restart,
        };
        y = [1];
        Assert.True(new HybridIntegrator<ScriptedSystem>(late).Integrate(0, 103, y).Succeeded);
        Assert.Equal(3 * InitialStep.FractionWhenNothingMoves, late.StepLog.First(step => step.Start == 100).End - 100, 1e-9);
        Assert.Equal(1 + (Math.Pow(3, 5) / 5), y[0], 1e-5);
    }

    /// <summary>An event at the end of a step leaves nothing of it over: no piece without length is handed out.</summary>
    [Theory]
    [InlineData(EventResponse.Continue)]
    [InlineData(EventResponse.Restart)]
    public void No_piece_is_empty(EventResponse response)
    {
        var system = new ScriptedSystem(1)
        {
            Rhs = (_, _, f) => f[0] = 1,
            TimeDerivativeOfQuadrature = (_, _, ft) => ft[0] = 0,
            Events = (t, _, g) => (g[0], g[1]) = (t - 1, Math.Min(t - 0.999, 0)),
            Directions = [EventDirection.Rising, EventDirection.Rising],
            Respond = (_, _, _) => response,
            Stops = [1],
        };
        Assert.True(new HybridIntegrator<ScriptedSystem>(system, new IntegratorOptions { InitialStep = 1 }).Integrate(0, 2, new double[1]).Succeeded);
        Assert.Contains(system.EventLog, e => e.Time == 1);
        Assert.All(system.StepLog, step => Assert.True(step.End > step.Start));
    }

    /// <summary>A step's polynomial meets both ends to the last bit, and answers for the first unknowns alone; anything else than its unknowns is refused.</summary>
    [Fact]
    public void Ends_and_unknowns_of_a_step()
    {
        var w = new Rodas5PWorkspace(3);
        ((double[])[1e16, -0.1, 3]).CopyTo(w.Y0, 0);
        ((double[])[0.1, 1e16, 0.7]).CopyTo(w.Y1, 0);
        ((double[])[0.3, 2, -1, 0.1, 5, 7, 1, -2, 0.2]).CopyTo(w.Extension, 0);
        var step = DenseStep.Whole(1, 2, 3, w);
        double[] y = new double[3], two = new double[2];
        step.Evaluate(1, y);
        Assert.Equal(w.Y0, y);
        step.Evaluate(3, y);
        Assert.Equal(w.Y1, y);
        step.Evaluate(3, two);
        Assert.Equal([0.1, 1e16], two);
        Assert.Equal(0.7, step.Evaluate(3, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => DenseStep.Whole(1, 2, 3, w).Evaluate(2, new double[4]));
        Assert.Equal("component", Assert.Throws<ArgumentOutOfRangeException>(() => DenseStep.Whole(1, 2, 3, w).Evaluate(2, 3)).ParamName);
        Assert.Equal("component", Assert.Throws<ArgumentOutOfRangeException>(() => DenseStep.Whole(1, 2, 3, w).Evaluate(2, -1)).ParamName);
    }

    /// <summary>A few roundings outside the step are allowed, at any size of the time, and no more.</summary>
    [Theory]
    [InlineData(1e-6)]
    [InlineData(1)]
    [InlineData(1e6)]
    public void Roundings_outside_a_step(double t)
    {
        var w = new Rodas5PWorkspace(1);
        w.Y1[0] = 1;
        double end = 2 * t;
        Assert.Equal(1, DenseStep.Whole(t, t, end, w).Evaluate(Math.BitIncrement(end), 0));
        Assert.Equal(0, DenseStep.Whole(t, t, end, w).Evaluate(Math.BitDecrement(t), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => DenseStep.Whole(t, t, end, w).Evaluate(end * (1 + 1e-12), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => DenseStep.Whole(t, t, end, w).Evaluate(t * (1 - 1e-12), 0));
    }

    private static ScriptedSystem Constant(int dimension) =>
        new(dimension) { Rhs = (_, _, f) => f.Fill(1), TimeDerivativeOfQuadrature = (_, _, ft) => ft.Clear() };

    private sealed class Sloped(double slope, double timeSlope) : HybridSystemBase(1)
    {
        public override void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) => derivative[0] = 1;

        public override void Jacobian(
            double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch) =>
            (jacobian[0], timeDerivative[0]) = (slope, timeSlope);
    }

    private sealed class FewerEvents() : HybridSystemBase(1)
    {
        public override int EventCount => -1;

        public override void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) => derivative[0] = 1;
    }
}
