namespace FlowSim;

/// <summary>Whether honey flows as a simple liquid.</summary>
public enum HoneyForm
{
    /// <summary>Crystal-free liquid honey: Newtonian.</summary>
    Liquid,

    /// <summary>Holds glucose crystals: thicker than the liquid, and not simple. Needs measured figures.</summary>
    Granulated,

    /// <summary>Sets to a gel at rest, as ling heather and manuka do. Needs measured figures.</summary>
    Gelling,
}
