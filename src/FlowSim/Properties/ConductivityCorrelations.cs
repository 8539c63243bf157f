namespace FlowSim.Properties;

/// <summary>The thermal-conductivity correlations on offer.</summary>
public static class ConductivityCorrelations
{
    /// <summary>The one taken when a honey names none.</summary>
    public static ConductivityCorrelation Default { get; } = new RiedelConductivity();

    /// <summary>All of them, the default first.</summary>
    public static IReadOnlyList<ConductivityCorrelation> All { get; } = [Default, new HelveyConductivity()];

    /// <summary>
    /// Spread of any of them: the sources conflict by this factor, and nothing opened says which is right.
    /// </summary>
    internal static PropertySpread Spread { get; } = new(SpreadKind.Factor, 1.6);

    /// <summary>The correlation of that name; case does not matter.</summary>
    /// <param name="name">Name, as in <see cref="ConductivityCorrelation.Name"/>.</param>
    /// <exception cref="ArgumentException">No correlation has that name; the message gives the nearest.</exception>
    public static ConductivityCorrelation ByName(string name) => NamedChoice.ByName(All, c => c.Name, name, "conductivity correlation");
}
