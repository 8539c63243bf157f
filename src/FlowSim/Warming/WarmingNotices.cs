namespace FlowSim.Warming;

/// <summary>What the user should know about a run.</summary>
internal static class WarmingNotices
{
    public static IReadOnlyList<Notice> For(WarmingParameters p, WarmingResult result)
    {
        _ = p;
        _ = result;
        return [];
    }
}
