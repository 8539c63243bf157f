using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>What the target fill depends on.</summary>
public sealed record NetWeightQuestion
{
    /// <summary>Net weight on the label. 5 g to 45 kg.</summary>
    public required Mass Label { get; init; }

    /// <summary>Standard deviation of one fill. 0 to 20 % of the label.</summary>
    public required Mass Scatter { get; init; }

    /// <summary>Jars that the standard deviation was found from: it is then taken at its upper 95 % limit. Null takes it as known. 3 to 10000.</summary>
    public int? ScatterFrom { get; init; }

    /// <summary>Jars in a lot. 1 to 200000.</summary>
    public required int Lot { get; init; }

    /// <summary>What the law asks. Default <c>eu</c>.</summary>
    public NetWeightRule Rule { get; init; } = NetWeightRules.All[0];

    /// <summary>Tolerable shortfall of one jar, where the rule leaves it to the user or has no row; it wins over the rule's own. 0.01 g to the label.</summary>
    public Mass? TolerableShortfall { get; init; }

    /// <summary>Chance that a lot meets every part of the rule. 50 to 99.99 %. Default 95 % (engineering choice).</summary>
    public Ratio Confidence { get; init; } = Ratio.FromPercent(95);

    /// <summary>Throws when a value is out of its range.</summary>
    internal void Require()
    {
        double labelG = EquipmentCheck.Within(Label.Grams, 5, 45_000, "g", nameof(Label));
        EquipmentCheck.Within(Scatter.Grams, 0, 0.2 * labelG, "g", nameof(Scatter));
        if (ScatterFrom is { } jars)
            EquipmentCheck.Within(jars, 3, 10_000, "", nameof(ScatterFrom));
        EquipmentCheck.Within(Lot, 1, MostJars, "", nameof(Lot));
        Rule.Require();
        if (TolerableShortfall is { } shortfall)
            EquipmentCheck.Within(shortfall.Grams, 0.01, labelG, "g", nameof(TolerableShortfall));
        EquipmentCheck.Within(Confidence.Percent, 50, 99.99, "%", nameof(Confidence));
    }

    /// <summary>Most jars of a lot or a run.</summary>
    internal const int MostJars = 200_000;
}
