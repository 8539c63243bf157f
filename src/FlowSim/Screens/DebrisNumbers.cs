namespace FlowSim.Screens;

/// <summary>Debris as SI doubles.</summary>
internal struct DebrisNumbers
{
    /// <summary>Mass of debris per mass of honey.</summary>
    public double Load;

    public double MedianM;

    /// <summary>Standard deviation of ln size.</summary>
    public double SizeSpread;

    /// <summary>Share of the oversize bits that a cloth catches.</summary>
    public double Capture;

    public double DensityKgPerM3;

    /// <summary>The numbers of debris as described.</summary>
    /// <param name="debris">Debris, already checked.</param>
    public static DebrisNumbers Of(Debris debris) => new()
    {
        Load = debris.Load.DecimalFractions,
        MedianM = debris.MedianSize.Meters,
        SizeSpread = debris.SizeSpread,
        Capture = debris.CaptureEfficiency,
        DensityKgPerM3 = debris.Density.KilogramsPerCubicMeter,
    };
}
