using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>What can happen, how likely it is, and what keeps it within the tolerance.</summary>
/// <remarks>Chances are of this setup and these spreads: they are no better than those.</remarks>
public sealed record RiskAnswer
{
    /// <summary>The question.</summary>
    public required RiskQuestion Question { get; init; }

    /// <summary>The inputs that were varied, cut to what the setup allows.</summary>
    public required IReadOnlyList<UncertainInput> Inputs { get; init; }

    /// <summary>That the strainer runs over.</summary>
    public required ProbabilityEstimate Overflow { get; init; }

    /// <summary>That more than <see cref="RiskQuestion.MassThatMatters"/> goes past the cloth, unstrained.</summary>
    public required ProbabilityEstimate Bypass { get; init; }

    /// <summary>That more than <see cref="RiskQuestion.MassThatMatters"/> goes onto the floor, from strainer or receiver.</summary>
    public required ProbabilityEstimate Spill { get; init; }

    /// <summary>That the receiver is full before the tank is empty.</summary>
    public required ProbabilityEstimate ReceiverFull { get; init; }

    /// <summary>That the receiver runs over because nobody shuts the gate; 0 where somebody does.</summary>
    public required ProbabilityEstimate ReceiverOverfilled { get; init; }

    /// <summary>Time to 95 % drained.</summary>
    public required TimeSpread Drain { get; init; }

    /// <summary>Time to 95 % strained.</summary>
    public required TimeSpread Strain { get; init; }

    /// <summary>How long nobody need stand by.</summary>
    public required AbsenceAdvice Absence { get; init; }

    /// <summary>How far the gate may be opened.</summary>
    public required OpeningAdvice WidestOpening { get; init; }

    /// <summary>How often to scrape.</summary>
    public required ScrapeAdvice Scraping { get; init; }

    /// <summary>At what depth to ride the pond.</summary>
    public required RideAdvice Riding { get; init; }

    /// <summary>What drives the overflow.</summary>
    public required DriverTable Drivers { get; init; }

    /// <summary>What drives the time to 95 % strained.</summary>
    public required DriverTable DriversOfTime { get; init; }

    /// <summary>What to measure next; null when nothing drives anything.</summary>
    public required MeasureAdvice? MeasureNext { get; init; }

    /// <summary>
    /// Chance that the strainer has run over by a time, at times from 0 on, never falling. By counting, also where <see cref="Overflow"/> is not, and
    /// from the first 131 072 runs at most.
    /// </summary>
    public required IReadOnlyList<ChancePoint> ChanceOverTime { get; init; }

    /// <summary>Depth of the pond over time.</summary>
    public required PondFan Fan { get; init; }

    /// <summary>Runs made altogether, for everything in this answer.</summary>
    public required long Runs { get; init; }

    /// <summary>What the user should know about the figures.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders for those at work.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }
}

/// <summary>Where a time lies, to 0.1 %.</summary>
/// <param name="P10">One run in ten takes less; null when that is never reached.</param>
/// <param name="P50">Half of the runs take less.</param>
/// <param name="P90">Nine in ten take less.</param>
/// <param name="Never">Share of the runs that never get there, 0 to 1.</param>
public sealed record TimeSpread(Duration? P10, Duration? P50, Duration? P90, double Never);

/// <summary>How long nobody need stand by with the gate left as it is and nobody scraping; of a gate that is moved, at its widest.</summary>
/// <remarks>
/// From the start the high end of the 95 % interval of the chance is within the tolerance. Later moments are judged by the runs that are still going on
/// and have not run over; where those are too few to tell the tolerance, by ten in as many, and with fewer than 20 left not at all. So the absence
/// never grows as the tolerance shrinks.
/// </remarks>
/// <param name="Longest">
/// Longest time, from any moment at which the strainer has not run over, within which it runs over with at most the tolerance; null when the
/// whole run is within it.
/// </param>
/// <param name="FromTheStart">The same from the opening of the gate alone; null when the whole run is within it.</param>
/// <param name="WorstStart">The moment from which it is shortest; null when the whole run is within the tolerance.</param>
public sealed record AbsenceAdvice(Duration? Longest, Duration? FromTheStart, Duration? WorstStart);

/// <summary>How far the gate may be opened and left.</summary>
/// <param name="Opening">Widest opening at which the high end of the chance's 95 % interval is within the tolerance, scraping as in the setup; rounded down to 0.5 % of the bore; zero when there is none.</param>
/// <param name="Overflow">Chance of an overflow at it; null when there is none.</param>
/// <param name="Strain">Time to 95 % strained at it; null when there is none.</param>
public sealed record OpeningAdvice(Ratio Opening, ProbabilityEstimate? Overflow, TimeSpread? Strain);

/// <summary>How often to scrape with the gate left at the opening of the setup, its widest, and nobody else about.</summary>
/// <remarks>Intervals from 1 min on, each a quarter longer, are searched as if a longer one were never better; the one answered has been run.</remarks>
/// <param name="Needed">Whether scraping is needed at all for the tolerance.</param>
/// <param name="Every">Longest interval within the tolerance; null when it is not needed or no interval tried suffices.</param>
/// <param name="Overflow">Chance of an overflow with it; null when <paramref name="Every"/> is.</param>
public sealed record ScrapeAdvice(bool Needed, Duration? Every, ProbabilityEstimate? Overflow);

/// <summary>At what depth to ride the pond, looking as often as <see cref="RiskQuestion.LookEvery"/>.</summary>
/// <param name="Deepest">
/// Deepest pond from which it takes longer to the rim than between two looks, but for the tolerance, should the gate be left as wide as it is; null when even
/// the shallowest that can be ridden rises too fast.
/// </param>
/// <param name="Chance">Chance that the pond gets from there to the rim between two looks; null when <paramref name="Deepest"/> is.</param>
public sealed record RideAdvice(Length? Deepest, ProbabilityEstimate? Chance);

/// <summary>A chance at a time.</summary>
/// <param name="At">Time from the opening of the gate.</param>
/// <param name="Low">Low end of the 95 % interval, 0 to 1.</param>
/// <param name="Value">Best estimate.</param>
/// <param name="High">High end.</param>
public sealed record ChancePoint(Duration At, double Low, double Value, double High);

/// <summary>Depth of the pond over time, as quantiles over the runs that are still going on.</summary>
public sealed record PondFan
{
    /// <summary>Times.</summary>
    public required IReadOnlyList<Duration> Times { get; init; }

    /// <summary>Height of the rim.</summary>
    public required Length Rim { get; init; }

    /// <summary>5 % quantile of the depth at each time, m; NaN when no run is still going on.</summary>
    public required IReadOnlyList<double> P05 { get; init; }

    /// <summary>25 % quantile.</summary>
    public required IReadOnlyList<double> P25 { get; init; }

    /// <summary>Median.</summary>
    public required IReadOnlyList<double> P50 { get; init; }

    /// <summary>75 % quantile.</summary>
    public required IReadOnlyList<double> P75 { get; init; }

    /// <summary>95 % quantile.</summary>
    public required IReadOnlyList<double> P95 { get; init; }

    /// <summary>Share of the runs still going on, 0 to 1.</summary>
    public required IReadOnlyList<double> GoingOn { get; init; }
}
