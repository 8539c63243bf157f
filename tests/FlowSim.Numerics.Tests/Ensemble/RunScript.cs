using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Tests.Ensemble;

/// <summary>Fills ∂f/∂y and ∂f/∂t.</summary>
internal delegate void Slopes(double t, ReadOnlySpan<double> y, Span<double> jacobian, Span<double> timeDerivative);

/// <summary>A run written once, for the integrator of single runs and for a lane. Events rise; what an event or stop changes, it changes in the state.</summary>
internal sealed record RunScript(double[] Start, double End)
{
    internal required RightHandSide Rates { get; init; }

    internal Slopes Slopes { get; init; } = (_, _, jacobian, timeDerivative) =>
    {
        jacobian.Clear();
        timeDerivative.Clear();
    };

    /// <summary>Sizes of the unknowns for the absolute tolerance.</summary>
    internal double[]? Scales { get; init; }

    internal int EventCount { get; init; }

    internal RightHandSide Events { get; init; } = (_, _, _) => { };

    internal Response OnEvent { get; init; } = (_, _, _) => EventResponse.Restart;

    internal double[] Stops { get; init; } = [];

    internal Response OnStop { get; init; } = (_, _, _) => EventResponse.Restart;

    /// <summary>For lanes: whether event 0 may rise and fall again within a step where the first unknown has its top.</summary>
    internal bool HidesAtTheTop { get; init; }

    /// <summary>For lanes: the run ends before its first step.</summary>
    internal bool EndsAtOnce { get; init; }

    internal double NextStop(double t) => Stops.Where(stop => stop > t).DefaultIfEmpty(double.PositiveInfinity).Min();
}

/// <summary>What happened in a run.</summary>
internal sealed class RunLog
{
    /// <summary>Steps that a lane tried.</summary>
    internal List<LaneTry> Tries { get; } = [];

    internal List<(int Index, double Time, double[] State)> Events { get; } = [];

    internal List<double> Stops { get; } = [];

    internal LaneEnding? Ending { get; set; }

    internal double Time { get; set; }

    internal double[] State { get; set; } = [];

    internal int Lane { get; set; } = -1;

    /// <summary>Evaluations while the run was in its lane, for this lane or another.</summary>
    internal int DerivativeCalls { get; set; }

    internal int EventCalls { get; set; }
}

/// <summary>A step that a lane tried, and what came of it.</summary>
internal sealed record LaneTry(double End, double[] Y1)
{
    internal bool Accepted { get; set; }

    /// <summary>Share of the step that counts, the state there and at 0.37 of that share.</summary>
    internal double Part { get; set; } = double.NaN;

    internal double[] AtPart { get; set; } = [];

    internal double[] Within { get; set; } = [];

    /// <summary>Time and state from which the lane goes on, and whether something was changed there.</summary>
    internal double Time { get; set; }

    internal double[] Next { get; set; } = [];

    internal bool Anew { get; set; }
}

/// <summary>A script for <see cref="HybridIntegrator{TSystem}"/>.</summary>
internal sealed class SingleRun(RunScript script) : HybridSystemBase(script.Start.Length)
{
    internal RunLog Log { get; } = new();

    public override int EventCount => script.EventCount;

    /// <summary>The run from its start, with the tolerances of the lanes.</summary>
    internal static (RunLog Log, IntegrationResult Result) Of(RunScript script, double tolerance, int maxSteps = 100_000)
    {
        var system = new SingleRun(script);
        var integrator = new HybridIntegrator<SingleRun>(system, new IntegratorOptions
        {
            RelativeTolerance = tolerance,
            AbsoluteTolerance = tolerance * ScriptedLanes<Lanes2>.AbsoluteShare,
            ComponentScales = script.Scales,
            MaxSteps = maxSteps,
        });
        double[] y = [.. script.Start];
        IntegrationResult result = integrator.Integrate(0, script.End, y);
        (system.Log.Time, system.Log.State) = (result.Time, y);
        return (system.Log, result);
    }

    public override void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative) => script.Rates(t, y, derivative);

    public override void Jacobian(
        double t, ReadOnlySpan<double> y, ReadOnlySpan<double> derivative, Span<double> jacobian, Span<double> timeDerivative, Span<double> scratch) =>
        script.Slopes(t, y, jacobian, timeDerivative);

    public override void EventValues(double t, ReadOnlySpan<double> y, Span<double> values) => script.Events(t, y, values);

    public override EventResponse OnEvent(int index, double t, Span<double> y)
    {
        Log.Events.Add((index, t, y.ToArray()));
        return script.OnEvent(index, t, y);
    }

    public override double NextStop(double t) => script.NextStop(t);

    public override EventResponse OnStop(double t, Span<double> y)
    {
        Log.Stops.Add(t);
        return script.OnStop(0, t, y);
    }
}
