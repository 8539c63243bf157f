using FlowSim.Numerics.Fitting;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>What a fit says where there is no simple answer.</summary>
public sealed class LeastSquaresTests
{
    private static readonly double[] Y = [5.1, 4.2, 3.6, 2.9, 9.0, 2.2, 1.7, 1.65, -3.0, 1.3, 1.05, 1.1];

    private static readonly FunctionProblem Decay = new(3, Y.Length, b => [.. Y.Select((y, x) => b[0] * Math.Exp(-b[1] * x) + b[2] - y)]);

    /// <summary>Reference: SciPy 1.10.1, least_squares(..., bounds=(lo,hi), method="dogbox", tolerances 1e-15) on the decay of RobustLossTests.</summary>
    [Theory]
    [InlineData(new[] { double.NegativeInfinity, 0.3, double.NegativeInfinity }, new[] { double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity },
        new[] { 5.116591765507892, 0.3, 0.9665067823278166 }, 31.583831561808548, new[] { false, true, false })]
    [InlineData(new[] { 0, 0, 1.2 }, new[] { 3.5, 1, 5 }, new[] { 3.5, 0.20964663184883245, 1.2 }, 32.229032589286795, new[] { true, false, true })]
    public void Bounds_hold_and_say_which(double[] lower, double[] upper, double[] expected, double cost, bool[] atBound)
    {
        LeastSquaresFit fit = LeastSquares.Minimise(Decay, [4, 0.2, 0.5], new LeastSquaresOptions { Lower = lower, Upper = upper });
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        for (int j = 0; j < 3; j++) Assert.Equal(expected[j], fit.X[j], 1e-6 * Math.Abs(expected[j]));
        Assert.Equal(cost, fit.Cost, 1e-9 * cost);
        Assert.Equal(atBound, fit.AtBound);
        Assert.Equal(Y.Length - atBound.Count(b => !b), fit.DegreesOfFreedom);
        for (int j = 0; j < 3; j++) Assert.Equal(atBound[j], fit.StandardErrors()![j] == 0);
    }

    [Fact]
    public void Nothing_is_evaluated_outside_the_bounds()
    {
        double[] lower = [0, 0, 1.2], upper = [3.5, 1, 5];
        FunctionProblem guarded = new(3, Y.Length, b =>
        {
            for (int j = 0; j < 3; j++) Assert.InRange(b[j], lower[j], upper[j]);
            return [.. Y.Select((y, x) => b[0] * Math.Exp(-b[1] * x) + b[2] - y)];
        });
        Assert.Equal(LeastSquaresStatus.Converged, LeastSquares.Minimise(guarded, [9, 9, 9], new() { Lower = lower, Upper = upper }).Status);
    }

    [Fact]
    public void Equal_bounds_hold_a_parameter()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(Decay, [4, 0.2, 0.5], new LeastSquaresOptions { Lower = [-1e9, 0.25, -1e9], Upper = [1e9, 0.25, 1e9] });
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Assert.Equal(0.25, fit.X[1]);
        Assert.True(fit.AtBound[1]);
        LeastSquaresFit all = LeastSquares.Minimise(Decay, [4, 0.2, 0.5], new LeastSquaresOptions { Lower = [4, 0.2, 0.5], Upper = [4, 0.2, 0.5] });
        Assert.Equal(LeastSquaresStatus.Converged, all.Status);
        Assert.Equal([4, 0.2, 0.5], all.X);
    }

    [Fact]
    public void A_product_that_only_shows_together_is_singular_and_a_prior_resolves_it()
    {
        double[] x = [1, 2, 3, 4];
        double[] y = [2.1, 3.9, 6.1, 8];
        LeastSquaresFit fit = LeastSquares.Minimise(new FunctionProblem(2, 4, b => [.. x.Zip(y, (x, y) => b[0] * b[1] * x - y)]), [1, 1]);
        Assert.Equal(LeastSquaresStatus.Singular, fit.Status);
        Assert.Null(fit.UnscaledCovariance);
        Assert.Null(fit.StandardErrors());
        Assert.InRange(fit.ReciprocalCondition, 0, 1e-9);
        Assert.Equal(60.2 / 30, fit.X[0] * fit.X[1], 1e-9); // Σxy/Σx²

        LeastSquaresFit known = LeastSquares.Minimise(
            new FunctionProblem(2, 5, b => [.. x.Zip(y, (x, y) => (b[0] * b[1] * x - y) / 0.1), (b[0] - 4) / 0.2]), [1, 1]);
        Assert.Equal(LeastSquaresStatus.Converged, known.Status);
        Assert.Equal(4, known.X[0], 1e-9);
        Assert.Equal(0.2, known.UnscaledStandardErrors()![0], 1e-7);
    }

    [Fact]
    public void Fewer_residuals_than_parameters_are_singular()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(new FunctionProblem(3, 1, b => [b[0] + 2 * b[1] * b[2] - 1]), [1, 1, 1]);
        Assert.Equal(LeastSquaresStatus.Singular, fit.Status);
        Assert.InRange(fit.Cost, 0, 1e-25);
    }

    [Fact]
    public void As_many_residuals_as_parameters_are_solved_without_an_error_to_state()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(new FunctionProblem(2, 2, b => [b[0] * b[0] - 2, b[1] - b[0]]), [1, 5]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Assert.All(fit.X, x => Assert.Equal(Math.Sqrt(2), x, 1e-14));
        Assert.Null(fit.ResidualVariance);
        Assert.Null(fit.StandardErrors());
        Assert.Null(fit.Covariance());
        Assert.Equal(1 / Math.Sqrt(8), fit.UnscaledStandardErrors()![0], 1e-9);
    }

    [Fact]
    public void An_exact_fit_through_zeros_is_a_minimum()
    {
        // The last parameter and the residuals are 0: only rounding is left to compare with.
        LeastSquaresFit fit = LeastSquares.Minimise(
            new FunctionProblem(3, 8, b => [.. Enumerable.Range(0, 8).Select(x => b[0] * Math.Exp(-b[1] * x) + b[2] * x - 3 * Math.Exp(-0.5 * x))]), [1, 1, 1]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Assert.Equal(3, fit.X[0], 1e-12);
        Assert.Equal(0.5, fit.X[1], 1e-12);
        Assert.Equal(0, fit.X[2], 1e-12);
    }

    [Fact]
    public void A_plateau_is_no_minimum()
    {
        LeastSquaresFit flat = LeastSquares.Minimise(new FunctionProblem(1, 2, b => [Math.Exp(-(b[0] - 50) * (b[0] - 50)) - 1, 0.5]), [1], new() { Restarts = 0 });
        Assert.Equal(LeastSquaresStatus.Singular, flat.Status);
        // Falls for ever towards 1 as b grows.
        LeastSquaresFit endless = LeastSquares.Minimise(new FunctionProblem(1, 2, b => [1 / (1 + b[0] * b[0]), 1]), [1]);
        Assert.NotEqual(LeastSquaresStatus.Converged, endless.Status);
    }

    [Fact]
    public void A_saddle_is_left()
    {
        // Gradient 0 at the start, which is the top between two minima.
        LeastSquaresFit fit = LeastSquares.Minimise(new FunctionProblem(1, 2, b => [b[0] * b[0] - 1, 0.1 * b[0]]), [0]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Assert.Equal(Math.Sqrt(0.995), Math.Abs(fit.X[0]), 1e-8); // 4x(x² − 1) + 0.02x = 0
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Where_the_model_fails_the_step_is_shortened(bool nan)
    {
        // (ln x − 1)² + (x − 2)²/4 from far out: undamped steps lead below 0.
        FunctionProblem problem = new(1, 2, b => b[0] <= 0.5 ? nan ? [double.NaN, 0] : null : [Math.Log(b[0]) - 1, (b[0] - 2) / 2]);
        LeastSquaresFit fit = LeastSquares.Minimise(problem, [60]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        double x = fit.X[0];
        Assert.Equal(0, (Math.Log(x) - 1) / x + (x - 2) / 4, 1e-9);
    }

    [Fact]
    public void A_minimum_beside_a_forbidden_region_is_found_with_one_sided_quotients()
    {
        FunctionProblem problem = new(2, 3, b => b[0] < 1 ? null : [b[0] - 1, b[0] * b[1] - 2, b[1] - 2.1]);
        LeastSquaresFit fit = LeastSquares.Minimise(problem, [1, 7], new LeastSquaresOptions { Lower = [1, -10], Upper = [5, 10] });
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Assert.Equal(1, fit.X[0]);
        Assert.True(fit.AtBound[0]);
        Assert.Equal(2.05, fit.X[1], 1e-9);
    }

    [Fact]
    public void What_cannot_be_evaluated_says_so()
    {
        LeastSquaresFit nowhere = LeastSquares.Minimise(new FunctionProblem(2, 3, _ => null), [1, 1]);
        Assert.Equal(LeastSquaresStatus.CannotEvaluate, nowhere.Status);
        Assert.Equal([1, 1], nowhere.X);
        Assert.Equal(double.PositiveInfinity, nowhere.Cost);
        LeastSquaresFit infinite = LeastSquares.Minimise(new FunctionProblem(1, 1, _ => [double.PositiveInfinity]), [1]);
        Assert.Equal(LeastSquaresStatus.CannotEvaluate, infinite.Status);
        LeastSquaresFit alone = LeastSquares.Minimise(new FunctionProblem(1, 2, b => b[0] == 1 ? [1, 1] : null), [1]);
        Assert.Equal(LeastSquaresStatus.CannotEvaluate, alone.Status);
        Assert.Equal(1, alone.Cost);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(20)]
    [InlineData(60)]
    public void The_evaluations_allowed_are_kept(int allowed)
    {
        FunctionProblem counted = new(3, Y.Length, b => [.. Y.Select((y, x) => b[0] * Math.Exp(-b[1] * x) + b[2] - y)]);
        LeastSquaresFit fit = LeastSquares.Minimise(counted, [4, 0.2, 0.5], new LeastSquaresOptions { MaximumEvaluations = allowed });
        Assert.Equal(LeastSquaresStatus.OutOfEvaluations, fit.Status);
        Assert.InRange(counted.Evaluations, 1, allowed);
        Assert.Equal(counted.Evaluations, fit.Evaluations);
        Assert.True(double.IsFinite(fit.Cost));
    }

    [Fact]
    public void A_closed_form_Jacobian_is_used()
    {
        double[] x = [1, 2, 3, 4, 5];
        FunctionProblem closed = new(2, 5, b => [.. x.Select(x => b[0] * Math.Exp(-b[1] * x) - 1 / x)],
            b => [.. x.SelectMany(x => new[] { Math.Exp(-b[1] * x), -b[0] * x * Math.Exp(-b[1] * x) })]);
        FunctionProblem open = new(2, 5, b => [.. x.Select(x => b[0] * Math.Exp(-b[1] * x) - 1 / x)]);
        LeastSquaresFit a = LeastSquares.Minimise(closed, [1, 1]), b = LeastSquares.Minimise(open, [1, 1]);
        Assert.Equal(LeastSquaresStatus.Converged, a.Status);
        Assert.True(a.Evaluations < b.Evaluations / 2);
        for (int j = 0; j < 2; j++)
        {
            Assert.Equal(a.X[j], b.X[j], 1e-9);
            Assert.Equal(a.StandardErrors()![j], b.StandardErrors()![j], 1e-9);
        }
    }

    [Fact]
    public void Residuals_as_rough_as_an_integrator_leaves_them_need_the_roughness_said()
    {
        // A hash of the bits as the error of a tolerance of 1e-7.
        static double Rough(double value) => value * (1 + 1e-7 * ((BitConverter.DoubleToInt64Bits(value) * 6364136223846793005L >> 33) / (double)(1L << 30) % 1));
        FunctionProblem rough = new(3, Y.Length, b => [.. Y.Select((y, x) => Rough(b[0] * Math.Exp(-b[1] * x) + b[2]) - y)]);
        LeastSquaresFit smooth = LeastSquares.Minimise(Decay, [4, 0.2, 0.5], new() { Loss = RobustLoss.Huber(0.3) });
        LeastSquaresFit fit = LeastSquares.Minimise(rough, [4, 0.2, 0.5], new() { Loss = RobustLoss.Huber(0.3), Roughness = 1e-7 });
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        double[] errors = smooth.StandardErrors()!;
        for (int j = 0; j < 3; j++) Assert.Equal(smooth.X[j], fit.X[j], 1e-3 * errors[j]);
    }

    [Fact]
    public void It_can_be_cancelled()
    {
        using CancellationTokenSource source = new();
        FunctionProblem problem = new(3, Y.Length, b =>
        {
            source.Cancel();
            return [.. Y.Select((y, x) => b[0] * Math.Exp(-b[1] * x) + b[2] - y)];
        });
        Assert.Throws<OperationCanceledException>(() => LeastSquares.Minimise(problem, [4, 0.2, 0.5], cancellation: source.Token));
        Assert.Equal(1, problem.Evaluations);
    }

    [Fact]
    public void Bad_arguments_are_named()
    {
        Assert.Contains("2 values but the problem has 3", Assert.Throws<ArgumentException>(() => LeastSquares.Minimise(Decay, [1, 2])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => LeastSquares.Minimise(Decay, [1, double.NaN, 2]));
        Assert.Contains("Lower has 1 values", Assert.Throws<ArgumentException>(() => LeastSquares.Minimise(Decay, [1, 1, 1], new() { Lower = [0] })).Message, StringComparison.Ordinal);
        Assert.Contains("Lower[1] is 2 and Upper[1] is 1",
            Assert.Throws<ArgumentException>(() => LeastSquares.Minimise(Decay, [1, 1, 1], new() { Lower = [0, 2, 0], Upper = [1, 1, 1] })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => LeastSquares.Minimise(Decay, [1, 1, 1], new() { Lower = [0, double.NaN, 0] }));
        Assert.Contains("RobustResiduals is 13",
            Assert.Throws<ArgumentException>(() => LeastSquares.Minimise(Decay, [1, 1, 1], new() { RobustResiduals = 13 })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => LeastSquares.Minimise(new FunctionProblem(0, 1, _ => [1]), []));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LeastSquaresOptions { Roughness = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new LeastSquaresOptions { RelativeOffset = 1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new LeastSquaresOptions { MaximumEvaluations = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new LeastSquaresOptions { RobustResiduals = -1 });
    }
}
