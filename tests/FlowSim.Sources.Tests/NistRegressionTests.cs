using FlowSim.Numerics.Fitting;

namespace FlowSim.Sources.Tests;

/// <summary>All 27 nonlinear regressions from both published starts, against the certified values (11 digits, worked out by NIST in quadruple precision).</summary>
[Publication("NIST Statistical Reference Datasets", "Nonlinear regression, 27 problems", Standing.SecondaryCopy, Remark = "copies in public repositories; each file in tests/FlowSim.Sources.Tests/Data says which")]
public sealed class NistRegressionTests
{
    private const string Stops = "where the iteration stops";

    public static TheoryData<string, int> Fits
    {
        get
        {
            TheoryData<string, int> fits = [];
            foreach (string name in NistRegression.Names)
            {
                fits.Add(name, 1);
                fits.Add(name, 2);
            }
            return fits;
        }
    }

    public static TheoryData<string> Problems => [.. NistRegression.Names];

    [Fact]
    public void All_of_them_are_here() => Assert.Equal(27, NistRegression.Names.Count());

    /// <summary>One wrong digit of one datum in our copy of the files shows here.</summary>
    [Theory]
    [MemberData(nameof(Problems))]
    public void The_data_have_the_certified_sum_of_squares_at_the_certified_parameters(string name)
    {
        NistRegression nist = NistRegression.Load(name);
        double[] residuals = new double[nist.Residuals];
        nist.Evaluate(nist.Certified, residuals);
        double squares = residuals.Sum(r => r * r);
        // Lanczos1 fits to 1e-13, finer than its parameters are printed.
        if (name == "Lanczos1") Assert.InRange(squares, 0, 1e-20);
        else Published.Agrees(nist.ResidualSumOfSquares, squares, Within.Relative(2e-10, "11 digits are certified"), $"{name}, sum of squares");
    }

    [Theory]
    [MemberData(nameof(Fits))]
    public void The_certified_values_from_either_start(string name, int start)
    {
        NistRegression nist = NistRegression.Load(name);
        LeastSquaresFit fit = LeastSquares.Minimise(nist, nist.Starts[start - 1]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        double[] errors = fit.StandardErrors()!;
        for (int j = 0; j < nist.Parameters; j++)
        {
            Published.Agrees(nist.Certified[j], fit.X[j], Within.Relative(1e-8, Stops), $"{name}, b{j + 1} from start {start}");
            Published.Agrees(nist.StandardDeviations[j], errors[j], Spread(1e-7), $"{name}, standard deviation of b{j + 1} from start {start}");
        }
        Published.Agrees(nist.ResidualSumOfSquares, fit.ResidualSumOfSquares, Spread(1e-9), $"{name}, sum of squares from start {start}");

        Within Spread(double usual) => name == "Lanczos1"
            ? Within.Relative(2e-2, "the residuals of Lanczos1 are the 14th digit of its data: a third of a percent of them is rounding")
            : Within.Relative(usual, Stops);
    }

    /// <summary>Without further tries: a plateau may be where it ends, but it says so.</summary>
    [Theory]
    [MemberData(nameof(Fits))]
    public void A_single_try_is_right_or_says_that_it_failed(string name, int start)
    {
        NistRegression nist = NistRegression.Load(name);
        LeastSquaresFit fit = LeastSquares.Minimise(nist, nist.Starts[start - 1], new LeastSquaresOptions { Restarts = 0, MaximumEvaluations = 2000 });
        if (fit.Status != LeastSquaresStatus.Converged) return;
        for (int j = 0; j < nist.Parameters; j++) Assert.Equal(1, fit.X[j] / nist.Certified[j], 1e-6);
    }
}
