using FlowSim.Numerics.Fitting;

namespace FlowSim.Numerics.Tests.Fitting;

/// <summary>
/// A decay with two stray values. Reference: SciPy 1.10.1, /usr/bin/python3 with
/// <code>
/// x = np.arange(12.0); y = np.array([5.1,4.2,3.6,2.9,9.0,2.2,1.7,1.65,-3.0,1.3,1.05,1.1])
/// f = lambda b: b[0]*np.exp(-b[1]*x)+b[2]-y
/// least_squares(f,[4,0.2,0.5],loss=loss,f_scale=0.3,xtol=1e-15,ftol=1e-15,gtol=1e-15,jac="3-point",max_nfev=10000)
/// # t: minimize(lambda b: -scipy.stats.t.logpdf(f(b),4).sum(), [4,0.2,0.5], method="Nelder-Mead", options=dict(xatol=1e-12,fatol=1e-15,...)), twice
/// # with a prior: fp = lambda b: np.append(f(b),(b[2]-0.8)/0.05); loss a function that gives log1p(z) and its derivatives but z, 1, 0 for the last
/// </code>
/// SciPy's loss is c²ρ(z/c²), as here.
/// </summary>
public sealed class RobustLossTests
{
    private static readonly double[] Y = [5.1, 4.2, 3.6, 2.9, 9.0, 2.2, 1.7, 1.65, -3.0, 1.3, 1.05, 1.1];

    private static readonly FunctionProblem Decay = new(3, Y.Length, b => [.. Y.Select((y, x) => b[0] * Math.Exp(-b[1] * x) + b[2] - y)]);

    public static TheoryData<string, double[], double?> References => new()
    {
        { "none", [26.669877, 0.020606128, -21.305894], 27.927151052826634 },
        { "huber", [4.66398926738667, 0.19750743991253364, 0.4286745178748144], 3.198454509152726 },
        { "soft", [4.684912246578646, 0.19501982399175732, 0.40450486265976054], 3.112062856772046 },
        { "cauchy", [4.469584807066656, 0.21863256251326463, 0.6346678868491059], 0.5422457598271649 },
        { "t", [4.927159897112223, 0.17963930042191667, 0.16814985519309655], null },
    };

    private static RobustLoss Loss(string name) => name switch
    {
        "huber" => RobustLoss.Huber(0.3),
        "soft" => RobustLoss.SoftL1(0.3),
        "cauchy" => RobustLoss.Cauchy(0.3),
        "t" => RobustLoss.StudentT(4),
        _ => RobustLoss.None,
    };

    [Theory]
    [MemberData(nameof(References))]
    public void Parameters_and_cost_are_those_of_SciPy(string name, double[] expected, double? cost)
    {
        LeastSquaresFit fit = LeastSquares.Minimise(Decay, [4, 0.2, 0.5], new LeastSquaresOptions { Loss = Loss(name) });
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        for (int j = 0; j < 3; j++) Assert.Equal(1, fit.X[j] / expected[j], 2e-6);
        if (cost is { } value) Assert.Equal(value, fit.Cost, 1e-9 * value);
    }

    [Fact]
    public void A_prior_beside_a_robust_loss_stays_a_square()
    {
        FunctionProblem withPrior = new(3, Y.Length + 1, b => [.. Y.Select((y, x) => b[0] * Math.Exp(-b[1] * x) + b[2] - y), (b[2] - 0.8) / 0.05]);
        LeastSquaresOptions options = new() { Loss = RobustLoss.Cauchy(0.3), RobustResiduals = Y.Length };
        LeastSquaresFit fit = LeastSquares.Minimise(withPrior, [4, 0.2, 0.5], options);
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        double[] expected = [4.342086521533563, 0.24000548574057476, 0.7997806608276091];
        for (int j = 0; j < 3; j++) Assert.Equal(1, fit.X[j] / expected[j], 1e-6);
        Assert.Equal(0.5490127185568724, fit.Cost, 1e-9);
    }

    [Theory]
    [InlineData("none")]
    [InlineData("huber")]
    [InlineData("soft")]
    [InlineData("cauchy")]
    [InlineData("t")]
    public void Derivatives_are_those_of_the_loss(string name)
    {
        RobustLoss loss = Loss(name);
        foreach (double z in (double[])[0.01, 0.05, 0.2, 1, 30])
        {
            double h = 1e-4 * z;
            (double value, double first, double second) = loss.At(z);
            Assert.Equal((loss.At(z + h).Value - loss.At(z - h).Value) / (2 * h), first, 1e-6 * first);
            Assert.Equal((loss.At(z + h).First - loss.At(z - h).First) / (2 * h), second, 1e-5 * Math.Abs(second) + 1e-12);
            Assert.InRange(value, 0, name == "t" ? 2 * z : z);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_constant_that_is_none_is_refused(double c)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RobustLoss.Huber(c));
        Assert.Throws<ArgumentOutOfRangeException>(() => RobustLoss.SoftL1(c));
        Assert.Throws<ArgumentOutOfRangeException>(() => RobustLoss.Cauchy(c));
        Assert.Throws<ArgumentOutOfRangeException>(() => RobustLoss.StudentT(c));
    }
}
