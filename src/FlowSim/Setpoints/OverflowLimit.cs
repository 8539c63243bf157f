using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Setpoints;

/// <summary>How far a gate may be opened so that the strainer does not run over: the seam for limits by figure or by probability.</summary>
public abstract record OverflowLimit
{
    /// <summary>Takes every figure as exact: <see cref="WidestOpening"/>.</summary>
    public static OverflowLimit Nominal { get; } = new NominalOverflow();

    /// <summary>Takes what is not exactly known into account: the chance of an overflow stays within a tolerance.</summary>
    /// <remarks>
    /// All openings and temperatures are tried with the same draws. The high end of the chance's 95 % interval counts; with so few runs that it could
    /// not get down to the tolerance, the finest chance that they can tell, ten in <paramref name="runs"/>, takes its place.
    /// </remarks>
    /// <param name="tolerance">Chance of an overflow that is put up with. 1e-6 to 50 %.</param>
    /// <param name="inputs">
    /// Inputs that are not exactly known; null for <see cref="DefaultSpreads.For"/>. A spread of temperature or opening is carried along, its median
    /// at what is tried. An input that does nothing while the gate is left is passed over.
    /// </param>
    /// <param name="correlations">Which of them go together; null for none.</param>
    /// <param name="runs">Runs for each opening tried. 64 to 131 072.</param>
    /// <param name="seed">Number that the draws come from.</param>
    /// <exception cref="ArgumentException">Something is out of its range.</exception>
    public static OverflowLimit WithinTolerance(
        Ratio tolerance,
        IReadOnlyList<UncertainInput>? inputs = null,
        IReadOnlyList<InputCorrelation>? correlations = null,
        int runs = 1024,
        ulong seed = 1)
    {
        RiskQuestionCheck.Tolerance(tolerance.DecimalFractions, nameof(tolerance));
        EquipmentCheck.Within(runs, RiskQuestionCheck.FewestRuns, RunTally.MostKept, "", nameof(runs));
        if (inputs is not null)
            _ = new SpreadInputs(inputs, correlations ?? []);
        return new ToleratedOverflow(tolerance.DecimalFractions, inputs, correlations ?? [], RunDraws.Whole(runs), seed);
    }

    /// <summary>The widest opening within the limit; zero when there is none.</summary>
    /// <param name="setup">Straining at a temperature; its gate control is replaced.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    public abstract Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation);

    private sealed record NominalOverflow : OverflowLimit
    {
        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation) => WidestOpening.Find(setup, cancellation);
    }

    private sealed record ToleratedOverflow(
        double Tolerance, IReadOnlyList<UncertainInput>? Inputs, IReadOnlyList<InputCorrelation> Correlations, int Runs, ulong Seed) : OverflowLimit
    {
        public override Ratio WidestOpeningFor(StrainingSetup setup, CancellationToken cancellation)
        {
            StrainingSetup left = setup with { Control = GateControl.LeaveAt(Ratio.FromPercent(100)) };
            StrainingSetupCheck.Require(left);
            var inputs = new SpreadInputs(Inputs ?? DefaultSpreads.For(left), Correlations);
            var search = new OpeningSearch(inputs, new EnsembleOptions(), Seed, Runs, StrainingInputs.HoneyTemperature);
            return search.Find(left, Tolerance, cancellation).Opening;
        }
    }
}
