using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input;

/// <summary>What a key takes.</summary>
internal enum KeyKind
{
    Quantity,
    Number,
    Word,

    /// <summary>A text with a grammar of its own.</summary>
    Text,

    Flag,
    List,

    /// <summary>A quantity or a list of them, as the gate's opening.</summary>
    QuantityOrList,
}

/// <summary>A key of an input file.</summary>
/// <param name="Section">Section it stands in.</param>
/// <param name="Name">Name.</param>
/// <param name="Kind">What it takes.</param>
/// <param name="Meaning">What it means, in a few words.</param>
/// <param name="Dimension">What a quantity measures.</param>
internal sealed record Key(string Section, string Name, KeyKind Kind, string Meaning, Dimension? Dimension = null)
{
    /// <summary>Whether its value may be negative.</summary>
    public bool MayBeNegative { get; init; }

    public override string ToString() => Section + "." + Name;
}
