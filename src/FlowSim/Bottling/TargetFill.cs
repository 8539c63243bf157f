using MathNet.Numerics.Distributions;
using MathNet.Numerics.RootFinding;
using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>Which part of a rule decides the target fill.</summary>
public enum FillLimit
{
    /// <summary>Nothing but the label: fills without scatter.</summary>
    Label,

    /// <summary>The average of the lot.</summary>
    Average,

    /// <summary>How many jars fall short of a tolerable error.</summary>
    SingleJars,
}

/// <summary>How much to aim for, so that a lot meets a rule with some confidence although fills scatter.</summary>
/// <remarks>
/// Fills are taken as normal and independent about the target. A scale that drifts, or a mean that is not where it is
/// aimed, is not in it: weigh jars through the day.
/// </remarks>
public sealed record TargetFill
{
    /// <summary>What was asked.</summary>
    public required NetWeightQuestion Question { get; init; }

    /// <summary>Mean fill to aim for.</summary>
    public required Mass Target { get; init; }

    /// <summary>Given away in each jar: target less label.</summary>
    public Mass AboveLabel => Target - Question.Label;

    /// <summary>Standard deviation that was used: the one given, or its upper limit.</summary>
    public required Mass ScatterUsed { get; init; }

    /// <summary>Tolerable shortfall of one jar that was used; null when none is known, so that only the average was kept.</summary>
    public required Mass? TolerableShortfall { get; init; }

    /// <summary>Which part of the rule decides.</summary>
    public required FillLimit Binds { get; init; }

    /// <summary>At most the chance that a lot breaks the rule at the target.</summary>
    public required Ratio ChanceLotBreaks { get; init; }

    /// <summary>Target if fills scattered half as much.</summary>
    public required Mass TargetAtHalfScatter { get; init; }

    /// <summary>How officials would check such a lot; null when no plan is known for it.</summary>
    public required SamplingPlan? Plan { get; init; }

    /// <summary>Chance that their count of short jars accepts the lot; null without a plan.</summary>
    public required Ratio? ChanceCountAccepted { get; init; }

    /// <summary>Chance that their test of the average accepts the lot; null without a plan.</summary>
    public required Ratio? ChanceAverageAccepted { get; init; }

    /// <summary>Jars to weigh from a lot, all of it if it is smaller, so that an average half a scatter below the label would be noticed nine times in ten, with one false alarm in 200.</summary>
    public required int JarsToWeigh { get; init; }

    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <exception cref="ArgumentException">A value is out of its range.</exception>
    public static TargetFill Of(NetWeightQuestion question)
    {
        EquipmentCheck.Present(question).Require();
        double labelG = question.Label.Grams;
        double scatterG = UpperLimitG(question);
        Mass? tolerance = question.TolerableShortfall ?? question.Rule.TolerableShortfall(question.Label);
        double toleranceG = tolerance?.Grams ?? 0;
        double targetG = TargetG(question, scatterG, toleranceG);
        SamplingPlan? plan = question.Rule.PlanFor(question.Lot);
        bool judged = plan is not null && toleranceG > 0;
        return new TargetFill
        {
            Question = question,
            Target = Mass.FromGrams(targetG),
            ScatterUsed = Mass.FromGrams(scatterG),
            TolerableShortfall = tolerance,
            Binds = LimitOf(question, targetG, scatterG, toleranceG),
            ChanceLotBreaks = Ratio.FromDecimalFractions(scatterG > 0 ? Math.Min(1, LotChance.BreaksRule(targetG, scatterG, question.Lot, labelG, toleranceG, question.Rule.Limits)) : 0),
            TargetAtHalfScatter = Mass.FromGrams(TargetG(question, scatterG / 2, toleranceG)),
            Plan = plan,
            ChanceCountAccepted = judged ? Ratio.FromDecimalFractions(scatterG > 0 ? plan!.ChanceThatCountIsAccepted(LotChance.JarShort(targetG, scatterG, labelG, toleranceG)) : 1) : null,
            ChanceAverageAccepted = plan is null ? null : Ratio.FromDecimalFractions(scatterG > 0 ? plan.ChanceThatAverageIsAccepted((targetG - labelG) / scatterG) : 1),
            JarsToWeigh = Math.Min(question.Lot, SampleSize.ToNotice(0.5, 0.005, 0.9)),
        };
    }

    /// <summary>The least mean at which the chance of breaking the rule is what the confidence leaves, g.</summary>
    private static double TargetG(NetWeightQuestion question, double scatterG, double toleranceG)
    {
        double labelG = question.Label.Grams;
        if (scatterG <= 0)
            return labelG;

        double leaves = 1 - question.Confidence.DecimalFractions;
        double Excess(double meanG) => LotChance.BreaksRule(meanG, scatterG, question.Lot, labelG, toleranceG, question.Rule.Limits) - leaves;

        // Twelve scatters above the label no part can be broken; at the label the average alone breaks in half of the lots.
        double target = Brent.FindRoot(Excess, labelG, labelG + 12 * scatterG, 1e-13 * labelG, 500);
        return Excess(target) <= 0 ? target : target + 1e-9 * scatterG;
    }

    /// <summary>Scatter that is used, g; one of less than a billionth of the label is none.</summary>
    private static double UpperLimitG(NetWeightQuestion question)
    {
        double grams = question.Scatter.Grams;
        if (grams < 1e-9 * question.Label.Grams)
            return 0;
        return question.ScatterFrom is { } jars ? SampleSize.UpperLimit(grams, jars) : grams;
    }

    private static FillLimit LimitOf(NetWeightQuestion question, double targetG, double scatterG, double toleranceG)
    {
        if (scatterG <= 0)
            return FillLimit.Label;
        double average = LotChance.AverageShort(targetG, scatterG, question.Lot, question.Label.Grams);
        double all = LotChance.BreaksRule(targetG, scatterG, question.Lot, question.Label.Grams, toleranceG, question.Rule.Limits);
        return average >= all - average ? FillLimit.Average : FillLimit.SingleJars;
    }
}

/// <summary>How many jars to weigh. Kernels: arguments are not checked.</summary>
internal static class SampleSize
{
    /// <summary>Jars to weigh to notice a mean that is too low.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: n = ⌈((z(1 − α) + z(β))/δ)²⌉.</para>
    /// <para><b>Range</b>: δ above 0; α and β within 0 to 1.</para>
    /// <para><b>Error</b>: exact for normal fills of known scatter; with the scatter of the sample itself one or two jars more.</para>
    /// <para><b>Source</b>: operating characteristic of a test of a mean, as in any text on statistics (from memory).</para>
    /// <para><b>Checked by</b>: TargetFillTests.cs, by drawing samples.</para>
    /// </remarks>
    /// <param name="shortInScatters">Shortfall of the mean δ, in standard deviations of a fill.</param>
    /// <param name="falseAlarm">Chance of an alarm at the label α.</param>
    /// <param name="noticed">Chance of an alarm at the shortfall β.</param>
    internal static int ToNotice(double shortInScatters, double falseAlarm, double noticed)
    {
        double sum = Normal.InvCDF(0, 1, 1 - falseAlarm) + Normal.InvCDF(0, 1, noticed);
        return (int)Math.Ceiling(sum * sum / (shortInScatters * shortInScatters));
    }

    /// <summary>Upper 95 % limit of a standard deviation found from a sample.</summary>
    /// <remarks>
    /// <para><b>Equation</b>: σ ≤ s √((n − 1)/χ²(0.05; n − 1)).</para>
    /// <para><b>Range</b>: n at least 2.</para>
    /// <para><b>Error</b>: exact for normal fills.</para>
    /// <para><b>Source</b>: NIST/SEMATECH e-Handbook of Statistical Methods, confidence limits of a standard deviation (from memory).</para>
    /// <para><b>Checked by</b>: TargetFillTests.cs, by drawing samples.</para>
    /// </remarks>
    /// <param name="deviation">Standard deviation of the sample s.</param>
    /// <param name="sample">Jars in it n.</param>
    internal static double UpperLimit(double deviation, int sample) =>
        deviation * Math.Sqrt((sample - 1) / ChiSquared.InvCDF(sample - 1, 0.05));
}
