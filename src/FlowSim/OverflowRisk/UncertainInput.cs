using FlowSim.Numerics.Sampling;
using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>An input that is not exactly known, with how far it may lie from what the setup says.</summary>
/// <param name="Input">The input.</param>
/// <param name="Spread">Its distribution, SI values as in <see cref="StrainingInput"/>. What lies outside <see cref="StrainingInput.RangeIn"/> is cut off.</param>
/// <param name="Source">Where the spread comes from and how far that can be trusted.</param>
public sealed record UncertainInput(StrainingInput Input, Distribution Spread, Source Source);

/// <summary>Two inputs that go together: the same lot, the same day.</summary>
/// <param name="One">Name of one input, as <c>honey.moisture</c>.</param>
/// <param name="Other">Name of the other.</param>
/// <param name="Strength">Correlation of their normal scores (Gaussian copula), −1 to 1, both excluded.</param>
public sealed record InputCorrelation(string One, string Other, double Strength);
