using System.Globalization;
using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Numerics.Sampling;

/// <summary>
/// Makes independent uniform coordinates depend on each other as normal numbers of a given correlation do, and leaves each of them uniform. The
/// correlation given is that of the normal numbers behind; the rank correlation ρₛ is a little nearer to 0: ρ = 2 sin(π ρₛ/6).
/// <para><b>Source</b>: R. B. Nelsen, An Introduction to Copulas, 2nd ed. (2006), 2.3 and 5.1; from memory.</para>
/// <para><b>Checked by</b>: GaussianCopulaTests.cs.</para>
/// </summary>
public sealed class GaussianCopula
{
    private readonly double[][] _factor;
    private readonly bool[] _mixes;
    private readonly bool[] _enters;

    /// <summary>A copula for a correlation matrix.</summary>
    /// <param name="correlation">Square, symmetric, ones on the diagonal, positive definite.</param>
    /// <param name="names">What messages call the coordinates; their numbers from 0 if not given.</param>
    /// <exception cref="ArgumentException">The matrix is not such a matrix; the message says where and, if the correlations cannot all hold at
    /// once, how much weaker they would have to be (<see cref="HighestStrength"/>).</exception>
    public GaussianCopula(double[,] correlation, IReadOnlyList<string>? names = null)
    {
        ArgumentNullException.ThrowIfNull(correlation);
        int n = correlation.GetLength(0);
        if (n == 0 || correlation.GetLength(1) != n)
        {
            throw new ArgumentException($"A correlation matrix is square and not empty; this one is {n} by {correlation.GetLength(1)}.", nameof(correlation));
        }
        if (names is not null && names.Count != n) throw new ArgumentException($"There are {names.Count} names for {n} coordinates.", nameof(names));
        CheckEntries(correlation, n, Name);

        Matrix<double> matrix = Matrix<double>.Build.DenseOfArray(correlation);
        double strength = HighestStrength(correlation);
        // A matrix so close to singular that its factor would be rounding error is refused as well.
        if (strength <= 1 + 1e-12) throw new ArgumentException(Impossible(matrix, strength, Name), nameof(correlation));
        Matrix<double> factor = matrix.Cholesky().Factor;
        Dimensions = n;
        _factor = factor.ToRowArrays();
        _mixes = new bool[n];
        _enters = new bool[n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < i; j++)
            {
                if (_factor[i][j] == 0) continue;
                _mixes[i] = true;
                _enters[i] = _enters[j] = true;
            }
        }

        string Name(int i) => names is null ? i.ToString(CultureInfo.InvariantCulture) : names[i];
    }

    /// <summary>Coordinates of a point.</summary>
    public int Dimensions { get; }

    /// <summary>
    /// The number all correlations can be multiplied by before they contradict each other: at or below 1 they do already. Infinite for no
    /// correlation at all. From the smallest eigenvalue λ of the matrix: 1/(1 − λ).
    /// </summary>
    /// <param name="correlation">Symmetric matrix with ones on the diagonal.</param>
    public static double HighestStrength(double[,] correlation)
    {
        ArgumentNullException.ThrowIfNull(correlation);
        double smallest = Matrix<double>.Build.DenseOfArray(correlation).Evd(Symmetricity.Symmetric).EigenValues.Real().Minimum();
        return smallest < 1 ? 1 / (1 - smallest) : double.PositiveInfinity;
    }

    /// <summary>Turns independent uniform points into dependent ones, in place; each point by itself.</summary>
    /// <param name="points">A whole number of points, row by row, strictly inside (0, 1).</param>
    /// <exception cref="ArgumentOutOfRangeException">Not a whole number of points.</exception>
    public void Apply(Span<double> points)
    {
        int count = PointRoom.Count(0, points, Dimensions, long.MaxValue);
        Span<double> normal = Dimensions <= 256 ? stackalloc double[Dimensions] : new double[Dimensions];
        for (int p = 0; p < count; p++)
        {
            Span<double> point = points.Slice(p * Dimensions, Dimensions);
            for (int i = 0; i < Dimensions; i++) normal[i] = _enters[i] ? StandardNormal.Quantile(point[i]) : 0;
            for (int i = 0; i < Dimensions; i++)
            {
                if (!_mixes[i]) continue;
                double sum = 0;
                for (int j = 0; j <= i; j++) sum += _factor[i][j] * normal[j];
                point[i] = StandardNormal.InsideUnit(sum);
            }
        }
    }

    private static void CheckEntries(double[,] correlation, int n, Func<int, string> name)
    {
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double value = correlation[i, j];
                if (i == j ? value != 1 : !(Math.Abs(value) < 1))
                {
                    throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                        $"The correlation of {name(i)} with {name(j)} is {value} but must be {(i == j ? "1" : "between -1 and 1, both excluded")}."), nameof(correlation));
                }
                if (value != correlation[j, i])
                {
                    throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                        $"The correlation of {name(i)} with {name(j)} is {value} but that of {name(j)} with {name(i)} is {correlation[j, i]}."), nameof(correlation));
                }
            }
        }
    }

    private static string Impossible(Matrix<double> matrix, double strength, Func<int, string> name)
    {
        // The combination without any variance left is what contradicts itself: name its heaviest members.
        var evd = matrix.Evd(Symmetricity.Symmetric);
        Vector<double> combination = evd.EigenVectors.Column(evd.EigenValues.Real().MinimumIndex());
        double heaviest = combination.AbsoluteMaximum();
        string members = string.Join(", ", Enumerable.Range(0, matrix.RowCount).Where(i => Math.Abs(combination[i]) > 0.1 * heaviest).Select(name));
        return string.Create(CultureInfo.InvariantCulture,
            $"The correlations of {members} cannot all hold at once. Multiplied by anything below {strength:0.###} they could.");
    }
}
