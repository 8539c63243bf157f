using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Tests.HeatDamage;

public class HmfRateLawTests
{
    [Fact]
    public void The_band_never_falls_with_temperature_and_widens_above_75_C()
    {
        foreach (HmfRateLaw law in HmfRateLaws.All)
        {
            double low = 0, best = 0, high = 0;
            for (double k = 270; k < 375; k += 0.05)
            {
                Assert.True(law.LowMgPerKgPerS(k) >= low && law.White1964MgPerKgPerS(k) > best && law.HighMgPerKgPerS(k) > high);
                (low, best, high) = (law.LowMgPerKgPerS(k), law.White1964MgPerKgPerS(k), law.HighMgPerKgPerS(k));
            }

            double held = law.LowHeldToK;
            Assert.InRange(held - 273.15, 75, 90);
            Assert.Equal(1, law.White1964MgPerKgPerS(held) / 4 / law.LowMgPerKgPerS(348.15), 1e-12);
            Assert.Equal(0.25, law.LowMgPerKgPerS(held + 1) / law.White1964MgPerKgPerS(held + 1), 1e-12);
            Assert.Equal(4, law.HighMgPerKgPerS(348.16) / law.White1964MgPerKgPerS(348.16), 1e-12);
        }
    }

    [Fact]
    public void A_rate_is_asked_for_within_its_range_only()
    {
        (MassFraction low, MassFraction best, MassFraction high) = HmfRateLaws.From20To70C.BandAt(Temperature.FromDegreesCelsius(40));

        // 1.1716e20 exp(−128570/(8.314462618 · 313.15)) · 24, worked out apart from this code: 1.0079 mg/kg a day.
        Assert.Equal(1.0079, best.MilligramsPerKilogram, 0.0005);
        Assert.Equal(0.59 * best.MilligramsPerKilogram, low.MilligramsPerKilogram, 1e-9);
        Assert.Equal(1.95 * best.MilligramsPerKilogram, high.MilligramsPerKilogram, 1e-9);
        foreach (double celsius in new[] { -1.0, 101 })
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => HmfRateLaws.From20To70C.BandAt(Temperature.FromDegreesCelsius(celsius)));
            Assert.Throws<ArgumentOutOfRangeException>(() => DiastaseLoss.HalfLifeAt(Temperature.FromDegreesCelsius(celsius)));
        }
    }

    [Fact]
    public void Half_life_and_rate_constant_are_one_thing()
    {
        (Duration low, Duration best, Duration high) = DiastaseLoss.HalfLifeAt(Temperature.FromDegreesCelsius(50));
        Assert.Equal(Math.Log(2), DiastaseLoss.RatePerS(323.15) * best.Seconds, 1e-12);
        Assert.Equal((0.5, 6.0), (Math.Round(low / best, 12), Math.Round(high / best, 12)));
    }

    [Fact]
    public void Laws_have_names()
    {
        Assert.All(HmfRateLaws.All, law => Assert.Same(law, HmfRateLaws.ByName(law.Name)));
        Assert.Contains("'hmf-20-70'", Assert.Throws<ArgumentException>(() => HmfRateLaws.ByName("hmf-20-71")).Message, StringComparison.Ordinal);
    }
}
