using FlowSim.Calibration;
using FlowSim.Numerics.Fitting;
using MathNet.Numerics.LinearAlgebra;
using Xunit.Abstractions;

namespace FlowSim.Tests.Calibration;

/// <summary>
/// Fits against the same posterior, written a second time in Python from the text of the model and minimised by SciPy: readings made there at drawn
/// numbers, noise known, squares only, so that the answer depends on nobody's way of finding the noise. Script: <c>benches/peers/fit_straining.py</c>;
/// readings and results: <c>Reference/fits.json</c>.
/// </summary>
public class ReferenceFitTests(ITestOutputHelper output)
{
    /// <summary>Standard deviations by which a mode may differ.</summary>
    private const double ModeInSd = 0.02;

    /// <summary>Share by which a standard deviation may differ.</summary>
    private const double SdRelative = 0.03;

    public static TheoryData<string> Names => [.. ReferenceFits.Names];

    [Fact]
    public void At_least_six_cases_are_compared() => Assert.True(ReferenceFits.Names.Count() >= 6);

    [Theory]
    [MemberData(nameof(Names))]
    public void The_residuals_at_the_others_mode_are_the_others(string name)
    {
        ReferenceFits reference = ReferenceFits.Of(name);
        CalibrationPosterior posterior = PosteriorOf(reference);
        double[] residuals = new double[posterior.Residuals];
        Assert.True(posterior.Evaluate(reference.Scores, residuals));
        double half = 0.5 * residuals.Sum(r => r * r);
        output.WriteLine(FormattableString.Invariant($"{half / reference.HalfSumOfSquares - 1:0.0e+0}"));
        Assert.Equal(reference.HalfSumOfSquares, half, 1e-4 * reference.HalfSumOfSquares);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Mode_and_covariance_are_those_of_another_program(string name)
    {
        ReferenceFits reference = ReferenceFits.Of(name);
        CalibrationPosterior posterior = PosteriorOf(reference);
        LeastSquaresFit fit = LeastSquares.Minimise(posterior, new double[posterior.Parameters], new LeastSquaresOptions { Roughness = 1e-6, RelativeOffset = 1e-3 });
        Assert.Equal(LeastSquaresStatus.Converged, fit.Status);
        Matrix<double> covariance = Matrix<double>.Build.DenseOfArray(fit.UnscaledCovariance!);
        double worstMode = 0, worstSd = 0, worstTogether = 0;
        for (int i = 0; i < posterior.Parameters; i++)
        {
            worstMode = Math.Max(worstMode, Math.Abs(fit.X[i] - reference.Scores[i]) / reference.Sd(i));
            worstSd = Math.Max(worstSd, Math.Abs((Math.Sqrt(covariance[i, i]) / reference.Sd(i)) - 1));
            for (int j = 0; j < i; j++)
                worstTogether = Math.Max(worstTogether, Math.Abs(covariance[i, j] - reference.Covariance[i, j]) / (reference.Sd(i) * reference.Sd(j)));
        }

        output.WriteLine(FormattableString.Invariant($"modes differ by {worstMode:0.0e+0} sd, sds by {worstSd:0.0e+0}, correlations by {worstTogether:0.0e+0}; {posterior.ModelRuns} runs"));
        Assert.True(worstMode < ModeInSd, $"{name}: modes {worstMode} sd apart");
        Assert.True(worstSd < SdRelative, $"{name}: standard deviations {worstSd} apart");
        Assert.True(worstTogether < SdRelative, $"{name}: correlations {worstTogether} apart");
    }

    private static CalibrationPosterior PosteriorOf(ReferenceFits reference)
    {
        var posterior = new CalibrationPosterior(reference.Question, CancellationToken.None);
        reference.Noise.CopyTo(posterior.Scales, 0);
        return posterior;
    }
}
