namespace FlowSim.FieldMeasurements;

/// <summary>The flow cups on offer. Names are those of the standards and no cup of a maker is meant.</summary>
/// <remarks>
/// Spread of a cup, as a standard deviation of ln ν: ISO and Ford 5 % (engineering choice: cups are adjusted to their formula within some
/// percent); dip cups 11.5 %, the coefficient of variation between laboratories that D4212 reports.
/// </remarks>
public static class FlowCups
{
    private const double StandardCupSpread = 0.05;
    private const double DipCupSpread = 0.115;

    private static readonly Source s_iso = new(
        "ISO 2431, Determination of flow time by use of flow cups: formulas from memory and as given in a public program that cites the standard; their ends agree with the ranges of viscosity it states (from memory)",
        Standing.SecondaryCopy);

    private static readonly Source s_ford = new(
        "ASTM D1200, Viscosity by Ford Viscosity Cup: formulas as given on a public page of a maker of viscosity standards and in a public program; times from a page of the standard",
        Standing.SecondaryCopy);

    private static readonly Source s_dip = new(
        "ASTM D4212, Viscosity by Dip-Type Viscosity Cups: formulas as given on a public page of a maker of viscosity standards and in a public program; precision from a page of the standard",
        Standing.SecondaryCopy);

    /// <summary>All of them, by family and size.</summary>
    public static IReadOnlyList<FlowCup> All { get; } =
    [
        Iso(3, 0.443, 200),
        Iso(4, 1.37, 200),
        Iso(5, 3.28, 220),
        Iso(6, 6.90, 570),
        Ford(1, 55, 0.49, 35),
        Ford(2, 40, 1.44, 18),
        Ford(3, 20, 2.31, 6.58),
        Ford(4, 20, 3.85, 4.49),
        Ford(5, 20, 12.1, 2.00),
        Dip(1, 35, 1.1, 29),
        Dip(2, 20, 3.5, 14),
        Dip(3, 20, 11.7, 7.5),
        Dip(4, 20, 14.8, 5),
        Dip(5, 20, 23, 0),
    ];

    /// <summary>The cup of that name; case does not matter.</summary>
    /// <param name="name">Name, such as <c>iso-6</c>, <c>ford-4</c> or <c>zahn-5</c>.</param>
    /// <exception cref="ArgumentException">No cup has that name; the message gives the nearest.</exception>
    public static FlowCup ByName(string name) => NamedChoice.ByName(All, cup => cup.Name, name, "flow cup");

    private static FlowCup Iso(int millimetres, double slope, double inverse) => new()
    {
        Name = FormattableString.Invariant($"iso-{millimetres}"),
        Description = FormattableString.Invariant($"flow cup of ISO 2431, hole {millimetres} mm"),
        SlopeMm2PerS2 = slope,
        InverseMm2 = inverse,
        TimeRange = Times(FormattableString.Invariant($"cup iso-{millimetres}"), 30, 100),
        LogSpread = StandardCupSpread,
        Source = s_iso,
    };

    private static FlowCup Ford(int number, double shortestS, double slope, double offset) => new()
    {
        Name = FormattableString.Invariant($"ford-{number}"),
        Description = FormattableString.Invariant($"Ford cup No. {number} of ASTM D1200"),
        SlopeMm2PerS2 = slope,
        OffsetS = offset,
        TimeRange = Times(FormattableString.Invariant($"cup ford-{number}"), shortestS, 100),
        LogSpread = StandardCupSpread,
        Source = s_ford,
    };

    private static FlowCup Dip(int number, double shortestS, double slope, double offset) => new()
    {
        Name = FormattableString.Invariant($"zahn-{number}"),
        Description = FormattableString.Invariant($"dip cup No. {number} of the Zahn kind, ASTM D4212"),
        SlopeMm2PerS2 = slope,
        OffsetS = offset,
        TimeRange = Times(FormattableString.Invariant($"cup zahn-{number}"), shortestS, 80),
        LogSpread = DipCupSpread,
        Source = s_dip,
    };

    private static ValidityRange Times(string cup, double shortestS, double longestS) => new(cup, "time", "s", shortestS, longestS);
}
