namespace FlowSim;

/// <summary>How far a number can be trusted: whether anybody opened the page it comes from.</summary>
public enum Standing
{
    /// <summary>The source itself was opened and read.</summary>
    Opened,

    /// <summary>Read in a copy, a reprint or a page that quotes the source.</summary>
    SecondaryCopy,

    /// <summary>Only the abstract was read.</summary>
    AbstractOnly,

    /// <summary>Computed for this project from other sources that are named.</summary>
    Derived,

    /// <summary>Recalled from memory; confirm before relying on it.</summary>
    FromMemory,

    /// <summary>An engineering choice of ours; not data.</summary>
    EngineeringChoice,

    /// <summary>Common practice of the trade, without a source.</summary>
    CommonPractice,

    /// <summary>Given by the user.</summary>
    GivenByUser,
}
