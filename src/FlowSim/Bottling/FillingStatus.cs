namespace FlowSim.Bottling;

/// <summary>Why a filling run ended.</summary>
public enum FillingStatus
{
    /// <summary>What is left above the heel does not fill another jar.</summary>
    Emptied,

    /// <summary>As many jars as were asked for are filled.</summary>
    JarsDone,

    /// <summary>The next jar would take longer than the longest fill that is put up with.</summary>
    TooSlow,

    /// <summary>The jar cannot hold the target fill: nothing was filled.</summary>
    JarTooSmall,
}
