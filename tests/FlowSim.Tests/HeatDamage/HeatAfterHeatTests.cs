using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Tests.HeatDamage;

/// <summary>Damage upon damage, and what is refused by name.</summary>
public class HeatAfterHeatTests
{
    private static TemperatureHistory Hold(double celsius, double hours) => TemperatureHistory.Hold(Temperature.FromDegreesCelsius(celsius), Duration.FromHours(hours));

    /// <summary>One time and then another cost what both together cost: by the dose of the two, gains added and shares left multiplied.</summary>
    [Fact]
    public void Damage_then_damage_is_the_damage_of_both()
    {
        HoneyHeatDamage first = HoneyHeatDamage.Of(Hold(55, 30)), second = HoneyHeatDamage.Of(Hold(78, 0.5));
        HoneyHeatDamage both = HoneyHeatDamage.Of(HeatDose.Of(Hold(55, 30)) + HeatDose.Of(Hold(78, 0.5))), then = first.Then(second);
        Assert.True(first.HmfGain.MilligramsPerKilogram > 1 && second.HmfGain.MilligramsPerKilogram > 1);
        Near(both.HmfGainLow.MilligramsPerKilogram, then.HmfGainLow.MilligramsPerKilogram);
        Near(both.HmfGain.MilligramsPerKilogram, then.HmfGain.MilligramsPerKilogram);
        Near(both.HmfGainHigh.MilligramsPerKilogram, then.HmfGainHigh.MilligramsPerKilogram);
        Near(both.DiastaseLeftLow.DecimalFractions, then.DiastaseLeftLow.DecimalFractions);
        Near(both.DiastaseLeft.DecimalFractions, then.DiastaseLeft.DecimalFractions);
        Near(both.DiastaseLeftHigh.DecimalFractions, then.DiastaseLeftHigh.DecimalFractions);
        Near(both.EquivalentDaysAt20C.ByHmf, then.EquivalentDaysAt20C.ByHmf);
        Near(both.EquivalentDaysAt20C.ByDiastase, then.EquivalentDaysAt20C.ByDiastase);
        Near(first.HmfGain.MilligramsPerKilogram + second.HmfGain.MilligramsPerKilogram, then.HmfGain.MilligramsPerKilogram);

        static void Near(double expected, double actual) => Assert.Equal(expected, actual, 1e-12 * expected);
    }

    /// <summary>Notices of both, each once.</summary>
    [Fact]
    public void Notices_of_both_times_are_kept()
    {
        HoneyHeatDamage mild = HoneyHeatDamage.Of(Hold(40, 1)), hot = HoneyHeatDamage.Of(Hold(90, 0.1));
        Assert.Empty(mild.Notices);
        Assert.NotEmpty(hot.Notices);
        Assert.Equal(hot.Notices, mild.Then(hot).Notices);
        Assert.Equal(hot.Notices, hot.Then(mild).Notices);
        Assert.Equal(hot.Notices, hot.Then(hot).Notices);
        Assert.Equal("later", Assert.Throws<ArgumentNullException>(() => hot.Then(null!)).ParamName);
    }

    /// <summary>A dose by any law and no word on the response: the law is the dose's, so ten days at 20 °C cost ten days.</summary>
    [Fact]
    public void A_dose_brings_its_own_law()
    {
        Assert.True(HmfRateLaws.All.Count > 1);
        foreach (HmfRateLaw law in HmfRateLaws.All)
            Assert.Equal(10, HoneyHeatDamage.Of(HeatDose.Of(Hold(20, 240), law)).EquivalentDaysAt20C.ByHmf, 1e-9);
    }

    [Fact]
    public void What_is_missing_or_out_of_range_is_named()
    {
        HeatDose dose = HeatDose.Of(Hold(40, 1));
        HeatResponse fast = new() { FloralMultiplier = 12.01 };
        Assert.Equal("FloralMultiplier", Assert.Throws<ArgumentOutOfRangeException>(() => HoneyHeatDamage.Of(dose, fast)).ParamName);
        Assert.Equal("FloralMultiplier", Assert.Throws<ArgumentOutOfRangeException>(() => HoneyHeatDamage.Of(Hold(40, 1), fast)).ParamName);
        Assert.Equal("Law", Assert.Throws<ArgumentNullException>(() => HoneyHeatDamage.Of(Hold(40, 1), new HeatResponse { Law = null! })).ParamName);
        Assert.Equal("history", Assert.Throws<ArgumentNullException>(() => HeatDose.Of(null!)).ParamName);
        Assert.Equal("start", Assert.Throws<ArgumentNullException>(() => HoneyHeatDamage.Of(dose).After(null!)).ParamName);

        HeatedHoney honey = HoneyHeatDamage.Of(dose).After(new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(3) });
        Assert.Equal("honey", Assert.Throws<ArgumentNullException>(() => LimitCheck.Of(null!, HeatLimits.All[0])).ParamName);
        Assert.Equal("limit", Assert.Throws<ArgumentNullException>(() => LimitCheck.Of(honey, null!)).ParamName);

        var cells = new CellDoses(HmfRateLaws.From20To70C, 1);
        cells.Start([313]);
        cells.Advance([314], 3600);
        Assert.Equal("FloralMultiplier", Assert.Throws<ArgumentOutOfRangeException>(() => cells.Average([1], fast)).ParamName);
    }

    /// <summary>(b − a)/ln(b/a) with b = a e^x is a (1 + x/2! + x²/3! + …), whatever the size of x.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1e-8)]
    [InlineData(-0.01)]
    [InlineData(0.03)]
    [InlineData(0.0499)]
    [InlineData(-0.0499)]
    [InlineData(0.0501)]
    [InlineData(-0.5)]
    [InlineData(2)]
    public void Logarithmic_mean_by_its_series(double x)
    {
        double sum = 0, term = 1;
        for (int n = 1; n < 40; n++)
        {
            sum += term;
            term *= x / (n + 1);
        }

        double mean = LogarithmicMean.Of(3, 3 * Math.Exp(x), x);

        // Where the difference of the rates is divided by x, it costs up to some 2/|x| roundings.
        Assert.Equal(3 * sum, mean, 3 * sum * (1e-15 + (Math.Abs(x) > 0.05 ? 5e-16 / Math.Abs(x) : 4e-15)));
    }

    /// <summary>Up to 75 °C the rate may be 1.95 times the law's, above it four times; right at 75 °C it is still the narrow band.</summary>
    [Fact]
    public void The_band_widens_above_75_C()
    {
        HmfRateLaw law = HmfRateLaws.From20To70C;
        double at = 348.15;
        Assert.Equal(1.95, law.HighMgPerKgPerS(at) / law.White1964MgPerKgPerS(at), 1e-12);
        Assert.Equal(0.59, law.LowMgPerKgPerS(at) / law.White1964MgPerKgPerS(at), 1e-12);
        Assert.Equal(4, law.HighMgPerKgPerS(at + 1e-9) / law.White1964MgPerKgPerS(at + 1e-9), 1e-12);
        Assert.Equal(0.25, law.LowMgPerKgPerS(at + 20) / law.White1964MgPerKgPerS(at + 20), 1e-12);
    }
}
