using UnitsNet;

namespace FlowSim.Properties;

/// <summary>A moisture worked out from a reading.</summary>
/// <param name="Moisture">Moisture, share of mass.</param>
/// <param name="Spread">Half-width the moisture is good to, share of mass.</param>
/// <param name="Source">Source of the relation.</param>
public sealed record MoistureEstimate(Ratio Moisture, Ratio Spread, Source Source);
