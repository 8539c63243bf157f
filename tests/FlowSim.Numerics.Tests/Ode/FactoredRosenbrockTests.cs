using System.Numerics;
using FlowSim.Numerics.Ode;
using Xunit.Abstractions;

namespace FlowSim.Numerics.Tests.Ode;

/// <summary>
/// Order, conservation and stability of the factored method, measured on problems whose solutions are known: by construction, by
/// the roots of the method's own stability function, and by the least number there is to conserve.
/// </summary>
public sealed class FactoredRosenbrockTests(ITestOutputHelper output)
{
    public enum Taken
    {
        /// <summary>The whole Jacobian as one factor.</summary>
        Exact,

        /// <summary>Two factors whose sum is the Jacobian.</summary>
        Factored,

        /// <summary>Nothing at all: an explicit method.</summary>
        None,

        /// <summary>A matrix that has nothing to do with the problem.</summary>
        Wrong,
    }

    [Theory]
    [InlineData(Taken.Exact)]
    [InlineData(Taken.Factored)]
    [InlineData(Taken.None)]
    [InlineData(Taken.Wrong)]
    public void Order_is_2_with_any_matrix_on_a_non_autonomous_problem(Taken taken)
    {
        double coarse = ErrorAtEnd(taken, 1000), fine = ErrorAtEnd(taken, 2000);
        double order = Math.Log2(coarse / fine);
        output.WriteLine($"{taken}: order {order:F3}, errors {coarse:E2} {fine:E2}");
        Assert.Equal(2, order, 0.1);
    }

    [Theory]
    [InlineData(Taken.Exact)]
    [InlineData(Taken.Factored)]
    [InlineData(Taken.Wrong)]
    public void The_error_estimate_behaves_like_the_square_and_errs_on_the_cautious_side(Taken taken)
    {
        const double Start = 0.7;
        (double Estimate, double Error) Of(double h)
        {
            var step = new FactoredRosenbrock(2);
            Known.Solution(Start).CopyTo(step.Start, 0);
            var system = new Known(taken);
            step.Begin(system, Start);
            step.Step(system, Start, h);
            return (step.Error.Max(Math.Abs), Distance(step.End, Known.Solution(Start + h)));
        }

        (double Estimate, double Error) coarse = Of(0.01), fine = Of(0.005);
        double power = Math.Log2(coarse.Estimate / fine.Estimate);
        output.WriteLine($"{taken}: power {power:F3}, estimate {fine.Estimate:E2}, error {fine.Error:E2}");
        Assert.Equal(2, power, 0.1);
        Assert.True(fine.Error < fine.Estimate, $"error {fine.Error}, estimate {fine.Estimate}");
    }

    /// <summary>
    /// A problem that is quadratic in time is solved exactly by any method of order 2 whose stages see the right times: y′ = 2t has
    /// y = t². Without a matrix k₁ = 2t, k₂ = 2(t + h) − 2k₁; with one, the factors only delay what does not depend on y.
    /// </summary>
    [Fact]
    public void What_depends_on_time_alone_is_integrated_exactly()
    {
        var system = new Decay([0, 0, 0]) { PerTime = 2 };
        var step = new FactoredRosenbrock(1);
        step.Begin(system, 0);
        double t = 0;
        foreach (double h in new[] { 0.5, 3, 1e-3, 20 })
        {
            step.Step(system, t, h);
            t += h;
            step.EvaluateEnd(system, t);
            step.Accept(system);
            Assert.Equal(t * t, step.Start[0], 1e-13 * t * t);
        }
    }

    /// <summary>
    /// The claim of the doc comment: with z = z₁ + z₂ + z₃ on the negative real axis, the growth of a step is at most 1 in
    /// size. Scanned over 1e-4 to 1e8 in each, four points to the decade; the growth is read off a step of the method itself.
    /// </summary>
    [Fact]
    public void No_step_grows_on_the_negative_real_axis_with_up_to_three_factors()
    {
        double[] scan = [0, .. Enumerable.Range(0, 49).Select(i => Math.Pow(10, -4 + (i / 4.0)))];
        var step = new FactoredRosenbrock(1);
        double largest = 0, smallest = 0;
        foreach (double a in scan)
        {
            foreach (double b in scan.Where(b => b <= a))
            {
                foreach (double c in scan.Where(c => c <= b))
                {
                    double growth = Growth(step, a, b, c);
                    largest = Math.Max(largest, growth);
                    smallest = Math.Min(smallest, growth);
                    Assert.True(Math.Abs(growth) <= 1 + 1e-12, $"growth {growth} at {a}, {b}, {c}");
                }
            }
        }

        output.WriteLine($"growth between {smallest:F4} and {largest:F4}");
    }

    /// <summary>What the scan would see of a method that is not stable: without a matrix the growth is 1 + z + z²/2, as Taylor has it.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(10)]
    public void What_the_matrix_leaves_out_must_not_be_stiff(double z)
    {
        var step = new FactoredRosenbrock(1) { Start = { [0] = 1 } };
        var system = new Decay([z]) { InMatrix = false };
        step.Begin(system, 0);
        step.Step(system, 0, 1);
        Assert.Equal(1 - z + (z * z / 2), step.End[0], 1e-12);
    }

    [Fact]
    public void One_factor_is_damped_to_nothing_by_a_huge_step()
    {
        var step = new FactoredRosenbrock(1);

        // L-stable: R(z) falls like 1/z.
        Assert.True(Math.Abs(Growth(step, 1e6)) < 1e-5);
        Assert.True(Math.Abs(Growth(step, 1e9)) < 1e-8);
    }

    [Fact]
    public void The_sum_is_conserved_to_rounding_when_the_factors_have_zero_column_sums()
    {
        // Heat moved between seven boxes: in a ring, across it, and to the last box; the derivative has terms of its own besides.
        var system = new Boxes(7, new Random(5));
        var step = new FactoredRosenbrock(7);
        for (int i = 0; i < 7; i++)
            step.Start[i] = 100 * (i + 1);
        double before = step.Start.Sum();
        step.Begin(system, 0);
        double t = 0;

        // What is moved in a step is up to h times the rates, and that is what is rounded.
        foreach (double h in new[] { 1e-3, 0.1, 10, 1e3, 1e6, 1 })
        {
            step.Step(system, t, h);
            t += h;
            step.EvaluateEnd(system, t);
            step.Accept(system);
            Assert.Equal(before, step.Start.Sum(), 1e-15 * before * (10 + t));
        }
    }

    [Fact]
    public void A_step_allocates_nothing()
    {
        var system = new Boxes(7, new Random(5));
        var step = new FactoredRosenbrock(7);
        step.Start[0] = 1;
        step.Begin(system, 0);
        void Steps()
        {
            for (int i = 0; i < 100; i++)
            {
                step.Step(system, i, 1);
                step.EvaluateEnd(system, i + 1);
                step.Accept(system);
            }
        }

        Assert.Equal(0, Allocated.By(Steps));
    }

    /// <summary>The vectorised sums against the same in plain numbers, for every length around whole vectors.</summary>
    [Fact]
    public void Every_length_of_state_takes_the_same_step()
    {
        double alone = Growth(new FactoredRosenbrock(1), 0.7, 0.2);
        for (int n = 1; n <= 3 * Vector<double>.Count + 1; n++)
        {
            var step = new FactoredRosenbrock(n);
            Array.Fill(step.Start, 1);
            var system = new Decay([0.7, 0.2], n);
            step.Begin(system, 0);
            step.Step(system, 0, 1);
            Assert.All(step.End, end => Assert.Equal(alone, end, 1e-15));
            Assert.All(step.Error, error => Assert.Equal(step.Error[0], error, 1e-15));
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public void No_unknowns_are_refused(int dimension) => Assert.Throws<ArgumentOutOfRangeException>(() => new FactoredRosenbrock(dimension));

    private static double Growth(FactoredRosenbrock step, params double[] z)
    {
        step.Start[0] = 1;
        var system = new Decay(z);
        step.Begin(system, 0);
        step.Step(system, 0, 1);
        return step.End[0];
    }

    private static double ErrorAtEnd(Taken taken, int steps)
    {
        const double End = 2;
        var step = new FactoredRosenbrock(2);
        Known.Solution(0).CopyTo(step.Start, 0);
        var system = new Known(taken);
        step.Begin(system, 0);
        for (int i = 0; i < steps; i++)
        {
            step.Step(system, i * End / steps, End / steps);
            step.EvaluateEnd(system, (i + 1) * End / steps);
            step.Accept(system);
        }

        return Distance(step.Start, Known.Solution(End));
    }

    private static double Distance(double[] a, double[] b) => a.Zip(b, (x, y) => Math.Abs(x - y)).Max();

    /// <summary>y₁ = 1/(1 + t²) and y₂ = exp(sin t), coupled and non-autonomous, by construction.</summary>
    private sealed class Known(Taken taken) : IFactoredOdeSystem
    {
        private readonly double[] _now = new double[4];
        private readonly double[] _kept = new double[4];
        private double _gamma;

        public int Dimension => 2;

        public static double[] Solution(double t) => [1 / (1 + (t * t)), Math.Exp(Math.Sin(t))];

        public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            double s = 1 + (t * t);
            derivative[0] = -2 * t * y[0] * y[0];
            derivative[1] = Math.Cos(t) * y[1] * y[0] * s;
            _now[0] = -4 * t * y[0];
            _now[1] = 0;
            _now[2] = Math.Cos(t) * y[1] * s;
            _now[3] = Math.Cos(t) * y[0] * s;
        }

        public void KeepMatrix()
        {
            double[] matrix = taken switch
            {
                Taken.None => [0, 0, 0, 0],
                Taken.Wrong => [-1.3, 0.4, 0.9, -2.1],
                _ => _now,
            };
            matrix.CopyTo(_kept, 0);
        }

        public void Factor(double gammaStep) => _gamma = gammaStep;

        public void Solve(Span<double> rightHandSide)
        {
            if (taken == Taken.Factored)
            {
                // Neither commutes with the other, so that the product is not what it stands for.
                Solve2(rightHandSide, 0.5 * _kept[0], _kept[1], 0, _kept[3]);
                Solve2(rightHandSide, 0.5 * _kept[0], 0, _kept[2], 0);
            }
            else
            {
                Solve2(rightHandSide, _kept[0], _kept[1], _kept[2], _kept[3]);
            }
        }

        private void Solve2(Span<double> v, double a, double b, double c, double d)
        {
            (a, b, c, d) = (1 - (_gamma * a), -_gamma * b, -_gamma * c, 1 - (_gamma * d));
            double determinant = (a * d) - (b * c);
            (v[0], v[1]) = (((d * v[0]) - (b * v[1])) / determinant, ((a * v[1]) - (c * v[0])) / determinant);
        }
    }

    /// <summary>y′ = −(a + b + …) y + c t, each part its own factor.</summary>
    private sealed class Decay(double[] rates, int dimension = 1) : IFactoredOdeSystem
    {
        private double _gamma;

        public double PerTime { get; init; }

        public bool InMatrix { get; init; } = true;

        public int Dimension => dimension;

        public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            for (int i = 0; i < dimension; i++)
                derivative[i] = (PerTime * t) - (rates.Sum() * y[i]);
        }

        public void KeepMatrix()
        {
        }

        public void Factor(double gammaStep) => _gamma = gammaStep;

        public void Solve(Span<double> rightHandSide)
        {
            foreach (double rate in InMatrix ? rates : [])
            {
                for (int i = 0; i < dimension; i++)
                    rightHandSide[i] /= 1 + (_gamma * rate);
            }
        }
    }

    /// <summary>Boxes that only exchange; the matrix knows two kinds of exchange, the derivative a third.</summary>
    private sealed class Boxes : IFactoredOdeSystem
    {
        private readonly int _n;
        private readonly double[] _to;
        private readonly double[] _last;
        private double _gamma;

        public Boxes(int n, Random random)
        {
            _n = n;
            _to = [.. Enumerable.Range(0, n).Select(_ => random.NextDouble() * 3)];
            _last = [.. Enumerable.Range(0, n).Select(_ => random.NextDouble() * 3)];
        }

        public int Dimension => _n;

        public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
        {
            derivative.Clear();
            for (int i = 0; i < _n; i++)
            {
                Move(derivative, i, (i + 1) % _n, i + 1 < _n ? _to[i] * y[i] : 0);
                Move(derivative, i, _n - 1, _last[i] * y[i]);
                Move(derivative, i, (i + 3) % _n, 0.01 * Math.Sin(y[i] + t));
            }
        }

        public void KeepMatrix()
        {
        }

        public void Factor(double gammaStep) => _gamma = gammaStep;

        public void Solve(Span<double> v)
        {
            // (I − γA)w = v, lower triangular: box i gives to i + 1.
            double carried = 0;
            for (int i = 0; i < _n; i++)
            {
                double rate = i + 1 < _n ? _to[i] : 0;
                v[i] = (v[i] + carried) / (1 + (_gamma * rate));
                carried = _gamma * rate * v[i];
            }

            for (int i = 0; i + 1 < _n; i++)
            {
                double w = v[i] / (1 + (_gamma * _last[i]));
                v[_n - 1] += v[i] - w;
                v[i] = w;
            }
        }

        private static void Move(Span<double> derivative, int from, int to, double rate)
        {
            derivative[from] -= rate;
            derivative[to] += rate;
        }
    }
}
