using UnitsNet;

namespace FlowSim.Properties;

/// <summary>What the growth of glucose crystals does to the liquid around them.</summary>
public static class CrystalLiquor
{
    /// <summary>Water in glucose monohydrate, % by mass: one molecule of water (18.015 g/mol) in 198.17 g/mol.</summary>
    public const double WaterInMonohydratePercent = 9.09;

    /// <summary>Range of the crystals' share of mass, %.</summary>
    public static ValidityRange CrystalRange { get; } = new("liquid between crystals", "crystals", "%", 0, 40, 0, 60);

    /// <summary>Range of the whole honey's moisture, % by mass.</summary>
    public static ValidityRange MoistureRange { get; } = new("liquid between crystals", "moisture", "%", 12, 23);

    /// <summary>Moisture of the liquid between the crystals.</summary>
    /// <param name="moisture">Moisture of the whole honey; see <see cref="MoistureRange"/>.</param>
    /// <param name="crystals">Glucose monohydrate, share of mass; see <see cref="CrystalRange"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range or not a number.</exception>
    public static Ratio MoistureOfLiquid(Ratio moisture, Ratio crystals)
    {
        MoistureRange.Require(moisture.Percent, nameof(moisture));
        CrystalRange.Require(crystals.Percent, nameof(crystals));
        return Ratio.FromPercent(LiquidMoisturePercent(moisture.Percent, crystals.DecimalFractions));
    }

    /// <summary>Moisture of the liquid between crystals of glucose monohydrate, % by mass.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: w_liq = (w − 9.09 x)/(1 − x).</para>
    /// <para><b>Range</b>: <see cref="MoistureRange"/>, <see cref="CrystalRange"/>.</para>
    /// <para><b>Error</b>: none of its own, it is a water balance; it takes all crystals as monohydrate.</para>
    /// <para><b>Source</b>: water balance with the molar masses of water and of glucose.</para>
    /// <para><b>Checked by</b>: CrystalLiquorTests.cs.</para>
    /// </remarks>
    /// <param name="moisturePercent">Moisture w of the whole honey, % by mass.</param>
    /// <param name="crystalFraction">Crystals x, share of mass, 0 to below 1.</param>
    internal static double LiquidMoisturePercent(double moisturePercent, double crystalFraction) =>
        (moisturePercent - WaterInMonohydratePercent * crystalFraction) / (1 - crystalFraction);
}
