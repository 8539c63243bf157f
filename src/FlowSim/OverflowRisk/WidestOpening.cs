using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>How far the gate may be opened, taking every figure as exact.</summary>
/// <remarks>
/// A nominal limit: a run at this opening brings the pond to the rim and no further if this honey, cloth and debris are
/// just as described. They are not, so keep below it.
/// </remarks>
public static class WidestOpening
{
    /// <summary>Step to which the opening is found, as a share of the bore.</summary>
    private const double Resolution = 0.005;

    /// <summary>Steps from shut to fully open.</summary>
    internal static int StepsToFullyOpen { get; } = (int)Math.Round(1 / Resolution);

    private static readonly StrainingOptions NoSeries = new() { SeriesPoints = 0, RelativeTolerance = 1e-6 };

    /// <summary>The widest fixed opening, left alone, at which the strainer does not run over.</summary>
    /// <param name="setup">The setup; its gate control is replaced.</param>
    /// <param name="cancellation">Ends the search early with <see cref="OperationCanceledException"/>.</param>
    /// <returns>The opening, rounded down to 0.5 % of the bore; zero when even the smallest runs over.</returns>
    /// <exception cref="ArgumentException">Something in the setup is out of its range.</exception>
    public static Ratio Find(StrainingSetup setup, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(setup);
        bool RunsOver(int steps) => StrainingRun
            .Simulate(setup with { Control = GateControl.LeaveAt(AtStep(steps)) }, NoSeries, cancellation)
            .Overflows.Count > 0;

        // A wider opening never lowers the pond, so the openings that run over are an upper part of the range.
        (int holds, int runsOver) = (0, StepsToFullyOpen);
        if (!RunsOver(runsOver))
            return Ratio.FromPercent(100);
        while (runsOver - holds > 1)
        {
            int middle = (holds + runsOver) / 2;
            if (RunsOver(middle))
                runsOver = middle;
            else
                holds = middle;
        }

        return AtStep(holds);
    }

    /// <summary>An opening.</summary>
    /// <param name="steps">Steps from shut.</param>
    internal static Ratio AtStep(int steps) => Ratio.FromDecimalFractions(steps * Resolution);

    /// <summary>Steps from shut to an opening.</summary>
    /// <param name="opening">A whole number of steps.</param>
    internal static int StepsOf(Ratio opening) => (int)Math.Round(opening.DecimalFractions / Resolution);
}
