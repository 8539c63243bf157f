using UnitsNet;

namespace FlowSim.Bottling;

public static partial class NetWeightRules
{
    /// <summary>
    /// Council Directive 76/211/EEC: Annex I for the tolerable errors, Annex II for the reference test. The directive leaves the share
    /// that may fall short to the reference test; 2 % is the share that guides for packers ask for (read in a copy), at which its samples accept
    /// some 98 lots in 100.
    /// </summary>
    private static NetWeightRule Eu() => new()
    {
        Name = "eu",
        Description = "average at least the label; at most 2 % of jars short by more than the tolerable error, none by twice that",
        Bands =
        [
            Percent(5, 50, 9),
            Grams(50, 100, 4.5),
            Percent(100, 200, 4.5),
            Grams(200, 300, 9),
            Percent(300, 500, 3),
            Grams(500, 1000, 15),
            Percent(1000, 10_000, 1.5),
        ],
        Limits = [new(1, Ratio.FromPercent(2)), new(2, Ratio.Zero)],
        Plans =
        [
            new(100, 500, 30, 1, 3, 30, 4, 30),
            new(501, 3200, 50, 2, 5, 50, 6, 50),
            new(3201, 10_000, 80, 3, 7, 80, 8, 50),
        ],
        Source = new Source(
            "Council Directive 76/211/EEC, Annex I, 2.4, and Annex II, 2.2 and 2.3, in the copy kept by legislation.gov.uk (its table broke off before the last row, which is from a national journal of laws)",
            Standing.Opened),
    };

    private static ToleranceBand Percent(double fromG, double toG, double percent) =>
        new(Mass.FromGrams(fromG), Mass.FromGrams(toG), Ratio.FromPercent(percent), null);

    private static ToleranceBand Grams(double fromG, double toG, double grams) =>
        new(Mass.FromGrams(fromG), Mass.FromGrams(toG), null, Mass.FromGrams(grams));
}
