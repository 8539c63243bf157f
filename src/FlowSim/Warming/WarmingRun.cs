namespace FlowSim.Warming;

/// <summary>Warms, holds or cools the honey in a vessel.</summary>
public static class WarmingRun
{
    /// <summary>Simulates a setup to the end.</summary>
    /// <param name="setup">What is warmed, and with what.</param>
    /// <param name="options">How it is computed; null for the defaults.</param>
    /// <param name="cancellation">Ends the computation early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range; the message names it.</exception>
    /// <exception cref="Properties.HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    /// <exception cref="SimulationException">The integrator gave up; the message says where.</exception>
    public static WarmingResult Simulate(
        WarmingSetup setup,
        WarmingOptions? options = null,
        CancellationToken cancellation = default) => Simulate(setup, options, HeatFactors.None, cancellation);

    /// <summary>Simulates a setup with factors on what it is computed with.</summary>
    internal static WarmingResult Simulate(WarmingSetup setup, WarmingOptions? options, HeatFactors factors, CancellationToken cancellation)
    {
        options ??= new WarmingOptions();
        WarmingParameters parameters = WarmingParameters.Of(setup, options, factors);
        var integration = new WarmingIntegration(parameters, setup, options.Tolerance.Kelvins, options.MapTimes.Select(at => at.Seconds));
        var recorder = new WarmingRecorder(parameters, setup, options.SeriesPoints);
        integration.Run(recorder, cancellation);
        return WarmingReport.Write(parameters, setup, integration, recorder);
    }
}
