using UnitsNet;

namespace FlowSim.Straining;

/// <summary>Where the honey of the tank is at the end. The parts sum to <see cref="Start"/> within <see cref="BalanceRelative"/>.</summary>
public sealed record MassAccount
{
    /// <summary>Honey in the tank at the start.</summary>
    public required Mass Start { get; init; }

    /// <summary>Of that, what can drain through the gate.</summary>
    public required Mass CanDrain { get; init; }

    /// <summary>Strained and in the receiver.</summary>
    public required Mass Strained { get; init; }

    /// <summary>In the receiver, but went past the cloth.</summary>
    public required Mass Bypassed { get; init; }

    /// <summary>On the floor from the strainer's rim.</summary>
    public required Mass SpilledAtStrainer { get; init; }

    /// <summary>On the floor from the receiver's brim.</summary>
    public required Mass SpilledAtReceiver { get; init; }

    /// <summary>On the floor altogether.</summary>
    public Mass Spilled => SpilledAtStrainer + SpilledAtReceiver;

    /// <summary>Still on the strainer.</summary>
    public required Mass HeldOnCloth { get; init; }

    /// <summary>Clinging to the tank's wall.</summary>
    public required Mass HeldInFilm { get; init; }

    /// <summary>Still in the tank below its surface: the heel, and what had not drained.</summary>
    public required Mass HeldInTank { get; init; }

    /// <summary>Strainer, film and tank together.</summary>
    public Mass Held => HeldOnCloth + HeldInFilm + HeldInTank;

    /// <summary>Sum of the parts, measured from the levels at the end, less <see cref="Start"/>, over <see cref="Start"/>.</summary>
    public required double BalanceRelative { get; init; }
}
