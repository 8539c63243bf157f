using FlowSim.Screens;

namespace FlowSim.Settling;

/// <summary>One kind of suspended matter as SI doubles.</summary>
internal readonly struct SuspendedMatter
{
    /// <summary>Volume per volume of the layer at the start.</summary>
    public required double VolumeShare { get; init; }

    /// <summary>Median size D50, m.</summary>
    public required double MedianM { get; init; }

    /// <summary>Standard deviation of ln size.</summary>
    public required double SizeSpread { get; init; }

    /// <summary>Density, kg/m³.</summary>
    public required double DensityKgPerM3 { get; init; }

    /// <summary>Bubbles, already checked.</summary>
    public static SuspendedMatter Of(Bubbles bubbles) => new()
    {
        VolumeShare = bubbles.Load.DecimalFractions,
        MedianM = bubbles.MedianSize.Meters,
        SizeSpread = bubbles.SizeSpread,
        DensityKgPerM3 = Bubbles.AirKgPerM3,
    };

    /// <summary>Debris, already checked, in honey of a density that holds bubbles besides: a load is per mass of honey, a share per volume of all three.</summary>
    public static SuspendedMatter Of(Debris debris, double honeyKgPerM3, double bubbleShare)
    {
        double perHoney = debris.Load.DecimalFractions * honeyKgPerM3 / debris.Density.KilogramsPerCubicMeter;
        return new SuspendedMatter
        {
            VolumeShare = perHoney / (1 + perHoney) * (1 - bubbleShare),
            MedianM = debris.MedianSize.Meters,
            SizeSpread = debris.SizeSpread,
            DensityKgPerM3 = debris.Density.KilogramsPerCubicMeter,
        };
    }
}
