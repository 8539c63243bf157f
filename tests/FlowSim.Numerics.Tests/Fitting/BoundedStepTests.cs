using FlowSim.Numerics.Fitting;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>Steps within bounds and along bent valleys, on residuals that are quadratic, whose second derivatives a difference shows exactly.</summary>
public class BoundedStepTests
{
    private static readonly double[] Start = [0.5, -1];

    private static readonly double[] Scale = [2, 0.5];

    private static readonly double[,] Slopes = { { 1, 0.3 }, { -0.4, 2 }, { 0.7, -1.1 } };

    /// <summary>Geodesic acceleration (Transtrum and Sethna 2012, from memory): a = −(JᵀJ + λD²)⁻¹ Jᵀ (vᵀ r″ v), the step v + a/2.</summary>
    [Theory]
    [InlineData(0, 0.05, false)]
    [InlineData(0.6, 0.05, false)]
    [InlineData(0.6, 0.05, true)]
    [InlineData(0, -0.02, true)]
    [InlineData(0.6, 5, false)]
    public void A_step_is_bent_by_half_the_acceleration(double damping, double curvature, bool robust)
    {
        (FitFunction function, FitPoint point) = Problem(curvature, robust ? RobustLoss.Cauchy(3) : RobustLoss.None);
        double[] raw = [.. Slopes.Cast<double>()];
        (double[] jacobian, double[] residuals) = Weighing.ForSteps(function, point, raw);
        Matrix<double> j = Matrix<double>.Build.Dense(3, 2, (i, c) => jacobian[(i * 2) + c]);
        Vector<double> r = Vector<double>.Build.Dense(residuals);
        Matrix<double> normal = j.TransposeThisAndMultiply(j) + (damping * Matrix<double>.Build.DenseOfDiagonalArray([Scale[0] * Scale[0], Scale[1] * Scale[1]]));
        Vector<double> v = -normal.Solve(j.TransposeThisAndMultiply(r));
        Vector<double> second = Vector<double>.Build.Dense(3, i => function.StepWeight(i, point.Residuals[i]) * curvature * Second(i, [v[0], v[1]]));
        Vector<double> a = -normal.Solve(j.TransposeThisAndMultiply(second));
        double Norm(Vector<double> x) => Math.Sqrt(Math.Pow(Scale[0] * x[0], 2) + Math.Pow(Scale[1] * x[1], 2));
        bool bends = 2 * Norm(a) <= 0.75 * Norm(v);
        Assert.Equal(Math.Abs(curvature) < 1, bends);

        var steps = new BoundedStep(function, point, jacobian, residuals, Scale);
        (double[] x, double gain) = steps.At(damping, bent: true)!.Value;
        (double[] straight, double same) = steps.At(damping)!.Value;
        for (int i = 0; i < 2; i++)
        {
            Assert.Equal(Start[i] + v[i], straight[i], 1e-12);
            Assert.Equal(Start[i] + v[i] + (bends ? 0.5 * a[i] : 0), x[i], 1e-11);
        }

        double expected = 0.5 * ((r * r) - ((r + (j * v)) * (r + (j * v))));
        Assert.Equal(expected, gain, 1e-12);
        Assert.Equal(expected, same, 1e-12);
    }

    /// <summary>A bend that would leave the bounds is not made in that parameter.</summary>
    [Fact]
    public void A_bend_stays_within_the_bounds()
    {
        (FitFunction free, FitPoint from) = Problem(0.05, RobustLoss.None);
        double[] raw = [.. Slopes.Cast<double>()];
        double[] straight = new BoundedStep(free, from, raw, from.Residuals, Scale).At(0)!.Value.X;
        double[] bent = new BoundedStep(free, from, raw, from.Residuals, Scale).At(0, bent: true)!.Value.X;
        for (int held = 0; held < 2; held++)
        {
            // A bound between the two.
            double between = 0.5 * (straight[held] + bent[held]);
            double[] lower = [-99, -99], upper = [99, 99];
            (bent[held] > between ? upper : lower)[held] = between;
            (FitFunction function, FitPoint point) = Problem(0.05, RobustLoss.None, lower, upper);
            double[] x = new BoundedStep(function, point, raw, point.Residuals, Scale).At(0, bent: true)!.Value.X;
            Assert.Equal(straight[held], x[held], 1e-12);
            Assert.Equal(bent[1 - held], x[1 - held], 1e-12);
        }
    }

    /// <summary>A parameter that meets its bound ends there, and the other takes the rest: the best of what is left.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.6)]
    public void A_step_ends_at_the_bounds_it_meets(double damping)
    {
        double[] raw = [.. Slopes.Cast<double>()];
        (FitFunction free, FitPoint from) = Problem(0, RobustLoss.None);
        double[] whole = new BoundedStep(free, from, raw, from.Residuals, Scale).At(damping)!.Value.X;
        for (int held = 0; held < 2; held++)
        {
            int other = 1 - held;
            double bound = Start[held] + (0.4 * (whole[held] - Start[held]));
            double[] lower = [-99, -99], upper = [99, 99];
            (whole[held] > bound ? upper : lower)[held] = bound;
            (FitFunction function, FitPoint point) = Problem(0, RobustLoss.None, lower, upper);
            (double[] x, double gain) = new BoundedStep(function, point, raw, point.Residuals, Scale).At(damping)!.Value;
            Assert.Equal(bound, x[held], 1e-15);

            double[] left = [.. Enumerable.Range(0, 3).Select(i => point.Residuals[i] + (Slopes[i, held] * (bound - Start[held])))];
            double along = Enumerable.Range(0, 3).Sum(i => Slopes[i, other] * left[i]), stiff = Enumerable.Range(0, 3).Sum(i => Slopes[i, other] * Slopes[i, other]);
            Assert.Equal(Start[other] - (along / (stiff + (damping * Scale[other] * Scale[other]))), x[other], 1e-12);
            double[] after = [.. Enumerable.Range(0, 3).Select(i => left[i] + (Slopes[i, other] * (x[other] - Start[other])))];
            Assert.Equal(0.5 * (point.Residuals.Sum(r => r * r) - after.Sum(r => r * r)), gain, 1e-12);
        }

        // Both in the way: a corner.
        (FitFunction cornered, FitPoint at) = Problem(0, RobustLoss.None, Corner(Math.Min), Corner(Math.Max));
        Assert.Equal([0.9 * Start[0] + 0.1 * whole[0], 0.9 * Start[1] + 0.1 * whole[1]], new BoundedStep(cornered, at, raw, at.Residuals, Scale).At(damping)!.Value.X);

        double[] Corner(Func<double, double, double> which) => [.. Enumerable.Range(0, 2).Select(j => which(Start[j], 0.9 * Start[j] + 0.1 * whole[j]))];
    }

    /// <summary>Pressed against a bound is a parameter that lies there and would lower the cost only beyond it; one without any slope is free.</summary>
    [Theory]
    [InlineData(0, 5, 1, false)]
    [InlineData(0, 5, -1, true)]
    [InlineData(0, 5, 0, true)]
    [InlineData(-5, 0, 1, true)]
    [InlineData(-5, 0, -1, false)]
    [InlineData(-5, 0, 0, true)]
    [InlineData(-5, 5, 1, true)]
    [InlineData(0, 0, -1, false)]
    public void Free_parameters(double lower, double upper, double residual, bool isFree)
    {
        var function = new FitFunction(new FunctionProblem(1, 1, _ => [residual]), new LeastSquaresOptions { Lower = [lower], Upper = [upper] }, CancellationToken.None);
        FitPoint point = function.Evaluate([0])!;
        Assert.Equal(isFree ? [0] : [], BoundedStep.Free(function, point, [1], [residual]));
        if (!isFree || residual == 0)
            Assert.Null(new BoundedStep(function, point, [1], [residual], [1]).At(0));
    }

    /// <summary>The loss counts for the first residuals only; weights, factors of steps and the curvature, a tenth of the weight at least, by their formulas.</summary>
    [Fact]
    public void Weights_of_residuals()
    {
        var problem = new FunctionProblem(1, 3, x => [x[0], x[0], x[0]]);
        var function = new FitFunction(problem, new LeastSquaresOptions { Loss = RobustLoss.Cauchy(2), RobustResiduals = 1 }, CancellationToken.None);
        foreach (double r in (double[])[0, 0.5, 1.9, 10])
        {
            double t = r * r / 4, weight = 1 / (1 + t), curvature = Math.Max((1 - t) / (1 + t) / (1 + t), 0.1 * weight);
            Assert.Equal(weight, function.Weight(0, r), 1e-14);
            Assert.Equal(curvature, function.Curvature(0, r), 1e-14);
            Assert.Equal(Math.Sqrt(curvature), function.StepWeight(0, r), 1e-14);
            Assert.Equal((1, 1, 1), (function.Weight(1, r), function.Curvature(1, r), function.StepWeight(1, r)));
            Assert.Equal(0.5 * ((4 * Math.Log(1 + t)) + (2 * r * r)), function.Evaluate([r])!.Cost, 1e-12);
        }
    }

    /// <summary>A residual of no weight at all is left out; it does not make the rest no numbers.</summary>
    [Fact]
    public void A_residual_far_out_has_no_weight()
    {
        var problem = new FunctionProblem(1, 2, x => [x[0], 1e170]);
        var function = new FitFunction(problem, new LeastSquaresOptions { Loss = RobustLoss.StudentT(4) }, CancellationToken.None);
        var point = new FitPoint([1], [1, 1e170], 1);
        (double[] jacobian, double[] residuals) = Weighing.ForVerdict(function, point, [1, 1]);
        Assert.Equal([0, 0], [jacobian[1], residuals[1]]);
        Assert.Equal(Math.Sqrt(function.Weight(0, 1)), residuals[0], 1e-15);
    }

    private static double Second(int i, double[] v) => i switch
    {
        0 => v[0] * v[0],
        1 => (2 * v[0] * v[1]) - (v[1] * v[1]),
        _ => v[1] * v[1],
    };

    /// <summary>rᵢ = cᵢ + Jᵢ (x − start) + ½ curvature · second derivative.</summary>
    private static (FitFunction Function, FitPoint Point) Problem(double curvature, RobustLoss loss, double[]? lower = null, double[]? upper = null)
    {
        double[] constants = [1, -2, 1.5];
        var problem = new FunctionProblem(2, 3, x =>
        {
            double[] d = [x[0] - Start[0], x[1] - Start[1]];
            return [.. Enumerable.Range(0, 3).Select(i => constants[i] + (Slopes[i, 0] * d[0]) + (Slopes[i, 1] * d[1]) + (0.5 * curvature * Second(i, d)))];
        });
        var function = new FitFunction(problem, new LeastSquaresOptions { Loss = loss, Lower = lower, Upper = upper }, CancellationToken.None);
        return (function, function.Evaluate([.. Start])!);
    }
}
