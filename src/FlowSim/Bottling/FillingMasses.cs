using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>Where the honey of the tank is at the end. The parts sum to <see cref="Start"/> within <see cref="BalanceRelative"/>.</summary>
public sealed record FillingMasses
{
    /// <summary>Honey in the tank at the start.</summary>
    public required Mass Start { get; init; }

    /// <summary>In jars.</summary>
    public required Mass InJars { get; init; }

    /// <summary>Of that, what is above the label.</summary>
    public required Mass GivenAway { get; init; }

    /// <summary>Dripped beside the jars while one made way for the next; a tray catches it.</summary>
    public required Mass Drips { get; init; }

    /// <summary>On the tank's wall.</summary>
    public required Mass Film { get; init; }

    /// <summary>In the tank, above the heel: less than a jar when it was emptied.</summary>
    public required Mass Rest { get; init; }

    /// <summary>In the tank, below what the gate drains.</summary>
    public required Mass Heel { get; init; }

    /// <summary>Sum of the parts, those in the tank measured from its level, less <see cref="Start"/>, over <see cref="Start"/>.</summary>
    public required double BalanceRelative { get; init; }
}
