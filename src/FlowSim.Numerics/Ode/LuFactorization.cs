namespace FlowSim.Numerics.Ode;

/// <summary>Gaussian elimination with partial pivoting, in place on spans.</summary>
/// <remarks>
/// MathNet.Numerics has an LU, but each of its factorizations and solves allocates; a step factorizes once and solves
/// eight times, on matrices of about ten rows, and must allocate nothing. Hence these few lines.
/// </remarks>
internal static class LuFactorization
{
    /// <summary>Factorizes <paramref name="matrix"/> (row-major, n × n) in place; the diagonal is left inverted.</summary>
    /// <returns>False when a pivot is zero or not finite.</returns>
    internal static bool TryFactorize(Span<double> matrix, Span<int> pivots)
    {
        int n = pivots.Length;
        for (int k = 0; k < n; k++)
        {
            int pivotRow = k;
            double largest = Math.Abs(matrix[k * n + k]);
            for (int i = k + 1; i < n; i++)
            {
                double candidate = Math.Abs(matrix[i * n + k]);
                if (candidate > largest)
                {
                    largest = candidate;
                    pivotRow = i;
                }
            }

            // NaN fails this comparison too.
            if (!(largest > 0 && double.IsFinite(largest)))
                return false;

            pivots[k] = pivotRow;
            Span<double> upper = matrix.Slice(k * n, n);
            if (pivotRow != k)
                Swap(upper, matrix.Slice(pivotRow * n, n));

            double inverse = 1 / upper[k];
            upper[k] = inverse;
            for (int i = k + 1; i < n; i++)
            {
                Span<double> row = matrix.Slice(i * n, upper.Length);
                double factor = row[k] * inverse;
                row[k] = factor;

                // Balance matrices are sparse: most rows have nothing to eliminate.
                if (factor == 0)
                    continue;
                for (int j = k + 1; j < upper.Length; j++)
                    row[j] -= factor * upper[j];
            }
        }

        return true;
    }

    /// <summary>Solves in place with a matrix prepared by <see cref="TryFactorize"/>.</summary>
    internal static void Solve(ReadOnlySpan<double> factors, ReadOnlySpan<int> pivots, Span<double> x)
    {
        int n = x.Length;

        // The rows were swapped whole, multipliers included, so all swaps come first.
        for (int k = 0; k < pivots.Length; k++)
            (x[k], x[pivots[k]]) = (x[pivots[k]], x[k]);

        for (int i = 1; i < n; i++)
        {
            ReadOnlySpan<double> row = factors.Slice(i * n, i);
            double sum = x[i];
            for (int j = 0; j < row.Length; j++)
                sum -= row[j] * x[j];
            x[i] = sum;
        }

        for (int i = n - 1; i >= 0; i--)
        {
            ReadOnlySpan<double> row = factors.Slice(i * n, n);
            double sum = x[i];
            for (int j = i + 1; j < row.Length; j++)
                sum -= row[j] * x[j];
            x[i] = sum * row[i];
        }
    }

    private static void Swap(Span<double> a, Span<double> b)
    {
        for (int i = 0; i < a.Length; i++)
            (a[i], b[i]) = (b[i], a[i]);
    }
}
