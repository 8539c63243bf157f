namespace FlowSim.Straining;

/// <summary>What matters of one run among many, as plain numbers. SI units.</summary>
public readonly record struct StrainingSample
{
    /// <summary>Time to 95 % drained, s; NaN when it never got there.</summary>
    public required double DrainSeconds { get; init; }

    /// <summary>Time to 95 % strained, s; NaN when it never got there.</summary>
    public required double StrainSeconds { get; init; }

    /// <summary>When the strainer first ran over, s; +∞ when it did not.</summary>
    public required double FirstOverflowSeconds { get; init; }

    /// <summary>Honey that ran over the rim, kg.</summary>
    public required double OverRimKg { get; init; }

    /// <summary>Honey that ran over the rim into the receiver, unstrained, kg.</summary>
    public required double BypassedKg { get; init; }

    /// <summary>Honey on the floor, from strainer and receiver, kg.</summary>
    public required double SpilledKg { get; init; }

    /// <summary>When the receiver was full, s; +∞ when it was not.</summary>
    public required double ReceiverFullSeconds { get; init; }

    /// <summary>Honey that ran over the full receiver, kg; 0 when somebody shut the gate.</summary>
    public required double ReceiverSpilledKg { get; init; }

    /// <summary>Honey that passed the cloth, kg.</summary>
    public required double StrainedKg { get; init; }

    /// <summary>Deepest pond as a share of the rim's height; 1 when it ran over.</summary>
    public required double PeakPondShare { get; init; }

    /// <summary>Time simulated, s.</summary>
    public required double EndSeconds { get; init; }

    /// <summary>How the run ended, as in <see cref="StrainingResult.Ending"/>.</summary>
    public required StrainingStatus Ending { get; init; }

    /// <summary>Number of scrapes.</summary>
    public required int Scrapes { get; init; }

    /// <summary>Whether the strainer ran over.</summary>
    public bool RanOver => FirstOverflowSeconds < double.PositiveInfinity;
}
