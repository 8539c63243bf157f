using FlowSim.Calibration;
using FlowSim.Plots.Drawing;
using static System.FormattableString;

namespace FlowSim.Plots;

/// <summary>What a calibration found, in one line and some sentences.</summary>
internal static class CalibrationTitle
{
    public const string NotFound = "No fit was found: nothing is to be kept";

    /// <summary>The most learnt of honey and kit with its interval, or why there is none.</summary>
    public static string Of(CalibrationAnswer answer, DisplayUnits units) => answer.Status switch
    {
        CalibrationStatus.NotFound => NotFound,
        CalibrationStatus.FittedPoorly => "Readings lie off the model by more than their scatter",
        _ => Learnt(answer).FirstOrDefault() is { } most ? Capital(Finding(most, units)) : "These runs say nothing new of honey and kit",
    };

    /// <summary>What the title leaves out: further findings, and what the runs do not show.</summary>
    public static IEnumerable<string> Sentences(CalibrationAnswer answer, DisplayUnits units)
    {
        if (answer.Status == CalibrationStatus.NotFound)
            yield break;

        bool poorly = answer.Status == CalibrationStatus.FittedPoorly;
        if (poorly)
            yield return "The intervals are widened for it.";
        FittedInput[] further = [.. Learnt(answer).Skip(poorly ? 0 : 1)];
        if (further.Length > 0)
            yield return (poorly ? "Learnt: " : "Also: ") + string.Join("; ", further.Select(input => Finding(input, units))) + ".";
        FittedInput[] hidden = [.. answer.Inputs.Where(input => input.Run is null && !input.Identified)];
        if (hidden.Length > 0)
            yield return "Not shown by these runs: " + string.Join(", ", hidden.Select(input => input.Input.Words)) + ".";
    }

    /// <summary>How many inputs are better known.</summary>
    public static string OfSpreads(CalibrationAnswer answer)
    {
        if (answer.Status == CalibrationStatus.NotFound)
            return NotFound;

        int count = answer.Inputs.Count(input => input.Identified);
        FittedInput? most = Learnt(answer).FirstOrDefault();
        return count == 0
            ? "These runs say nothing new of any input"
            : Invariant($"{count} of {answer.Inputs.Count} inputs {(count == 1 ? "is" : "are")} better known") + (most is null ? ", none of honey or kit" : ": " + most.Input.Words + (count == 1 ? "" : " most of all"));
    }

    /// <summary>Words with a capital first.</summary>
    public static string Capital(string words) => words.Length == 0 ? "" : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>Inputs of honey and kit that are better known, most learnt first.</summary>
    private static IOrderedEnumerable<FittedInput> Learnt(CalibrationAnswer answer) =>
        answer.Inputs.Where(input => input.Run is null && input.Identified).OrderBy(input => input.Left);

    private static string Finding(FittedInput input, DisplayUnits units) => input.Input.Words + " " + InputText.Estimate(input.Input, input.Posterior, units);
}
