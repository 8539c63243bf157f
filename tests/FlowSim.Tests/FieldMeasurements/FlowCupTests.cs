using FlowSim.FieldMeasurements;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Tests.FieldMeasurements;

/// <summary>A cup may be the user's own, so each of its numbers is looked at.</summary>
public class FlowCupTests
{
    /// <summary>ν = 2 (t − 10) mm²/s, good for 20 to 100 s: 20 to 180 mm²/s.</summary>
    private static FlowCup Own(double shortest = 20, double longest = 100, double offset = 10, double inverse = 0) => new()
    {
        Name = "own",
        Description = "a cup of one's own",
        SlopeMm2PerS2 = 2,
        OffsetS = offset,
        InverseMm2 = inverse,
        TimeRange = new ValidityRange("cup own", "time", "s", shortest, longest),
        LogSpread = 0.05,
        Source = new Source("invented", Standing.GivenByUser),
    };

    [Fact]
    public void A_part_that_is_missing_is_named()
    {
        Assert.Equal("Name", Assert.Throws<ArgumentNullException>(() => (Own() with { Name = null! }).Validate()).ParamName);
        Assert.Equal("Description", Assert.Throws<ArgumentNullException>(() => (Own() with { Description = null! }).Validate()).ParamName);
        Assert.Equal("TimeRange", Assert.Throws<ArgumentNullException>(() => (Own() with { TimeRange = null! }).Validate()).ParamName);
        Assert.Equal("Source", Assert.Throws<ArgumentNullException>(() => (Own() with { Source = null! }).Validate()).ParamName);
    }

    /// <summary>
    /// Times must be above 0, end at a day and give a viscosity above 0. With an inverse term of 1000 mm² a time of −5 s would give
    /// 2 (−5) + 1000/5 = 190 mm²/s, so the viscosity alone does not find it.
    /// </summary>
    [Theory]
    [InlineData(20, 86400, 10, 0, true)]
    [InlineData(20, 86401, 10, 0, false)]
    [InlineData(10.001, 100, 10, 0, true)]
    [InlineData(10, 100, 10, 0, false)]
    [InlineData(9, 100, 10, 0, false)]
    [InlineData(-5, 100, 0, 1000, false)]
    [InlineData(0, 100, 0, 0, false)]
    public void Its_times_lie_above_nothing_and_within_a_day(double shortest, double longest, double offset, double inverse, bool taken)
    {
        FlowCup cup = Own(shortest, longest, offset, inverse);
        if (taken)
        {
            cup.Validate();
            Assert.True(cup.Thinnest.Centistokes > 0);
            return;
        }

        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(cup.Validate);
        Assert.Equal("TimeRange", refused.ParamName);
        Assert.Contains("cup own must be above 0", refused.Message, StringComparison.Ordinal);
    }

    /// <summary>Both ends belong to what the cup can tell: 20 and 180 mm²/s of the cup above.</summary>
    [Theory]
    [InlineData(19.99, false)]
    [InlineData(20, true)]
    [InlineData(180, true)]
    [InlineData(180.01, false)]
    public void A_cup_is_good_from_its_thinnest_to_its_thickest(double centistokes, bool good)
    {
        Temperature at = Temperature.FromDegreesCelsius(40);
        Assert.Equal(good, new CupReach(Own(), KinematicViscosity.FromCentistokes(centistokes), at, null, at).IsGood);
    }

    [Theory]
    [InlineData(49.99, true)]
    [InlineData(50, true)]
    [InlineData(50.01, false)]
    public void A_honey_may_be_warmed_just_to_the_ceiling(double from, bool within)
    {
        var reach = new CupReach(Own(), KinematicViscosity.FromStokes(9), Temperature.FromDegreesCelsius(30), Temperature.FromDegreesCelsius(from), Temperature.FromDegreesCelsius(50));
        Assert.Equal(within, reach.IsWithinCeiling);
        Assert.False((reach with { ThinEnoughFrom = null }).IsWithinCeiling);
    }

    [Fact]
    public void A_cup_of_ones_own_is_checked_before_it_is_asked()
    {
        Temperature at = Temperature.FromDegreesCelsius(40);
        FlowCup wrong = Own() with { LogSpread = 2 };
        Assert.Equal("LogSpread", Assert.Throws<ArgumentOutOfRangeException>(() => CupReach.Of(wrong, new Honey { Moisture = Ratio.FromPercent(18) }, at, at)).ParamName);
    }

    /// <summary>
    /// A honey measured at 30 and 40 °C is known to 60 °C, 20 K beyond the last figure. By its own straight line in 1/T, e^(6000 (1/T − 1/303.15))
    /// times 5 Pa·s, it is 0.84 Pa·s at 60 °C: a cup that ends at what it has at 59 °C is reached, one that ends at what it would have at 65 °C never.
    /// </summary>
    [Fact]
    public void A_honey_is_followed_as_far_as_it_was_measured_and_no_further()
    {
        static double Law(double celsius) => 5 * Math.Exp(6000 * (1 / (celsius + 273.15) - 1 / 303.15));
        var honey = new Honey
        {
            Moisture = Ratio.FromPercent(17.5),
            Viscosity = new MeasuredViscosity(
                (Temperature.FromDegreesCelsius(30), DynamicViscosity.FromPascalSeconds(Law(30))),
                (Temperature.FromDegreesCelsius(40), DynamicViscosity.FromPascalSeconds(Law(40)))),
        };
        Temperature at = Temperature.FromDegreesCelsius(40);
        FlowCup EndingAt(double celsius)
        {
            double thickest = 1e6 * Law(celsius) / HoneyDensity.DensityKgPerM3(17.5, celsius + 273.15);
            return Own(offset: 0) with { SlopeMm2PerS2 = thickest / 100 };
        }

        Assert.Equal(59, CupReach.Of(EndingAt(59), honey, at, at).ThinEnoughFrom!.Value.DegreesCelsius, 1e-4);
        Assert.Null(CupReach.Of(EndingAt(65), honey, at, at).ThinEnoughFrom);
    }
}
