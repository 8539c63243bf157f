using System.Numerics;

namespace FlowSim.Numerics.Ode;

/// <summary>Steps of a second-order Rosenbrock W-method for systems with a factored matrix.</summary>
/// <remarks>
/// <para><b>Equation</b>: M k₁ = f(t, y), M k₂ = f(t + h, y + h k₁) − 2 k₁, y₁ = y + 3/2 h k₁ + 1/2 h k₂; M = Π (I − γh Aᵢ),
/// γ = 1 − 1/√2. First-order result for the error estimate: y + h k₁.</para>
/// <para><b>Range</b>: order 2 for any A. Stable for every step with up to three factors on the negative real axis; L-stable with one.</para>
/// <para><b>Error</b>: of order h³ in a step; the estimate is of order h² and errs on the cautious side.</para>
/// <para><b>Source</b>: ROS2 of Verwer, Spee, Blom and Hundsdorfer 1999, SIAM J. Sci. Comput. 20:1456 (from memory; the order is
/// checked by measurement).</para>
/// <para><b>Checked by</b>: FactoredRosenbrockTests.cs.</para>
/// </remarks>
public sealed class FactoredRosenbrock
{
    /// <summary>γ = 1 − 1/√2.</summary>
    public const double Gamma = 0.29289321881345247559915563789515;

    private readonly double[] _k1;
    private readonly double[] _k2;
    private readonly double[] _stage;

    /// <summary>Creates the work space for one system.</summary>
    /// <param name="dimension">Number of unknowns, at least 1.</param>
    public FactoredRosenbrock(int dimension)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(dimension);
        Start = new double[dimension];
        StartDerivative = new double[dimension];
        End = new double[dimension];
        EndDerivative = new double[dimension];
        Error = new double[dimension];
        _k1 = new double[dimension];
        _k2 = new double[dimension];
        _stage = new double[dimension];
    }

    /// <summary>State a step starts from. Written by the caller.</summary>
    public double[] Start { get; }

    /// <summary>Derivative there; see <see cref="Begin"/>.</summary>
    public double[] StartDerivative { get; }

    /// <summary>State after the step.</summary>
    public double[] End { get; }

    /// <summary>Derivative there, once <see cref="EvaluateEnd"/> was called.</summary>
    public double[] EndDerivative { get; }

    /// <summary>Estimate of the error of the step, with sign.</summary>
    public double[] Error { get; }

    /// <summary>Evaluates derivative and matrix at <see cref="Start"/>: once before the steps tried from there.</summary>
    /// <typeparam name="TSystem">Type of the system.</typeparam>
    /// <param name="system">System.</param>
    /// <param name="t">Independent variable.</param>
    public void Begin<TSystem>(TSystem system, double t)
        where TSystem : IFactoredOdeSystem
    {
        system.Derivative(t, Start, StartDerivative);
        system.KeepMatrix();
    }

    /// <summary>Steps from <see cref="Start"/> to <see cref="End"/>.</summary>
    /// <typeparam name="TSystem">Type of the system.</typeparam>
    /// <param name="system">System.</param>
    /// <param name="t">Independent variable at the start.</param>
    /// <param name="h">Step, above 0.</param>
    public void Step<TSystem>(TSystem system, double t, double h)
        where TSystem : IFactoredOdeSystem
    {
        system.Factor(Gamma * h);
        StartDerivative.CopyTo(_k1, 0);
        system.Solve(_k1);
        AddScaled(Start, h, _k1, _stage);
        system.Derivative(t + h, _stage, _k2);
        AddScaled(_k2, -2, _k1, _k2);
        system.Solve(_k2);
        Combine(h);
    }

    /// <summary>Evaluates the derivative at <see cref="End"/>.</summary>
    /// <typeparam name="TSystem">Type of the system.</typeparam>
    /// <param name="system">System.</param>
    /// <param name="t">Independent variable there.</param>
    public void EvaluateEnd<TSystem>(TSystem system, double t)
        where TSystem : IFactoredOdeSystem => system.Derivative(t, End, EndDerivative);

    /// <summary>Makes <see cref="End"/>, evaluated last, the new <see cref="Start"/>.</summary>
    /// <typeparam name="TSystem">Type of the system.</typeparam>
    /// <param name="system">System.</param>
    public void Accept<TSystem>(TSystem system)
        where TSystem : IFactoredOdeSystem
    {
        End.CopyTo(Start, 0);
        EndDerivative.CopyTo(StartDerivative, 0);
        system.KeepMatrix();
    }

    private void Combine(double h)
    {
        int width = Vector<double>.Count, i = 0;
        for (; i <= End.Length - width; i += width)
        {
            Vector<double> k1 = new(_k1, i), half = (k1 + new Vector<double>(_k2, i)) * (0.5 * h);
            half.CopyTo(Error, i);
            (new Vector<double>(Start, i) + k1 * h + half).CopyTo(End, i);
        }

        for (; i < End.Length; i++)
        {
            Error[i] = 0.5 * h * (_k1[i] + _k2[i]);
            End[i] = Start[i] + h * _k1[i] + Error[i];
        }
    }

    private static void AddScaled(double[] a, double factor, double[] b, double[] sum)
    {
        int width = Vector<double>.Count, i = 0;
        for (; i <= sum.Length - width; i += width)
            (new Vector<double>(a, i) + factor * new Vector<double>(b, i)).CopyTo(sum, i);
        for (; i < sum.Length; i++)
            sum[i] = a[i] + factor * b[i];
    }
}
