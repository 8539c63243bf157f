namespace FlowSim.Properties;

/// <summary>The viscosity correlations on offer.</summary>
/// <remarks><see cref="MeasuredViscosity"/> is not in the list: it is made from the user's own figures.</remarks>
public static class ViscosityCorrelations
{
    /// <summary>The one taken when a honey names none.</summary>
    public static ViscosityCorrelation Default { get; } = new VogelViscosity();

    /// <summary>All of them, the default first.</summary>
    public static IReadOnlyList<ViscosityCorrelation> All { get; } = [Default, new ArrheniusViscosity()];

    /// <summary>The correlation of that name; case does not matter.</summary>
    /// <param name="name">Name, as in <see cref="ViscosityCorrelation.Name"/>.</param>
    /// <exception cref="ArgumentException">No correlation has that name; the message gives the nearest.</exception>
    public static ViscosityCorrelation ByName(string name) => NamedChoice.ByName(All, c => c.Name, name, "viscosity correlation");
}
