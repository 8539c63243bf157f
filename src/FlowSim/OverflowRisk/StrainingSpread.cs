using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>How far the answers move when honey, cloth and debris differ from the description as they commonly do.</summary>
/// <remarks>
/// The setup itself and eight runs at the corners of three uncertain inputs: viscosity at its 10 % and 90 % quantile for a honey of this
/// moisture, the cloth's resistance between a flow simulation of plain weave (0.62) and the published value (1), debris
/// between a third and three times the load. A corner beyond what a setup allows is taken at the limit. A band of what-ifs,
/// not a probability. Where more is known of these inputs, as after a calibration, the corners lie at their own 10 % and 90 % quantiles
/// (<see cref="SpreadCorners"/>).
/// </remarks>
public sealed record StrainingSpread
{
    private static readonly StrainingOptions NoSeries = new() { SeriesPoints = 0, RelativeTolerance = 1e-6 };

    /// <summary>Time to 95 % drained: shortest and longest of the runs; null where one never gets there.</summary>
    public required (Duration? Low, Duration? High) Drain95 { get; init; }

    /// <summary>Time to 95 % strained: shortest and longest of the runs; null where one never gets there.</summary>
    public required (Duration? Low, Duration? High) Strain95 { get; init; }

    /// <summary>Deepest pond: least and most of the runs.</summary>
    public required (Length Low, Length High) PeakPond { get; init; }

    /// <summary>Earliest overflow among the runs; null when none runs over.</summary>
    public required Duration? EarliestOverflow { get; init; }

    /// <summary>Runs in which the strainer runs over.</summary>
    public required int RunsThatRunOver { get; init; }

    /// <summary>Runs altogether, the setup itself among them.</summary>
    public required int Runs { get; init; }

    /// <summary>Runs a setup and the corners around it.</summary>
    /// <param name="setup">The setup.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range.</exception>
    public static StrainingSpread Of(StrainingSetup setup, CancellationToken cancellation = default) => Of(setup, [], [], cancellation);

    /// <summary>Runs a setup and the corners around it, by what is known of its inputs.</summary>
    /// <param name="setup">The setup.</param>
    /// <param name="known">Inputs of which more is known than what is common, as those of a calibration.</param>
    /// <param name="correlations">Which of them go together.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range, or inputs and correlations do not fit.</exception>
    public static StrainingSpread Of(StrainingSetup setup, IReadOnlyList<UncertainInput> known, IReadOnlyList<InputCorrelation> correlations, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(setup);

        // First, for it checks the setup that the corners are made from.
        var runs = new List<StrainingResult>(9) { StrainingRun.Simulate(setup, NoSeries, cancellation) };
        var corners = new SpreadCorners(setup, known, correlations);
        foreach (int viscosity in new[] { -1, 1 })
        {
            foreach (int screen in new[] { -1, 1 })
            {
                foreach (int debris in new[] { -1, 1 })
                    runs.Add(StrainingRun.Simulate(corners.At(viscosity, screen, debris), NoSeries, cancellation));
            }
        }

        return new StrainingSpread
        {
            Drain95 = Band(runs.ConvertAll(r => r.Drain.To95)),
            Strain95 = Band(runs.ConvertAll(r => r.Strain.To95)),
            PeakPond = (runs.Min(r => r.PeakPond), runs.Max(r => r.PeakPond)),
            EarliestOverflow = runs.Min(r => r.FirstOverflow),
            RunsThatRunOver = runs.Count(r => r.Overflows.Count > 0),
            Runs = runs.Count,
        };
    }

    private static (Duration? Low, Duration? High) Band(List<Duration?> times) =>
        (times.Min(), times.Contains(null) ? null : times.Max());
}
