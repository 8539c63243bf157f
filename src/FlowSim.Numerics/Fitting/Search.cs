using FlowSim.Numerics.Sampling;

namespace FlowSim.Numerics.Fitting;

/// <summary>The tries of one fit, and which of their ends is the answer.</summary>
internal sealed class Search(FitFunction function, LeastSquaresOptions options)
{
    // Points lower on the way out of a saddle that one try follows.
    private const int MostEscapes = 5;
    private const int PolishingSteps = 20;

    // Evaluations per parameter, and as many once more: NIST's regressions take half of this at most, but for MGH10 from its first start.
    private const int UsualDescent = 500;

    // Damping of the first step, in units of the Jacobian's columns: bold, then the more careful the oftener it failed.
    private static readonly double[] Dampings = [1e-3, 1, 1e3];

    private Verdict? _best;

    public LeastSquaresFit Run(double[] start)
    {
        FitPoint? first = function.Evaluate(start);
        if (first is null) return Unusable(start);
        for (int attempt = 0; attempt <= options.Restarts; attempt++)
        {
            // Half of what is left, so that a crawl along a plateau cannot take everything; but what a descent usually needs, if there is as much.
            int left = options.MaximumEvaluations - function.Evaluations;
            int share = Math.Max(left / 2, UsualDescent * (function.Parameters + 1));
            function.Limit = function.Evaluations + (attempt == options.Restarts ? left : Math.Min(left, share));
            // A descent that its share cut short goes on before other places are tried.
            bool goOn = attempt == Dampings.Length && _best?.Status == LeastSquaresStatus.OutOfEvaluations;
            FitPoint? from = attempt < Dampings.Length ? first : goOn ? _best?.Point : Around(start, attempt);
            if (from is not null) Try(from, goOn ? Dampings[0] : Dampings[attempt < Dampings.Length ? attempt : attempt % 2]);
            if (_best?.Status == LeastSquaresStatus.Converged || function.Evaluations >= options.MaximumEvaluations) break;
        }
        return Answer();
    }

    private void Try(FitPoint from, double damping)
    {
        FitJacobian jacobians = new(function, from.X);
        FitPoint point = from;
        for (int escape = 0; escape <= MostEscapes; escape++)
        {
            point = new Descent(function, jacobians).Run(point, damping);
            point = Polish(point, jacobians);
            Verdict verdict = Verdict.Of(function, jacobians, point, options.RelativeOffset);
            if (_best is null || Better(verdict, _best)) _best = verdict;
            if (verdict.Lower is null) return;
            point = verdict.Lower;
        }
    }

    /// <summary>The lower cost is the better; of costs alike, the one that was verified.</summary>
    private static bool Better(Verdict a, Verdict b)
    {
        const double alike = 1e-9;
        double difference = a.Point.Cost - b.Point.Cost;
        if (Math.Abs(difference) <= alike * b.Point.Cost && a.Status != b.Status) return a.Status == LeastSquaresStatus.Converged;
        return difference < 0;
    }

    /// <summary>
    /// Gauss–Newton steps on the finer Jacobian as long as they bring the gradient down. The cost cannot guide any more: near its minimum it is flat to
    /// rounding over half the digits of the parameters.
    /// </summary>
    private FitPoint Polish(FitPoint point, FitJacobian jacobians)
    {
        FitPoint best = point;
        double least = double.PositiveInfinity;
        double loose = 1e-10 * point.Cost;
        for (int step = 0; step < PolishingSteps; step++)
        {
            if (jacobians.At(point, fine: true) is not { } raw) return best;
            (double[] jacobian, double[] residuals) = Weighing.ForSteps(function, point, raw);
            int n = function.Parameters;
            double[] scale = [.. Enumerable.Range(0, n).Select(j => FitJacobian.Norm(jacobian, j, n))];
            int[] free = BoundedStep.Free(function, point, jacobian, residuals);
            if (free.Length == 0 || LinearModel.Of(jacobian, residuals, scale, free) is not { } model) return best;
            double removable = 0;
            foreach (double part in model.Projected) removable += part * part;
            removable = Math.Sqrt(removable);
            if (!(removable < 0.9 * least)) return best;
            least = removable;
            best = point;
            BoundedStep steps = new(function, point, jacobian, residuals, scale);
            if (removable == 0 || steps.At(damping: 0, cut: 1e-10 * model.Values[0]) is not var (x, _)) return best;
            if (function.Evaluate(x) is not { } next || next.Cost > best.Cost + loose) return best;
            point = next;
        }
        return best;
    }

    /// <summary>A point around the start, the farther the later the attempt; the same for every run.</summary>
    private FitPoint? Around(double[] start, int attempt)
    {
        double spread = 0.25 * (attempt - Dampings.Length + 1);
        double[] x = new double[start.Length];
        for (int j = 0; j < x.Length; j++)
        {
            (ulong a, _) = Philox.Pair(1, RandomStream.Restarts, attempt, (ulong)j, 0);
            double z = StandardNormal.Quantile(Philox.Unit(a));
            x[j] = function.Clip(j, start[j] != 0 ? start[j] * Math.Exp(spread * z) : spread * z);
        }
        return function.Evaluate(x);
    }

    private LeastSquaresFit Unusable(double[] start) => new()
    {
        Status = LeastSquaresStatus.CannotEvaluate,
        X = start,
        Cost = double.PositiveInfinity,
        ResidualSumOfSquares = double.PositiveInfinity,
        DegreesOfFreedom = function.Residuals - function.Parameters,
        UnscaledCovariance = null,
        AtBound = new bool[start.Length],
        Evaluations = function.Evaluations,
        RelativeOffset = double.PositiveInfinity,
        ReciprocalCondition = 0,
        Message = "The residuals cannot be evaluated at the start.",
    };

    private LeastSquaresFit Answer()
    {
        Verdict verdict = _best!;
        bool used = verdict.Status is LeastSquaresStatus.NotConverged or LeastSquaresStatus.OutOfEvaluations
            && function.Evaluations >= options.MaximumEvaluations;
        // A try may have used up its own share only.
        LeastSquaresStatus status = used ? LeastSquaresStatus.OutOfEvaluations
            : verdict.Status == LeastSquaresStatus.OutOfEvaluations ? LeastSquaresStatus.NotConverged : verdict.Status;
        double squares = 0;
        for (int i = 0; i < verdict.Point.Residuals.Length; i++)
        {
            double r = verdict.Point.Residuals[i];
            squares += function.Weight(i, r) * r * r;
        }
        return new()
        {
            Status = status,
            X = [.. verdict.Point.X],
            Cost = verdict.Point.Cost,
            ResidualSumOfSquares = squares,
            DegreesOfFreedom = verdict.DegreesOfFreedom,
            UnscaledCovariance = verdict.Inverse,
            AtBound = verdict.AtBound,
            Evaluations = function.Evaluations,
            RelativeOffset = verdict.RelativeOffset,
            ReciprocalCondition = verdict.ReciprocalCondition,
            Message = used ? $"All {options.MaximumEvaluations} evaluations were used up. {verdict.Message}".TrimEnd() : verdict.Message,
        };
    }
}
