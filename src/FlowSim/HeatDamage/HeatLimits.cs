namespace FlowSim.HeatDamage;

/// <summary>Published limits on HMF and diastase. Food law is local and changes: these are for planning and decide nothing.</summary>
public static class HeatLimits
{
    private const string Eu = "EU Directive 2001/110/EC, Annex II";
    private const string Codex = "Codex CXS 12-1981";

    private static readonly Source s_eu = new(
        "Council Directive 2001/110/EC relating to honey, Annex II, point 6: read in the copy kept by legislation.gov.uk",
        Standing.Opened);

    private static readonly Source s_euTropical = new(
        "Council Directive 2001/110/EC relating to honey, Annex II, point 6(b), second indent: as given on a test maker's page; the opened copy broke off before the figure",
        Standing.SecondaryCopy);

    private static readonly Source s_codex = new(
        "Codex Alimentarius, Standard for Honey, CXS 12-1981, Annex",
        Standing.FromMemory);

    /// <summary>All published limits.</summary>
    public static IReadOnlyList<HeatLimit> All { get; } =
    [
        HeatLimit.Published("eu", Eu, "honey in general, except baker's honey", 40, 8, s_eu),
        HeatLimit.Published("eu-low-enzyme", Eu, "honeys with low natural enzyme content, such as citrus", 15, 3, s_eu),
        HeatLimit.Published("eu-tropical", Eu, "honey of declared origin from regions with tropical climate", 80, 8, s_euTropical),
        HeatLimit.Published("codex", Codex, "honey in general", 40, 8, s_codex),
        HeatLimit.Published("codex-low-enzyme", Codex, "honeys with low natural enzyme content", 40, 3, s_codex),
        HeatLimit.Published("codex-tropical", Codex, "honey of declared origin from tropical ambient temperatures", 80, 8, s_codex),
    ];

    /// <summary>The limit of a name.</summary>
    /// <param name="name">Name, as <see cref="HeatLimit.Name"/>.</param>
    /// <exception cref="ArgumentException">No limit has this name; the message gives the nearest.</exception>
    public static HeatLimit ByName(string name) => NamedChoice.ByName(All, limit => limit.Name, name, "limit");
}
