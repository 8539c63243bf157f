namespace FlowSim.Warming;

/// <summary>The targets of a run as functions that reach 0 from below when a target is reached.</summary>
internal sealed class TargetWatch
{
    /// <summary>Share of the crystals that may be left when they count as gone.</summary>
    public const double GoneBelow = 0.01;

    private readonly IReadOnlyList<WarmingTarget> _targets;
    private readonly IHeatProperties _honey;

    public TargetWatch(IReadOnlyList<WarmingTarget> targets, IHeatProperties honey)
    {
        _targets = targets;
        _honey = honey;
        ReachedS = new double[targets.Count];
        Array.Fill(ReachedS, double.NaN);
    }

    /// <summary>When each was reached, s; not a number while it was not.</summary>
    public double[] ReachedS { get; }

    /// <summary>Number of targets.</summary>
    public int Count => _targets.Count;

    /// <summary>When the last of them was reached, s; null while one is open, and when there are none.</summary>
    public double? AllReachedS
    {
        get
        {
            // Asked in every step: a loop, which allocates nothing. NaN stays NaN.
            double last = double.NegativeInfinity;
            foreach (double at in ReachedS)
                last = Math.Max(last, at);
            return double.IsFinite(last) ? last : null;
        }
    }

    /// <summary>Whether a target was reached.</summary>
    public bool IsReached(int target) => !double.IsNaN(ReachedS[target]);

    /// <summary>How far a target is from being reached: below 0 before.</summary>
    /// <param name="target">Target.</param>
    /// <param name="meanK">Mean temperature, K.</param>
    /// <param name="coldestK">Coldest honey, K.</param>
    /// <param name="crystalsLeft">Share of the crystals left, 0 to 1.</param>
    public double Gap(int target, double meanK, double coldestK, double crystalsLeft) => _targets[target] switch
    {
        MeanAtLeast mean => meanK - mean.Temperature.Kelvins,
        ColdestAtLeast coldest => coldestK - coldest.Temperature.Kelvins,
        MeanAtMost mean => mean.Temperature.Kelvins - meanK,
        ViscosityAtMost thin => Math.Min(Math.Log(thin.Viscosity.PascalSeconds / _honey.ViscosityPaS(meanK)), GoneBelow - crystalsLeft),
        ViscosityAtLeast thick => Math.Log(_honey.ViscosityPaS(meanK) / thick.Viscosity.PascalSeconds),
        _ => GoneBelow - crystalsLeft,
    };
}
