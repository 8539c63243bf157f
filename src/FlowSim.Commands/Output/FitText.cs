using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Output;

/// <summary>A fit as text: first what was learnt and what it changes, on one screen; then how the readings are met, each run's own, notices, and the table to keep.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class FitText(IPage page, Display display)
{
    private const int NameColumn = 27;
    private const int ValueColumn = 22;
    private const int MostNext = 3;

    /// <summary>Share of the spread up to which an input counts as settled. Engineering choice.</summary>
    private const double Settled = 0.2;

    /// <summary>R̂ above which chains count as not mixed (common practice, from memory).</summary>
    private const double MostRHat = 1.1;

    private readonly SpreadText _spreads = new(display);

    public void Write(FitStory story)
    {
        WriteOutcome(story);
        page.Blank();
        WriteDetails(story);
    }

    /// <summary>All but what was learnt.</summary>
    /// <param name="story">Fit.</param>
    public void WriteDetails(FitStory story)
    {
        CalibrationAnswer answer = story.Answer;
        if (answer.Series.Count > 0)
        {
            page.Heading("How the readings are met");
            foreach (SeriesFit series in answer.Series)
                new SeriesFitText(page, display).Write(series, answer.Question.Runs.Count > 1);
            page.Blank();
        }

        WriteOwn(answer);
        ResultText.WriteNotices(page, display, answer.Notices);
        WriteRead(story);
        if (story.Table is not { } table || story.Saved is not null)
            return;
        page.Heading("To keep it, put this into the batch, or fit with --save");
        page.Verbatim(table);
    }

    /// <summary>What was learnt and what it changes, alone.</summary>
    /// <param name="story">Fit.</param>
    public void WriteOutcome(FitStory story)
    {
        CalibrationAnswer answer = story.Answer;
        page.Heading(Printable.Of(story.Name, 70), PagePart.Result);
        page.Outcome(Outcome(story), answer.Status != CalibrationStatus.Fitted);
        if (answer.Status == CalibrationStatus.NotFound)
        {
            page.Item("", "Nothing is to be kept and nothing is written. Look at the notices; a reading in another unit, another opening or another cloth than the batch says are what mostly stands behind it.");
            return;
        }

        WriteShared(answer);
        foreach (IndistinctInputs pair in answer.Indistinct)
            page.Item("~ ", display.Words(Together(pair)));
        page.Item("", answer.Check is { } check ? Sampler(check) : "The intervals are those of the fit; no sampler has checked them.");
        WritePrediction(answer.Prediction);
        ResultText.WriteNextSteps(page, NextSteps(story));
    }

    private static string Together(IndistinctInputs pair) => string.Join(" and ", pair.Inputs.Select(input => input.Words)) + ": " + pair.Words;

    private static string Outcome(FitStory story)
    {
        CalibrationAnswer answer = story.Answer;
        int runs = answer.Question.Runs.Count;
        int measured = answer.Question.Viscosities.Count;
        string what = string.Join(" and ", new[]
        {
            runs == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"{story.Readings} readings of {runs} {(runs == 1 ? "run" : "runs")}"),
            measured == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"{measured} measured {(measured == 1 ? "viscosity" : "viscosities")}"),
        }.OfType<string>());
        return answer.Status switch
        {
            CalibrationStatus.Fitted => $"FITTED: {what} are met as they scatter.",
            CalibrationStatus.FittedPoorly => $"FITTED POORLY: {what} lie off the best fit in a way that the model does not explain; the intervals are widened for it, and may still mislead.",
            _ => $"NO FIT: {what} are met by no honey and kit that the batch and its spreads allow.",
        };
    }

    private void WriteShared(CalibrationAnswer answer)
    {
        FittedInput[] shared = [.. answer.Inputs.Where(input => input.Run is null)];
        FittedInput[] shown = [.. shared.Where(input => input.Identified).OrderBy(input => input.Left)];
        page.Caption("learnt", "before → now (95 % interval)", NameColumn);
        foreach (FittedInput input in shown)
            Row(input, input.Left <= Settled ? "settled" : "narrowed");
        if (shown.Length == 0)
            page.Pair("  nothing", string.Empty, NameColumn);
        string[] rest = [.. shared.Where(input => !input.Identified).Select(input => input.Input.Words)];
        if (rest.Length > 0)
            page.Item("", $"Not shown by these runs: {string.Join(", ", rest)}.");
    }

    private void WriteOwn(CalibrationAnswer answer)
    {
        FittedInput[] own = [.. answer.Inputs.Where(input => input.Run is not null)];
        if (own.Length == 0)
            return;
        page.Heading("Each run's own, for the readings to be met");
        foreach (IGrouping<string, FittedInput> run in own.GroupBy(input => input.Run!, StringComparer.Ordinal))
        {
            page.Caption(Printable.Of(run.Key));
            foreach (FittedInput input in run)
                Row(input, string.Empty);
        }

        page.Blank();
    }

    private void Row(FittedInput input, string left)
    {
        string before = _spreads.Of(input.Input, input.Prior.Spread.Median);
        string now = _spreads.Of(input.Input, input.Middle);
        string low = _spreads.Of(input.Input, input.Low);
        string high = _spreads.Of(input.Input, input.High);
        page.Pair("  " + input.Input.Words, $"{WithoutUnitOf(before, now)} → {now} ({WithoutUnitOf(low, high)} to {high}) {left}", NameColumn);
    }

    private void WritePrediction(PredictionChange change)
    {
        page.Caption("this batch", "before → now", NameColumn);
        page.Pair("  95 % strained", $"{Time(change.StrainBefore)} → {Time(change.StrainAfter)}", NameColumn);
        page.Pair("  strainer runs over", $"{ChanceText.Words(change.OverflowBefore)} → {ChanceText.Words(change.OverflowAfter)}", NameColumn);
    }

    private static string Time(TimeSpread time) => time switch
    {
        { P10: { } early, P50: { } middle, P90: { } late } => $"{Display.RoughTime(middle.Seconds)} ({Display.RoughTime(early.Seconds)} to {Display.RoughTime(late.Seconds)})",
        { P50: { } middle } => $"{Display.RoughTime(middle.Seconds)}, in one of ten much later or never",
        _ => "not reached in half the runs or more",
    };

    private static string Sampler(SamplerCheck check)
    {
        string verdict = check.Used ? "its intervals stand above, for those of the fit would mislead"
            : check.SplitRHat > MostRHat ? "they have not mixed, so the intervals are checked but roughly"
            : "its intervals agree with those of the fit";
        return string.Create(CultureInfo.InvariantCulture, $"Sampler: {check.EffectiveSampleSize:0} independent draws at least, chains alike to R̂ {check.SplitRHat:0.00#}; {verdict}.");
    }

    private List<string> NextSteps(FitStory story)
    {
        List<string> steps = story.Answer.Status == CalibrationStatus.FittedPoorly
            ? ["Look at what lies off and when (--csv FILE): a scrape, a move of the gate or a change of temperature that was not noted mostly stands behind it."]
            : [];
        foreach (NextMeasurement next in story.Answer.Next.Take(MostNext))
        {
            string overflow = next.OverflowLeft is { } left ? $", of whether it runs over {Share(left)}" : string.Empty;
            steps.Add($"{Capital(display.Words(next.What))}: {display.Words(next.How)}. It would leave {Share(next.TimeLeft)} of what is uncertain about the time{overflow}.");
        }

        if (story.Saved is null)
            steps.Add("Keep it with --save, so that every command takes it.");
        return steps;
    }

    private static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    private static string Share(double share) => Display.Share(Math.Round(share, 2));

    private void WriteRead(FitStory story)
    {
        string[] echoes = [.. story.Echoes, .. story.Journal.Echoes];
        if (echoes.Length == 0)
            return;
        page.Heading("Read as", PagePart.Assumed);
        foreach (string echo in echoes)
            page.Item("- ", echo);
        page.Blank();
    }

    /// <summary>A value without its unit, where the next one has the same.</summary>
    private static string WithoutUnitOf(string value, string next)
    {
        int space = value.IndexOf(' ', StringComparison.Ordinal);
        return space > 0 && next.EndsWith(value[space..], StringComparison.Ordinal) && next.Length > value.Length - space ? value[..space] : value;
    }
}
