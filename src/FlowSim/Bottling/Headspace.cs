using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>Whether a jar holds its honey with room to expand.</summary>
public enum HeadspaceVerdict
{
    /// <summary>It fits, with the headspace asked for at the hottest place it will stand.</summary>
    Fits,

    /// <summary>It is held, but with less headspace than asked for when it is hottest.</summary>
    TooTight,

    /// <summary>It does not go in, or runs over when it is hottest.</summary>
    CannotBeHeld,
}

/// <summary>Room above the honey in a jar, when it is filled and when it is hottest.</summary>
/// <remarks>The jar is taken not to grow: glass grows by a twentieth of what honey does (from memory), plastic more. The honey stays liquid.</remarks>
public sealed record Headspace
{
    /// <summary>The jar.</summary>
    public required Jar Jar { get; init; }

    /// <summary>Honey in it.</summary>
    public required Mass Fill { get; init; }

    /// <summary>Volume of the honey when it is filled.</summary>
    public required Volume HoneyAtFilling { get; init; }

    /// <summary>Volume of the honey when it is hottest.</summary>
    public required Volume HoneyAtHottest { get; init; }

    /// <summary>Hottest temperature: that of the store, or of the filling if that is higher.</summary>
    public required Temperature Hottest { get; init; }

    /// <summary>Headspace asked for when it is hottest, share of the brimful volume.</summary>
    public required Ratio Least { get; init; }

    /// <summary>Most honey that leaves the headspace asked for.</summary>
    public required Mass Most { get; init; }

    /// <summary>The verdict.</summary>
    public required HeadspaceVerdict Verdict { get; init; }

    /// <summary>Room when it is filled; negative when it does not go in.</summary>
    public Volume AtFilling => Jar.Brimful - HoneyAtFilling;

    /// <summary>Room when it is hottest; negative when it runs over.</summary>
    public Volume AtHottest => Jar.Brimful - HoneyAtHottest;

    /// <summary>Room when it is filled as a share of the brimful volume.</summary>
    public Ratio ShareAtFilling => Ratio.FromDecimalFractions(AtFilling / Jar.Brimful);

    /// <summary>Room when it is hottest as a share of the brimful volume.</summary>
    public Ratio ShareAtHottest => Ratio.FromDecimalFractions(AtHottest / Jar.Brimful);

    /// <summary>Depth of the honey below the brim when it is filled, if the neck goes down that far; null without a neck's diameter.</summary>
    public Length? DepthAtFilling => Jar.Mouth is { } mouth
        ? Length.FromMeters(AtFilling.CubicMeters / (Math.PI / 4 * mouth.Meters * mouth.Meters))
        : null;

    /// <summary>Computes it.</summary>
    /// <param name="honey">The honey.</param>
    /// <param name="jar">The jar.</param>
    /// <param name="fill">Honey in it. 1 g to 60 kg.</param>
    /// <param name="filling">Temperature when it is filled, within the outer range of <see cref="HoneyDensity.TemperatureRange"/>.</param>
    /// <param name="hottestStore">Hottest place it will stand, within the same range.</param>
    /// <param name="least">Headspace asked for then, share of the brimful volume. 0 to 50 %.</param>
    /// <exception cref="ArgumentException">A value is out of its range.</exception>
    public static Headspace Of(Honey honey, Jar jar, Mass fill, Temperature filling, Temperature hottestStore, Ratio least)
    {
        EquipmentCheck.Present(jar).Validate();
        EquipmentCheck.Within(fill.Kilograms, 0.001, 60, "kg", nameof(fill));
        EquipmentCheck.Within(least.Percent, 0, 50, "%", nameof(least));
        HoneyProperties properties = HoneyProperties.Of(honey);
        HoneyDensity.TemperatureRange.Require(filling.DegreesCelsius, nameof(filling));
        HoneyDensity.TemperatureRange.Require(hottestStore.DegreesCelsius, nameof(hottestStore));
        Temperature hottest = hottestStore > filling ? hottestStore : filling;
        Volume atFilling = fill / properties.DensityAt(filling), atHottest = fill / properties.DensityAt(hottest);
        Volume room = jar.Brimful * (1 - least.DecimalFractions);
        return new Headspace
        {
            Jar = jar,
            Fill = fill,
            HoneyAtFilling = atFilling,
            HoneyAtHottest = atHottest,
            Hottest = hottest,
            Least = least,
            Most = properties.DensityAt(hottest) * room,
            Verdict = atHottest > jar.Brimful ? HeadspaceVerdict.CannotBeHeld
                : atHottest > room ? HeadspaceVerdict.TooTight
                : HeadspaceVerdict.Fits,
        };
    }
}
