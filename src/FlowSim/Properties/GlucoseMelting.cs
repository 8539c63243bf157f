using UnitsNet;

namespace FlowSim.Properties;

/// <summary>Heat that glucose crystals take up as they melt into the honey around them.</summary>
public static class GlucoseMelting
{
    /// <summary>Latent heat per mass of crystals, J/kg: 108.39 J/g as printed, rounded to what its spread allows.</summary>
    internal const double LatentHeatJPerKg = 108.4e3;

    /// <summary>Spread of <see cref="LatentHeatJPerKg"/>, J/kg, as printed.</summary>
    internal static readonly PropertySpread Spread = new(SpreadKind.Absolute, 6.16e3);

    /// <summary>Range of the crystals' share of mass, %: as far as the liquid between them is described.</summary>
    public static ValidityRange CrystalRange { get; } = new("melting of glucose crystals", "crystals", "%", 0, 40, 0, 60);

    /// <summary>Where the latent heat comes from. One honey, of dandelion: others were not measured.</summary>
    public static Source Source { get; } = new(
        "\"Crystallization in 'Tarassaco' Italian honey studied by DSC\", Food Chemistry 122(2):410-415 (2010): 108.39 ± 6.16 J/g for crystals, mainly glucose monohydrate, separated from a dandelion honey; abstract as kept in a university library's catalogue",
        Standing.AbstractOnly);

    /// <summary>Heat per mass of crystals.</summary>
    public static SpecificEnergy LatentHeat => SpecificEnergy.FromJoulesPerKilogram(LatentHeatJPerKg);

    /// <summary>Heat that melting all crystals takes, per mass of the whole honey, with its spread.</summary>
    /// <param name="crystals">Crystals (glucose monohydrate), share of mass; see <see cref="CrystalRange"/>.</param>
    /// <returns>Low end, stated value, high end.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The share is outside the outer limits or not a number.</exception>
    public static (SpecificEnergy Low, SpecificEnergy Best, SpecificEnergy High) HeatOf(Ratio crystals)
    {
        CrystalRange.Require(crystals.Percent, nameof(crystals));
        (double low, double high) = Spread.Around(LatentHeatJPerKg);
        double share = crystals.DecimalFractions;
        return (
            SpecificEnergy.FromJoulesPerKilogram(low * share),
            SpecificEnergy.FromJoulesPerKilogram(LatentHeatJPerKg * share),
            SpecificEnergy.FromJoulesPerKilogram(high * share));
    }
}
