using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>How far a gate may be opened so that the strainer does not run over: the seam for limits by figure or by probability.</summary>
public abstract record OverflowLimit
{
    /// <summary>Takes every figure as exact: <see cref="WidestOpening"/>.</summary>
    public static OverflowLimit Nominal { get; } = new NominalOverflow();

    /// <summary>The widest opening within the limit; zero when there is none.</summary>
    /// <param name="setup">Straining at a temperature; its gate control is replaced.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    public abstract Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation);

    private sealed record NominalOverflow : OverflowLimit
    {
        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation) => WidestOpening.Find(setup, cancellation);
    }
}
