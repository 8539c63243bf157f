using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace FlowSim.Numerics.Fitting;

/// <summary>
/// The residuals as a linear function of a step, in columns scaled by given lengths: min ‖J p + r‖ by an orthogonal decomposition (never by normal
/// equations, which would halve the digits), and the singular values of what is left, from which damped steps of any strength follow.
/// </summary>
internal sealed class LinearModel
{
    private readonly int[] _free;
    private readonly double[] _scale;
    private readonly double[] _projected;

    private LinearModel(int[] free, double[] scale, Svd<double> svd, double[] projected)
    {
        _free = free;
        _scale = scale;
        Values = svd.S.ToArray();
        Directions = svd.VT;
        _projected = projected;
    }

    /// <summary>Singular values of the scaled Jacobian, falling.</summary>
    public double[] Values { get; }

    /// <summary>Right singular vectors, one a row, in scaled free parameters.</summary>
    public Matrix<double> Directions { get; }

    /// <summary>Components of the residuals along the left singular vectors: what a step along each direction can remove.</summary>
    public ReadOnlySpan<double> Projected => _projected;

    public int Count => _free.Length;

    /// <summary>Decomposes; none if the numbers do not allow it.</summary>
    /// <param name="jacobian">Weighted Jacobian, row by row.</param>
    /// <param name="residuals">Weighted residuals.</param>
    /// <param name="scale">Length of each column; 0 is taken as 1.</param>
    /// <param name="free">Columns that may move.</param>
    public static LinearModel? Of(double[] jacobian, double[] residuals, double[] scale, int[] free)
    {
        int m = residuals.Length, n = scale.Length, k = free.Length;
        // One column more carries the residuals through the same reflections; rows of zeros where there are fewer residuals than columns.
        Matrix<double> augmented = Matrix<double>.Build.Dense(Math.Max(m, k + 1), k + 1);
        for (int i = 0; i < m; i++)
        {
            for (int c = 0; c < k; c++) augmented[i, c] = jacobian[i * n + free[c]] / Length(scale[free[c]]);
            augmented[i, k] = residuals[i];
        }
        try
        {
            Matrix<double> r = augmented.QR(QRMethod.Thin).R;
            Svd<double> svd = r.SubMatrix(0, k, 0, k).Svd();
            double[] projected = [.. svd.U.TransposeThisAndMultiply(r.Column(k, 0, k))];
            return new LinearModel(free, [.. free.Select(j => Length(scale[j]))], svd, projected);
        }
        catch (MathNet.Numerics.NonConvergenceException)
        {
            return null;
        }
    }

    private static double Length(double scale) => scale > 0 ? scale : 1;

    /// <summary>The step that minimises ‖J p + r‖² + damping ‖scale · p‖²; directions whose singular value is at most the cut are left alone.</summary>
    public void Step(double damping, double cut, Span<double> step)
    {
        for (int c = 0; c < Count; c++) step[_free[c]] = 0;
        for (int k = 0; k < Count; k++)
        {
            if (Values[k] <= cut) break;
            double along = -_projected[k] * Values[k] / (Values[k] * Values[k] + damping);
            for (int c = 0; c < Count; c++) step[_free[c]] += along * Directions[k, c] / _scale[c];
        }
    }

    /// <summary>
    /// −(JᵀJ + damping scale²)⁻¹ g for a gradient g = Jᵀ·…; less exact than <see cref="Step"/>, for corrections only.
    /// </summary>
    public void Against(ReadOnlySpan<double> gradient, double damping, Span<double> step)
    {
        for (int c = 0; c < Count; c++) step[_free[c]] = 0;
        for (int k = 0; k < Count; k++)
        {
            double along = 0;
            for (int c = 0; c < Count; c++) along -= Directions[k, c] * gradient[_free[c]] / _scale[c];
            double stiffness = Values[k] * Values[k] + damping;
            if (stiffness <= 0) break;
            for (int c = 0; c < Count; c++) step[_free[c]] += along / stiffness * Directions[k, c] / _scale[c];
        }
    }

    /// <summary>Length of a step in units of the scales.</summary>
    public double ScaledNorm(ReadOnlySpan<double> step)
    {
        double sum = 0;
        for (int c = 0; c < Count; c++) sum += Math.Pow(step[_free[c]] * _scale[c], 2);
        return Math.Sqrt(sum);
    }

    /// <summary>A direction in parameters: a move of 1 along it changes the residuals by its singular value.</summary>
    public double[] Direction(int k, int parameters)
    {
        double[] direction = new double[parameters];
        for (int c = 0; c < Count; c++) direction[_free[c]] = Directions[k, c] / _scale[c];
        return direction;
    }

    /// <summary>(JᵀJ)⁻¹, 0 for columns that do not move.</summary>
    public double[,] Inverse(int parameters)
    {
        double[,] inverse = new double[parameters, parameters];
        for (int a = 0; a < Count; a++)
        {
            for (int b = 0; b < Count; b++)
            {
                double sum = 0;
                for (int k = 0; k < Count; k++) sum += Directions[k, a] * Directions[k, b] / (Values[k] * Values[k]);
                inverse[_free[a], _free[b]] = sum / (_scale[a] * _scale[b]);
            }
        }
        return inverse;
    }
}
