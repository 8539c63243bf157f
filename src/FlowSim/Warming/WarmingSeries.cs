namespace FlowSim.Warming;

/// <summary>A run over time, as columns of equal length in SI units (named in each). Rows are increasing in time.</summary>
public sealed record WarmingSeries
{
    /// <summary>Time from the start, s.</summary>
    public required IReadOnlyList<double> TimeS { get; init; }

    /// <summary>Coldest honey, K.</summary>
    public required IReadOnlyList<double> ColdestK { get; init; }

    /// <summary>Mean of the honey, K.</summary>
    public required IReadOnlyList<double> MeanK { get; init; }

    /// <summary>Hottest honey, K.</summary>
    public required IReadOnlyList<double> HottestK { get; init; }

    /// <summary>Hottest surface that touches honey, K.</summary>
    public required IReadOnlyList<double> WallK { get; init; }

    /// <summary>The thermostat's probe, K.</summary>
    public required IReadOnlyList<double> ProbeK { get; init; }

    /// <summary>Air, water or element, K.</summary>
    public required IReadOnlyList<double> BodyK { get; init; }

    /// <summary>Setpoint, K.</summary>
    public required IReadOnlyList<double> SetpointK { get; init; }

    /// <summary>Power of the heater on the average since the row before, W; of the first row that at the start.</summary>
    public required IReadOnlyList<double> HeaterW { get; init; }

    /// <summary>Crystals left, share of the honey's mass, 0 to 1.</summary>
    public required IReadOnlyList<double> CrystalsLeft { get; init; }

    /// <summary>Viscosity of the liquid at the mean temperature, Pa·s.</summary>
    public required IReadOnlyList<double> ViscosityPaS { get; init; }

    /// <summary>Gain of HMF so far on the average over the honey, low end of the band, mg/kg.</summary>
    public required IReadOnlyList<double> HmfGainLow { get; init; }

    /// <summary>Gain of HMF so far on the average over the honey, best estimate, mg/kg.</summary>
    public required IReadOnlyList<double> HmfGain { get; init; }

    /// <summary>Gain of HMF so far on the average over the honey, high end of the band, mg/kg.</summary>
    public required IReadOnlyList<double> HmfGainHigh { get; init; }

    /// <summary>Share of the diastase left on the average over the honey, low end of the band, 0 to 1.</summary>
    public required IReadOnlyList<double> DiastaseLeftLow { get; init; }

    /// <summary>Share of the diastase left on the average over the honey, best estimate, 0 to 1.</summary>
    public required IReadOnlyList<double> DiastaseLeft { get; init; }

    /// <summary>Share of the diastase left on the average over the honey, high end of the band, 0 to 1.</summary>
    public required IReadOnlyList<double> DiastaseLeftHigh { get; init; }
}
