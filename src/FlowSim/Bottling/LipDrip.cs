using FlowSim.Vessels;

namespace FlowSim.Bottling;

/// <summary>What still drips from the wetted rim of a gate that has been shut. Kernels: arguments are not checked.</summary>
internal static class LipDrip
{
    /// <summary>Wetted height below the blade.</summary>
    internal static readonly ValidityRange LipRange = new("dripping lip", "lip", "mm", 1, 100, 0, 500);

    /// <summary>Volume that is still on the rim, m³; at most what the rim can hold.</summary>
    /// <param name="kinematicM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="lipM">Wetted height z, m.</param>
    /// <param name="radiusM">Radius of the bore, m.</param>
    /// <param name="timeS">Time since the gate was shut, s.</param>
    internal static double LeftM3(double kinematicM2PerS, double lipM, double radiusM, double timeS)
    {
        double full = Math.PI * radiusM * radiusM * lipM;
        return timeS > 0
            ? Math.Min(full, WallFilm.VolumeM3(kinematicM2PerS, lipM, Physical.StandardGravity, timeS, lipM * 2 * Math.PI * radiusM))
            : full;
    }

    /// <summary>Time until no more than a volume is left on the rim, s.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: t = (4/9) (ν z³/g) (P/V)², from V = ⅔ P z √(ν z/(g t)); P the perimeter. So V ~ t^(−1/2), and the dripping ~ t^(−3/2).</para>
    /// <para><b>Range</b>: <see cref="LipRange"/>, <see cref="WallFilm.SlendernessRange"/>.</para>
    /// <para><b>Error</b>: a tail of the right order: the rim is short and drops hold on by surface tension, which leaves less to fall.</para>
    /// <para><b>Source</b>: <see cref="WallFilm.MeanThicknessJeffreys1930M"/> solved for the time.</para>
    /// <para><b>Checked by</b>: LipDripTests.cs.</para>
    /// </remarks>
    /// <param name="kinematicM2PerS">Kinematic viscosity ν, m²/s.</param>
    /// <param name="lipM">Wetted height z, m.</param>
    /// <param name="radiusM">Radius of the bore, m.</param>
    /// <param name="leftM3">Volume V that may be left, m³.</param>
    internal static double TimeUntilLeftJeffreys1930S(double kinematicM2PerS, double lipM, double radiusM, double leftM3)
    {
        if (leftM3 >= Math.PI * radiusM * radiusM * lipM)
            return 0;
        double perimeterOverVolume = 2 * Math.PI * radiusM / leftM3;
        return 4.0 / 9 * (kinematicM2PerS * lipM * lipM * lipM / Physical.StandardGravity) * perimeterOverVolume * perimeterOverVolume;
    }
}
