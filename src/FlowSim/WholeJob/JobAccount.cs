using UnitsNet;

namespace FlowSim.WholeJob;

/// <summary>Where the honey of a job is at its end. <see cref="Lines"/> sum to <see cref="Start"/> within <see cref="BalanceRelative"/>.</summary>
public sealed record JobAccount
{
    /// <summary>Honey at the start: in the tank before it is skimmed, and what was in the bottling tank already.</summary>
    public required Mass Start { get; init; }

    /// <summary>Every place with honey in it, in the order of the job.</summary>
    public required IReadOnlyList<AccountLine> Lines { get; init; }

    /// <summary>Honey that went over the strainer's rim into the bottling tank, unstrained. It is in the jars and the tank with the rest, not on a line of its own.</summary>
    public required Mass Unstrained { get; init; }

    /// <summary>Sum of the lines less <see cref="Start"/>, over <see cref="Start"/>. Every step counts its own honey from levels and flows, so a slip in handing on would show.</summary>
    public required double BalanceRelative { get; init; }

    /// <summary>Honey sold by the label, as a share of the start: the yield.</summary>
    public Ratio Yield => Ratio.FromDecimalFractions(Of(JobPlace.InJars) / Start);

    /// <summary>Honey in one place; 0 where there is none.</summary>
    /// <param name="place">Place.</param>
    public Mass Of(JobPlace place) => Lines.Where(line => line.Place == place).Aggregate(Mass.Zero, (sum, line) => sum + line.Mass);
}

/// <summary>Honey in one place.</summary>
/// <param name="Place">Place.</param>
/// <param name="Mass">Honey there.</param>
public sealed record AccountLine(JobPlace Place, Mass Mass);

/// <summary>Where honey can be at the end of a job.</summary>
public enum JobPlace
{
    /// <summary>Skimmed off with the scum.</summary>
    Scum,

    /// <summary>In the tank below the gate, or not yet drained.</summary>
    TankHeel,

    /// <summary>On the tank's wall.</summary>
    TankFilm,

    /// <summary>On the strainer.</summary>
    Cloth,

    /// <summary>On the floor, from strainer or bottling tank.</summary>
    Floor,

    /// <summary>In the bottling tank, and the job ends there.</summary>
    BottlingTank,

    /// <summary>In the bottling tank below its gate, and too little for a jar.</summary>
    BottlingHeel,

    /// <summary>On the bottling tank's wall.</summary>
    BottlingFilm,

    /// <summary>Dripped while filling.</summary>
    Drips,

    /// <summary>In jars, by the label.</summary>
    InJars,

    /// <summary>In jars, over the label.</summary>
    GivenAway,
}

/// <summary>Honey that could be had back, and how.</summary>
/// <param name="Place">Where it is.</param>
/// <param name="Mass">How much, at most.</param>
/// <param name="How">What helps.</param>
public sealed record Recovery(JobPlace Place, Mass Mass, string How);
