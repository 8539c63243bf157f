using FlowSim.Vessels;

namespace FlowSim.Tests.Vessels;

/// <summary>A shape of a user's own that answers like another, but with NaN to one question, from one share of its height to another.</summary>
internal sealed class HoleyVessel(VesselShape shape, string holey, (double From, double To) gap) : VesselShape
{
    /// <summary>What a shape is asked.</summary>
    public static string[] Kernels { get; } = ["height", "capacity", "volume", "level", "surface", "wetted"];

    /// <summary>Where a kernel answers with NaN, as shares of the height.</summary>
    /// <remarks>The last three: about the level at which the tank ends, about that of the receiver, and one that steps may jump over but a row of the series meets.</remarks>
    public static (double From, double To)[] Gaps { get; } = [(0, 1), (0.6, 1), (0, 0.1), (0.30, 0.34), (0.003, 0.02), (0.7, 0.749), (0.4, 0.41)];

    protected internal override double HeightM => holey == "height" ? double.NaN : shape.HeightM;

    protected internal override double CapacityM3 => holey == "capacity" ? double.NaN : shape.CapacityM3;

    /// <summary>The answer, or NaN where it is the one that is asked and lies in the gap.</summary>
    public static double Answer(string asked, string holey, double share, (double From, double To) gap, double answer) =>
        asked == holey && share >= gap.From && share <= gap.To ? double.NaN : answer;

    protected internal override double VolumeM3(double levelM) => Answer("volume", holey, levelM / shape.HeightM, gap, shape.VolumeM3(levelM));

    protected internal override double LevelM(double volumeM3) => Answer("level", holey, volumeM3 / shape.CapacityM3, gap, shape.LevelM(volumeM3));

    protected internal override double SurfaceAreaM2(double levelM) => Answer("surface", holey, levelM / shape.HeightM, gap, shape.SurfaceAreaM2(levelM));

    protected internal override double WettedAreaM2(double levelM) => Answer("wetted", holey, levelM / shape.HeightM, gap, shape.WettedAreaM2(levelM));
}
