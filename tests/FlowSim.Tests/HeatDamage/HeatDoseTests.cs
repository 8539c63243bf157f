using FlowSim.HeatDamage;
using FsCheck;
using FsCheck.Xunit;
using MathNet.Numerics;
using UnitsNet;

namespace FlowSim.Tests.HeatDamage;

/// <summary>The dose: how exactly it is integrated, and the rules it keeps.</summary>
[Properties(Arbitrary = [typeof(Generators)], MaxTest = 300)]
public class HeatDoseTests
{
    private static readonly HmfRateLaw s_law = HmfRateLaws.From20To70C;

    // Up to 40 K, on either side of 75 °C (where the band widens) and across it; the last is beyond what a run meets.
    [Theory]
    [InlineData(20, 60)]
    [InlineData(60, 20)]
    [InlineData(35, 75)]
    [InlineData(50, 90)]
    [InlineData(80, 81)]
    [InlineData(45, 45.001)]
    [InlineData(-20, 20)]
    [InlineData(-30, 120)]
    public void A_segment_agrees_with_adaptive_quadrature(double startC, double endC)
    {
        const double seconds = 7200;
        foreach (HmfRateLaw law in HmfRateLaws.All)
        {
            HeatDose dose = HeatDose.OfSegment(law, startC + 273.15, endC + 273.15, seconds);
            double Reference(Func<double, double> rate)
            {
                // MathNet's adaptive Gauss-Kronrod, piece by piece between the band's step and corner.
                double At(double t) => rate(startC + 273.15 + (endC - startC) * t);
                double[] cuts = new[] { 0, Cut(348.15), Cut(law.LowHeldToK), 1 }.Order().ToArray();
                return seconds * cuts.Zip(cuts.Skip(1)).Where(c => c.Second > c.First).Sum(c => Integrate.GaussKronrod(At, c.First, c.Second, 1e-13, 20, 21));
            }

            double Cut(double kelvin) => Math.Clamp((kelvin - 273.15 - startC) / (endC - startC), 0, 1);
            AssertRelative(Reference(law.White1964MgPerKgPerS), dose.HmfMgPerKg, 1e-9);
            AssertRelative(Reference(law.LowMgPerKgPerS), dose.HmfLowMgPerKg, 1e-9);
            AssertRelative(Reference(law.HighMgPerKgPerS), dose.HmfHighMgPerKg, 1e-9);
            AssertRelative(Reference(DiastaseLoss.RatePerS), dose.DiastaseExponent, 1e-9);
        }
    }

    [Fact]
    public void Held_honey_gets_rate_times_time()
    {
        HeatDose dose = HeatDose.Of(TemperatureHistory.Hold(Temperature.FromDegreesCelsius(40), Duration.FromHours(48)));
        AssertRelative(s_law.White1964MgPerKgPerS(313.15) * 48 * 3600, dose.HmfMgPerKg, 1e-14);

        // Half-life at 40 °C by the equation itself, in hours.
        AssertRelative(Math.Log(2) * 48 / Math.Exp(-50.0342 + 17739.15 / 313.15), dose.DiastaseExponent, 1e-13);
    }

    [Property]
    public void How_a_history_is_cut_changes_nothing(Share a, Share b, Share c, Share cut1, Share cut2)
    {
        double[] k = [a.Between(250, 390), b.Between(250, 390), c.Between(250, 390)];
        HeatDose whole = HeatDose.OfSegment(s_law, k[0], k[1], 1000) + HeatDose.OfSegment(s_law, k[1], k[2], 500);

        double first = k[0] + (k[1] - k[0]) * cut1.Value, second = k[1] + (k[2] - k[1]) * cut2.Value;
        HeatDose cut = HeatDose.OfSegment(s_law, k[0], first, 1000 * cut1.Value)
            + HeatDose.OfSegment(s_law, first, k[1], 1000 * (1 - cut1.Value))
            + HeatDose.OfSegment(s_law, k[1], second, 500 * cut2.Value)
            + HeatDose.OfSegment(s_law, second, k[2], 500 * (1 - cut2.Value));

        AssertSame(whole, cut, 1e-12);
    }

    [Property]
    public void Points_put_into_a_history_change_nothing(Share a, Share b, Share cut)
    {
        double startC = a.Between(-30, 120), endC = b.Between(-30, 120), at = cut.Between(0.001, 0.999);
        (Duration, Temperature) Point(double share) => (Duration.FromHours(10 * share), Temperature.FromDegreesCelsius(startC + (endC - startC) * share));
        AssertSame(HeatDose.Of(new TemperatureHistory([Point(0), Point(1)])), HeatDose.Of(new TemperatureHistory([Point(0), Point(at), Point(1)])), 1e-12);
    }

    [Property]
    public void It_is_ordered_positive_and_grows_with_temperature(Share a, Share b, Share warmer)
    {
        double start = a.Between(250, 380), end = b.Between(250, 380), by = warmer.Between(0.01, 30);
        foreach (HmfRateLaw law in HmfRateLaws.All)
        {
            HeatDose cool = HeatDose.OfSegment(law, start, end, 3600);
            HeatDose warm = HeatDose.OfSegment(law, start + by, end + by, 3600);
            Assert.True(cool.HmfLowMgPerKg > 0 && cool.DiastaseExponent > 0);
            Assert.True(cool.HmfLowMgPerKg < cool.HmfMgPerKg && cool.HmfMgPerKg < cool.HmfHighMgPerKg);
            Assert.True(warm.HmfMgPerKg > cool.HmfMgPerKg && warm.HmfHighMgPerKg > cool.HmfHighMgPerKg && warm.DiastaseExponent > cool.DiastaseExponent);

            // Held over a few degrees above 75 °C, so it may stay, but for rounding.
            Assert.True(warm.HmfLowMgPerKg >= cool.HmfLowMgPerKg * (1 - 1e-12));
        }
    }

    [Property]
    public void The_order_of_times_does_not_count(Share a, Share b)
    {
        HeatDose first = HeatDose.OfSegment(s_law, a.Between(270, 350), 300, 10), second = HeatDose.OfSegment(s_law, 300, b.Between(270, 350), 20);
        AssertSame(first + second, second + first, 1e-15);
    }

    [Fact]
    public void Nothing_is_the_neutral_dose()
    {
        HeatDose dose = HeatDose.OfSegment(s_law, 300, 310, 10);
        Assert.Equal(dose, default(HeatDose) + dose);
        Assert.Equal(dose, dose + default(HeatDose));
        Assert.Equal(0, HeatDose.OfSegment(s_law, 300, 310, 0).HmfMgPerKg);
    }

    [Fact]
    public void Doses_of_two_laws_do_not_add_up() =>
        Assert.Throws<ArgumentException>(() => HeatDose.OfSegment(s_law, 300, 310, 10) + HeatDose.OfSegment(HmfRateLaws.From30To70C, 300, 310, 10));

    [Fact]
    public void A_segment_allocates_nothing()
    {
        HeatDose dose = default;
        Assert.Equal(0, Allocated.By(() => dose = HeatDose.OfSegment(s_law, 290, 360, 10) + HeatDose.OfSegment(s_law, 290, 360, 10)));
        Assert.Equal(20, dose.Seconds);
    }

    [Fact]
    public void Leaving_the_data_upwards_is_told()
    {
        Assert.Empty(HeatDose.OfSegment(s_law, 263.15, 343.15, 10).Notices());
        Notice notice = Assert.Single(HeatDose.OfSegment(s_law, 300, 345, 10).Notices());
        Assert.Contains("hmf-20-70", notice.Seen, StringComparison.Ordinal);
        Assert.Equal(2, HeatDose.OfSegment(s_law, 300, 355, 10).Notices().Count);
    }

    private static void AssertSame(HeatDose expected, HeatDose actual, double relative)
    {
        AssertRelative(expected.HmfLowMgPerKg, actual.HmfLowMgPerKg, relative);
        AssertRelative(expected.HmfMgPerKg, actual.HmfMgPerKg, relative);
        AssertRelative(expected.HmfHighMgPerKg, actual.HmfHighMgPerKg, relative);
        AssertRelative(expected.DiastaseExponent, actual.DiastaseExponent, relative);
        AssertRelative(expected.Seconds, actual.Seconds, relative);
    }

    private static void AssertRelative(double expected, double actual, double relative) =>
        Assert.True(Math.Abs(actual - expected) <= relative * Math.Abs(expected), $"{actual:R} is not {expected:R} to {relative}: {actual / expected - 1}");
}
