namespace FlowSim.Numerics.Fitting;

/// <summary>A point of a fit with its residuals, all finite.</summary>
internal sealed record FitPoint(double[] X, double[] Residuals, double Cost);

/// <summary>Evaluates a problem within its bounds, counts, and refuses what is not finite.</summary>
internal sealed class FitFunction
{
    private readonly ILeastSquaresProblem _problem;
    private readonly LeastSquaresOptions _options;
    private readonly int _robust;
    private readonly CancellationToken _cancellation;

    public FitFunction(ILeastSquaresProblem problem, LeastSquaresOptions options, CancellationToken cancellation)
    {
        _problem = problem;
        _options = options;
        _cancellation = cancellation;
        Parameters = problem.Parameters;
        Residuals = problem.Residuals;
        _robust = options.Loss == RobustLoss.None ? 0 : Math.Min(Residuals, options.RobustResiduals ?? Residuals);
        Lower = options.Lower ?? [.. Enumerable.Repeat(double.NegativeInfinity, Parameters)];
        Upper = options.Upper ?? [.. Enumerable.Repeat(double.PositiveInfinity, Parameters)];
        Limit = options.MaximumEvaluations;
    }

    public int Parameters { get; }

    public int Residuals { get; }

    public double[] Lower { get; }

    public double[] Upper { get; }

    /// <summary>Relative size of what is not smooth in the residuals.</summary>
    public double Roughness => _options.Roughness;

    public int Evaluations { get; private set; }

    /// <summary>Evaluations after which this try has to end; at most those allowed.</summary>
    public int Limit { get; set; }

    public bool Exhausted => Evaluations >= Limit;

    public bool IsFixed(int j) => Lower[j] == Upper[j];

    public double Clip(int j, double value) => Math.Clamp(value, Lower[j], Upper[j]);

    /// <summary>Residuals and cost at a point that the caller leaves alone from then on; none if they cannot be computed there, or no more.</summary>
    public FitPoint? Evaluate(double[] x)
    {
        _cancellation.ThrowIfCancellationRequested();
        if (Exhausted) return null;
        Evaluations++;
        double[] residuals = new double[Residuals];
        if (!_problem.Evaluate(x, residuals)) return null;
        double cost = 0;
        for (int i = 0; i < residuals.Length; i++)
        {
            double z = residuals[i] * residuals[i];
            cost += i < _robust ? _options.Loss.At(z).Value : z;
        }
        return double.IsFinite(cost) ? new FitPoint(x, residuals, 0.5 * cost) : null;
    }

    /// <summary>The closed-form Jacobian, row by row; none if there is none or it is not finite.</summary>
    public double[]? ClosedFormJacobian(FitPoint point)
    {
        double[] jacobian = new double[Residuals * Parameters];
        return _problem.Jacobian(point.X, point.Residuals, jacobian) && Array.TrueForAll(jacobian, double.IsFinite) ? jacobian : null;
    }

    /// <summary>ρ′ of a residual, the weight of its square.</summary>
    public double Weight(int i, double residual) => i < _robust ? _options.Loss.At(residual * residual).First : 1;

    /// <summary>Factor of a residual's row in the Jacobian for steps.</summary>
    public double StepWeight(int i, double residual) => i < _robust ? Math.Sqrt(Curvature(i, residual)) : 1;

    /// <summary>
    /// ρ′ + 2zρ″ of a residual, the curvature of its cost. Far out it may be negative; a tenth of the weight is kept so that the model stays convex
    /// and a step finite.
    /// </summary>
    public double Curvature(int i, double residual)
    {
        if (i >= _robust) return 1;
        double z = residual * residual;
        (_, double first, double second) = _options.Loss.At(z);
        return Math.Max(first + 2 * z * second, 0.1 * first);
    }
}
