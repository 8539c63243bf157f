using FlowSim.FieldMeasurements;
using FlowSim.Numerics.Sampling;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

public class LotFactorEstimateTests
{
    private static readonly Honey Honey = new() { Moisture = Ratio.FromPercent(17.8) };

    /// <summary>Factor times correlation is the measured viscosity again, whatever moisture was stated: the wrong moisture cancels.</summary>
    [Theory]
    [InlineData(16)]
    [InlineData(17.8)]
    [InlineData(19.5)]
    public void Used_with_the_same_moisture_it_gives_back_the_viscosity(double percent)
    {
        ViscosityMeasurement measured = Samples.Ball(10.9).Measure();
        Honey stated = Honey with { Moisture = Ratio.FromPercent(percent) };
        LotFactorEstimate estimate = measured.LotFactor(stated);
        DynamicViscosity again = HoneyProperties.Of(stated with { LotFactor = estimate.Value }).ViscosityAt(measured.Temperature);
        Assert.Equal(measured.Viscosity.PascalSeconds, again.PascalSeconds, 1e-12 * again.PascalSeconds + 1e-12);
        Assert.Equal("vogel", estimate.Correlation);
    }

    /// <summary>
    /// The slopes of the Vogel law by hand: d ln μ/dT = −B/(T − T0)², per percent 3.7019 times that and negative, with B 1449.73 K and
    /// T0 = 187.31 − 3.7019 × 0.8 K at 17.8 %.
    /// </summary>
    [Fact]
    public void Moisture_and_temperature_enter_by_the_slopes_of_the_correlation()
    {
        LotFactorEstimate estimate = Samples.Ball(10.9).Measure().LotFactor(Honey);
        double distance = 308.15 - (187.31 - 3.7019 * 0.8);
        double perK = 1449.73 / distance / distance;
        Assert.Equal(-perK, estimate.LogSlopePerK, 1e-4);
        Assert.Equal(-3.7019 * perK, estimate.LogSlopePerPercentMoisture, 1e-4);
        Assert.Equal(0.5 * perK, estimate.Contributions.Single(share => share.Name == "temperature of the honey").StandardDeviation, 1e-4);
        Assert.Equal(0.2 * 3.7019 * perK, estimate.Contributions.Single(share => share.Name == "moisture of the honey").StandardDeviation, 1e-4);
        Assert.Equal(1, estimate.Contributions.Sum(share => share.Share), 1e-12);
        Assert.True(estimate.LogStandardDeviationAtStatedMoisture < estimate.LogStandardDeviation);
    }

    /// <summary>Moisture, temperature and viscosity drawn independently: the spread of ln(factor) is that which was stated.</summary>
    [Fact]
    public void Agrees_with_Monte_Carlo()
    {
        ViscosityMeasurement measured = Samples.Ball(10.9).Measure();
        LotFactorEstimate estimate = measured.LotFactor(Honey);
        var moisture = new NormalDistribution(17.8, 0.2);
        var kelvin = new NormalDistribution(308.15, 0.5);
        var viscosity = new LogNormalDistribution(measured.Viscosity.PascalSeconds, measured.LogStandardDeviation);
        ViscosityCorrelation vogel = ViscosityCorrelations.Default;
        var runs = new ReplicateRuns(new ErrorBudgetTests.Model(3, x => Math.Log(viscosity.Quantile(x[2]) / vogel.ViscosityPaS(moisture.Quantile(x[0]), kelvin.Quantile(x[1])))), 11);
        runs.Extend(4096);
        Propagation drawn = Propagation.Of(runs, 0);
        Assert.Equal(drawn.StandardDeviation.Value, estimate.LogStandardDeviation, 0.01 * estimate.LogStandardDeviation);
        Assert.Equal(drawn.SymmetricLow.Value, Math.Log(estimate.Interval95.Low), 0.01);
        Assert.Equal(drawn.SymmetricHigh.Value, Math.Log(estimate.Interval95.High), 0.01);
    }

    [Theory]
    [InlineData(60, "crystals")]
    [InlineData(3.0, "warmer")]
    public void A_factor_far_from_others_is_remarked_on(double seconds, string means)
    {
        ViscosityMeasurement measured = (Samples.Ball(seconds) with { Reaction = Duration.FromSeconds(0.1) }).Measure();
        Notice notice = Assert.Single(measured.LotFactor(Honey).Notices, notice => notice.Code == "lot-factor.far");
        Assert.Contains(means, notice.MayMean, StringComparison.Ordinal);
    }

    [Fact]
    public void A_gelling_honey_is_refused() =>
        Assert.Throws<HoneyRefusedException>(() => Samples.Ball(10.9).Measure().LotFactor(Honey with { Form = HoneyForm.Gelling }));

    [Fact]
    public void A_temperature_beyond_the_correlation_is_refused()
    {
        FallingBall cold = Samples.Ball(2000) with { Sample = Samples.Honey(celsius: 5) };
        Assert.Equal("Temperature", Assert.Throws<ArgumentOutOfRangeException>(() => cold.Measure().LotFactor(Honey)).ParamName);
    }

    [Fact]
    public void A_honey_is_needed() =>
        Assert.Equal("honey", Assert.Throws<ArgumentNullException>(() => Samples.Ball(10.9).Measure().LotFactor(null!)).ParamName);

    /// <summary>A lot factor is 0.05 to 20; the ball that takes 200 s, more than 18 times as long as one that gives a factor above 1.5, would give more.</summary>
    [Fact]
    public void A_factor_that_no_honey_has_is_refused()
    {
        Assert.InRange(Samples.Ball(10.9).Measure().LotFactor(Honey).Value, 1.2, 1.8);
        Assert.Equal("LotFactor", Assert.Throws<ArgumentOutOfRangeException>(() => Samples.Ball(200).Measure().LotFactor(Honey)).ParamName);
    }

    /// <summary>Two and a half standard deviations of 0.30 about 1: e^−0.75 = 0.47 to e^0.75 = 2.12.</summary>
    [Fact]
    public void What_is_far_from_others_is_said_with_its_limits()
    {
        LotFactorEstimate far = Samples.Ball(60).Measure().LotFactor(Honey);
        Notice notice = Assert.Single(far.Notices, notice => notice.Code == "lot-factor.far");
        Assert.Equal(FormattableString.Invariant($"a lot factor of {far.Value:0.00} is further from 1 than honeys of equal moisture commonly are (0.5 to 2.1)"), notice.Seen);
        Assert.Empty(Samples.Ball(10.9).Measure().LotFactor(Honey).Notices);
    }

    /// <summary>About figures of one's own honey nothing is known of other honeys: any factor is as good as another.</summary>
    [Fact]
    public void Beside_measured_figures_no_factor_is_far()
    {
        Honey own = Honey with { Viscosity = new MeasuredViscosity((Temperature.FromDegreesCelsius(35), DynamicViscosity.FromPascalSeconds(1))) };
        LotFactorEstimate estimate = Samples.Ball(30).Measure().LotFactor(own);
        Assert.InRange(estimate.Value, 5, 15);
        Assert.Empty(estimate.Notices);
    }
}
