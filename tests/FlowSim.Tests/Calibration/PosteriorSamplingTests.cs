using FlowSim.Calibration;
using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>The sampler's medians and widths against quadrature, and when they are taken.</summary>
public class PosteriorSamplingTests
{
    private const double HalfWidth = 1.959963984540054;

    private static BestFit Find(CalibrationQuestion question) =>
        BestFit.Find(new CalibrationPosterior(question, CancellationToken.None), [.. question.Runs.SelectMany(run => run.Series)], 1, CancellationToken.None);

    private static SamplerCheck Check(CalibrationQuestion question, bool drawn, ref (double[] Mean, Matrix<double> Covariance) scores, ulong seed = 1)
    {
        BestFit fit = Find(question);
        return PosteriorSampling.Check(fit, [.. question.Runs.SelectMany(run => run.Series)], drawn ? RandomisedFits.Of(fit, 1, CancellationToken.None) : null, seed, ref scores, CancellationToken.None)!;
    }

    /// <summary>A lot factor anywhere from 0.5 to 3, a gate's of which nothing is said, and a viscosity of a honey that has 6 Pa·s at a factor of 1.</summary>
    private static CalibrationQuestion Bent => new()
    {
        Setup = Straight,
        Priors = [Prior(StrainingInputs.LotFactor, new UniformDistribution(0.5, 3)), Prior(StrainingInputs.GateFactor, new LogNormalDistribution(1, 0.1))],
        Viscosities = [Spot("ball", 35, 13, 0.3)],
    };

    /// <summary>Median, and the distance of the outer quantiles over that of a standard normal number.</summary>
    private static (double Middle, double Deviation) OfBent()
    {
        var places = new List<double>();
        var sums = new List<double>();
        for (double x = -6; x <= 6; x += 0.001)
        {
            double r = Math.Log(13.0 / 6 / (0.5 + (2.5 * Normal.CDF(0, 1, x)))) / 0.3;
            places.Add(x);
            sums.Add((sums.Count == 0 ? 0 : sums[^1]) + Math.Exp(-0.5 * ((r * r) + (x * x))));
        }

        return (At(0.5), (At(0.975) - At(0.025)) / (2 * HalfWidth));

        double At(double share) => places[sums.FindIndex(sum => sum >= share * sums[^1])];
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Intervals_that_agree_are_left_as_they_are(bool drawn)
    {
        (double middle, double deviation) = OfBent();
        (double[] Mean, Matrix<double> Covariance) given = ([middle, 0], Matrix<double>.Build.DenseOfDiagonalArray([deviation * deviation, 1])), scores = given;
        SamplerCheck check = Check(Bent, drawn, ref scores);
        Assert.False(check.Used);
        Assert.Same(given.Mean, scores.Mean);
        Assert.Same(given.Covariance, scores.Covariance);
        Assert.InRange(check.MedianShift, 0, 0.2);
        Assert.InRange(check.WidthRatio, 0.87, 1.15);
        Assert.InRange(check.EffectiveSampleSize, 250, check.Draws);
        Assert.InRange(check.SplitRHat, 0.98, 1.06);
        Assert.InRange(check.Draws, 300, 8192);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(-1, 1)]
    [InlineData(0, 1.5)]
    [InlineData(0, 0.67)]
    public void Intervals_that_mislead_are_replaced(double shift, double wider)
    {
        (double middle, double deviation) = OfBent();
        double given = deviation * wider;
        (double[] Mean, Matrix<double> Covariance) scores = ([middle + (shift * given), 0], Matrix<double>.Build.DenseOfDiagonalArray([given * given, 1]));
        SamplerCheck check = Check(Bent, drawn: true, ref scores);
        Assert.True(check.Used);
        Assert.Equal(Math.Abs(shift), check.MedianShift, 0.15);
        Assert.Equal(1 / wider, check.WidthRatio, 0.13 / wider);
        Assert.Equal(middle, scores.Mean[0], 0.15 * deviation);
        Assert.Equal(deviation, Math.Sqrt(scores.Covariance[0, 0]), 0.12 * deviation);

        // The gate was drawn as it was before, by itself.
        Assert.Equal(0, scores.Mean[1], 0.06);
        Assert.Equal(1, Math.Sqrt(scores.Covariance[1, 1]), 0.06);
        Assert.Equal(0, scores.Covariance[0, 1], 0.1 * deviation);
        Assert.Equal(scores.Covariance[0, 1], scores.Covariance[1, 0]);
    }

    [Fact]
    public void The_worse_of_several_numbers_decides()
    {
        (double middle, double deviation) = OfBent();
        (double[] Mean, Matrix<double> Covariance) scores = ([middle, 0.5], Matrix<double>.Build.DenseOfDiagonalArray([deviation * deviation, 4]));
        SamplerCheck check = Check(Bent, drawn: true, ref scores);
        Assert.True(check.Used);
        Assert.Equal(0.25, check.MedianShift, 0.1); // Half of its own over the two that were given.
        Assert.Equal(0.5, check.WidthRatio, 0.03);
    }

    /// <summary>Two viscosities of moisture and lot: u is normal with covariance (JᵀJ + 1)⁻¹, slopes 0.3 and 0.5 % of moisture over the standard deviation.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Numbers_that_go_together_are_drawn_so(bool drawn)
    {
        var question = new CalibrationQuestion { Setup = Straight, Priors = [Lot, Moisture], Viscosities = [Spot("ball", 35, 22, 0.1), Spot("jar", 55, 2, 0.15)] };
        Matrix<double> slopes = Matrix<double>.Build.Dense(2, 2, (i, j) => (j == 0 ? 0.3 : 0.5 * StraightHoney.Slope(question.Viscosities[i].Temperature.Kelvins)) / question.Viscosities[i].LogStandardDeviation);
        Matrix<double> covariance = ((slopes.Transpose() * slopes) + Matrix<double>.Build.DenseIdentity(2)).Inverse();
        Vector<double> off = Vector<double>.Build.Dense(2, i => (Math.Log(question.Viscosities[i].Viscosity.PascalSeconds) - StraightHoney.LogAt(18, question.Viscosities[i].Temperature.Kelvins)) / question.Viscosities[i].LogStandardDeviation);
        Vector<double> mean = covariance * (slopes.Transpose() * off);
        (double[] Mean, Matrix<double> Covariance) scores = ([5, 5], Matrix<double>.Build.DenseIdentity(2));
        SamplerCheck check = Check(question, drawn, ref scores);
        Assert.True(check.Used);
        for (int i = 0; i < 2; i++)
        {
            Assert.Equal(mean[i], scores.Mean[i], 0.2 * Math.Sqrt(covariance[i, i]));
            Assert.Equal(Math.Sqrt(covariance[i, i]), Math.Sqrt(scores.Covariance[i, i]), 0.15 * Math.Sqrt(covariance[i, i]));
            Assert.Equal(5 - mean[i], Math.Abs(scores.Mean[i] - 5), 0.2);
        }

        Assert.Equal(covariance[0, 1], scores.Covariance[0, 1], 0.2 * Math.Sqrt(covariance[0, 0] * covariance[1, 1]));
        Assert.Equal(5 - mean.Minimum(), check.MedianShift, 0.2);
    }

    /// <summary>
    /// Readings of level plus zero whose scatter is not known: ∫∫ of Student's density over shift and ln s. Given a shift, the level has 5 mm/(29 mm²) of it and 4/29 of its variance.
    /// A scale that shows whole centimetres scatters by 1/√12 of them at least.
    /// </summary>
    [Theory]
    [InlineData(0.0001)]
    [InlineData(0.01)]
    public void The_scale_of_the_noise_is_drawn_too(double resolution)
    {
        double[] mm = [1, -1, 4, -2];
        const double G = (0.005 * 0.005) + (0.002 * 0.002);
        double sum = 0, first = 0, second = 0;
        for (double t = Math.Log(resolution / Math.Sqrt(12)); t < Math.Log(0.1); t += 0.02)
        {
            for (double shift = -0.015; shift < 0.018; shift += 0.0001)
            {
                double s = Math.Exp(t), far = (t - Math.Log(0.0015)) / Math.Log(3);
                double log = mm.Sum(d => StudentNoise.LogDensity(0.003 + (0.001 * d) - shift, s)) - (0.5 * far * far) - (0.5 * shift * shift / G);
                double p = Math.Exp(log);
                (sum, first, second) = (sum + p, first + (p * shift), second + (p * shift * shift));
            }
        }

        double mean = first / sum * 0.005 / G, variance = (((second / sum) - (first / sum * first / sum)) * 0.005 * 0.005 / G / G) + (4.0 / 29);
        var question = new CalibrationQuestion { Setup = Shut, Priors = [LevelOfTank], Runs = [Run(Shut, Rule(0.113, mm) with { Resolution = resolution })] };
        (double[] Mean, Matrix<double> Covariance) scores = ([3, 0, 0], Matrix<double>.Build.DenseIdentity(3));
        SamplerCheck check = Check(question, drawn: true, ref scores);
        Assert.True(check.Used);
        Assert.Equal(mean, scores.Mean[0], 0.15 * Math.Sqrt(variance));
        Assert.Equal(Math.Sqrt(variance), Math.Sqrt(scores.Covariance[0, 0]), 0.15 * Math.Sqrt(variance));
        Assert.Equal(0, scores.Mean[1], 0.06);
        Assert.Equal(1, scores.Covariance[1, 1], 0.1);
    }

    /// <summary>
    /// A correlation of one's own that has no answer from a score of the moisture on: walkers stay below it, also where they would start beyond. The posterior is the normal one
    /// of a straight line, 0 ± √0.2, cut off there.
    /// </summary>
    [Theory]
    [InlineData(18.3, true)]
    [InlineData(18.15, false)]
    public void Walkers_stay_where_there_is_an_answer(double edge, bool drawn)
    {
        StrainingSetup setup = OwnHoney.In(Shut, (percent, _) => percent < edge ? 6 * Math.Exp(-0.2 * (percent - 18)) : double.NaN);
        double sd = Math.Sqrt(0.2), within = Normal.CDF(0, sd, (edge - 18) / 0.5);
        (double[] Mean, Matrix<double> Covariance) scores = ([3], Matrix<double>.Build.DenseIdentity(1));
        SamplerCheck check = Check(new() { Setup = setup, Priors = [Moisture], Viscosities = [Spot("ball", 35, 6, 0.05)] }, drawn, ref scores);
        Assert.True(check.Used);
        Assert.Equal(Normal.InvCDF(0, sd, 0.5 * within), scores.Mean[0], 0.04);
        Assert.Equal((Normal.InvCDF(0, sd, 0.975 * within) - Normal.InvCDF(0, sd, 0.025 * within)) / (2 * HalfWidth), Math.Sqrt(scores.Covariance[0, 0]), 0.03);
    }

    [Fact]
    public void It_ends_early_when_asked()
    {
        BestFit fit = Find(Bent);
        (double[] Mean, Matrix<double> Covariance) scores = ([0, 0], Matrix<double>.Build.DenseIdentity(2));
        Assert.Throws<OperationCanceledException>(() => PosteriorSampling.Check(fit, [], null, 1, ref scores, new CancellationToken(canceled: true)));
    }

    /// <summary>A viscosity so rough that it tells of nothing leaves nothing to sample; the fit is answered all the same.</summary>
    [Fact]
    public void A_rough_viscosity_alone_is_answered()
    {
        CalibrationAnswer answer = CalibrationFit.Of(new CalibrationQuestion { Setup = Straight, Priors = [Lot], Viscosities = [Spot("ball", 35, 7, 1.9)] });
        Assert.Equal(CalibrationStatus.Fitted, answer.Status);
        Assert.Null(answer.Check);
    }
}
