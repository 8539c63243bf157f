namespace FlowSim.Sources.Tests;

/// <summary>One published figure beside ours, in words; a line of the report.</summary>
/// <param name="What">The quantity and its conditions.</param>
/// <param name="Published">As printed, with its unit.</param>
/// <param name="Ours">What the library gives.</param>
/// <param name="Error">Ours against the published one.</param>
/// <param name="Allowed">What the test allows.</param>
/// <param name="Why">Where that comes from.</param>
/// <param name="Relative">Ours over the published one less 1; none for words, ranges and a published 0.</param>
/// <param name="Deviation">Why ours does not meet the published one; none where it does.</param>
internal sealed record Comparison(string What, string Published, string Ours, string Error, string Allowed, string Why, double? Relative, string? Deviation = null);
