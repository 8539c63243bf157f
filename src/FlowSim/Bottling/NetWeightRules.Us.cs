using UnitsNet;

namespace FlowSim.Bottling;

public static partial class NetWeightRules
{
    /// <summary>
    /// NIST Handbook 133: the lot's average at least the label and no package short by more than its maximum allowable variation. The
    /// handbook's table of variations and its sampling plans could not be opened, and public pages that quote single values
    /// contradict each other; so the variation is the user's to look up and give.
    /// </summary>
    private static NetWeightRule Us() => new()
    {
        Name = "us",
        Description = "average at least the label; no jar short by more than the maximum allowable variation, which you look up and give",
        Bands = [],
        Limits = [new(1, Ratio.Zero)],
        Plans = [],
        Source = new Source(
            "NIST Handbook 133: the two requirements as a maker of statistics software quotes them; the handbook's tables were not opened",
            Standing.SecondaryCopy),
    };
}
