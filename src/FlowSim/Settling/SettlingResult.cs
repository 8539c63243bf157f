using FlowSim.Screens;
using UnitsNet;

namespace FlowSim.Settling;

/// <summary>What happened while a layer of honey stood.</summary>
public sealed record SettlingResult
{
    /// <summary>The setup that was run.</summary>
    public required SettlingSetup Setup { get; init; }

    /// <summary>Whether it is clear when it has stood.</summary>
    public required SettlingStatus Status { get; init; }

    /// <summary>When it is clear of all that it has to be clear of, if left that long; null if not within <see cref="SettlingSetup.Longest"/>.</summary>
    public required Duration? ClearAfter { get; init; }

    /// <summary>The bubbles; null when there were none.</summary>
    public required SettledMatter? Bubbles { get; init; }

    /// <summary>The debris; null when there was none.</summary>
    public required SettledMatter? Debris { get; init; }

    /// <summary>What has gathered on top; it is there to be skimmed.</summary>
    public required Deposit Scum { get; init; }

    /// <summary>What has gathered on the floor; it stays as heel.</summary>
    public required Deposit Sediment { get; init; }

    /// <summary>
    /// The debris that is left in the honey, for a strainer: its load, and the median and spread that keep its mean size and its mean 1/size, which is what
    /// blinds cloth. Mean over the layer, scum and deposit left out. Null when there was none.
    /// </summary>
    public required Debris? DebrisLeft { get; init; }

    /// <summary>Temperature of the honey at the start.</summary>
    public required Temperature StartTemperature { get; init; }

    /// <summary>Viscosity at the start, lot factor included.</summary>
    public required DynamicViscosity StartViscosity { get; init; }

    /// <summary>Temperature of the honey while it stood, for what the heat does to it meanwhile.</summary>
    public required TemperatureHistory Temperature { get; init; }

    /// <summary>How much is left over the depth, at some times.</summary>
    public required IReadOnlyList<SettlingProfile> Profiles { get; init; }

    /// <summary>What is left, over time, until it has stood and is clear.</summary>
    public required SettlingSeries Series { get; init; }

    /// <summary>What the user should know about the figures.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>Steps of the integration.</summary>
    public required int Steps { get; init; }
}

/// <summary>Whether honey is clear when it has stood.</summary>
public enum SettlingStatus
{
    /// <summary>It is.</summary>
    Clear,

    /// <summary>It is not.</summary>
    NotClear,
}

/// <summary>Where matter goes.</summary>
public enum SettlingDirection
{
    /// <summary>Up, into the scum.</summary>
    Rises,

    /// <summary>Down, onto the floor.</summary>
    Sinks,

    /// <summary>Nowhere: it is about as dense as the honey.</summary>
    Stays,
}

/// <summary>One kind of matter when the honey has stood.</summary>
public sealed record SettledMatter
{
    /// <summary>Where it goes.</summary>
    public required SettlingDirection Direction { get; init; }

    /// <summary>Share left in the honey, mean over the layer.</summary>
    public required Ratio Left { get; init; }

    /// <summary>Share that has gathered on top or on the floor.</summary>
    public required Ratio Gone { get; init; }

    /// <summary>Largest size of which anything is left anywhere; null when nothing has moved.</summary>
    public required Length? LargestLeft { get; init; }

    /// <summary>Depth that is clear: from the floor up for what rises, from the surface down for what sinks.</summary>
    public required Length ClearDepth { get; init; }

    /// <summary>When the whole layer is clear of it, if left that long; null if not within <see cref="SettlingSetup.Longest"/>.</summary>
    public required Duration? ClearAfter { get; init; }

    /// <summary>Speed of the median size at the start, by its amount.</summary>
    public required Speed MedianSpeed { get; init; }

    /// <summary>Volume of it at the start, share of the layer.</summary>
    public required Ratio StartVolume { get; init; }
}

/// <summary>Matter that has gathered, with the honey between it.</summary>
/// <param name="Thickness">Thickness, by the packing that the setup states.</param>
/// <param name="HoneyShare">Honey in it, share of all the honey: what skimming costs.</param>
/// <param name="Honey">Honey in it; null when the setup gives no mass.</param>
/// <param name="Matter">Matter in it; null when the setup gives no mass.</param>
public sealed record Deposit(Length Thickness, Ratio HoneyShare, Mass? Honey, Mass? Matter)
{
    /// <summary>All of it, honey and matter; null when the setup gives no mass.</summary>
    public Mass? Mass => Honey is { } honey && Matter is { } matter ? honey + matter : null;
}
