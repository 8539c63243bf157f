using static System.FormattableString;

namespace FlowSim.HeatDamage;

/// <summary>How a heated honey stands against a limit.</summary>
public sealed record LimitCheck
{
    private LimitCheck(HeatLimit limit, LimitConfidence? hmf, LimitConfidence? diastase, bool diastaseUnknown, string text)
    {
        Limit = limit;
        Hmf = hmf;
        Diastase = diastase;
        DiastaseUnknown = diastaseUnknown;
        Text = text;
    }

    /// <summary>The limit.</summary>
    public HeatLimit Limit { get; }

    /// <summary>How far HMF keeps it; null when the limit says nothing about HMF.</summary>
    public LimitConfidence? Hmf { get; }

    /// <summary>How far diastase keeps it; null when the limit says nothing about diastase or the honey's is not known.</summary>
    public LimitConfidence? Diastase { get; }

    /// <summary>Whether the limit asks for a diastase number that is not known.</summary>
    public bool DiastaseUnknown { get; }

    /// <summary>The lesser of the two; a diastase number that is asked for and not known counts as <see cref="LimitConfidence.Broken"/>.</summary>
    public LimitConfidence Overall => DiastaseUnknown
        ? LimitConfidence.Broken
        : (LimitConfidence)Math.Min((int)(Hmf ?? LimitConfidence.OverTheWholeBand), (int)(Diastase ?? LimitConfidence.OverTheWholeBand));

    /// <summary>The same in words.</summary>
    public string Text { get; }

    /// <summary>Checks a heated honey against a limit.</summary>
    /// <param name="honey">The honey after the heat.</param>
    /// <param name="limit">The limit.</param>
    public static LimitCheck Of(HeatedHoney honey, HeatLimit limit)
    {
        EquipmentCheck.Present(honey);
        EquipmentCheck.Present(limit);
        string ofWhom = limit.IsOfTheHouse ? "the limit you set" : "the limit of " + limit.Authority;
        var sentences = new List<string>(2);

        LimitConfidence? hmf = null;
        if (limit.HmfAtMost is { } most)
        {
            double mostMgPerKg = most.MilligramsPerKilogram;
            double low = honey.HmfLow.MilligramsPerKilogram, best = honey.Hmf.MilligramsPerKilogram, high = honey.HmfHigh.MilligramsPerKilogram;
            hmf = Grade(Keeps(low, mostMgPerKg), Keeps(best, mostMgPerKg), Keeps(high, mostMgPerKg));
            sentences.Add(Sentence(Invariant($"HMF {best:0.#} mg/kg ({low:0.#} to {high:0.#})"), hmf.Value, ofWhom, Invariant($"at most {mostMgPerKg:0.#} mg/kg")));
        }

        LimitConfidence? diastase = null;
        bool unknown = false;
        if (limit.DiastaseAtLeast is { } least)
        {
            if (honey is { DiastaseNumberLow: { } low, DiastaseNumber: { } best, DiastaseNumberHigh: { } high })
            {
                diastase = Grade(Keeps(least, high), Keeps(least, best), Keeps(least, low));
                sentences.Add(Sentence(Invariant($"Diastase number {best:0.#} ({low:0.#} to {high:0.#})"), diastase.Value, ofWhom, Invariant($"at least {least:0.#}")));
            }
            else
            {
                unknown = true;
                sentences.Add(Invariant($"Diastase: not known at the start, so {ofWhom} (at least {least:0.#}) cannot be checked."));
            }
        }

        return new LimitCheck(limit, hmf, diastase, unknown, string.Join(' ', sentences));
    }

    /// <summary>Whether one number is at most another, but for the rounding of units.</summary>
    private static bool Keeps(double value, double most) => value <= most * (1 + 1e-12);

    private static LimitConfidence Grade(bool kindEnd, bool best, bool harshEnd) =>
        harshEnd ? LimitConfidence.OverTheWholeBand
        : best ? LimitConfidence.AtTheBestEstimate
        : kindEnd ? LimitConfidence.OnlyAtTheKindEnd
        : LimitConfidence.Broken;

    private static string Sentence(string figure, LimitConfidence confidence, string ofWhom, string value) => confidence switch
    {
        LimitConfidence.OverTheWholeBand => $"{figure}: within {ofWhom} ({value}) over the whole band.",
        LimitConfidence.AtTheBestEstimate => $"{figure}: within {ofWhom} ({value}) by the best estimate, beyond it at the harsh end of the band.",
        LimitConfidence.OnlyAtTheKindEnd => $"{figure}: beyond {ofWhom} ({value}) by the best estimate, within it only at the kind end of the band.",
        _ => $"{figure}: beyond {ofWhom} ({value}).",
    };
}
