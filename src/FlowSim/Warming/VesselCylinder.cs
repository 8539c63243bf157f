namespace FlowSim.Warming;

/// <summary>The honey in a vessel as an upright cylinder of the same level and volume.</summary>
internal static class VesselCylinder
{
    /// <summary>Radius of that cylinder, m.</summary>
    public static double RadiusM(WarmedVessel vessel) =>
        Math.Sqrt(vessel.Shape.VolumeM3(vessel.Level.Meters) / (Math.PI * vessel.Level.Meters));
}
