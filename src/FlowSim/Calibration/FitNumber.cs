using FlowSim.Straining;

namespace FlowSim.Calibration;

/// <summary>What a fitted number stands for.</summary>
internal enum FitNumberKind
{
    /// <summary>An input of the setup.</summary>
    Input,

    /// <summary>The clock of a series against the opening of the gate, s.</summary>
    Clock,

    /// <summary>The zero of a series' scale, in its unit.</summary>
    Zero,
}

/// <summary>One number that is fitted.</summary>
/// <param name="Kind">What it stands for.</param>
/// <param name="Input">The input; null for clock and zero.</param>
/// <param name="Prior">What was known of the input before; null for clock and zero.</param>
/// <param name="Run">Run it belongs to; −1 for honey and kit, which all share.</param>
/// <param name="Scale">Its values by score.</param>
internal sealed record FitNumber(FitNumberKind Kind, StrainingInput? Input, OverflowRisk.UncertainInput? Prior, int Run, ScoreScale Scale);
