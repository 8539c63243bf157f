using FlowSim.HeatDamage;
using FsCheck.Xunit;
using MathNet.Numerics;
using UnitsNet;

namespace FlowSim.Tests.HeatDamage;

/// <summary>
/// Many cells at once against the dose of one piece of honey, which is itself tested against adaptive quadrature, and against
/// formulas.
/// </summary>
[Properties(Arbitrary = [typeof(Generators)], MaxTest = 200)]
public class CellDosesTests
{
    private static readonly HmfRateLaw s_law = HmfRateLaws.From20To70C;

    /// <summary>Activation energies over the gas constant as the laws state them, K.</summary>
    private const double HmfK = 128570 / 8.314462618, DiastaseK = 17739.15;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(17)]
    public void A_step_whose_log_rate_is_straight_is_exact_in_every_cell(int cells)
    {
        // 1/T straight in time. Differences from 10 K down to next to nothing, where (b − a)/ln(b/a) would cancel; 0.2 to 0.25 K
        // are the largest for which a series stands in.
        const double seconds = 5000;
        double[] start = [.. Enumerable.Range(0, cells).Select(i => 290 + 2.5 * i)];
        double[] end = [.. Enumerable.Range(0, cells).Select(i => start[i] + (i % 2 == 0 ? 1 : -1) * new[] { 10, 1e-9, 0.3, 1e-5, 0.25, 0, 0.2, 0.8 }[i % 8])];
        var doses = new CellDoses(s_law, cells);
        doses.Start(start);
        doses.Advance(end, seconds);

        for (int i = 0; i < cells; i++)
        {
            double Reference(Func<double, double> rate) =>
                seconds * Integrate.GaussKronrod(t => rate(1 / (1 / start[i] + t * (1 / end[i] - 1 / start[i]))), 0, 1, 1e-14, 20, 21);
            HeatDose dose = doses.DoseOf(i);
            AssertRelative(Reference(s_law.White1964MgPerKgPerS), dose.HmfMgPerKg, 2e-12);
            AssertRelative(Reference(s_law.LowMgPerKgPerS), dose.HmfLowMgPerKg, 2e-12);
            AssertRelative(Reference(s_law.HighMgPerKgPerS), dose.HmfHighMgPerKg, 2e-12);
            AssertRelative(Reference(DiastaseLoss.RatePerS), dose.DiastaseExponent, 2e-12);
            Assert.Equal((seconds, Math.Min(start[i], end[i]), Math.Max(start[i], end[i])), (dose.Seconds, dose.ColdestK, dose.HottestK));
        }
    }

    [Property]
    public void A_step_of_straight_temperature_reads_low_by_less_than_the_sagitta_of_the_log_rate(Share at, Share by)
    {
        // ln k is concave in T with curvature −2E/(R T³): the chord over ΔT lies below it by E ΔT²/(4 R T³) at the most.
        double startK = at.Between(250, 345), endK = startK + by.Between(-2, 2);
        CellDoses doses = Step(s_law, startK, endK, 600);
        HeatDose segment = HeatDose.OfSegment(s_law, startK, endK, 600), dose = doses.DoseOf(0);
        double sagitta = Math.Pow(endK - startK, 2) / (4 * Math.Pow(Math.Min(startK, endK), 3));
        Assert.InRange(1 - dose.HmfMgPerKg / segment.HmfMgPerKg, -1e-12, HmfK * sagitta + 1e-12);
        Assert.InRange(1 - dose.HmfLowMgPerKg / segment.HmfLowMgPerKg, -1e-12, HmfK * sagitta + 1e-12);
        Assert.InRange(1 - dose.HmfHighMgPerKg / segment.HmfHighMgPerKg, -1e-12, HmfK * sagitta + 1e-12);
        Assert.InRange(1 - dose.DiastaseExponent / segment.DiastaseExponent, -1e-12, DiastaseK * sagitta + 1e-12);
    }

    // The band widens at 75 °C, and its low end is held for a few kelvins: steps that end, begin, cross and stay there.
    [Theory]
    [InlineData(74, 75)]
    [InlineData(74, 76)]
    [InlineData(76, 74)]
    [InlineData(75, 77)]
    [InlineData(80, 80)]
    [InlineData(80, 80.0001)]
    [InlineData(81, 83)]
    [InlineData(83, 81)]
    [InlineData(95, 97)]
    [InlineData(97, 97)]
    [InlineData(74, 98)]
    [InlineData(98, 20)]
    public void Where_the_band_is_wide_each_end_is_followed(double startC, double endC)
    {
        foreach (HmfRateLaw law in HmfRateLaws.All)
        {
            HeatDose segment = HeatDose.OfSegment(law, startC + 273.15, endC + 273.15, 600);
            HeatDose dose = Step(law, startC + 273.15, endC + 273.15, 600).DoseOf(0);
            double allowed = 18000 * Math.Pow(endC - startC, 2) / (4 * Math.Pow(293.15, 3)) + 1e-12; // The sagitta, as above.
            AssertRelative(segment.HmfLowMgPerKg, dose.HmfLowMgPerKg, allowed);
            AssertRelative(segment.HmfMgPerKg, dose.HmfMgPerKg, allowed);
            AssertRelative(segment.HmfHighMgPerKg, dose.HmfHighMgPerKg, allowed);
            AssertRelative(segment.DiastaseExponent, dose.DiastaseExponent, allowed);
        }
    }

    // The mean depth of that chord, E ΔT²/(6 R T³), at 20 °C: 4.1e-4 of the diastase's rate for 2 K, 2.9e-7 for 0.05 K.
    [Theory]
    [InlineData(2, 5e-4)]
    [InlineData(0.05, 3e-7)]
    public void A_history_in_small_steps_is_the_history_s_dose(double stepK, double relative)
    {
        // Warming at one pace, a hold, a swing down and up through 75 °C, and off: an invented day.
        double[] cornersC = [20, 46, 46, 60, 30, 82, 50];
        List<double> path = [cornersC[0]];
        foreach (double cornerC in cornersC.Skip(1))
        {
            double from = path[^1];
            int steps = Math.Max(1, (int)Math.Ceiling(Math.Abs(cornerC - from) / stepK - 1e-9));
            path.AddRange(Enumerable.Range(1, steps).Select(i => from + (cornerC - from) * i / steps));
        }

        var doses = new CellDoses(s_law, 3);
        doses.Start([path[0] + 273.15, 290, 300]);
        foreach (double celsius in path.Skip(1))
            doses.Advance([celsius + 273.15, 290, 300], 120);

        HeatDose expected = HeatDose.Of(new TemperatureHistory([.. path.Select((c, i) => (Duration.FromSeconds(120 * i), Temperature.FromDegreesCelsius(c)))]));
        HeatDose dose = doses.DoseOf(0);
        AssertRelative(expected.HmfLowMgPerKg, dose.HmfLowMgPerKg, relative);
        AssertRelative(expected.HmfMgPerKg, dose.HmfMgPerKg, relative);
        AssertRelative(expected.HmfHighMgPerKg, dose.HmfHighMgPerKg, relative);
        AssertRelative(expected.DiastaseExponent, dose.DiastaseExponent, relative);
        AssertRelative(expected.Seconds, dose.Seconds, 1e-12);
        Assert.Equal((expected.ColdestK, expected.HottestK), (dose.ColdestK, dose.HottestK));

        // Cells beside it, held: rate times time.
        AssertRelative(s_law.White1964MgPerKgPerS(290) * expected.Seconds, doses.DoseOf(1).HmfMgPerKg, 1e-12);
        AssertRelative(DiastaseLoss.RatePerS(300) * expected.Seconds, doses.DoseOf(2).DiastaseExponent, 1e-12);
    }

    [Property]
    public void Damage_never_falls_with_time_and_warmer_honey_is_never_better_off(Share[] walk, Share seconds, Share warmer)
    {
        double by = warmer.Between(0, 20);
        var doses = new CellDoses(s_law, 2);
        HeatResponse response = new();
        doses.Start([300, 300 + by]);
        var before = doses.AverageNow([1, 1], response);
        Assert.Equal((0.0, 0.0, 0.0, 1.0, 1.0, 1.0), before);
        foreach (Share share in walk)
        {
            double kelvin = share.Between(250, 370);
            HeatDose was = doses.DoseOf(0);
            doses.Advance([kelvin, kelvin + by], seconds.LogBetween(1, 1e5));
            HeatDose cool = doses.DoseOf(0), warm = doses.DoseOf(1);
            Assert.True(cool.HmfLowMgPerKg > was.HmfLowMgPerKg && cool.HmfMgPerKg > was.HmfMgPerKg && cool.HmfHighMgPerKg > was.HmfHighMgPerKg && cool.DiastaseExponent > was.DiastaseExponent);
            Assert.True(cool.HmfLowMgPerKg < cool.HmfMgPerKg && cool.HmfMgPerKg < cool.HmfHighMgPerKg);

            // The low end is held over some kelvins, so warmer may do as much: but for rounding.
            Assert.True(warm.HmfLowMgPerKg >= cool.HmfLowMgPerKg * (1 - 1e-12) && warm.HmfMgPerKg >= cool.HmfMgPerKg * (1 - 1e-12) && warm.DiastaseExponent >= cool.DiastaseExponent);
            Assert.Equal(warm.HmfMgPerKg > cool.HmfMgPerKg ? 1 : 0, doses.WorstCell);

            var now = doses.AverageNow([1, 1], response);
            Assert.True(now.HmfLow > before.HmfLow && now.Hmf > before.Hmf && now.HmfHigh > before.HmfHigh);
            Assert.True(now.DiastaseLow <= before.DiastaseLow && now.Diastase <= before.Diastase && now.DiastaseHigh <= before.DiastaseHigh);
            Assert.True(now.DiastaseLow >= 0 && now.DiastaseLow <= now.Diastase && now.Diastase <= now.DiastaseHigh && now.DiastaseHigh <= 1);
            before = now;
        }
    }

    [Fact]
    public void The_average_is_of_gains_and_of_shares_left()
    {
        // 1 kg at 20 °C and 3 kg at 60 °C for 48 h. By hand from the laws' equations, k = 1.1716e20 exp(−128570/(R T)) mg/(kg·h)
        // and ln(t½/h) = −50.0342 + 17739.15/T; the band × 0.59 to 1.95, half-lives × 0.5 to 6.
        const double hours = 48;
        static double K(double kelvin) => 1.1716e20 * Math.Exp(-128570 / 8.314462618 / kelvin);
        static double HalfLife(double kelvin) => Math.Exp(-50.0342 + 17739.15 / kelvin);
        static double Left(double factor) => (Math.Pow(2, -hours / (factor * HalfLife(293.15))) + 3 * Math.Pow(2, -hours / (factor * HalfLife(333.15)))) / 4;
        double gain = 2 * hours * (K(293.15) + 3 * K(333.15)) / 4; // Floral multiplier 2.

        var doses = new CellDoses(s_law, 2);
        doses.Start([293.15, 333.15]);
        for (int i = 0; i < 48; i++)
            doses.Advance([293.15, 333.15], 3600);

        HoneyHeatDamage average = doses.Average([1, 3], new HeatResponse { FloralMultiplier = 2 });
        AssertRelative(0.59 * gain, average.HmfGainLow.MilligramsPerKilogram, 1e-9);
        AssertRelative(gain, average.HmfGain.MilligramsPerKilogram, 1e-9);
        AssertRelative(1.95 * gain, average.HmfGainHigh.MilligramsPerKilogram, 1e-9);
        AssertRelative(Left(0.5), average.DiastaseLeftLow.DecimalFractions, 1e-12);
        AssertRelative(Left(1), average.DiastaseLeft.DecimalFractions, 1e-12);
        AssertRelative(Left(6), average.DiastaseLeftHigh.DecimalFractions, 1e-12);
        AssertRelative(gain / 2 / K(293.15) / 24, average.EquivalentDaysAt20C.ByHmf, 1e-9);
        AssertRelative(-Math.Log2(Left(1)) * HalfLife(293.15) / 24, average.EquivalentDaysAt20C.ByDiastase, 1e-12);
        Assert.Empty(average.Notices);

        // √12 either way: 3.4641016.
        var wide = doses.AverageNow([1, 3], new HeatResponse { FloralMultiplier = 2, IncludeFloralSpread = true });
        AssertRelative(0.59 * gain / 3.4641016151377544, wide.HmfLow, 1e-9);
        AssertRelative(gain, wide.Hmf, 1e-9);
        AssertRelative(1.95 * gain * 3.4641016151377544, wide.HmfHigh, 1e-9);
        Assert.Equal((average.DiastaseLeft.DecimalFractions, average.DiastaseLeftLow.DecimalFractions), (wide.Diastase, wide.DiastaseLow));
    }

    [Property]
    public void Cells_that_are_alike_make_the_damage_of_one(Share a, Share b, Share mass)
    {
        double startK = a.Between(280, 360), endK = b.Between(280, 360);
        var doses = new CellDoses(s_law, 5);
        doses.Start([startK, startK, startK, startK, startK]);
        doses.Advance([endK, endK, endK, endK, endK], 1e5);
        HoneyHeatDamage one = HoneyHeatDamage.Of(doses.DoseOf(4)), average = doses.Average([1, 2, mass.Value, 4, 5], new HeatResponse());
        AssertRelative(one.HmfGainLow.MilligramsPerKilogram, average.HmfGainLow.MilligramsPerKilogram, 1e-12);
        AssertRelative(one.HmfGainHigh.MilligramsPerKilogram, average.HmfGainHigh.MilligramsPerKilogram, 1e-12);
        Assert.Equal(one.DiastaseLeftLow.DecimalFractions, average.DiastaseLeftLow.DecimalFractions, 1e-12);
        Assert.Equal(one.DiastaseLeftHigh.DecimalFractions, average.DiastaseLeftHigh.DecimalFractions, 1e-12);
        AssertRelative(one.HmfEquivalentAt20C.Days, average.HmfEquivalentAt20C.Days, 1e-12);
        AssertRelative(one.DiastaseEquivalentAt20C.Days, average.DiastaseEquivalentAt20C.Days, 1e-9);
        Assert.Equal(one.Notices, average.Notices);
    }

    [Fact]
    public void A_dose_that_leaves_no_diastase_has_finite_figures()
    {
        // 120 °C for a year: about 7e5 half-lives.
        var doses = new CellDoses(s_law, 2);
        doses.Start([393.15, 393.15]);
        doses.Advance([393.15, 393.15], 365 * 86400);
        HoneyHeatDamage average = doses.Average([1, 1], new HeatResponse());
        Assert.Equal(0, average.DiastaseLeft.DecimalFractions);
        AssertRelative(HoneyHeatDamage.Of(doses.DoseOf(0)).DiastaseEquivalentAt20C.Days, average.DiastaseEquivalentAt20C.Days, 1e-12);
        Assert.Equal(2, average.Notices.Count);
    }

    [Fact]
    public void One_hot_cell_is_told()
    {
        var doses = new CellDoses(s_law, 3);
        doses.Start([300, 350, 310]);
        doses.Advance([300, 340, 310], 60);
        doses.Advance([300, 310, 312], 60);
        Notice notice = Assert.Single(doses.Average([1, 1, 1], new HeatResponse()).Notices);
        Assert.Contains("hmf-20-70", notice.Seen, StringComparison.Ordinal);
        Assert.Empty(doses.DoseOf(0).Notices());
    }

    [Fact]
    public void Starting_again_forgets()
    {
        var doses = new CellDoses(s_law, 3);
        doses.Start([300, 350, 360]);
        doses.Advance([370, 350, 360], 1e4);
        doses.Start([300, 300, 310]);
        doses.Advance([301, 300, 310], 1e4);
        Assert.Equal(Step(s_law, 300, 301, 1e4).DoseOf(0), doses.DoseOf(0));
        Assert.Equal(2, doses.WorstCell);
    }

    [Fact]
    public void Another_law_than_the_response_s_is_refused() =>
        Assert.Equal("response", Assert.Throws<ArgumentException>(() => Step(s_law, 300, 301, 1).Average([1], new HeatResponse { Law = HmfRateLaws.From30To70C })).ParamName);

    [Fact]
    public void Advancing_and_averaging_allocate_nothing()
    {
        double[] start = [.. Enumerable.Range(0, 103).Select(i => 290 + 0.7 * i)];
        double[] end = [.. start.Select(k => k + 1)];
        double[] masses = [.. start.Select(_ => 0.3)];
        HeatResponse response = new();
        var doses = new CellDoses(s_law, start.Length);
        double Round()
        {
            doses.Start(start);
            doses.Advance(end, 10);
            doses.Advance(start, 10);
            return doses.AverageNow(masses, response).Diastase + doses.WorstCell + doses.DoseOf(3).Seconds;
        }

        double first = Round();
        double second = 0;
        Assert.Equal(0, Allocated.By(() => second = Round()));
        Assert.Equal(first, second);
    }

    /// <summary>Where the low end of the band stops rising both its parts meet; a cell held at that very temperature belongs to one of them.</summary>
    [Fact]
    public void A_cell_held_where_the_band_has_its_corner()
    {
        HeatDose expected = HeatDose.OfSegment(s_law, s_law.LowHeldToK, s_law.LowHeldToK, 3600), actual = Step(s_law, s_law.LowHeldToK, s_law.LowHeldToK, 3600).DoseOf(0);
        Assert.True(expected.HmfMgPerKg > 10);
        Assert.Equal(expected.HmfMgPerKg, actual.HmfMgPerKg, 1e-9);
        Assert.Equal(expected.HmfLowMgPerKg, actual.HmfLowMgPerKg, 1e-9);
        Assert.Equal(expected.HmfHighMgPerKg, actual.HmfHighMgPerKg, 1e-9);
    }

    private static CellDoses Step(HmfRateLaw law, double startK, double endK, double seconds)
    {
        var doses = new CellDoses(law, 1);
        doses.Start([startK]);
        doses.Advance([endK], seconds);
        return doses;
    }

    private static void AssertRelative(double expected, double actual, double relative) =>
        Assert.True(Math.Abs(actual - expected) <= relative * Math.Abs(expected), $"{actual:R} is not {expected:R} to {relative}: {actual / expected - 1}");
}
