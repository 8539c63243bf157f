using UnitsNet;

namespace FlowSim.Vessels;

/// <summary>A vessel of any shape, known by its volume at a few levels: the volume runs straight between them.</summary>
/// <remarks>
/// The wetted area is not known from such a table. It is taken as if each slice between two levels were an upright
/// cylinder of the same volume: floor of the lowest slice plus, for each slice, the perimeter of the equivalent circle times
/// its height. A box has more wall than that (a square 13 % more), a slanting wall too.
/// </remarks>
public sealed class LevelVolumeTable : VesselShape
{
    internal static readonly ShapeParameter LevelsParameter = new("levels", ShapeParameterKind.LengthList, 0, 20, true, null, "levels above the lowest point, the first 0, increasing");
    internal static readonly ShapeParameter VolumesParameter = new("volumes", ShapeParameterKind.VolumeList, 0, 1000, true, null, "volumes at those levels, the first 0, increasing");

    /// <summary>
    /// Least distance of neighbouring levels, m, and volumes, m³: a hundredth of a millimetre and of a millilitre (engineering
    /// choice). No measurement tells nearer ones apart, and the slice between them would have no area worth the name.
    /// </summary>
    private const double LeastLevelStepM = 1e-5;
    private const double LeastVolumeStepM3 = 1e-8;

    // A difference of two doubles of 1000 m³ is off by a hundred thousandth of that.
    private const double Slack = 1 - 1e-4;

    private readonly double[] levelsM;
    private readonly double[] volumesM3;
    private readonly double[] wettedAreasM2;

    /// <summary>A vessel from its table.</summary>
    /// <param name="points">
    /// At least two points, the first (0, 0), levels up to 20 m and volumes up to 1000 m³, each at least 0.01 mm and 0.01 mL
    /// above the one before; the last is the brim.
    /// </param>
    /// <exception cref="ArgumentException">Fewer than two points, the first is not (0, 0), or they do not increase.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A level or volume is outside its limits.</exception>
    public LevelVolumeTable(IReadOnlyList<(Length Level, Volume Volume)> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count < 2)
            throw new ArgumentException($"The table has {points.Count} points; it needs at least 2, the first (0, 0) and the last the brim.", nameof(points));

        levelsM = new double[points.Count];
        volumesM3 = new double[points.Count];
        wettedAreasM2 = new double[points.Count];
        for (int i = 0; i < points.Count; i++)
        {
            levelsM[i] = LevelsParameter.Check(points[i].Level.Meters, nameof(points));
            volumesM3[i] = VolumesParameter.Check(points[i].Volume.CubicMeters, nameof(points));
            if (i > 0 && !(levelsM[i] - levelsM[i - 1] >= Slack * LeastLevelStepM && volumesM3[i] - volumesM3[i - 1] >= Slack * LeastVolumeStepM3))
                throw new ArgumentException(FormattableString.Invariant($"Point {i + 1} ({levelsM[i]:0.######} m, {volumesM3[i] * 1000:0.######} L) does not lie at least {LeastLevelStepM * 1000} mm and {LeastVolumeStepM3 * 1e6} mL above point {i}."), nameof(points));
        }

        if (levelsM[0] != 0 || volumesM3[0] != 0)
            throw new ArgumentException("The first point must be level 0 with volume 0.", nameof(points));

        wettedAreasM2[0] = SliceAreaM2(0);
        for (int i = 1; i < levelsM.Length; i++)
            wettedAreasM2[i] = wettedAreasM2[i - 1] + SlicePerimeterM(i - 1) * (levelsM[i] - levelsM[i - 1]);
    }

    internal static ShapeEntry<VesselShape> Entry { get; } = new(
        "level-volume-table",
        "any shape, from volumes measured at a few levels",
        typeof(LevelVolumeTable),
        [LevelsParameter, VolumesParameter],
        valueInSI =>
        {
            List<double> levels = LevelsParameter.ReadList(valueInSI);
            List<double> volumes = VolumesParameter.ReadList(valueInSI);
            return levels.Count == volumes.Count
                ? new LevelVolumeTable([.. levels.Zip(volumes, (h, v) => (Length.FromMeters(h), Volume.FromCubicMeters(v)))])
                : throw new ArgumentException($"'levels' has {levels.Count} values and 'volumes' {volumes.Count}; they go in pairs.", VolumesParameter.Key);
        });

    /// <inheritdoc/>
    protected internal override double HeightM => levelsM[^1];

    /// <inheritdoc/>
    protected internal override double CapacityM3 => volumesM3[^1];

    /// <inheritdoc/>
    protected internal override double VolumeM3(double levelM)
    {
        double h = Math.Clamp(levelM, 0, HeightM);
        int i = SliceOf(levelsM, h);
        return Math.Min(volumesM3[i + 1], volumesM3[i] + SliceAreaM2(i) * (h - levelsM[i]));
    }

    /// <inheritdoc/>
    protected internal override double LevelM(double volumeM3)
    {
        double volume = Math.Clamp(volumeM3, 0, CapacityM3);
        int i = SliceOf(volumesM3, volume);
        return Math.Min(levelsM[i + 1], levelsM[i] + (volume - volumesM3[i]) / SliceAreaM2(i));
    }

    /// <inheritdoc/>
    protected internal override double SurfaceAreaM2(double levelM) => SliceAreaM2(SliceOf(levelsM, Math.Clamp(levelM, 0, HeightM)));

    /// <inheritdoc/>
    protected internal override double WettedAreaM2(double levelM)
    {
        double h = Math.Clamp(levelM, 0, HeightM);
        int i = SliceOf(levelsM, h);
        return wettedAreasM2[i] + SlicePerimeterM(i) * (h - levelsM[i]);
    }

    private static int SliceOf(double[] knots, double value)
    {
        int i = Array.BinarySearch(knots, value);

        // NaN, which a trial step may ask about, sorts before everything; the arithmetic then carries it on.
        return Math.Clamp(i >= 0 ? i : ~i - 1, 0, knots.Length - 2);
    }

    private double SliceAreaM2(int i) => (volumesM3[i + 1] - volumesM3[i]) / (levelsM[i + 1] - levelsM[i]);

    private double SlicePerimeterM(int i) => 2 * Math.Sqrt(Math.PI * SliceAreaM2(i));
}
