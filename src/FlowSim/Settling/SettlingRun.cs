namespace FlowSim.Settling;

/// <summary>Lets a layer of honey stand: bubbles and wax rise, what is heavier sinks.</summary>
public static class SettlingRun
{
    /// <summary>Simulates a setup.</summary>
    /// <param name="setup">What stands, how warm and how long.</param>
    /// <param name="options">How it is computed; null for the defaults.</param>
    /// <param name="cancellation">Ends the computation early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="ArgumentException">Something in the setup is out of its range; the message names it.</exception>
    /// <exception cref="Properties.HoneyRefusedException">The honey is not a simple liquid and no measured figures were given.</exception>
    /// <exception cref="SimulationException">The integrator gave up; the message says where.</exception>
    public static SettlingResult Simulate(SettlingSetup setup, SettlingOptions? options = null, CancellationToken cancellation = default)
    {
        options ??= new SettlingOptions();
        var parameters = new SettlingParameters(setup);
        options.Require(parameters.EndS);
        SettlingCourse course = SettlingCourse.Of(parameters, options.RelativeTolerance, cancellation);
        return SettlingReport.Write(parameters, course, options);
    }
}
