using UnitsNet;

namespace FlowSim.Straining;

/// <summary>What is done with the gate during a run.</summary>
public abstract record GateControl
{
    private protected GateControl()
    {
    }

    /// <summary>Opens the gate and leaves it.</summary>
    /// <param name="opening">Travel of the blade as a share of the bore, 0 to 100 %.</param>
    public static GateControl LeaveAt(Ratio opening) => new FixedOpening(opening);

    /// <summary>Follows a list of openings in time.</summary>
    /// <param name="steps">Times from the start, increasing, the first at 0, at most 1000; each with its opening, held until the next.</param>
    public static GateControl Follow(params IReadOnlyList<OpeningStep> steps) => new OpeningSchedule(steps);

    /// <summary>Rides the gate: fully open to <paramref name="widest"/> until the pond reaches a depth, then just as far as holds it there.</summary>
    /// <param name="pondDepth">Depth of pond to hold, above the cloth's lowest point: at least 1 mm above the minimum head and 1 mm below the rim.</param>
    /// <param name="widest">The widest opening used, 0 to 100 %.</param>
    public static GateControl RideAt(Length pondDepth, Ratio widest) => new RiddenGate(pondDepth, widest);
}

/// <summary>A gate opened once and left.</summary>
/// <param name="Opening">Travel of the blade as a share of the bore, 0 to 100 %.</param>
public sealed record FixedOpening(Ratio Opening) : GateControl;

/// <summary>A gate moved at set times.</summary>
/// <param name="Steps">Times from the start, increasing, the first at 0, at most 1000; each opening is held until the next.</param>
public sealed record OpeningSchedule(IReadOnlyList<OpeningStep> Steps) : GateControl;

/// <summary>A gate ridden to hold the pond at a depth.</summary>
/// <param name="PondDepth">Depth to hold, above the cloth's lowest point: at least 1 mm above the minimum head and 1 mm below the rim.</param>
/// <param name="Widest">The widest opening used, 0 to 100 %.</param>
public sealed record RiddenGate(Length PondDepth, Ratio Widest) : GateControl;

/// <summary>One step of an opening schedule.</summary>
/// <param name="At">Time from the start.</param>
/// <param name="Opening">Travel of the blade as a share of the bore, 0 to 100 %.</param>
public sealed record OpeningStep(Duration At, Ratio Opening);
