namespace FlowSim.Numerics.Fitting;

/// <summary>
/// Derivatives of the residuals: in closed form, or as central difference quotients of second or, for the verdict, fourth order; at a bound, or where
/// one side cannot be evaluated, one-sided ones of the same order. The step follows the length over which each parameter bends the residuals,
/// ‖r′‖/‖r″‖, as the quotients before showed it: the parameter's own size says little where it carries an offset.
/// </summary>
internal sealed class FitJacobian
{
    private const int ShorterSteps = 5;

    // Places in steps, and weights of the residuals there.
    private static readonly (int Place, double Weight)[] Central2 = [(-1, -0.5), (1, 0.5)];
    private static readonly (int Place, double Weight)[] Onesided2 = [(0, -1.5), (1, 2), (2, -0.5)];
    private static readonly (int Place, double Weight)[] Central4 = [(-2, 1.0 / 12), (-1, -2.0 / 3), (1, 2.0 / 3), (2, -1.0 / 12)];
    private static readonly (int Place, double Weight)[] Onesided4 = [(0, -25.0 / 12), (1, 4), (2, -3), (3, 4.0 / 3), (4, -0.25)];

    private readonly FitFunction _function;
    private readonly double[] _length;
    private readonly double[] _bend;
    private readonly double[] _step;

    public FitJacobian(FitFunction function, double[] start)
    {
        _function = function;
        _length = [.. start.Select((x, j) => x != 0 ? Math.Abs(x) : Unknown(j))];
        _bend = new double[start.Length];
        _step = new double[start.Length];
    }

    /// <summary>Size of what rounding leaves in the residuals, as a norm, at the point of the last quotients.</summary>
    public double Noise { get; private set; }

    /// <summary>What rounding leaves in a change of the residuals over a parameter's length, as the last quotients show it, in units of <see cref="Noise"/>.</summary>
    public double Magnification { get; private set; } = 1;

    /// <summary>Whether the last derivatives came in closed form, with no rounding of quotients in them.</summary>
    public bool IsClosedForm { get; private set; }

    /// <summary>Length over which a parameter bends the residuals, as far as it is known.</summary>
    public double Length(int j) => _length[j];

    private double Unknown(int j)
    {
        double width = _function.Upper[j] - _function.Lower[j];
        return double.IsFinite(width) && width > 0 ? 0.1 * width : 1;
    }

    /// <summary>The Jacobian row by row; none if it cannot be had.</summary>
    /// <param name="point">Where.</param>
    /// <param name="fine">Fourth order instead of second.</param>
    public double[]? At(FitPoint point, bool fine)
    {
        int n = _function.Parameters;
        double[]? jacobian = _function.ClosedFormJacobian(point);
        bool differences = jacobian is null;
        IsClosedForm = !differences;
        if (jacobian is null)
        {
            jacobian = new double[_function.Residuals * n];
            for (int j = 0; j < n; j++)
            {
                if (!_function.IsFixed(j) && !Column(point, j, fine, jacobian)) return null;
            }
        }
        double size = Norm(point.Residuals, 0, 1);
        for (int j = 0; j < n; j++) size = Math.Max(size, Math.Abs(point.X[j]) * Norm(jacobian, j, n));
        Noise = _function.Roughness * size;
        Magnification = differences ? 1 / StepShare(fine) : 1;
        if (differences) AdaptLengths(point, jacobian);
        return jacobian;
    }

    private bool Column(FitPoint point, int j, bool fine, double[] jacobian)
    {
        double step = _length[j] * StepShare(fine);
        for (int trial = 0; trial < ShorterSteps; trial++, step *= 0.1)
        {
            if (Stencil(point, j, step, fine ? Central4 : Central2, jacobian)
                || Stencil(point, j, step, fine ? Onesided4 : Onesided2, jacobian)
                || Stencil(point, j, -step, fine ? Onesided4 : Onesided2, jacobian)) return true;
            if (_function.Exhausted) return false;
            _length[j] *= 0.1;
        }
        return false;
    }

    /// <summary>Step as a share of the length: where rounding and the order's own error are alike.</summary>
    private double StepShare(bool fine) => fine ? Math.Pow(_function.Roughness, 0.2) : Math.Cbrt(_function.Roughness);

    private bool Stencil(FitPoint point, int j, double step, (int Place, double Weight)[] stencil, double[] jacobian)
    {
        double x = point.X[j];
        step = x + step - x;
        if (step == 0) return false;
        foreach ((int place, _) in stencil)
        {
            double at = x + place * step;
            if (at < _function.Lower[j] || at > _function.Upper[j]) return false;
        }
        int n = _function.Parameters;
        double[]?[] residuals = new double[stencil.Length][];
        for (int k = 0; k < stencil.Length; k++)
        {
            residuals[k] = stencil[k].Place == 0 ? point.Residuals : Moved(point.X, j, x + stencil[k].Place * step);
            if (residuals[k] is null) return false;
        }
        for (int i = 0; i < _function.Residuals; i++)
        {
            double sum = 0;
            for (int k = 0; k < stencil.Length; k++) sum += stencil[k].Weight * (residuals[k]![i] - point.Residuals[i]);
            sum /= step;
            if (!double.IsFinite(sum)) return false;
            jacobian[i * n + j] = sum;
        }
        // The two neighbours of a symmetric stencil also show the second derivative.
        if (stencil[0].Place < 0)
        {
            int left = stencil.Length / 2 - 1;
            double bend = 0;
            for (int i = 0; i < _function.Residuals; i++)
            {
                double second = residuals[left]![i] - 2 * point.Residuals[i] + residuals[left + 1]![i];
                bend += second * second;
            }
            _bend[j] = Math.Sqrt(bend) / (step * step);
        }
        else
        {
            _bend[j] = double.NaN;
        }
        _step[j] = Math.Abs(step);
        return true;
    }

    private double[]? Moved(double[] x, int j, double value)
    {
        double[] moved = [.. x];
        moved[j] = value;
        return _function.Evaluate(moved)?.Residuals;
    }

    /// <summary>
    /// Takes over the length that the last quotients showed, if their second difference stood out of the rounding; else a longer step may show it.
    /// </summary>
    private void AdaptLengths(FitPoint point, double[] jacobian)
    {
        const double significant = 30;
        const double most = 30;
        const double leastShare = 1e-6;
        for (int j = 0; j < _length.Length; j++)
        {
            double slope = Norm(jacobian, j, _length.Length);
            if (_function.IsFixed(j) || double.IsNaN(_bend[j]) || slope == 0) continue;
            double size = Math.Abs(point.X[j]);
            _length[j] = _bend[j] * _step[j] * _step[j] > significant * Noise
                ? Math.Max(leastShare * size, Math.Clamp(slope / _bend[j], _length[j] / most, _length[j] * most))
                : Math.Max(_length[j], Math.Min(size, _length[j] * most));
        }
    }

    /// <summary>Norm of a column of a matrix kept row by row.</summary>
    public static double Norm(double[] matrix, int column, int columns)
    {
        double sum = 0;
        for (int i = column; i < matrix.Length; i += columns) sum += matrix[i] * matrix[i];
        return Math.Sqrt(sum);
    }
}
