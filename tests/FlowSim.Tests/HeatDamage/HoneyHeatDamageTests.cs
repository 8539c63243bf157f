using FlowSim.HeatDamage;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.HeatDamage;

[Properties(Arbitrary = [typeof(Generators)])]
public class HoneyHeatDamageTests
{
    private static TemperatureHistory Hold(double celsius, double hours) => TemperatureHistory.Hold(Temperature.FromDegreesCelsius(celsius), Duration.FromHours(hours));

    [Fact]
    public void Ten_days_at_20_C_cost_ten_days_at_20_C()
    {
        foreach (HmfRateLaw law in HmfRateLaws.All)
        {
            HoneyHeatDamage damage = HoneyHeatDamage.Of(Hold(20, 240), new HeatResponse { Law = law, FloralMultiplier = 3 });
            Assert.Equal(10, damage.EquivalentDaysAt20C.ByHmf, 1e-9);
            Assert.Equal(10, damage.EquivalentDaysAt20C.ByDiastase, 1e-9);
        }
    }

    [Fact]
    public void Diastase_takes_heat_worse_than_HMF_forms()
    {
        // Activation energies 147.5 and 128.57 kJ/mol: above 20 °C the equivalent by diastase is the longer one.
        (double byHmf, double byDiastase) = HoneyHeatDamage.Of(Hold(50, 24)).EquivalentDaysAt20C;
        Assert.True(byDiastase > byHmf && byHmf > 24);
    }

    [Fact]
    public void One_half_life_leaves_half()
    {
        // Diastase at 60 °C: 25.2 h in the table, the law within 1.5 %; other honeys 0.5 to 6 times as long.
        HoneyHeatDamage damage = HoneyHeatDamage.Of(Hold(60, 25.2));
        Assert.Equal(0.5, damage.DiastaseLeft.DecimalFractions, 0.006);
        Assert.Equal(Math.Pow(damage.DiastaseLeft.DecimalFractions, 2), damage.DiastaseLeftLow.DecimalFractions, 1e-12);
        Assert.Equal(Math.Pow(damage.DiastaseLeft.DecimalFractions, 1 / 6.0), damage.DiastaseLeftHigh.DecimalFractions, 1e-12);
    }

    [Fact]
    public void The_floral_multiplier_multiplies_and_its_spread_is_twelve_wide()
    {
        HoneyHeatDamage plain = HoneyHeatDamage.Of(Hold(50, 24));
        HoneyHeatDamage acid = HoneyHeatDamage.Of(Hold(50, 24), new HeatResponse { FloralMultiplier = 3 });
        HoneyHeatDamage unknown = HoneyHeatDamage.Of(Hold(50, 24), new HeatResponse { IncludeFloralSpread = true });
        Assert.Equal(3, acid.HmfGain / plain.HmfGain, 1e-12);
        Assert.Equal(3, acid.HmfGainHigh / plain.HmfGainHigh, 1e-12);
        Assert.Equal(plain.HmfGain.MilligramsPerKilogram, unknown.HmfGain.MilligramsPerKilogram, 1e-12);
        Assert.Equal(12, unknown.HmfGainHigh / unknown.HmfGainLow / (plain.HmfGainHigh / plain.HmfGainLow), 1e-9);
        Assert.Equal(plain.DiastaseLeft, acid.DiastaseLeft);
    }

    [Property]
    public void Bands_are_in_order(Share a, Share b, Share hours, Share floral)
    {
        var history = new TemperatureHistory(
        [
            (Duration.Zero, Temperature.FromDegreesCelsius(a.Between(-20, 90))),
            (Duration.FromHours(hours.LogBetween(0.01, 1e4)), Temperature.FromDegreesCelsius(b.Between(-20, 90))),
        ]);
        HoneyHeatDamage damage = HoneyHeatDamage.Of(history, new HeatResponse { FloralMultiplier = floral.LogBetween(1 / 12.0, 12) });
        Assert.True(damage.HmfGainLow.MilligramsPerKilogram >= 0 && damage.HmfGainLow <= damage.HmfGain && damage.HmfGain <= damage.HmfGainHigh);
        Assert.True(damage.DiastaseLeftLow.DecimalFractions >= 0 && damage.DiastaseLeftLow <= damage.DiastaseLeft && damage.DiastaseLeft <= damage.DiastaseLeftHigh && damage.DiastaseLeftHigh.DecimalFractions <= 1);
        Assert.True(damage.HmfEquivalentAt20C.Days >= 0 && damage.DiastaseEquivalentAt20C.Days >= 0);
    }

    private static TemperatureHistory History(double[] celsius, double hours, double warmer = 0) =>
        new([.. celsius.Select((c, i) => (Duration.FromHours(hours * i), Temperature.FromDegreesCelsius(c + warmer)))]);

    /// <summary>Three invented hours or days at least.</summary>
    private static double[] Walk(Share first, Share second, Share[] rest) =>
        [first.Between(-20, 90), second.Between(-20, 90), .. rest.Select(share => share.Between(-20, 90))];

    [Property]
    public void Gains_of_two_times_add_up_and_shares_left_multiply(Share first, Share second, Share[] rest, Share length)
    {
        double[] walk = [.. Walk(first, second, rest), 40];
        double hours = length.LogBetween(0.01, 100);
        HoneyHeatDamage whole = HoneyHeatDamage.Of(History(walk, hours));
        HoneyHeatDamage morning = HoneyHeatDamage.Of(History(walk[..2], hours)), evening = HoneyHeatDamage.Of(History(walk[1..], hours));
        AssertClose(whole.HmfGainLow.MilligramsPerKilogram, morning.HmfGainLow.MilligramsPerKilogram + evening.HmfGainLow.MilligramsPerKilogram);
        AssertClose(whole.HmfGain.MilligramsPerKilogram, morning.HmfGain.MilligramsPerKilogram + evening.HmfGain.MilligramsPerKilogram);
        AssertClose(whole.HmfGainHigh.MilligramsPerKilogram, morning.HmfGainHigh.MilligramsPerKilogram + evening.HmfGainHigh.MilligramsPerKilogram);
        Assert.Equal(whole.DiastaseLeftLow.DecimalFractions, morning.DiastaseLeftLow.DecimalFractions * evening.DiastaseLeftLow.DecimalFractions, 1e-12);
        Assert.Equal(whole.DiastaseLeft.DecimalFractions, morning.DiastaseLeft.DecimalFractions * evening.DiastaseLeft.DecimalFractions, 1e-12);
        AssertClose(whole.EquivalentDaysAt20C.ByHmf, morning.EquivalentDaysAt20C.ByHmf + evening.EquivalentDaysAt20C.ByHmf);
        AssertClose(whole.EquivalentDaysAt20C.ByDiastase, morning.EquivalentDaysAt20C.ByDiastase + evening.EquivalentDaysAt20C.ByDiastase);
    }

    private static void AssertClose(double expected, double actual) => Assert.Equal(expected, actual, 1e-10 * expected);

    [Property]
    public void Damage_never_falls_with_time(Share first, Share second, Share[] rest, Share length)
    {
        double[] walk = [.. Walk(first, second, rest), 40];
        double hours = length.LogBetween(0.01, 1000);
        for (int n = 2; n < walk.Length; n++)
            AssertNoLess(HoneyHeatDamage.Of(History(walk[..(n + 1)], hours)), HoneyHeatDamage.Of(History(walk[..n], hours)));
    }

    [Property]
    public void A_warmer_history_never_costs_less(Share first, Share second, Share[] rest, Share length, Share warmer)
    {
        double[] walk = Walk(first, second, rest);
        double hours = length.LogBetween(0.01, 1000);
        AssertNoLess(HoneyHeatDamage.Of(History(walk, hours, warmer.Between(0, 30))), HoneyHeatDamage.Of(History(walk, hours)));
    }

    /// <summary>But for rounding: the low end of the band is held over some kelvins above 75 °C.</summary>
    private static void AssertNoLess(HoneyHeatDamage more, HoneyHeatDamage less)
    {
        const double rounding = 1 - 1e-12;
        Assert.True(more.HmfGainLow >= less.HmfGainLow * rounding && more.HmfGain >= less.HmfGain * rounding && more.HmfGainHigh >= less.HmfGainHigh * rounding);
        Assert.True(more.DiastaseLeftLow * rounding <= less.DiastaseLeftLow && more.DiastaseLeft * rounding <= less.DiastaseLeft && more.DiastaseLeftHigh * rounding <= less.DiastaseLeftHigh);
        Assert.True(more.HmfEquivalentAt20C >= less.HmfEquivalentAt20C * rounding && more.DiastaseEquivalentAt20C >= less.DiastaseEquivalentAt20C * rounding);
    }

    [Fact]
    public void What_there_was_and_what_came_make_what_there_is()
    {
        HoneyHeatDamage damage = HoneyHeatDamage.Of(Hold(45, 48));
        HeatedHoney after = damage.After(new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(5), DiastaseNumber = 20 });
        Assert.Equal(5 + damage.HmfGainHigh.MilligramsPerKilogram, after.HmfHigh.MilligramsPerKilogram, 1e-9);
        Assert.Equal(5 + damage.HmfGain.MilligramsPerKilogram, after.Hmf.MilligramsPerKilogram, 1e-9);
        Assert.Equal(5 + damage.HmfGainLow.MilligramsPerKilogram, after.HmfLow.MilligramsPerKilogram, 1e-9);
        Assert.Equal(20 * damage.DiastaseLeft.DecimalFractions, after.DiastaseNumber!.Value, 1e-9);
        Assert.Equal(20 * damage.DiastaseLeftLow.DecimalFractions, after.DiastaseNumberLow!.Value, 1e-9);
        Assert.Equal(20 * damage.DiastaseLeftHigh.DecimalFractions, after.DiastaseNumberHigh!.Value, 1e-9);
        Assert.Null(damage.After(new HoneyBeforeHeat { Hmf = MassFraction.Zero }).DiastaseNumber);
    }

    [Fact]
    public void No_dose_no_damage()
    {
        HoneyHeatDamage damage = HoneyHeatDamage.Of(default(HeatDose));
        Assert.Equal((0.0, 1.0, 0.0), (damage.HmfGainHigh.MilligramsPerKilogram, damage.DiastaseLeftLow.DecimalFractions, damage.EquivalentDaysAt20C.ByDiastase));
    }

    [Fact]
    public void Bad_values_are_refused_by_name()
    {
        TemperatureHistory hold = Hold(40, 1);
        Assert.Equal("FloralMultiplier", Assert.Throws<ArgumentOutOfRangeException>(() => HoneyHeatDamage.Of(hold, new HeatResponse { FloralMultiplier = 13 })).ParamName);
        Assert.Equal("FloralMultiplier", Assert.Throws<ArgumentOutOfRangeException>(() => HoneyHeatDamage.Of(hold, new HeatResponse { FloralMultiplier = double.NaN })).ParamName);
        Assert.Equal("Law", Assert.Throws<ArgumentNullException>(() => HoneyHeatDamage.Of(hold, new HeatResponse { Law = null! })).ParamName);
        Assert.Throws<ArgumentException>(() => HoneyHeatDamage.Of(HeatDose.Of(hold, HmfRateLaws.From30To70C), new HeatResponse()));
        HoneyHeatDamage damage = HoneyHeatDamage.Of(hold);
        Assert.Equal("Hmf", Assert.Throws<ArgumentOutOfRangeException>(() => damage.After(new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(-1) })).ParamName);
        Assert.Equal("DiastaseNumber", Assert.Throws<ArgumentOutOfRangeException>(() => damage.After(new HoneyBeforeHeat { Hmf = MassFraction.Zero, DiastaseNumber = double.NaN })).ParamName);
    }

    [Fact]
    public void A_history_needs_times_that_rise_and_temperatures_that_exist()
    {
        static (Duration, Temperature) P(double s, double c) => (Duration.FromSeconds(s), Temperature.FromDegreesCelsius(c));
        Assert.Throws<ArgumentException>(() => new TemperatureHistory([P(0, 20)]));
        Assert.Throws<ArgumentNullException>(() => new TemperatureHistory(null!));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TemperatureHistory([P(0, 20), P(0, 30)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TemperatureHistory([P(0, 20), P(1e11, 30)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TemperatureHistory([P(0, 20), P(1, 151)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TemperatureHistory([P(0, -41), P(1, 20)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => TemperatureHistory.Hold(Temperature.FromDegreesCelsius(20), Duration.Zero));
    }
}
