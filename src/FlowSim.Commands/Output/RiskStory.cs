using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of the chance of an overflow.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Input">The question as it was read.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Name">Name of the input.</param>
internal sealed record RiskStory(RiskAnswer Answer, RiskInput Input, Journal Journal, string Name)
{
    /// <summary>How the chance stands against the tolerance.</summary>
    public ToleranceVerdict Verdict
    {
        get
        {
            double tolerance = Answer.Question.Tolerance.DecimalFractions;
            return Answer.Overflow.High <= tolerance ? ToleranceVerdict.Within
                : Answer.Overflow.Low > tolerance ? ToleranceVerdict.Above
                : ToleranceVerdict.CannotBeTold;
        }
    }
}

/// <summary>How a chance stands against the tolerance.</summary>
internal enum ToleranceVerdict
{
    /// <summary>The whole interval is within it.</summary>
    Within,

    /// <summary>The whole interval is above it.</summary>
    Above,

    /// <summary>The tolerance lies within the interval.</summary>
    CannotBeTold,
}
