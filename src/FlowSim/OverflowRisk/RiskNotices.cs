using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.OverflowRisk;

/// <summary>What the user should know about chances.</summary>
internal static class RiskNotices
{
    /// <summary>A spread of which more than this is cut off is told.</summary>
    private const double CutOffShare = 0.01;

    /// <summary>Notices of one run that are about its fate: the chances say it better.</summary>
    private static readonly HashSet<string> s_fates = new(StringComparer.Ordinal)
    {
        "strainer.overflow", "receiver.overfilled", "receiver.full", "run.stalled", "run.time-limit", "tank.film",
    };

    /// <summary>Notices of an answer.</summary>
    /// <param name="question">The question.</param>
    /// <param name="middle">The run of the setup as it stands.</param>
    /// <param name="inputs">The inputs.</param>
    /// <param name="tally">The runs counted.</param>
    /// <param name="overflow">The chance of an overflow.</param>
    /// <param name="effort">Runs for the advice.</param>
    public static IReadOnlyList<Notice> For(
        RiskQuestion question, StrainingResult middle, SpreadInputs inputs, RunTally tally, ProbabilityEstimate overflow, RiskEffort effort)
    {
        var notices = new List<Notice>();
        AddCommonSpreads(notices, question, inputs);
        AddCutOff(notices, question, inputs);
        AddFewRuns(notices, question, overflow, effort);
        AddNever(notices, tally);
        notices.AddRange(middle.Notices.Where(notice => !s_fates.Contains(notice.Code)));
        return notices;
    }

    private static void AddCommonSpreads(List<Notice> notices, RiskQuestion question, SpreadInputs inputs)
    {
        if (question.Inputs is not null)
            return;
        notices.Add(new Notice(
            "risk.common-spreads",
            $"no spread was given, so the common ones were taken for {string.Join(", ", inputs.Given.Select(input => input.Input.Name))}",
            "most of them are engineering choices, and the chances are no better than they",
            "give what you know of your own honey, cloth and debris"));
    }

    private static void AddCutOff(List<Notice> notices, RiskQuestion question, SpreadInputs inputs)
    {
        foreach (UncertainInput input in inputs.Given)
        {
            SpreadInputs.Cut(input, input.Spread, question.Setup, out double cutOff);
            if (cutOff <= CutOffShare)
                continue;
            (double low, double high) = input.Input.RangeIn(question.Setup);
            notices.Add(new Notice(
                "risk.spread-cut",
                Invariant($"{100 * cutOff:0.#} % of the spread of {input.Input.Name} lies outside what it may be here, {low:g5} to {high:g5} {input.Input.Unit}").TrimEnd(),
                "that part was cut off and the rest taken as the whole, so the middle has moved",
                "give a narrower spread, or one that ends there"));
        }
    }

    private static void AddFewRuns(List<Notice> notices, RiskQuestion question, ProbabilityEstimate overflow, RiskEffort effort)
    {
        double tolerance = question.Tolerance.DecimalFractions;
        double told = Chance.AsFarAsTold(tolerance, Math.Min(effort.ForAdvice, effort.ForAbsence));
        if (told > tolerance)
        {
            notices.Add(new Notice(
                "risk.tolerance-too-fine",
                Invariant($"the advice was found from {effort.ForAdvice} runs, which cannot tell chances below {100 * told:0.###} % apart; the tolerance is {100 * tolerance:g3} %"),
                Invariant($"absence, opening, scraping and riding are for {100 * told:0.###} %"),
                question.Runs is null ? "take the advice with that chance, or stay with it" : "ask for more runs"));
        }

        if (overflow.Low <= tolerance && overflow.High > tolerance)
        {
            notices.Add(new Notice(
                "risk.cannot-tell",
                Invariant($"the chance of an overflow lies between {100 * overflow.Low:g3} and {100 * overflow.High:g3} %, on either side of the tolerance of {100 * tolerance:g3} %"),
                "whether it is within the tolerance cannot be told from these runs",
                question.Runs is null ? "take it as not within it" : "ask for more runs, or take it as not within it"));
        }
    }

    private static void AddNever(List<Notice> notices, RunTally tally)
    {
        if (tally.Strain.Never == 0)
            return;
        double share = 100.0 * tally.Strain.Never / tally.Runs, late = 100.0 * tally.TimeLimit / tally.Runs;
        notices.Add(new Notice(
            "risk.never-strained",
            Invariant($"{share:0.##} % of the runs never strain 95 %; {late:0.##} % of all end at the longest time"),
            "the flow stalls, honey runs over, the receiver is full, or the time is too short; among the drivers such a run counts with the longest time",
            "look at what drives the time; ask for a longer time if it is that"));
    }
}
