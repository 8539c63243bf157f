namespace FlowSim.HeatDamage;

/// <summary>The rate laws of HMF formation, by name.</summary>
public static class HmfRateLaws
{
    /// <summary>Fitted to all rows, 20 to 70 °C: E = 128.57 kJ/mol. The default.</summary>
    public static HmfRateLaw From20To70C { get; } = new("hmf-20-70", 1.1716e20, 128570, 20, 70, 0.18);

    /// <summary>Fitted to the rows from 30 to 70 °C: E = 134.77 kJ/mol. Closer there; at 20 °C it reads a third low.</summary>
    public static HmfRateLaw From30To70C { get; } = new("hmf-30-70", 1.1319e21, 134770, 30, 70, 0.063);

    /// <summary>All laws.</summary>
    public static IReadOnlyList<HmfRateLaw> All { get; } = [From20To70C, From30To70C];

    /// <summary>The law of a name.</summary>
    /// <param name="name">Name, as <see cref="HmfRateLaw.Name"/>.</param>
    /// <exception cref="ArgumentException">No law has this name; the message gives the nearest.</exception>
    public static HmfRateLaw ByName(string name) => NamedChoice.ByName(All, law => law.Name, name, "rate law of HMF");
}
