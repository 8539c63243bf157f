using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>Melting enthalpy of crystals, mainly glucose monohydrate, separated from the honey: 108.39 ± 6.16 J/g.</summary>
[Publication("Crystallization in 'Tarassaco' Italian honey studied by DSC, 2010", "Food Chemistry 122(2):410-415", Standing.AbstractOnly)]
public class TarassacoHoney2010Tests
{
    [Fact]
    public void The_latent_heat_is_the_published_one()
    {
        Published.Agrees(108.39, GlucoseMelting.LatentHeat.JoulesPerKilogram / 1000, Within.Absolute(0.05, "rounded to a tenth"), "melting enthalpy of the crystals", "J/g");
        Assert.Equal(Standing.AbstractOnly, GlucoseMelting.Source.Standing);
    }

    [Fact]
    public void A_set_honey_takes_as_much_heat_to_melt_as_seven_kelvins_of_warming()
    {
        // By hand: 15 % of 108.39 ± 6.16 J/g is 16.26 ± 0.92 kJ/kg; at 2.26 kJ/(kg·K), a published heat capacity of liquid
        // honey at 17.4 % and 20 °C, that is 7.2 K.
        (SpecificEnergy low, SpecificEnergy best, SpecificEnergy high) = GlucoseMelting.HeatOf(Ratio.FromPercent(15));
        Assert.Equal(16.26, best.KilojoulesPerKilogram, 0.01);
        Assert.Equal((15.34, 17.18), (Math.Round(low.KilojoulesPerKilogram, 2), Math.Round(high.KilojoulesPerKilogram, 2)));
        Assert.Equal(7.2, best.KilojoulesPerKilogram / 2.26, 0.05);
    }

    [Fact]
    [Publication("tables of sweeteners", "heat taken up when dextrose monohydrate dissolves in water, 25.2 cal/g", Standing.FromMemory)]
    public void It_is_that_of_the_pure_substance()
    {
        (double low, double high) = GlucoseMelting.Spread.Around(GlucoseMelting.LatentHeatJPerKg);
        Published.IsHeldBy((low / 1000, high / 1000), 105.5, "melting into a syrup is much the same; the published spread covers the difference", "melting enthalpy with its spread", "J/g");
    }

    [Theory]
    [InlineData(-0.01)]
    [InlineData(60.01)]
    public void More_crystals_than_honey_can_hold_are_refused(double percent) =>
        Assert.Equal("crystals", Assert.Throws<ArgumentOutOfRangeException>(() => GlucoseMelting.HeatOf(Ratio.FromPercent(percent))).ParamName);
}
