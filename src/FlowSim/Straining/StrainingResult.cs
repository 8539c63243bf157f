using UnitsNet;

namespace FlowSim.Straining;

/// <summary>What happened in a run.</summary>
public sealed record StrainingResult
{
    /// <summary>The setup that was run.</summary>
    public required StrainingSetup Setup { get; init; }

    /// <summary>The worst thing that happened; <see cref="StrainingStatus.Drained"/> when nothing did.</summary>
    public required StrainingStatus Status { get; init; }

    /// <summary>Why the run ended: <see cref="StrainingStatus.Drained"/>, <see cref="StrainingStatus.ReceiverFull"/>, <see cref="StrainingStatus.TimeLimit"/> or <see cref="StrainingStatus.Stalled"/>.</summary>
    public required StrainingStatus Ending { get; init; }

    /// <summary>Time simulated.</summary>
    public required Duration Elapsed { get; init; }

    /// <summary>When the tank had given up shares of what can drain.</summary>
    public required ShareTimes Drain { get; init; }

    /// <summary>When shares of what can drain had passed the cloth.</summary>
    public required ShareTimes Strain { get; init; }

    /// <summary>When the tank was at its heel; null if it never was.</summary>
    public required Duration? DrainToHeel { get; init; }

    /// <summary>The deepest pond.</summary>
    public required Length PeakPond { get; init; }

    /// <summary>When the pond was deepest.</summary>
    public required Duration PeakPondAt { get; init; }

    /// <summary>Overflows of the strainer's rim, first to last; empty if there were none.</summary>
    public required IReadOnlyList<Overflow> Overflows { get; init; }

    /// <summary>When the strainer first ran over; null if it did not.</summary>
    public Duration? FirstOverflow => Overflows.Count > 0 ? Overflows[0].From : null;

    /// <summary>When the receiver was full; null if it was not.</summary>
    public required Duration? ReceiverFullAt { get; init; }

    /// <summary>Times of the scrapes.</summary>
    public required IReadOnlyList<Duration> Scrapes { get; init; }

    /// <summary>Where the honey is at the end.</summary>
    public required MassAccount Masses { get; init; }

    /// <summary>Blinded share of each cloth at the end, first to last.</summary>
    public required IReadOnlyList<Ratio> Blinded { get; init; }

    /// <summary>Viscosity in the tank at the start, lot factor included.</summary>
    public required DynamicViscosity StartViscosity { get; init; }

    /// <summary>Temperatures of tank, pond and receiver at the end.</summary>
    public required EndTemperatures EndTemperatures { get; init; }

    /// <summary>Levels, flows and conditions over time.</summary>
    public required StrainingSeries Series { get; init; }

    /// <summary>What the user should know about the figures.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>Work done by the integrator.</summary>
    public required SolverCounts Solver { get; init; }
}

/// <summary>When shares of what can drain were reached; null where one never was.</summary>
/// <param name="To50">50 %.</param>
/// <param name="To90">90 %.</param>
/// <param name="To95">95 %.</param>
/// <param name="To99">99 %.</param>
public sealed record ShareTimes(Duration? To50, Duration? To90, Duration? To95, Duration? To99);

/// <summary>One spell of honey running over the rim.</summary>
/// <param name="From">When it began.</param>
/// <param name="To">When it ended; the end of the run if it did not end before.</param>
/// <param name="Mass">Honey that went over.</param>
public sealed record Overflow(Duration From, Duration To, Mass Mass);

/// <summary>Temperatures at the end of a run.</summary>
/// <param name="Tank">Honey in the tank.</param>
/// <param name="Pond">Honey on the strainer.</param>
/// <param name="Receiver">Honey in the receiver.</param>
public sealed record EndTemperatures(Temperature Tank, Temperature Pond, Temperature Receiver);

/// <summary>Work done by the integrator.</summary>
/// <param name="Steps">Accepted steps.</param>
/// <param name="RejectedSteps">Rejected steps.</param>
/// <param name="DerivativeEvaluations">Evaluations of the equations, those for the Jacobian included.</param>
/// <param name="Events">Events located.</param>
public sealed record SolverCounts(int Steps, int RejectedSteps, int DerivativeEvaluations, int Events);
