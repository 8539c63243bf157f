using FlowSim.Numerics.Events;

namespace FlowSim.Numerics.Ode;

/// <summary>Integrates a plain <see cref="IOdeSystem"/>: <see cref="HybridIntegrator{TSystem}"/> without events and stops.</summary>
/// <typeparam name="TSystem">The system.</typeparam>
/// <param name="system">The system. A struct is copied.</param>
/// <param name="options">Tolerances and limits; null means the defaults.</param>
/// <exception cref="ArgumentNullException"><paramref name="system"/> is null.</exception>
/// <exception cref="ArgumentOutOfRangeException">The system has no unknowns or an option is out of its range.</exception>
public sealed class OdeIntegrator<TSystem>(TSystem system, IntegratorOptions? options = null)
    where TSystem : IOdeSystem
{
    private readonly HybridIntegrator<WithoutEvents<TSystem>> _integrator = new(new WithoutEvents<TSystem>(system ?? throw new ArgumentNullException(nameof(system))), options);

    /// <inheritdoc cref="HybridIntegrator{TSystem}.Integrate"/>
    public IntegrationResult Integrate(double start, double end, Span<double> y, CancellationToken cancellation = default) =>
        _integrator.Integrate(start, end, y, cancellation);
}
