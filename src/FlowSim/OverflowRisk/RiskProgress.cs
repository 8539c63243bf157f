namespace FlowSim.OverflowRisk;

/// <summary>Tells how far the work is, never falling.</summary>
/// <param name="told">Is told; null for nobody.</param>
internal sealed class RiskProgress(IProgress<double>? told)
{
    private double _share;

    /// <summary>The work has got to a share.</summary>
    /// <param name="share">Share, 0 to 1.</param>
    public void Reached(double share)
    {
        if (share <= _share)
            return;
        _share = share;
        told?.Report(share);
    }
}
