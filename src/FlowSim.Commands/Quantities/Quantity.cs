namespace FlowSim.Commands.Quantities;

/// <summary>A quantity that was read.</summary>
/// <param name="Si">Value in the SI unit of its dimension.</param>
/// <param name="Echo">What was read into its unit, to be shown to the writer; null when nothing was.</param>
internal readonly record struct Quantity(double Si, string? Echo);

/// <summary>Why a text is not the quantity wanted.</summary>
/// <param name="Offset">Where in the text it goes wrong, characters from its start.</param>
/// <param name="What">What is wrong and what would be right.</param>
internal sealed record QuantityFault(int Offset, string What);
