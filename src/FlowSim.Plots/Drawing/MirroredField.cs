namespace FlowSim.Plots.Drawing;

/// <summary>Values on rings, drawn as a section through the axis: the half that was computed and its mirror image.</summary>
/// <remarks>Between the middles of cells it is linear, and goes on so to the wall, the floor and the surface; across the axis it is constant. Places are shares: x from −1 at the wall over 0 at the axis to 1, z from 0 at the floor to 1.</remarks>
internal sealed class MirroredField(IReadOnlyList<double> cells, int radial, int axial)
{
    public double At(double x, double z)
    {
        // Left of the innermost middle is the axis, past which the mirror image begins.
        double i = Math.Clamp(Math.Abs(x) * radial - 0.5, 0, radial);
        double j = Math.Clamp(z * axial - 0.5, -0.5, axial);
        int i0 = Math.Clamp((int)i, 0, Math.Max(0, radial - 2));
        int j0 = Math.Clamp((int)j, 0, Math.Max(0, axial - 2));
        int i1 = Math.Min(i0 + 1, radial - 1);
        int j1 = Math.Min(j0 + 1, axial - 1);
        double low = ContourLine.Between(cells[j0 * radial + i0], cells[j0 * radial + i1], i - i0);
        double high = ContourLine.Between(cells[j1 * radial + i0], cells[j1 * radial + i1], i - i0);
        return ContourLine.Between(low, high, j - j0);
    }

    /// <summary>Mean over the volume.</summary>
    public double MeanByVolume()
    {
        double sum = 0;
        double all = 0;
        for (int i = 0; i < radial; i++)
        {
            double ring = 2 * i + 1;
            for (int j = 0; j < axial; j++)
            {
                sum += ring * cells[j * radial + i];
                all += ring;
            }
        }

        return sum / all;
    }

    /// <summary>Middle of the lowest cell; of several as low, the one nearest the axis and the floor.</summary>
    public (double X, double Z, double Value) Lowest()
    {
        int lowest = 0;
        for (int k = 1; k < radial * axial; k++)
        {
            if (cells[k] < cells[lowest])
                lowest = k;
        }

        int i = lowest % radial;

        // The innermost ring lies around the axis, so that its middle is there.
        return (i == 0 ? 0 : (i + 0.5) / radial, (lowest / radial + 0.5) / axial, cells[lowest]);
    }

    /// <summary>Pieces of the line on which the field has a value, in shares of the place.</summary>
    public List<(double X1, double Z1, double X2, double Z2)> Contour(double level)
    {
        double[] xs = [-1, .. Middles(radial).Reverse().Select(x => -x), .. Middles(radial), 1];
        double[] zs = [0, .. Middles(axial), 1];
        return ContourLine.Of(xs, zs, At, level);
    }

    private static IEnumerable<double> Middles(int count) => Enumerable.Range(0, count).Select(i => (i + 0.5) / count);
}
