namespace FlowSim.Numerics.Sampling;

/// <summary>What the draws of an <see cref="EnsembleSampler"/> are good for.</summary>
public enum SamplerStatus
{
    /// <summary>As many effective draws as were asked for, from chains many times longer than their memory, that agree with each other.</summary>
    Converged,

    /// <summary>The steps or evaluations allowed gave fewer effective draws than asked for, or chains too short to tell.</summary>
    TooFewEffective,

    /// <summary>Walkers differ more than chains long enough would: several modes between which they hardly pass, a start still remembered, or far too few steps.</summary>
    NotMixed,

    /// <summary>Some walker never moved: it sits where hardly a move is accepted, or the density is not smooth.</summary>
    StuckWalkers,
}
