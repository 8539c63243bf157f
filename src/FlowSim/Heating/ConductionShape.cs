namespace FlowSim.Heating;

/// <summary>Bodies whose transient conduction is known as a series.</summary>
internal enum ConductionShape
{
    /// <summary>Wall of half-thickness 1, cooled on both sides; or of thickness 1, insulated on one.</summary>
    PlaneWall,

    /// <summary>Endless cylinder of radius 1.</summary>
    InfiniteCylinder,

    /// <summary>Sphere of radius 1.</summary>
    Sphere,
}
