using UnitsNet;

namespace FlowSim.Screens;

/// <summary>A strainer: a form, one or more cloths in series, and how it sits on the receiver.</summary>
public sealed record Strainer
{
    /// <summary>Form of the cloth, with the height of its rim.</summary>
    public required ScreenShape Shape { get; init; }

    /// <summary>The cloths that honey passes, first to last. At least one, at most eight.</summary>
    public required IReadOnlyList<Cloth> Cloths { get; init; }

    /// <summary>
    /// Factor on the published resistance of clean cloth. Default 1, the published value and the cautious side; other
    /// models give 0.33 to 1.0. Allowed 0.05 to 20.
    /// </summary>
    public double ScreenFactor { get; init; } = 1;

    /// <summary>Whether air can leave the receiver. Default <see cref="Venting.Vented"/>.</summary>
    public Venting Venting { get; init; } = Venting.Vented;

    /// <summary>Where honey goes that runs over the rim. Default <see cref="OverflowPath.Bypass"/>.</summary>
    public OverflowPath Overflow { get; init; } = OverflowPath.Bypass;

    /// <summary>Head that the wet cloth holds back. Default 2 mm (engineering choice). 0 to 50 mm.</summary>
    public Length MinimumHead { get; init; } = Length.FromMillimeters(2);
}

/// <summary>Whether air can leave the receiver as honey enters.</summary>
public enum Venting
{
    /// <summary>Air leaves freely.</summary>
    Vented,

    /// <summary>The strainer sits airtight on the receiver: trapped air pushes back.</summary>
    Sealed,
}

/// <summary>Where honey goes that runs over the strainer's rim.</summary>
public enum OverflowPath
{
    /// <summary>Past the cloth into the receiver, unstrained.</summary>
    Bypass,

    /// <summary>Onto the floor.</summary>
    Spill,
}
