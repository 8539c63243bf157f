using MathNet.Numerics.LinearAlgebra;

namespace FlowSim.Calibration;

/// <summary>
/// Straightens a bent posterior for the sampler: along coordinates that are known well, draws follow those that are known badly on a parabola, which is taken off. The
/// map adds to each coordinate what only others decide, so it keeps volumes, and the density needs no correction whatever the parabola is.
/// </summary>
internal sealed class RidgeShear
{
    /// <summary>Most coordinates that others may follow: the parabola of five has twenty terms, enough for a few hundred draws.</summary>
    private const int MostSoft = 5;

    private readonly int _stiff;
    private readonly int _soft;
    private readonly double[][] _terms;

    private RidgeShear(int stiff, int soft, double[][] terms) => (_stiff, _soft, _terms) = (stiff, soft, terms);

    /// <summary>The shear that draws show.</summary>
    /// <param name="draws">Draws, each with its coordinates, the best known first; null for none.</param>
    /// <param name="weights">Their weights.</param>
    /// <param name="dimensions">Coordinates.</param>
    public static RidgeShear Of(double[][]? draws, double[] weights, int dimensions)
    {
        int soft = Math.Min(MostSoft, dimensions / 2), stiff = dimensions - soft;
        if (draws is null || soft == 0)
            return new RidgeShear(dimensions, 0, []);
        int terms = Terms(soft);
        Matrix<double> features = Matrix<double>.Build.Dense(draws.Length, terms + 1);
        double[] room = new double[terms];
        for (int d = 0; d < draws.Length; d++)
        {
            double root = Math.Sqrt(weights[d]);
            Features(draws[d].AsSpan(stiff), room);
            features[d, terms] = root;
            for (int k = 0; k < terms; k++)
                features[d, k] = root * room[k];
        }

        var solver = features.QR();
        double[][] fitted = new double[stiff][];
        for (int i = 0; i < stiff; i++)
        {
            Vector<double> wanted = Vector<double>.Build.Dense(draws.Length, d => Math.Sqrt(weights[d]) * draws[d][i]);
            double[] found = solver.Solve(wanted).ToArray();
            fitted[i] = found.All(double.IsFinite) ? found[..terms] : new double[terms];
        }

        return new RidgeShear(stiff, soft, fitted);
    }

    /// <summary>From straight coordinates to bent ones, in place.</summary>
    /// <param name="coordinates">Coordinates.</param>
    public void Bend(Span<double> coordinates) => Add(coordinates, 1);

    /// <summary>The way back.</summary>
    /// <param name="coordinates">Coordinates.</param>
    public void Straighten(Span<double> coordinates) => Add(coordinates, -1);

    private void Add(Span<double> coordinates, double sign)
    {
        if (_soft == 0)
            return;
        Span<double> features = stackalloc double[Terms(_soft)];
        Features(coordinates[_stiff..], features);
        for (int i = 0; i < _stiff; i++)
        {
            double sum = 0;
            for (int k = 0; k < features.Length; k++)
                sum += _terms[i][k] * features[k];
            coordinates[i] += sign * sum;
        }
    }

    private static int Terms(int soft) => soft + (soft * (soft + 1) / 2);

    private static void Features(ReadOnlySpan<double> soft, Span<double> features)
    {
        int k = 0;
        for (int a = 0; a < soft.Length; a++)
        {
            features[k++] = soft[a];
            for (int b = 0; b <= a; b++)
                features[k++] = soft[a] * soft[b];
        }
    }
}
