namespace FlowSim.Straining;

/// <summary>How an ensemble is computed. None of it changes what happens in a run beyond the tolerance.</summary>
public sealed record EnsembleOptions
{
    /// <summary>Relative tolerance of the integration. 1e-10 to 1e-3. Default 1e-5: far below what is known of any input.</summary>
    public double RelativeTolerance { get; init; } = 1e-5;

    /// <summary>Threads at work, 1 to 1024; null for one per processor. The results do not depend on it.</summary>
    public int? Threads { get; init; }

    /// <summary>How many runs one processor takes side by side. The results do not depend on it, to the last bit. Default as many as the machine's registers hold.</summary>
    public LaneWidth Lanes { get; init; } = LaneWidth.Widest;

    internal void Require()
    {
        EquipmentCheck.Within(RelativeTolerance, 1e-10, 1e-3, "", nameof(RelativeTolerance));
        EquipmentCheck.Within(Threads ?? 1, 1, 1024, "", nameof(Threads));
        EquipmentCheck.Defined(Lanes, nameof(Lanes));
    }
}

/// <summary>Runs that one processor takes side by side.</summary>
public enum LaneWidth
{
    /// <summary>As many as the machine's registers hold: eight, four or two.</summary>
    Widest,

    /// <summary>Two.</summary>
    Two,

    /// <summary>Four.</summary>
    Four,

    /// <summary>Eight.</summary>
    Eight,

    /// <summary>One after the other by the integrator of single runs: the oracle of the others.</summary>
    OneByOne,
}
