namespace FlowSim.Numerics.Sampling;

/// <summary>Whether an output has Sobol' indices.</summary>
public enum SobolStatus
{
    /// <summary>It has.</summary>
    Estimated,

    /// <summary>The output was the same in every run: it has no variance to share out.</summary>
    ConstantOutput,

    /// <summary>The output differed in so few runs, all in one replicate, that its variance is not known.</summary>
    VariesTooRarely,
}
