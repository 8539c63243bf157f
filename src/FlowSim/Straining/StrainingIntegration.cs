using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Straining;

/// <summary>One setup made ready to be integrated, as often as wanted.</summary>
internal sealed class StrainingIntegration(StrainingParameters parameters, double relativeTolerance)
{
    /// <summary>Absolute tolerance as a share of the relative one, in units of each unknown's scale: small amounts stay accurate.</summary>
    public const double AbsoluteShare = 1e-2;

    /// <summary>Integrates from the opening of the gate to the end.</summary>
    /// <param name="series">Collects the series; null for none.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <param name="trace">Reads quantities at set times; null for none.</param>
    public StrainingOutcome Run(SeriesBuilder? series, CancellationToken cancellation, RunTrace? trace = null)
    {
        var record = new StrainingRecord(parameters, series) { Trace = trace };
        var system = new StrainingSystem(parameters, record);
        var integrator = new HybridIntegrator<StrainingSystem>(system, new IntegratorOptions
        {
            RelativeTolerance = relativeTolerance,
            AbsoluteTolerance = AbsoluteShare * relativeTolerance,
            ComponentScales = system.Scales.ToArray(),
        });

        double[] y = new double[system.Dimension];
        system.WriteStart(y);
        IntegrationResult result = default;
        if (system.Begin(y) != EventResponse.Stop)
        {
            result = integrator.Integrate(0, parameters.LongestS, y, cancellation);
            if (result.Status == IntegrationStatus.Cancelled)
                throw new OperationCanceledException(cancellation);
            if (!result.Succeeded)
                throw new SimulationException(FormattableString.Invariant($"The run could not be resolved at {result.Time:0.###} s: {result.Status} after {result.StepsAccepted} steps and {result.Events} events."));
        }

        record.NoteEnd(system, result.Time, y);
        return new StrainingOutcome(system, record, result.Time, y, result);
    }
}

/// <summary>The end of an integrated run.</summary>
/// <param name="System">Equations and modes, as they were at the end.</param>
/// <param name="Record">What was noted on the way.</param>
/// <param name="EndS">Time simulated, s.</param>
/// <param name="State">State at the end.</param>
/// <param name="Work">Work done.</param>
internal sealed record StrainingOutcome(
    StrainingSystem System,
    StrainingRecord Record,
    double EndS,
    double[] State,
    IntegrationResult Work);
