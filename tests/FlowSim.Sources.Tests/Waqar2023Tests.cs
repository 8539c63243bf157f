using FlowSim.Numerics.Fitting;

namespace FlowSim.Sources.Tests;

/// <summary>
/// A lime taken out of the cold warms in a room, T = T_air + (T₀ − T_air) e^(−t/λ). Expected values: <c>benches/peers/reference_lime.py</c>, SciPy's least
/// squares and quadrature over the authors' prior.
/// </summary>
[Publication("Waqar, Patel and Simon 2023", "A tutorial on the Bayesian statistical approach to inverse problems, APL Machine Learning 1, 041101, doi 10.1063/5.0154773, an open-access journal (CC BY, from memory)", Standing.AbstractOnly, Remark = "readings and the two direct measurements from the authors' public repository (faaiqgwaqar/Inverse-Problems, tutorial/), opened")]
public class Waqar2023Tests
{
    private const double StartC = 6.54;
    private const double AirC = 18.47;

    private static readonly double[] s_hours =
    [
        0.17206416666666666, 0.3836194444444444, 0.49080805555555557, 0.9929019444444445, 1.3229305555555555,
        1.830666111111111, 2.7022786111111112, 4.107020555555556, 8.087124166666667, 8.293040555555555,
    ];

    private static readonly double[] s_celsius = [8.73, 10.71, 11.62, 14.18, 15.33, 16.61, 17.66, 18.43, 18.7, 18.57];

    [Fact]
    [Publication("SciPy", "least_squares on the same readings", Standing.Derived)]
    public void The_fit_is_that_of_another_program()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(new Warming(), [1, StartC, AirC]);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        double[] expected = [0.9834833385335517, 6.760856517566058, 18.539570858996676];
        double[] errors = [0.0271150065618411, 0.12037222174030518, 0.07641067847151162];
        string[] names = ["time constant, h", "start, °C", "air, °C"];
        for (int j = 0; j < 3; j++)
        {
            Published.Agrees(expected[j], fit.X[j], Within.Absolute(1e-6 * errors[j], "a millionth of the standard error"), names[j]);
            Published.Agrees(errors[j], fit.StandardErrors()![j], Within.Relative(1e-5, "both by difference quotients"), $"standard error of the {names[j]}");
        }

        Published.Agrees(0.2170468697431809, fit.ResidualSumOfSquares, Within.Absolute(1e-9, "where the iterations stop"), "sum of squares", "K²");
    }

    /// <summary>The authors' prior: 1 ± 0.3 h and an unknown noise.</summary>
    [Fact]
    [Publication("SciPy", "quadrature over the authors' prior: mean 0.9853 h and standard deviation 0.0338 h", Standing.Derived)]
    public void It_lies_within_the_posterior_of_the_authors_model()
    {
        double hours = LeastSquares.Minimise(new Warming(), [1, StartC, AirC]).X[0];
        Published.Agrees(0.9853, hours, Within.Absolute(0.1 * 0.0338, "a tenth of the standard deviation"), "time constant", "h");
    }

    /// <summary>
    /// What is left runs in groups of one sign, + + + − − − − + + +: a lime is no well-mixed body. A fit that takes the readings for independent claims
    /// more than it knows, which is why neighbours that go together must count less.
    /// </summary>
    [Fact]
    public void What_is_left_goes_together()
    {
        LeastSquaresFit fit = LeastSquares.Minimise(new Warming(), [1, StartC, AirC]);
        double[] left = new double[s_hours.Length + 2];
        new Warming().Evaluate(fit.X, left);
        double[] readings = [.. left.Take(s_hours.Length).Select(r => -r)];
        Assert.Equal("+++----+++", string.Concat(readings.Select(r => r > 0 ? '+' : '-')));
        double mean = readings.Average();
        double together = readings.Zip(readings.Skip(1)).Sum(p => (p.First - mean) * (p.Second - mean)) / readings.Sum(r => (r - mean) * (r - mean));
        Assert.InRange(together, 0.3, 0.8);
    }

    /// <summary>Unknowns λ, T₀, T_air; the two direct measurements are readings like the others, as in the article.</summary>
    private sealed class Warming : ILeastSquaresProblem
    {
        public int Parameters => 3;

        public int Residuals => s_hours.Length + 2;

        public bool Evaluate(ReadOnlySpan<double> x, Span<double> residuals)
        {
            for (int i = 0; i < s_hours.Length; i++)
                residuals[i] = x[2] + ((x[1] - x[2]) * Math.Exp(-s_hours[i] / x[0])) - s_celsius[i];
            residuals[^2] = x[1] - StartC;
            residuals[^1] = x[2] - AirC;
            return true;
        }

        public bool Jacobian(ReadOnlySpan<double> x, ReadOnlySpan<double> residuals, Span<double> jacobian) => false;
    }
}
