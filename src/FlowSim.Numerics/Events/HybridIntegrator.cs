using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Events;

/// <summary>Integrates an <see cref="IHybridSystem"/> with Rodas5P, adaptive steps, located events and exact stops.</summary>
/// <remarks>
/// <para>
/// Everything is allocated by the constructor; <see cref="Integrate"/> allocates nothing and may be called again and
/// again. An instance serves one thread at a time. A struct as <typeparamref name="TSystem"/> lets the compiler call it
/// directly; a class costs an indirect call per evaluation.
/// </para>
/// <para>
/// Between events and stops the right-hand side should be smooth in t and y. A jump in time belongs into a stop: stages
/// are evaluated at the very time of the stop before <see cref="IHybridSystem.OnStop"/> is called, so the jump must not show
/// until then. An event is found because the solution passes it in the old mode, so the old right-hand side must be
/// computable, and go on moving, a little past each event.
/// </para>
/// <para>
/// At one instant the calls come in this order: <see cref="IHybridSystem.OnStep"/>, the events by index, then the stop.
/// All of them come even if one asks to stop. Events at the same instant are those that the location cannot tell apart;
/// one whose function is no longer past its crossing, because an event before it changed the state or mode, is dropped. An event
/// function that a reset carries across zero has not crossed.
/// </para>
/// </remarks>
/// <typeparam name="TSystem">The system.</typeparam>
public sealed class HybridIntegrator<TSystem>
    where TSystem : IHybridSystem
{
    /// <summary>A step that would leave less than a tenth of itself before a stop is stretched to it: 1.1⁵ costs less than a factor of two in error.</summary>
    private const double Stretch = 1.1;

    /// <summary>At t = 0 the smallest step has no |t| to refer to; this fraction of the interval takes its place.</summary>
    private const double FractionInPlaceOfTime = 1e-16;

    private readonly IntegratorOptions _options;
    private readonly double[] _absolute;
    private readonly Rodas5PWorkspace _w;
    private readonly EventSearch _search;
    private readonly ChatterGuard _guard;
    private readonly double[] _atEvent;
    private readonly int _eventCount;
    private TSystem _system;
    private StepSizeController _controller;
    private Counts _counts;

    private double _t;
    private double _h;
    private double _end;
    private double _interval;
    private double _nextStop;

    /// <summary>Prepares an integration.</summary>
    /// <param name="system">The system. A struct is copied; see <see cref="System"/>.</param>
    /// <param name="options">Tolerances and limits; null means the defaults.</param>
    /// <exception cref="ArgumentNullException"><paramref name="system"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The system has no unknowns or an option is out of its range.</exception>
    public HybridIntegrator(TSystem system, IntegratorOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(system);
        int n = system.Dimension;
        if (n < 1)
            throw new ArgumentOutOfRangeException(nameof(system), n, "A system must have at least 1 unknown.");
        int events = system.EventCount;
        if (events < 0)
            throw new ArgumentOutOfRangeException(nameof(system), events, "A system must have 0 or more events.");

        _system = system;
        _eventCount = events;
        _options = options ?? new IntegratorOptions();
        _absolute = _options.Validate(n);
        _w = new Rodas5PWorkspace(n);
        _atEvent = new double[n];
        _guard = new ChatterGuard(events);

        var directions = new EventDirection[events];
        for (int i = 0; i < events; i++)
            directions[i] = system.DirectionOf(i);
        _search = new EventSearch(n, directions);
    }

    /// <summary>The system being integrated, by reference, so that the state inside a struct can be reached.</summary>
    public ref TSystem System => ref _system;

    /// <summary>Integrates from <paramref name="start"/> to <paramref name="end"/>.</summary>
    /// <param name="start">First time, finite.</param>
    /// <param name="end">Last time, finite, not before <paramref name="start"/>.</param>
    /// <param name="y">The state: on entry at <paramref name="start"/>, on return at <see cref="IntegrationResult.Time"/>, whatever the status.</param>
    /// <param name="cancellation">Looked at before every step; ends with <see cref="IntegrationStatus.Cancelled"/>, without exception.</param>
    /// <returns>How it ended and what it cost. Numerical trouble is a status, not an exception.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A time is not finite or out of order, or <paramref name="y"/> has the wrong length.</exception>
    /// <exception cref="InvalidOperationException"><see cref="IHybridSystem.NextStop"/> gave a time that is not later than the present.</exception>
    public IntegrationResult Integrate(double start, double end, Span<double> y, CancellationToken cancellation = default)
    {
        if (!double.IsFinite(start))
            throw new ArgumentOutOfRangeException(nameof(start), start, "The start must be finite.");
        if (!(double.IsFinite(end) && end >= start && double.IsFinite(end - start)))
            throw new ArgumentOutOfRangeException(nameof(end), end, $"The end must be finite and not before the start, {start:R}.");
        if (y.Length != _w.Dimension)
            throw new ArgumentOutOfRangeException(nameof(y), y.Length, $"The state must have {_w.Dimension} components.");

        _counts = default;
        _search.ResetCount();
        _guard.Restart();
        _t = start;
        _end = end;
        _interval = end - start;
        y.CopyTo(_w.Y0);

        IntegrationStatus status = Run(cancellation);

        _w.Y0.CopyTo(y);
        return _counts.Result(status, _t, _search.Evaluations);
    }

    private IntegrationStatus Run(CancellationToken cancellation)
    {
        ReadNextStop();
        if (!TryRestart())
            return IntegrationStatus.NotFinite;

        while (_t < _end)
        {
            if (!TryAdvance(cancellation, out double stepEnd, out IntegrationStatus trouble))
                return trouble;

            switch (HandleStep(stepEnd))
            {
                case StepOutcome.Continue:
                    if (_t < _end && !TryJacobian())
                        return IntegrationStatus.NotFinite;
                    break;
                case StepOutcome.Restart:
                    _counts.Restarts++;
                    if (!TryRestart())
                        return IntegrationStatus.NotFinite;
                    break;
                case StepOutcome.Stop:
                    return Rodas5PStep.IsFinite(_w.Y0) ? IntegrationStatus.StoppedByEvent : IntegrationStatus.NotFinite;
                default:
                    return IntegrationStatus.TooManyEvents;
            }
        }

        return IntegrationStatus.ReachedEnd;
    }

    /// <summary>Evaluates everything anew at the present time and state.</summary>
    private bool TryRestart()
    {
        if (!Rodas5PStep.IsFinite(_w.Y0))
            return false;
        if (_t >= _end)
            return true;

        _counts.Derivatives++;
        _system.Derivative(_t, _w.Y0, _w.F0);
        if (!Rodas5PStep.IsFinite(_w.F0) || !TryJacobian() || !_search.TryRestart(ref _system, _t, _w.Y0))
            return false;

        _controller.Restart();
        _h = _options.InitialStep ?? InitialStep.Estimate(_w, _absolute, _options.RelativeTolerance, _end - _t);
        _h = Math.Max(_h, SmallestStep);
        return true;
    }

    private bool TryJacobian()
    {
        _counts.Jacobians++;
        _system.Jacobian(_t, _w.Y0, _w.F0, _w.Jacobian, _w.TimeDerivative, _w.JacobianScratch);
        return Rodas5PStep.IsFinite(_w.Jacobian) && Rodas5PStep.IsFinite(_w.TimeDerivative);
    }

    private double SmallestStep =>
        _options.MinStepRatio * Math.Max(Math.Abs(_t), FractionInPlaceOfTime * _interval);

    /// <summary>Tries steps until one passes: error within tolerance, everything finite, events sampled. Does not yet move on.</summary>
    private bool TryAdvance(CancellationToken cancellation, out double stepEnd, out IntegrationStatus trouble)
    {
        bool lastWasNotFinite = false;
        for (bool first = true; ; first = false)
        {
            stepEnd = _t;
            trouble =
                cancellation.IsCancellationRequested ? IntegrationStatus.Cancelled
                : _counts.Accepted + _counts.Rejected >= _options.MaxSteps ? IntegrationStatus.TooManySteps
                : _h < SmallestStep ? (lastWasNotFinite ? IntegrationStatus.NotFinite : IntegrationStatus.StepTooSmall)
                : IntegrationStatus.ReachedEnd;
            if (trouble != IntegrationStatus.ReachedEnd)
                return false;

            double wanted = Math.Min(_h, _options.MaxStep);
            stepEnd = EndOfStep(wanted);
            double h = stepEnd - _t;

            _counts.Factorizations++;
            double error = double.NaN;
            if (Rodas5PStep.TryStep(ref _system, _t, h, _w, ref _counts.Derivatives))
                error = ErrorNorm.Rms(_w.Error, _w.Y0, _w.Y1, _absolute, _options.RelativeTolerance);

            lastWasNotFinite = !double.IsFinite(error);
            if (error <= 1)
            {
                if (TryFinish(stepEnd, h))
                {
                    _counts.Accepted++;
                    double next = _controller.AfterAccepted(h, error);

                    // A step cut short by a stop says nothing against the length that was due.
                    // (By its end: its length is what rounding leaves of it.)
                    _h = first && stepEnd < _t + wanted ? Math.Max(next, wanted) : next;
                    return true;
                }

                lastWasNotFinite = true;
            }

            _counts.Rejected++;
            _h = lastWasNotFinite ? _controller.AfterNotFinite(h) : _controller.AfterRejected(h, error);
        }
    }

    /// <summary>The end of a step of the length wanted: a stop exactly, if in reach, and never just before one.</summary>
    private double EndOfStep(double wanted)
    {
        double limit = Math.Min(_end, _nextStop);
        double remaining = limit - _t;
        if (remaining <= wanted || (remaining <= Stretch * wanted && remaining <= _options.MaxStep))
            return limit;

        // Two even steps rather than one long and one tiny.
        double h = remaining < 2 * wanted ? remaining / 2 : wanted;
        return Math.Min(_t + h, limit);
    }

    /// <summary>What a step needs besides its error: finite derivative at its end, continuous extension, event samples.</summary>
    private bool TryFinish(double stepEnd, double h)
    {
        _counts.Derivatives++;
        _system.Derivative(stepEnd, _w.Y1, _w.F1);
        if (!Rodas5PStep.IsFinite(_w.F1))
            return false;

        Rodas5PStep.ComputeExtension(_w);
        return _search.TrySearch(ref _system, DenseStep.Whole(_t, h, stepEnd, _w));
    }

    /// <summary>Hands out the accepted step, its events in order, and the stop at its end; then moves on.</summary>
    private StepOutcome HandleStep(double stepEnd)
    {
        DenseStep whole = DenseStep.Whole(_t, stepEnd - _t, stepEnd, _w);
        double from = _t;
        StepOutcome outcome = StepOutcome.Continue;
        while (outcome == StepOutcome.Continue && _search.TryEarliest(whole, out double t))
        {
            // A second crossing closer than the tolerance of location may come out a rounding earlier.
            t = Math.Max(t, from);
            if (t > from)
                _system.OnStep(whole.Part(from, t));
            whole.Evaluate(t, _atEvent);
            from = t;
            outcome = HandleEvents(whole, t);
        }

        if (outcome == StepOutcome.Continue)
        {
            if (from < stepEnd)
                _system.OnStep(whole.Part(from, stepEnd));
            from = stepEnd;
        }
        else
        {
            _atEvent.CopyTo(_w.Y1, 0);
        }

        _t = from;
        _w.Advance();
        _search.Advance();

        if (outcome != StepOutcome.TooManyEvents && _t == _nextStop)
            outcome = Worse(outcome, Outcome(_system.OnStop(_t, _w.Y0)));
        ReadNextStop();
        return outcome;
    }

    /// <summary>Hands out all events at one instant, on the copy of the state made for them.</summary>
    private StepOutcome HandleEvents(in DenseStep whole, double t)
    {
        StepOutcome outcome = StepOutcome.Continue;
        for (int i = 0; i < _eventCount; i++)
        {
            // An event before this one may have undone it.
            if (!_search.Crosses(i, t) || (outcome != StepOutcome.Continue && !_search.IsStillPast(ref _system, i, t, _atEvent)))
                continue;

            if (_counts.Events >= _options.MaxEvents || !_guard.Permits(i, t))
                return StepOutcome.TooManyEvents;
            _counts.Events++;
            outcome = Worse(outcome, Outcome(_system.OnEvent(i, t, _atEvent)));
        }

        // Only if nothing changed is the rest of the step worth looking at.
        if (outcome == StepOutcome.Continue)
            _search.Pass(ref _system, whole, t);
        return outcome;
    }

    private void ReadNextStop()
    {
        _nextStop = _system.NextStop(_t);
        if (!(_nextStop > _t))
            throw new InvalidOperationException($"NextStop({_t:R}) gave {_nextStop:R}; a stop must lie later than the present time.");
    }

    private static StepOutcome Outcome(EventResponse response) => response switch
    {
        EventResponse.Continue => StepOutcome.Continue,
        EventResponse.Restart => StepOutcome.Restart,
        _ => StepOutcome.Stop,
    };

    private static StepOutcome Worse(StepOutcome a, StepOutcome b) => a > b ? a : b;

    /// <summary>What follows a step; the later ones overrule the earlier.</summary>
    private enum StepOutcome
    {
        Continue,
        Restart,
        Stop,
        TooManyEvents,
    }

    private struct Counts
    {
        internal int Accepted;
        internal int Rejected;
        internal int Derivatives;
        internal int Jacobians;
        internal int Factorizations;
        internal int Events;
        internal int Restarts;

        internal readonly IntegrationResult Result(IntegrationStatus status, double time, int eventEvaluations) =>
            new(status, time, Accepted, Rejected, Derivatives, Jacobians, Factorizations, eventEvaluations, Events, Restarts);
    }
}
