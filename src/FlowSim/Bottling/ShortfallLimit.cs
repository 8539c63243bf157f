using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>How many jars of a lot may fall short by more than a multiple of the tolerable error.</summary>
/// <param name="Multiple">Multiple of the tolerable error.</param>
/// <param name="ShareAllowed">Share of the lot that may fall short by more; 0 for none.</param>
public sealed record ShortfallLimit(double Multiple, Ratio ShareAllowed);
