namespace FlowSim.Numerics.Fitting;

/// <summary>
/// Whether a point is a minimum, judged without trusting the iteration that found it: from a Jacobian of its own (fourth-order quotients unless in closed
/// form), the relative offset of Bates and Watts, the singular values, and a look at the cost to both sides along every direction.
/// <para>Source: D. M. Bates and D. G. Watts, A relative offset orthogonality convergence criterion for nonlinear least squares, Technometrics 23 (1981)
/// 179–183; from memory. The look to both sides is ours: the criterion alone also holds at a saddle.</para>
/// </summary>
internal sealed class Verdict
{
    // A change in the residuals that is this many times what rounding leaves in them is seen.
    private const double Seen = 10;

    // Singular values of columns of length 1 below this cannot be told from 0 by difference quotients.
    private const double LeastCondition = 1e-10;

    // Residuals below the root of this have no squares.
    private const double LeastRise = 1e-290;

    private Verdict(FitPoint point)
    {
        Point = point;
        AtBound = new bool[point.X.Length];
        RelativeOffset = double.PositiveInfinity;
    }

    public FitPoint Point { get; }

    public bool[] AtBound { get; }

    public LeastSquaresStatus Status { get; private set; } = LeastSquaresStatus.NotConverged;

    public string Message { get; private set; } = "";

    public double RelativeOffset { get; private set; }

    public double ReciprocalCondition { get; private set; }

    public double WeightedSquares { get; private set; }

    public int DegreesOfFreedom { get; private set; }

    public double[,]? Inverse { get; private set; }

    /// <summary>A lower point next to this one, met by the look to both sides; none if there was none.</summary>
    public FitPoint? Lower { get; private set; }

    public static Verdict Of(FitFunction function, FitJacobian jacobians, FitPoint point, double tolerance)
    {
        Verdict verdict = new(point);
        verdict.Judge(function, jacobians, tolerance);
        return verdict;
    }

    private void Judge(FitFunction function, FitJacobian jacobians, double tolerance)
    {
        int n = function.Parameters;
        if (jacobians.At(Point, fine: true) is not { } raw)
        {
            Status = function.Exhausted ? LeastSquaresStatus.OutOfEvaluations : LeastSquaresStatus.CannotEvaluate;
            Message = function.Exhausted ? "The best point found could not be verified." : "The residuals cannot be evaluated around the point reached.";
            return;
        }
        double noise = jacobians.Noise;
        (double[] jacobian, double[] residuals) = Weighing.ForVerdict(function, Point, raw);
        foreach (double r in residuals) WeightedSquares += r * r;
        int[] free = BoundedStep.Free(function, Point, jacobian, residuals);
        for (int j = 0; j < n; j++) AtBound[j] = !free.Contains(j);
        DegreesOfFreedom = residuals.Length - free.Length;
        if (free.Length == 0)
        {
            RelativeOffset = 0;
            ReciprocalCondition = 1;
            Inverse = new double[n, n];
            Status = LeastSquaresStatus.Converged;
            Message = "Every parameter is held by a bound.";
            return;
        }

        double[] scale = [.. Enumerable.Range(0, n).Select(j => FitJacobian.Norm(jacobian, j, n))];
        int[] felt = [.. free.Where(j => jacobians.IsClosedForm ? scale[j] > 0 : scale[j] * jacobians.Length(j) > Seen * noise * jacobians.Magnification)];
        if (felt.Length == 0 || LinearModel.Of(jacobian, residuals, scale, felt) is not { } model)
        {
            Status = felt.Length == 0 ? LeastSquaresStatus.Singular : LeastSquaresStatus.NotConverged;
            Message = "The residuals do not change with any parameter at the point reached: a plateau.";
            return;
        }
        ReciprocalCondition = felt.Length < free.Length ? 0 : model.Values[^1] / model.Values[0];
        double least = Math.Max(LeastCondition, Seen * function.Roughness * jacobians.Magnification);
        int rank = model.Values.Count(value => value > least * model.Values[0]);

        double removable = 0;
        for (int k = 0; k < rank; k++) removable += model.Projected[k] * model.Projected[k];
        double rest = Math.Max(0, WeightedSquares - removable);
        removable = Math.Sqrt(removable / rank);
        int left = residuals.Length - rank;
        if (left > 0 && rest > 0) RelativeOffset = removable / Math.Sqrt(rest / left);
        bool stationary = RelativeOffset <= tolerance || removable <= Seen * noise;
        if (!stationary)
        {
            Message = FormattableString.Invariant($"The best point found is no minimum: a step should still gain (relative offset {RelativeOffset:0.0e+0}).");
            return;
        }

        if (!LookAround(function, model, rank, noise))
        {
            Message = "The best point found is stationary but no minimum: the cost falls to one side.";
            return;
        }
        if (function.Exhausted)
        {
            Status = LeastSquaresStatus.OutOfEvaluations;
            Message = "The best point found could not be verified to the end.";
            return;
        }
        if (felt.Length < free.Length || rank < felt.Length)
        {
            Status = LeastSquaresStatus.Singular;
            Message = "The cost is lowest there, but the residuals leave some combination of parameters undetermined.";
            return;
        }
        Inverse = model.Inverse(n);
        Status = LeastSquaresStatus.Converged;
        Message = "A minimum, verified.";
    }

    /// <summary>Whether the cost rises to both sides of the point along every determined direction.</summary>
    private bool LookAround(FitFunction function, LinearModel model, int rank, double noise)
    {
        int n = function.Parameters;
        double costNoise = noise * (noise + Math.Sqrt(2 * Point.Cost));
        double rise = Math.Max(LeastRise, Math.Max(5e-5 * WeightedSquares / Math.Max(1, DegreesOfFreedom), 1e3 * costNoise));
        for (int k = 0; k < rank; k++)
        {
            double[] direction = model.Direction(k, n);
            double length = Math.Sqrt(2 * rise) / model.Values[k];
            double sum = 0;
            int sides = 0;
            foreach (int sign in (ReadOnlySpan<int>)[1, -1])
            {
                double[] x = new double[n];
                bool inside = true;
                for (int j = 0; j < n; j++)
                {
                    x[j] = Point.X[j] + sign * length * direction[j];
                    inside &= x[j] >= function.Lower[j] && x[j] <= function.Upper[j];
                }
                if (!inside || function.Evaluate(x) is not { } side) continue;
                sides++;
                sum += side.Cost - Point.Cost;
                if (side.Cost < Point.Cost - Seen * costNoise && (Lower is null || side.Cost < Lower.Cost)) Lower = side;
            }
            if (Lower is not null || (sides == 2 && sum <= 0)) return false;
        }
        return true;
    }
}
