using FlowSim.Gates;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>The discrete half of a run's state: it changes at events only.</summary>
internal sealed class StrainingMode
{
    public PondMode Pond { get; set; }

    /// <summary>Step of the opening schedule in force.</summary>
    public int OpeningStep { get; set; }

    /// <summary>Geometry of the opening in force.</summary>
    public GateGeometry Gate { get; set; }

    /// <summary>When the gate was first opened, s; +∞ before.</summary>
    public double OpenedAtS { get; set; } = double.PositiveInfinity;

    /// <summary>Level of the tank when the gate was first opened, m: the film forms below it.</summary>
    public double OpenedAtLevelM { get; set; }

    /// <summary>Area of wall and floor below that level, m².</summary>
    public double OpenedAtWettedM2 { get; set; }

    public bool AtHeel { get; set; }

    /// <summary>Whether honey has come through the cloth yet.</summary>
    public bool ClothHasRun { get; set; }

    /// <summary>Mass in the receiver since it has been full, kg; NaN before.</summary>
    public double FullReceiverKg { get; set; } = double.NaN;

    public bool ReceiverFull => !double.IsNaN(FullReceiverKg);

    /// <summary>Next scrape among the set times.</summary>
    public int NextScrape { get; set; }

    /// <summary>When the pause after a scrape ends and the pond's depth is looked at again, s; +∞ outside a pause.</summary>
    public double LookAgainAtS { get; set; } = double.PositiveInfinity;

    public bool InScrapePause => !double.IsPositiveInfinity(LookAgainAtS);

    /// <summary>Whether the run has ended; what comes at the same instant then changes nothing.</summary>
    public bool Ended { get; set; }

    public double ReceiverKg(StrainingParameters p, ReadOnlySpan<double> y) => ReceiverFull
        ? FullReceiverKg
        : p.StartReceiverKg + y[StrainedKg] + (p.Bypass ? y[OverRimKg] : 0);
}
