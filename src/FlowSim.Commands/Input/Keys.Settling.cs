using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

internal static partial class Keys
{
    public static class Settling
    {
        public static readonly Key For = Quantity("settling", "for", Dimension.Duration, "how long the honey stands before it is skimmed or drawn off");
        public static readonly Key Depth = Quantity("settling", "depth", Dimension.Length, "depth of the layer, when it is not the level of [tank]");
        public static readonly Key Temperature = new("settling", "temperature", KeyKind.QuantityOrList, "temperature of the honey while it stands, or a list of steps", Dimension.Temperature);
        public static readonly Key ClearTo = new("settling", "clear_to", KeyKind.Text, "share that may be left, or size of which nothing may be left");
        public static readonly Key ClearOf = Word("settling", "clear_of", "what has to be clear: everything, bubbles or debris");
        public static readonly Key Bubbles = Quantity("settling", "bubbles", Dimension.Share, "air bubbles at the start, share of the volume");
        public static readonly Key BubbleSize = Quantity("settling", "bubble_size", Dimension.Length, "their median diameter by volume");
        public static readonly Key BubbleSpread = Number("settling", "bubble_spread", "standard deviation of the ln of their diameter");
        public static readonly Key Packing = Quantity("settling", "packing", Dimension.Share, "matter in the scum, share of its volume");
        public static readonly Key Longest = Quantity("settling", "longest", Dimension.Duration, "how far ahead the time to be clear is looked for");
    }

    private static IReadOnlyList<Key> OfSettling =>
    [
        Settling.For, Settling.Depth, Settling.Temperature, Settling.ClearTo, Settling.ClearOf, Settling.Bubbles, Settling.BubbleSize, Settling.BubbleSpread, Settling.Packing, Settling.Longest,
    ];
}
