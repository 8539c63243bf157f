using UnitsNet;

namespace FlowSim.Heating;

/// <summary>How much of the gap between a body and its medium is left, as shares of the gap at the start.</summary>
/// <param name="Centre">At the centre, which lags most.</param>
/// <param name="Mean">On the average over the volume.</param>
/// <param name="Corner">At the rim, which leads.</param>
public sealed record ConductionGap(Ratio Centre, Ratio Mean, Ratio Corner);
