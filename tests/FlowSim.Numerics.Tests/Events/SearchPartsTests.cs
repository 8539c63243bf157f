using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;
using FsCheck.Xunit;

namespace FlowSim.Numerics.Tests.Events;

/// <summary>The parts of the search for events, each by itself.</summary>
public sealed class SearchPartsTests
{
    [Property(MaxTest = 500)]
    public void Bracket_ends_narrow_around_the_root_in_few_tries(int seed)
    {
        // x³ − c has the root ∛c; tanh(k·(x − c)) is flat far from its root, the worst for secants.
        var random = new Random(seed);
        double root = 0.01 + 0.98 * random.NextDouble();
        double steepness = Math.Pow(10, 4 * random.NextDouble());
        double F(double x) => seed % 2 == 0 ? x * x * x - root * root * root : Math.Tanh(steepness * (x - root));

        const double Tolerance = 1e-13;
        var bracket = new RootBracket(0, F(0), 1, F(1), -1, Tolerance);
        int tries = 0;
        while (bracket.TryNext(out double t))
        {
            tries++;
            bracket.Narrow(t, F(t));
        }

        Assert.True(F(bracket.Far) >= 0);
        Assert.True(F(bracket.Near) < 0);
        Assert.InRange(bracket.Far - bracket.Near, 0, Tolerance);
        Assert.Equal(root, bracket.Far, 2 * Tolerance);

        // Bisection needs log₂(1/1e−13) = 43.2, so 44; the method may take one more (its theorem), and one for rounding.
        Assert.InRange(tries, 1, 46);
    }

    [Fact]
    public void Bracket_stops_where_times_cannot_be_split()
    {
        double near = 1e6, far = Math.BitIncrement(near);
        var bracket = new RootBracket(near, -1, far, 1, -1, 1e-13);
        Assert.False(bracket.TryNext(out _));
    }

    [Fact]
    public void Bracket_never_ends_on_NaN()
    {
        var bracket = new RootBracket(0, -1, 1, 1, -1, 1e-13);
        while (bracket.TryNext(out double t))
            bracket.Narrow(t, t < 0.3 ? -1 : t > 0.6 ? 1 : double.NaN);
        Assert.Equal(0.6, bracket.Far, 1e-12);
    }

    [Property(MaxTest = 300)]
    public void Every_root_of_a_quartic_within_one_step_is_an_event(int seed)
    {
        // y′ is the derivative of Π (t − rₖ), which one step of Rodas5P integrates exactly up to rounding: its extension is
        // a quartic. Roots no closer than 0.02 and not all in one quarter of the step.
        var random = new Random(seed);
        double[] roots;
        do
        {
            roots = [.. Enumerable.Range(0, 4).Select(_ => 0.01 + 0.98 * random.NextDouble()).Order()];
        }
        while (roots.Zip(roots.Skip(1), (a, b) => b - a).Min() < 0.02 || (int)(4 * roots[0]) == (int)(4 * roots[3]));

        double ProductWithout(double t, params int[] left) =>
            Enumerable.Range(0, 4).Except(left).Aggregate(1.0, (product, k) => product * (t - roots[k]));
        double Value(double t) => ProductWithout(t);
        double Slope(double t) => Enumerable.Range(0, 4).Sum(k => ProductWithout(t, k));
        double Curvature(double t) => Enumerable.Range(0, 4).Sum(k => Enumerable.Range(0, 4).Where(m => m != k).Sum(m => ProductWithout(t, k, m)));
        var system = new ScriptedSystem(1)
        {
            Rhs = (t, _, f) => f[0] = Slope(t),
            TimeDerivativeOfQuadrature = (t, _, ft) => ft[0] = Curvature(t),
            Events = (_, y, g) => g[0] = y[0],
            Directions = [EventDirection.Either],
        };

        // The error estimate does not know that the step is exact, hence the tolerance.
        var options = new IntegratorOptions { InitialStep = 1, RelativeTolerance = 1e-3, AbsoluteTolerance = 1 };
        double[] y = [Value(0)];
        IntegrationResult result = new HybridIntegrator<ScriptedSystem>(system, options).Integrate(0, 1, y);

        Assert.Equal(1, result.StepsAccepted);
        Assert.Equal(4, system.EventLog.Count);
        for (int k = 0; k < 4; k++)
        {
            // The tolerance of location, and rounding (stages enter the extension with weights up to 80) over the slope.
            Assert.Equal(roots[k], system.EventLog[k].Time, 3e-13 + 1e-13 / Math.Abs(Slope(roots[k])));
        }
    }

    [Fact]
    public void Functions_far_from_zero_and_constants_are_not_followed()
    {
        Span<(int Cell, int Sign)> dips = stackalloc (int, int)[QuarticScreen.MaxDips];
        Assert.Equal(0, QuarticScreen.FindDips([-1, -1, -1, -1, -1], dips));
        Assert.Equal(0, QuarticScreen.FindDips([5, 4, 3, 4, 5], dips));
        Assert.Equal(0, QuarticScreen.FindDips([1, 2, 3, 4, 5], dips));
        Assert.Equal(0, QuarticScreen.FindDips([1, double.PositiveInfinity, 3, 4, 5], dips));
    }

    [Fact]
    public void Dip_at_a_sample_is_followed_from_its_side()
    {
        Span<(int Cell, int Sign)> dips = stackalloc (int, int)[QuarticScreen.MaxDips];
        Assert.Equal(1, QuarticScreen.FindDips([4.1, 1.1, 0.1, 1.1, 4.1], dips));
        Assert.Equal((QuarticScreen.Cells / 2, 1), dips[0]);
        Assert.Equal(1, QuarticScreen.FindDips([-4.1, -1.1, -0.1, -1.1, -4.1], dips));
        Assert.Equal((QuarticScreen.Cells / 2, -1), dips[0]);
    }
}
