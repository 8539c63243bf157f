namespace FlowSim.HeatDamage;

/// <summary>How this honey responds to heat.</summary>
public sealed record HeatResponse
{
    /// <summary>Rate law of HMF. Default <see cref="HmfRateLaws.From20To70C"/>.</summary>
    public HmfRateLaw Law { get; init; } = HmfRateLaws.From20To70C;

    /// <summary>
    /// Floral multiplier on the rate of HMF: this honey's rate divided by the law's. Default 1; allowed
    /// <see cref="FloralRange"/>. Acid honeys form HMF faster.
    /// </summary>
    public double FloralMultiplier { get; init; } = 1;

    /// <summary>
    /// Whether the band also covers not knowing the floral type: low and high are then divided and multiplied by √12, so that
    /// the whole width between floral types is <see cref="FloralFactor"/>. Default false: the band of the source alone.
    /// </summary>
    public bool IncludeFloralSpread { get; init; }

    /// <summary>Rates of HMF of different floral types differ by at least this factor.</summary>
    public const double FloralFactor = 12;

    /// <summary>Range a floral multiplier may be given in.</summary>
    public static ValidityRange FloralRange { get; } = new("HMF formation", "floral multiplier", "", 1 / FloralFactor, FloralFactor);

    /// <summary>Source of <see cref="FloralFactor"/>.</summary>
    public static Source FloralSource { get; } = new("Rates of HMF formation published for honeys of different floral types", Standing.FromMemory);

    /// <summary>Factor by which low is divided and high multiplied for the floral type.</summary>
    internal double FloralSpread => IncludeFloralSpread ? Math.Sqrt(FloralFactor) : 1;

    /// <summary>What the low end of the law's band is multiplied by.</summary>
    internal double LowMultiplier => FloralMultiplier / FloralSpread;

    /// <summary>What the high end of the law's band is multiplied by.</summary>
    internal double HighMultiplier => FloralMultiplier * FloralSpread;

    /// <summary>Throws when a dose was taken with another law than this response names.</summary>
    /// <param name="law">Law of the dose.</param>
    /// <param name="name">Name of the argument to blame.</param>
    /// <exception cref="ArgumentException">The laws differ.</exception>
    internal void RequireLaw(HmfRateLaw law, string name)
    {
        if (!ReferenceEquals(law, Law))
            throw EquipmentCheck.Refused(name, $"The dose was taken with {law.Name}, the response asks for {Law.Name}.");
    }

    /// <summary>Throws when a value is outside the range its documentation gives.</summary>
    /// <exception cref="ArgumentNullException">The law is missing.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    internal void Validate()
    {
        EquipmentCheck.Present(Law, nameof(Law));
        FloralRange.Require(FloralMultiplier, nameof(FloralMultiplier));
    }
}
