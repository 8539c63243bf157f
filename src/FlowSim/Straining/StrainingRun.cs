using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Straining;

/// <summary>Runs a tank of honey through a strainer.</summary>
public static class StrainingRun
{
    /// <summary>Simulates a setup from the opening of the gate to the end.</summary>
    /// <param name="setup">What is strained, and with what.</param>
    /// <param name="options">How it is computed; null for the defaults.</param>
    /// <param name="cancellation">Ends the computation early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range; the message names it.</exception>
    /// <exception cref="Properties.HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    /// <exception cref="SimulationException">The integrator gave up; the message says where.</exception>
    public static StrainingResult Simulate(
        StrainingSetup setup,
        StrainingOptions? options = null,
        CancellationToken cancellation = default)
    {
        options ??= new StrainingOptions();
        options.Require();
        var parameters = new StrainingParameters(setup);
        var integration = new StrainingIntegration(parameters, options.RelativeTolerance);

        StrainingOutcome outcome = integration.Run(series: null, cancellation);
        SeriesBuilder? series = null;
        if (options.SeriesPoints > 0)
        {
            // The end is known only now, so the steps are taken again, the same to the bit, to be read on an even grid.
            series = new SeriesBuilder(Math.Max(2, options.SeriesPoints), outcome.EndS, parameters.ClothResistancesPerM.Length);
            outcome = integration.Run(series, cancellation);
        }

        return StrainingReport.Write(parameters, outcome, series);
    }
}
