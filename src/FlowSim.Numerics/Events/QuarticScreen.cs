namespace FlowSim.Numerics.Events;

/// <summary>Finds where an event function may dip towards zero between samples, without evaluating it again.</summary>
/// <remarks>
/// The continuous extension is a quartic, so an event function that is linear in the state is a quartic too and its five
/// samples determine it; for others the quartic through the samples tells where to look. This class only proposes places;
/// the event function itself decides.
/// </remarks>
internal static class QuarticScreen
{
    /// <summary>Samples per step, evenly spaced with both ends.</summary>
    internal const int Samples = 5;

    /// <summary>Cells of the mesh on which the quartic is searched.</summary>
    internal const int Cells = 32;

    /// <summary>A quartic has at most three extrema.</summary>
    internal const int MaxDips = 3;

    /// <summary>How far a dip's bracket reaches to each side, in cells: one to hold the extremum, one for the quartic's error.</summary>
    internal const int Reach = 2;

    private const int CellsPerSample = Cells / (Samples - 1);

    /// <summary>
    /// Samples whose smallest magnitude exceeds their range by this factor are too far from zero for the quartic to
    /// reach it: the Lebesgue constant of five even points, 2.208, gives a bound of 0.604 for a quartic; the rest is room for
    /// functions that are not quartics.
    /// </summary>
    private const double FarFromZero = 1.0;

    /// <summary>A dip of the quartic that stays this fraction of the range away from zero is not followed up.</summary>
    private const double ShallowDip = 0.5;

    /// <summary>Row j + 1 holds the weights of the five samples in the quartic's value at mesh point j, from −1 to one past the last.</summary>
    private static readonly double[] s_weights = LagrangeWeights();

    /// <summary>
    /// Lists the mesh points at which the quartic has a minimum that may reach below zero, or a maximum that may reach
    /// above, next to a sample on the other side of zero: there the function may cross and cross back unseen.
    /// </summary>
    /// <param name="samples">The five values.</param>
    /// <param name="dips">Receives mesh points, each with the sign of the side from which zero may be crossed.</param>
    /// <returns>Number of dips.</returns>
    internal static int FindDips(ReadOnlySpan<double> samples, Span<(int Cell, int Sign)> dips)
    {
        double smallest = samples[0], largest = samples[0];
        for (int k = 1; k < Samples; k++)
        {
            smallest = Math.Min(smallest, samples[k]);
            largest = Math.Max(largest, samples[k]);
        }

        double range = largest - smallest;
        double closest = Math.Max(smallest, -largest);

        // A constant, most often the constant of an event switched off; also infinite values.
        if (!(range > 0 && double.IsFinite(range)) || closest > FarFromZero * range)
            return 0;

        int found = 0;

        // One point beyond either end shows the extrema in the outermost cells.
        double before = Value(samples, -1);
        double here = samples[0];
        for (int j = 0; j <= Cells && found < dips.Length; j++)
        {
            double after = Value(samples, j + 1);
            int sign = SideOfExtremum(before, here, after);
            if (sign != 0 && sign * here <= ShallowDip * range && IsBesideSampleOfSign(samples, j, sign))
                dips[found++] = (j, sign);

            before = here;
            here = after;
        }

        return found;
    }

    /// <summary>1 at a minimum, −1 at a maximum, 0 elsewhere; of a flat pair both count.</summary>
    private static int SideOfExtremum(double before, double here, double after)
    {
        double left = before - here, right = after - here;
        return left * right < 0 || left + right == 0 ? 0 : Math.Sign(left + right);
    }

    /// <summary>True when a sample on either side of mesh point j (or at it) has the sign.</summary>
    private static bool IsBesideSampleOfSign(ReadOnlySpan<double> samples, int j, int sign) =>
        samples[j / CellsPerSample] * sign > 0 || samples[(j + CellsPerSample - 1) / CellsPerSample] * sign > 0;

    private static double Value(ReadOnlySpan<double> samples, int j)
    {
        ReadOnlySpan<double> weights = s_weights.AsSpan((j + 1) * Samples, Samples);
        return weights[0] * samples[0] + weights[1] * samples[1] + weights[2] * samples[2] + weights[3] * samples[3] + weights[4] * samples[4];
    }

    private static double[] LagrangeWeights()
    {
        double[] weights = new double[(Cells + 3) * Samples];
        for (int row = 0; row < Cells + 3; row++)
        {
            double x = (row - 1.0) / CellsPerSample;
            for (int k = 0; k < Samples; k++)
            {
                double product = 1;
                for (int m = 0; m < Samples; m++)
                    product *= m == k ? 1 : (x - m) / (k - m);
                weights[row * Samples + k] = product;
            }
        }

        return weights;
    }
}
