using UnitsNet;

namespace FlowSim.HeatDamage;

/// <summary>A honey after it was warmed, as bands.</summary>
public sealed record HeatedHoney
{
    /// <summary>HMF, low end, mg/kg.</summary>
    public required MassFraction HmfLow { get; init; }

    /// <summary>HMF, best estimate, mg/kg.</summary>
    public required MassFraction Hmf { get; init; }

    /// <summary>HMF, high end, mg/kg.</summary>
    public required MassFraction HmfHigh { get; init; }

    /// <summary>Diastase number (Schade scale), low end; null when that of the start is not known.</summary>
    public required double? DiastaseNumberLow { get; init; }

    /// <summary>Diastase number (Schade scale), best estimate; null when that of the start is not known.</summary>
    public required double? DiastaseNumber { get; init; }

    /// <summary>Diastase number (Schade scale), high end; null when that of the start is not known.</summary>
    public required double? DiastaseNumberHigh { get; init; }
}
