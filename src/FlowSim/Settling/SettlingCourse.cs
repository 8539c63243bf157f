using FlowSim.Numerics.Events;
using FlowSim.Numerics.Ode;
using MathNet.Numerics.RootFinding;

namespace FlowSim.Settling;

/// <summary>The progress of each kind at any time of a run.</summary>
internal sealed class SettlingCourse
{
    /// <summary>Values kept of each step: the integrator's extension is a polynomial of degree 4, so five give it back.</summary>
    private const int PerStep = 5;

    private readonly List<double> _startsS = [0];
    private readonly List<double[]> _steps = [];
    private readonly int _kinds;

    private SettlingCourse(int kinds) => _kinds = kinds;

    /// <summary>End of the run, s.</summary>
    public double EndS => _startsS[^1];

    /// <summary>Steps taken.</summary>
    public int Steps => _steps.Count;

    /// <summary>Integrates a run.</summary>
    /// <param name="parameters">What settles.</param>
    /// <param name="relativeTolerance">Tolerance.</param>
    /// <param name="cancellation">Ends early with <see cref="OperationCanceledException"/>.</param>
    /// <exception cref="SimulationException">The integrator gave up.</exception>
    public static SettlingCourse Of(SettlingParameters parameters, double relativeTolerance, CancellationToken cancellation)
    {
        var course = new SettlingCourse(parameters.Matter.Length);
        var system = new SettlingSystem(parameters, course);
        var integrator = new HybridIntegrator<SettlingSystem>(system, new IntegratorOptions
        {
            RelativeTolerance = relativeTolerance,
            AbsoluteTolerance = AbsoluteShare * relativeTolerance,
        });
        double[] y = new double[system.Dimension];
        IntegrationResult result = integrator.Integrate(0, parameters.EndS, y, cancellation);
        if (result.Status == IntegrationStatus.Cancelled)
            throw new OperationCanceledException(cancellation);
        if (!result.Succeeded)
            throw new SimulationException(FormattableString.Invariant($"The settling could not be resolved at {result.Time:0.###} s: {result.Status} after {result.StepsAccepted} steps."));
        return course;
    }

    /// <summary>Absolute tolerance of the progress as a share of the relative one: what is far from 1 matters little, but wide spreads of size begin early.</summary>
    private const double AbsoluteShare = 1e-4;

    /// <summary>Adds a step.</summary>
    public void Add(in DenseStep step)
    {
        double[] values = new double[PerStep * _kinds];
        for (int i = 0; i < PerStep; i++)
            step.Evaluate(step.Start + i * (step.End - step.Start) / (PerStep - 1), values.AsSpan(i * _kinds, _kinds));
        _steps.Add(values);
        _startsS.Add(step.End);
    }

    /// <summary>Progress of a kind.</summary>
    /// <param name="kind">Place of the kind.</param>
    /// <param name="timeS">Time, 0 to <see cref="EndS"/>, s.</param>
    public double At(int kind, double timeS)
    {
        int found = _startsS.BinarySearch(timeS);
        return InStep(kind, Math.Clamp(found >= 0 ? found : ~found - 1, 0, _steps.Count - 1), timeS);
    }

    /// <summary>When the progress of a kind gets to a value, s; null when it does not within the run.</summary>
    /// <param name="kind">Place of the kind.</param>
    /// <param name="progress">Value, above 0.</param>
    public double? TimeOf(int kind, double progress)
    {
        int step = _steps.FindIndex(values => values[^_kinds..][kind] >= progress);
        if (step < 0)
            return null;
        double from = _startsS[step], to = _startsS[step + 1];
        return InStep(kind, step, from) >= progress ? from : Brent.FindRoot(time => InStep(kind, step, time) - progress, from, to, 1e-13 * to, 200);
    }

    /// <summary>Lagrange's polynomial through the five values of a step.</summary>
    private double InStep(int kind, int step, double timeS)
    {
        double x = (PerStep - 1) * (timeS - _startsS[step]) / (_startsS[step + 1] - _startsS[step]);
        double sum = 0;
        for (int i = 0; i < PerStep; i++)
        {
            double factor = _steps[step][i * _kinds + kind];
            for (int j = 0; j < PerStep; j++)
            {
                if (j != i)
                    factor *= (x - j) / (i - j);
            }

            sum += factor;
        }

        return sum;
    }
}
