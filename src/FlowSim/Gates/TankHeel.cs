using FlowSim.Vessels;

namespace FlowSim.Gates;

/// <summary>What a gate leaves in a tank.</summary>
internal static class TankHeel
{
    /// <summary>Least head over the gate at which a tank still drains, m (engineering choice).</summary>
    public const double LeastHeadM = 0.002;

    /// <summary>
    /// Level at which a tank counts as drained, m: 2 mm over the gate's axis, or where the surface has narrowed to the bore if
    /// that is higher, as in a cone that ends in the gate. The brim if it is narrower everywhere.
    /// </summary>
    /// <param name="shape">Shape of the tank.</param>
    /// <param name="gateHeightM">Height of the gate's axis, m.</param>
    /// <param name="boreM">Bore of the gate, m.</param>
    public static double LevelM(VesselShape shape, double gateHeightM, double boreM)
    {
        double boreArea = Math.PI * boreM * boreM / 4;
        double low = gateHeightM + LeastHeadM;
        double high = shape.HeightM;
        if (shape.SurfaceAreaM2(low) >= boreArea)
            return low;

        while (high - low > 1e-9 * shape.HeightM)
        {
            double middle = 0.5 * (low + high);
            if (shape.SurfaceAreaM2(middle) >= boreArea)
                high = middle;
            else
                low = middle;
        }

        return high;
    }
}
