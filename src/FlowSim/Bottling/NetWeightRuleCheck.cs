namespace FlowSim.Bottling;

/// <summary>Checks a rule once, for it may be the user's own.</summary>
internal static class NetWeightRuleCheck
{
    private const int MostRows = 1000;

    /// <summary>Throws when a rule does not hang together.</summary>
    /// <exception cref="ArgumentException">It does not.</exception>
    internal static void Require(this NetWeightRule rule)
    {
        EquipmentCheck.Present(rule);
        EquipmentCheck.Present(rule.Name);
        EquipmentCheck.Present(rule.Description);
        EquipmentCheck.Present(rule.Source);
        EquipmentCheck.Within(EquipmentCheck.Present(rule.Bands).Count, 0, MostRows, "", nameof(NetWeightRule.Bands));
        EquipmentCheck.Within(EquipmentCheck.Present(rule.Limits).Count, 0, MostRows, "", nameof(NetWeightRule.Limits));
        EquipmentCheck.Within(EquipmentCheck.Present(rule.Plans).Count, 0, MostRows, "", nameof(NetWeightRule.Plans));
        foreach (ToleranceBand band in rule.Bands)
            RequireBand(EquipmentCheck.Present(band, nameof(NetWeightRule.Bands)));
        foreach (ShortfallLimit limit in rule.Limits)
        {
            EquipmentCheck.Within(EquipmentCheck.Present(limit, nameof(NetWeightRule.Limits)).Multiple, 0.01, 100, "", nameof(ShortfallLimit.Multiple));
            EquipmentCheck.Within(limit.ShareAllowed.Percent, 0, 50, "%", nameof(ShortfallLimit.ShareAllowed));
        }

        foreach (SamplingPlan plan in rule.Plans)
            RequirePlan(EquipmentCheck.Present(plan, nameof(NetWeightRule.Plans)));
    }

    private static void RequireBand(ToleranceBand band)
    {
        EquipmentCheck.Within(band.From.Grams, 0, 1e6, "g", nameof(ToleranceBand.From));
        EquipmentCheck.Within(band.To.Grams, band.From.Grams, 1e6, "g", nameof(ToleranceBand.To));
        switch (band.Share, band.Amount)
        {
            case ({ } share, null):
                EquipmentCheck.Within(share.Percent, 0.001, 100, "%", nameof(ToleranceBand.Share));
                break;
            case (null, { } amount):
                EquipmentCheck.Within(amount.Grams, 0.001, 1e6, "g", nameof(ToleranceBand.Amount));
                break;
            default:
                throw EquipmentCheck.Refused(nameof(ToleranceBand.Share), "A row of tolerable errors is a share or a mass, one of them.");
        }
    }

    private static void RequirePlan(SamplingPlan plan)
    {
        EquipmentCheck.Within(plan.LotFrom, 1, int.MaxValue, "", nameof(SamplingPlan.LotFrom));
        EquipmentCheck.Within(plan.LotTo, plan.LotFrom, int.MaxValue, "", nameof(SamplingPlan.LotTo));
        EquipmentCheck.Within(plan.First, 1, MostRows, "", nameof(SamplingPlan.First));
        EquipmentCheck.Within(plan.FirstAccept, 0, plan.First, "", nameof(SamplingPlan.FirstAccept));
        EquipmentCheck.Within(plan.FirstReject, plan.FirstAccept + 1, plan.First + 1, "", nameof(SamplingPlan.FirstReject));
        EquipmentCheck.Within(plan.Second, 0, MostRows, "", nameof(SamplingPlan.Second));
        EquipmentCheck.Within(plan.BothAccept, plan.FirstReject - 1, plan.First + plan.Second, "", nameof(SamplingPlan.BothAccept));
        EquipmentCheck.Within(plan.ForAverage, 2, MostRows, "", nameof(SamplingPlan.ForAverage));
    }
}
