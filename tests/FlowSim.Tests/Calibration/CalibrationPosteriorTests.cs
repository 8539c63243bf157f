using FlowSim.Calibration;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FlowSim.Tests.Straining;
using UnitsNet;
using static FlowSim.Tests.Calibration.PlainCases;

namespace FlowSim.Tests.Calibration;

/// <summary>Residuals, slopes and density of questions whose readings are level plus zero and whose viscosity is a sum of scores.</summary>
public class CalibrationPosteriorTests
{
    private static readonly double[] First = [1, -1, 2, 0.5], Second = [0, 3, -2];

    /// <summary>Moisture and lot shared; a run with two rules, another with one; two viscosities. Numbers: 0 lot, 1 moisture, 2 level, 3–6 clocks and zeros, 7 level, 8–9.</summary>
    private static CalibrationQuestion Question(params UncertainInput[] priors) => new()
    {
        Setup = Straight,
        Priors = priors.Length > 0 ? priors : [Lot, Moisture, LevelOfTank],
        Runs = [Run(Straight, Rule(0.11, First), Rule(0.10, Second)), Run(Straight, Rule(0.11, First)) with { Name = "other" }],
        Viscosities = [Spot("ball", 35, 7, 0.1), Spot("jar", 55, 1.3, 0.2)],
    };

    private static double Off(ViscositySpot spot, double lot, double moisturePercent) =>
        (Math.Log(spot.Viscosity.PascalSeconds / lot) - StraightHoney.LogAt(moisturePercent, spot.Temperature.Kelvins)) / spot.LogStandardDeviation;

    private static readonly double[] U = [0.5, -1, 2, 0.3, 1, -0.4, 0.2, -1.5, 3, 0.7];

    /// <summary>What the readings lie off at <see cref="U"/>, by hand.</summary>
    private static double[] ByHand()
    {
        double one = 0.11 + 0.01 + 0.002, other = 0.12 + (0.2 * 0.002), second = 0.11 - 0.0075 + (0.7 * 0.002);
        CalibrationQuestion question = Question();
        return
        [
            .. First.Select(mm => 0.11 + (0.001 * mm) - one),
            .. Second.Select(mm => 0.10 + (0.001 * mm) - other),
            .. First.Select(mm => 0.11 + (0.001 * mm) - second),
            .. question.Viscosities.Select(spot => Off(spot, Math.Exp(0.15), 17.5)),
        ];
    }

    [Fact]
    public void Residuals_are_readings_less_model_and_logarithms_of_viscosities()
    {
        var posterior = new CalibrationPosterior(Question(), CancellationToken.None);
        Assert.Equal([(0, 4), (4, 3), (7, 4)], posterior.Places);
        Assert.Equal((11, 13, 10, 23, 2), (posterior.Readings, posterior.Measured, posterior.Parameters, posterior.Residuals, posterior.Runs));
        double[] off = new double[39];
        posterior.Off([.. new double[10], .. U, .. new double[10]], 3, off);
        double[] expected = ByHand();
        for (int i = 0; i < 13; i++)
            Assert.Equal(expected[i], off[13 + i], 1e-9);
        Assert.Equal(0.001, off[0], 1e-9);
        Assert.Equal(off[..13], off[26..]);
        Assert.Equal(6, posterior.ModelRuns);
        posterior.Off(U, 1, off);
        Assert.Equal(expected[12], off[12], 1e-9);
        Assert.Equal(8, posterior.ModelRuns);
    }

    [Fact]
    public void Residuals_count_in_scales_and_the_numbers_follow()
    {
        var posterior = new CalibrationPosterior(Question(), CancellationToken.None);
        double[] scales = [0.001, 0.002, 0.004], residuals = new double[23], expected = ByHand();
        scales.CopyTo(posterior.Scales, 0);
        Assert.True(posterior.Evaluate(U, residuals));
        for (int i = 0; i < 13; i++)
            Assert.Equal(expected[i] / (i < 4 ? 0.001 : i < 7 ? 0.002 : i < 11 ? 0.004 : 1), residuals[i], 1e-6);
        Assert.Equal(U, residuals[13..]);
    }

    /// <summary>∂/∂level = −5 mm, ∂/∂zero = −2 mm, over the scale; ∂/∂lot = −0.3/sd, ∂/∂moisture = −0.5 % of the slope over sd; each number itself 1.</summary>
    [Fact]
    public void The_Jacobian_is_that_of_a_sum()
    {
        var posterior = new CalibrationPosterior(Question(), CancellationToken.None);
        double[] scales = [0.001, 0.002, 0.004], jacobian = new double[230];
        Array.Fill(jacobian, 99);
        scales.CopyTo(posterior.Scales, 0);
        Assert.True(posterior.Jacobian(U, new double[23], jacobian));
        double[,] expected = new double[23, 10];
        for (int i = 0; i < 11; i++)
        {
            double scale = i < 4 ? 0.001 : i < 7 ? 0.002 : 0.004;
            expected[i, i < 7 ? 2 : 7] = -0.005 / scale;
            expected[i, i < 4 ? 4 : i < 7 ? 6 : 9] = -0.002 / scale;
        }

        for (int k = 0; k < 2; k++)
        {
            ViscositySpot spot = Question().Viscosities[k];
            expected[11 + k, 0] = -0.3 / spot.LogStandardDeviation;
            expected[11 + k, 1] = -0.5 * StraightHoney.Slope(spot.Temperature.Kelvins) / spot.LogStandardDeviation;
        }

        for (int j = 0; j < 10; j++)
            expected[13 + j, j] = 1;
        for (int i = 0; i < 230; i++)
            Assert.Equal(expected[i / 10, i % 10], jacobian[i], 1e-6);
        Assert.Equal(40, posterior.ModelRuns); // Both sides of ten numbers, two runs.
    }

    /// <summary>The quotients themselves, where a step shows: 0.02 of a number either way, 0.01 of a clock.</summary>
    [Fact]
    public void Slopes_are_difference_quotients_over_both_sides()
    {
        StrainingSetup setup = SmallPail.Running();
        var question = new CalibrationQuestion { Setup = setup, Priors = [Lot, LevelOfTank], Runs = [Run(setup, Series(StrainingObservable.TankLevel, (0, 0.11), (3, 0.1), (30, 0.08), (80, 0.05), (200, 0.02)))] };
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        double[] u = [0.4, -0.6, 0.1, 0.2], slopes = posterior.Slopes(u), one = new double[5], other = new double[5];
        double[] steps = [0.02, 0.02, 0.01, 0.02];
        for (int j = 0; j < 4; j++)
        {
            posterior.Off([.. u.Select((x, k) => k == j ? x - steps[j] : x)], 1, one);
            posterior.Off([.. u.Select((x, k) => k == j ? x + steps[j] : x)], 1, other);
            for (int i = 0; i < 5; i++)
                Assert.Equal((other[i] - one[i]) / (2 * steps[j]), slopes[(4 * i) + j], 1e-12);
        }

        Assert.True(slopes[4] < -1e-5, "a thicker honey leaves more in the tank");
    }

    [Fact]
    public void What_does_not_vary_is_as_the_setup_says()
    {
        CalibrationQuestion question = Question(LevelOfTank);
        Honey honey = question.Setup.Honey with { LotFactor = 1.2, Moisture = Ratio.FromPercent(19) };
        question = question with { Setup = question.Setup with { Honey = honey }, Runs = [] };
        question = question with { Priors = [Prior(StrainingInputs.GateFactor, Lot.Spread)] };
        double[] off = new double[2];
        new CalibrationPosterior(question, CancellationToken.None).Off([0.5], 1, off);
        Assert.Equal(Off(question.Viscosities[0], 1.2, 19), off[0], 1e-9);
        Assert.Equal(Off(question.Viscosities[1], 1.2, 19), off[1], 1e-9);
    }

    [Fact]
    public void Moisture_may_be_the_first_of_the_numbers()
    {
        CalibrationQuestion question = Question(Moisture, Lot) with { Runs = [] };
        double[] off = new double[2];
        new CalibrationPosterior(question, CancellationToken.None).Off([-1, 0.5], 1, off);
        Assert.Equal(Off(question.Viscosities[0], Math.Exp(0.15), 17.5), off[0], 1e-9);
    }

    /// <summary>−2.5 ln(1 + r²/4s²) − ln s over readings, over the inflation of their series; −½ ln² (s/common)/ln² 3 for each scale; −½ r² for a viscosity.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_density_is_Students_with_what_was_known_of_its_scale(bool together)
    {
        CalibrationQuestion question = Question();
        question = question with { Runs = [question.Runs[0] with { Series = [question.Runs[0].Series[0], Series(StrainingObservable.TankMass, (0, 3), (1, 3.1), (2, 3.2))] }] };
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        double[] off = [0.001, -0.002, 0.003, 0, 0.02, 0.1, -0.04, 0.5, -2], scales = [0.002, 0.05], inflations = [3, 1.5];
        double sum = 0;
        for (int s = 0; s < 2; s++)
        {
            double[] mine = s == 0 ? off[..4] : off[4..7];
            double log = mine.Sum(r => (-2.5 * Math.Log(1 + (r * r / (4 * scales[s] * scales[s])))) - Math.Log(scales[s]));
            double far = Math.Log(scales[s] / (s == 0 ? 0.0015 : 0.03)) / Math.Log(3);
            sum += (log / (together ? inflations[s] : 1)) - (0.5 * far * far);
        }

        sum -= 0.5 * (0.25 + 4);
        Assert.Equal(sum, posterior.LogDensity(off, scales, [.. question.Runs[0].Series], together ? inflations : null), 1e-9);
    }

    /// <summary>A correlation of somebody's own may give what is no number: the numbers are then no place for a fit, and nothing is thrown.</summary>
    [Fact]
    public void Where_the_model_cannot_be_run_there_are_no_residuals()
    {
        StrainingSetup setup = OwnHoney.In(SmallPail.Running(), (moisture, _) => moisture > 18.2 ? double.NaN : 6);
        var question = new CalibrationQuestion { Setup = setup, Priors = [Moisture], Runs = [Run(setup, Rule(0.1, 1, 2, 3))] };
        var posterior = new CalibrationPosterior(question, CancellationToken.None);
        posterior.Scales[0] = 1;
        Assert.True(posterior.Evaluate([-1, 0, 0], new double[6]));
        Assert.False(posterior.Evaluate([1, 0, 0], new double[6]));
        Assert.False(posterior.Jacobian([1, 0, 0], new double[6], new double[18]));
        Assert.True(posterior.Jacobian([-1, 0, 0], new double[6], new double[18]));
    }

    /// <summary>Just below the moisture from which on there is no answer the slope is the one to the side that has one: −0.1 per standard deviation, over 0.05.</summary>
    [Fact]
    public void Beside_what_cannot_be_computed_the_slope_is_one_sided()
    {
        const double Edge = 18.2;
        StrainingSetup setup = OwnHoney.In(Shut, (moisture, _) => moisture > Edge ? double.NaN : 6 * Math.Exp(-0.2 * (moisture - 18)));
        var posterior = new CalibrationPosterior(new CalibrationQuestion { Setup = setup, Priors = [Moisture], Viscosities = [Spot("ball", 35, 6, 0.05)] }, CancellationToken.None);
        foreach (double u in new[] { 0.0, 0.3999999 })
            Assert.Equal(2, posterior.Slopes([u])[0], 1e-6);
        Assert.Equal(double.NaN, posterior.Slopes([0.6])[0]);
    }
}
