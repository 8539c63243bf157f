using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>
/// What packers' pages say fits into their jars, against the density of honey of usual moisture, 17.2 % (mean of a US survey, USDA TB
/// 1261, read in a copy). US fluid ounce 29.5735295625 mL, ounce 28.349523125 g, pound 453.59237 g by definition.
/// </summary>
[Publication("Packers' pages on jars", "Three public pages that say how much honey is sold in which jar", Standing.Opened)]
public class HoneyInJarsTests
{
    private static readonly Honey Usual = new() { Moisture = Ratio.FromPercent(17.2) };

    private static Headspace Of(Volume brimful, Mass fill) => Headspace.Of(
        Usual, new Jar { Brimful = brimful }, fill, Temperature.FromDegreesCelsius(20), Temperature.FromDegreesCelsius(40), Ratio.FromPercent(1));

    /// <summary>A packer's page: fluid ounces of the jar beside ounces of honey.</summary>
    [Theory]
    [InlineData(32, 44)]
    [InlineData(16, 22)]
    [InlineData(24, 32)]
    [InlineData(9, 12)]
    [InlineData(3, 4)]
    [InlineData(6, 8)]
    public void What_a_packer_sells_in_a_jar_fits(double fluidOunces, double ounces)
    {
        Headspace room = Of(Volume.FromUsOunces(fluidOunces), Mass.FromOunces(ounces));
        Published.Agrees(HeadspaceVerdict.Fits, room.Verdict, $"{ounces} oz in {fluidOunces} fl oz");
        Assert.InRange(room.ShareAtFilling.Percent, 4, 11); // None is filled to the brim, none looks half empty.
    }

    /// <summary>A beekeeper's page: 250 g of honey "fills" a jar of 190 mL, 500 g one of 375 mL, 1 kg one of 750 mL.</summary>
    [Theory]
    [InlineData(190, 250)]
    [InlineData(375, 500)]
    [InlineData(750, 1000)]
    public void What_a_beekeeper_sells_in_a_jar_fits(double millilitres, double grams)
    {
        Headspace room = Of(Volume.FromMilliliters(millilitres), Mass.FromGrams(grams));
        Published.Agrees(HeadspaceVerdict.Fits, room.Verdict, $"{grams} g in {millilitres} mL");
        Assert.InRange(room.ShareAtFilling.Percent, 4, 11);
    }

    /// <summary>
    /// "A quart is three pounds" is a saying, not a fill: 3 lb are 1360.8 g; at 1.4224 × 998.2 kg/m³ they take 958 mL at 20 °C and 966 at 40, a quart holds 946.
    /// </summary>
    [Fact]
    [Publication("Wedmore 1955, table", "specific gravity of 17.2 %, 1.4224, between the entries 1.4237 for 17.0 and 1.4212 for 17.4", Standing.FromMemory)]
    public void A_quart_does_not_hold_three_pounds()
    {
        Headspace room = Of(CommonJars.ByName("volume-quart").Item.Brimful, Mass.FromPounds(3));
        Published.Agrees(946.35, room.Jar.Brimful.Milliliters, Within.Absolute(0.01, "a unit of the last digit"), "a US quart", "mL");
        Published.Agrees(1360.777 / (1.4224 * 0.9982), room.HoneyAtFilling.Milliliters, Within.Absolute(0.5, "the error of the density"), "3 lb of honey of 17.2 % at 20 °C", "mL");
        Assert.Equal(HeadspaceVerdict.CannotBeHeld, room.Verdict);

        // Nor does any honey that may be sold at all: the driest of the density's range is the densest.
        Headspace dry = Headspace.Of(new Honey { Moisture = Ratio.FromPercent(14) }, room.Jar, Mass.FromPounds(3), Temperature.FromDegreesCelsius(20), Temperature.FromDegreesCelsius(40), Ratio.Zero);
        Assert.NotEqual(HeadspaceVerdict.Fits, dry.Verdict);
        Assert.InRange(room.Most.Ounces, 44, 47);
    }
}
