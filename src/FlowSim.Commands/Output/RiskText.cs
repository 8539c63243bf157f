using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Output;

/// <summary>The chance of an overflow as text: setup, spreads, chances, times, drivers, assumptions, notices, cautions, and last the result with what to do next.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class RiskText(IPage page, Display display)
{
    private const int ValueColumn = 22;

    /// <summary>Correlation of a calibration below which a pair gets no line of its own. Engineering choice.</summary>
    private const double WeakTie = 0.3;

    public void Write(RiskStory story)
    {
        WriteDetails(story);
        WriteOutcome(story);
    }

    /// <summary>All but the result.</summary>
    /// <param name="story">Answer.</param>
    public void WriteDetails(RiskStory story)
    {
        RiskAnswer answer = story.Answer;
        new ResultText(page, display).WriteSetup(story.Name, story.Input.Middle);
        WriteInputs(story);
        WriteChances(answer);
        WriteTimes(answer);
        new DriverText(page).Write(answer.Drivers, "What drives the overflow");
        new DriverText(page).Write(answer.DriversOfTime, "What drives the time to 95 % strained");
        ResultText.WriteAssumptions(page, display, story.Journal);
        ResultText.WriteNotices(page, display, answer.Notices);
        ResultText.WriteCautions(page, display, answer.Cautions);
    }

    /// <summary>The result and what to do next, alone.</summary>
    /// <param name="story">Answer.</param>
    public void WriteOutcome(RiskStory story)
    {
        RiskAnswer answer = story.Answer;
        page.Heading("Result", PagePart.Result);
        page.Outcome($"CHANCE OF AN OVERFLOW: {ChanceText.Of(answer.Overflow)}, {Verdict(story)}.", story.Verdict != ToleranceVerdict.Within);
        page.Item("", "It is the chance that the strainer runs over in a run of this setup whose inputs lie as the spreads say, with nobody doing more than the setup says; it is no better than those spreads.");
        page.Pair("Look away", Absence(answer), ValueColumn);
        page.Pair("Open the gate", Opening(answer), ValueColumn);
        page.Pair("Or ride the pond", Riding(answer), ValueColumn);
        page.Pair("Scrape", Scraping(answer), ValueColumn);
        page.Pair("95 % strained", Times(answer.Strain), ValueColumn);
        ResultText.WriteNextSteps(page, NextSteps(story));
    }

    private string Verdict(RiskStory story)
    {
        string tolerance = $"the tolerance of {ChanceText.Percent(story.Answer.Question.Tolerance.DecimalFractions)} {(story.Input.ToleranceIsGiven ? "you set" : $"({Keys.Risk.Tolerance} sets another)")}";
        return story.Verdict switch
        {
            ToleranceVerdict.Within => "within " + tolerance,
            ToleranceVerdict.Above => "above " + tolerance,
            _ => $"on either side of {tolerance}: take it as above",
        };
    }

    private static string Absence(RiskAnswer answer) => answer.Absence switch
    {
        { Longest: null } => "Nobody need stand by for the tolerance: the whole run is within it.",
        { Longest.Seconds: < 1, FromTheStart: { Seconds: >= 1 } first, WorstStart: { } worst } =>
            $"For at most {Display.TimeAtMost(first.Seconds)} after the opening of the gate; from {Display.RoughTime(worst.Seconds)} on not at all.",
        { Longest.Seconds: < 1 } => "Not at all.",
        { Longest: { } longest, FromTheStart: { } first, WorstStart: { } worst } when first > longest =>
            $"For at most {Display.TimeAtMost(longest.Seconds)} at a time; that is from {Display.RoughTime(worst.Seconds)} on, and from the opening of the gate it is {Display.TimeAtMost(first.Seconds)}.",
        { Longest: { } longest } => $"For at most {Display.TimeAtMost(longest.Seconds)} at a time.",
    };

    private static string Opening(RiskAnswer answer) => answer.WidestOpening switch
    {
        { Opening.DecimalFractions: <= 0 } => "No opening keeps within the tolerance if the gate is left alone.",
        { Overflow: { } chance, Strain: { } strain } advice => $"To at most {Display.Share(advice.Opening.DecimalFractions)} and leave it: then {ChanceText.Of(chance)}; 95 % strained in {Times(strain)}",
        { } advice => $"To at most {Display.Share(advice.Opening.DecimalFractions)} and leave it.",
    };

    private string Riding(RiskAnswer answer)
    {
        string every = Display.RoughTime(answer.Question.LookEvery.Seconds);
        return answer.Riding.Deepest is { } deepest
            ? $"At {display.Length(deepest.Meters)} or less, out of {display.Length(answer.Question.Setup.Strainer.Shape.RimHeight.Meters)} to the rim, if somebody looks every {every} and the gate may be as wide as now{(answer.Riding.Chance is { } chance ? $": {ChanceText.Of(chance)}" : string.Empty)}."
            : $"Not with a look every {every} and the gate as wide as now: even from the shallowest pond it is too soon at the rim. Look more often ({Keys.Risk.LookEvery}) or narrow the gate.";
    }

    private static string Scraping(RiskAnswer answer) => answer.Scraping switch
    {
        { Needed: false } => "Not needed for the tolerance.",
        { Every: { } every, Overflow: { } chance } => $"Every {Display.TimeAtMost(every.Seconds)} at this opening: then {ChanceText.Of(chance)}.",
        { Every: { } every } => $"Every {Display.TimeAtMost(every.Seconds)} at this opening.",
        _ => "Does not help alone: no interval that was tried keeps within the tolerance at this opening.",
    };

    private static string Times(TimeSpread times)
    {
        string never = times.Never > 0 ? $"; {ChanceText.Words(times.Never)} never" : string.Empty;
        return times switch
        {
            { P10: { } early, P50: { } middle, P90: { } late } => $"{Display.RoughTime(middle.Seconds)} (eight in ten between {Display.RoughTime(early.Seconds)} and {Display.RoughTime(late.Seconds)}){never}.",
            { P10: { } early, P50: { } middle } => $"{Display.RoughTime(middle.Seconds)} (one in ten within {Display.RoughTime(early.Seconds)}){never}.",
            { P10: { } early } => $"{Display.RoughTime(early.Seconds)} at best, one in ten{never}.",
            _ => $"not reached in nine of ten runs{never}.",
        };
    }

    private List<string> NextSteps(RiskStory story)
    {
        RiskAnswer answer = story.Answer;
        List<string> steps = [];
        if (story.Verdict != ToleranceVerdict.Within)
            steps.Add(Mend(answer));

        if (answer.MeasureNext is { } measure)
        {
            string what = measure.Of == DriverOutput.Overflow ? "whether it runs over" : "the time of straining";
            steps.Add($"Measure next: {DriverText.NameOf(measure.Name)} ({measure.Name}): {display.Words(measure.How)}. Known exactly, it would narrow what is uncertain about {what} by {(measure.SpreadLeft > 0.99 ? "less than 1 %" : Display.Share(Math.Round(1 - measure.SpreadLeft, 2)))}.");
        }

        if (story.Input.Inputs.All(input => input.Written is null))
            steps.Add($"Write what you know of your own honey and kit with its spread, as {Keys.Honey.Moisture.Name} = \"17.8 ± 0.2 %\": the common spreads are taken where a key gives none.");
        return steps;
    }

    /// <summary>What brings the chance down.</summary>
    private static string Mend(RiskAnswer answer)
    {
        double widest = answer.WidestOpening.Opening.DecimalFractions;
        StrainingSetup setup = answer.Question.Setup;
        if (widest <= 0)
            return "Stand by as said above, take a larger or coarser cloth, or settle and skim first.";
        if (setup.Control is not FixedOpening)
            return $"Leave the gate at {Display.Share(widest)} in place of what is done with it now, or stand by as said above.";
        return widest < StrainingInputs.Opening.ValueIn(setup)
            ? $"Narrow the gate to {Display.Share(widest)}, or stand by as said above."
            : "Narrow the gate a little, or ask for more runs (--runs): the chance lies too near the tolerance to be told apart from it.";
    }

    private void WriteInputs(RiskStory story)
    {
        page.Heading("Varied from run to run (a spread in the file replaces a common one)");
        SpreadText words = new(display);
        foreach (VariedInput input in story.Input.Inputs)
        {
            UncertainInput uncertain = input.Uncertain;
            string source = input.Written is null ? $": {display.Words(uncertain.Source.Citation)}" : string.Empty;
            page.Assumed($"{uncertain.Input.Words} {input.Written ?? words.Of(uncertain)}{source}", uncertain.Source.Standing, uncertain.Input.Name);
        }

        IReadOnlyList<InputCorrelation> learnt = story.Journal.Calibration?.Correlations ?? [];
        int weak = 0;
        foreach (InputCorrelation pair in story.Answer.Question.Correlations)
        {
            bool byCalibration = learnt.Contains(pair);
            if (byCalibration && Math.Abs(pair.Strength) < WeakTie)
                weak++;
            else
                page.Assumed(string.Create(CultureInfo.InvariantCulture, $"{pair.One} and {pair.Other} go together, correlation {pair.Strength:0.##}"), Standing.GivenByUser, (byCalibration ? Keys.Calibration.Correlated : Keys.Risk.Correlated).ToString());
        }

        if (weak > 0)
            page.Item("- ", string.Create(CultureInfo.InvariantCulture, $"pairs of the calibration that go together by less than {WeakTie:0.#}: {weak} [{Keys.Calibration.Correlated}]"));
        page.Blank();
    }

    private void WriteChances(RiskAnswer answer)
    {
        string mass = display.Mass(answer.Question.MassThatMatters.Kilograms);
        page.Caption("how many runs");
        Chance("strainer runs over", answer.Overflow);
        Chance($"> {mass} past cloth", answer.Bypass);
        Chance($"> {mass} on floor", answer.Spill);
        Chance("receiver full first", answer.ReceiverFull);
        if (!answer.Question.Setup.Receiver.ShutWhenFull)
            Chance("receiver runs over", answer.ReceiverOverfilled);
        page.Pair("  runs made", string.Create(CultureInfo.InvariantCulture, $"{answer.Runs} in all, {answer.Overflow.Runs} for the chance of an overflow{(answer.Overflow.Method == EstimateMethod.SubsetSimulation ? " (subset simulation)" : string.Empty)}; seed {answer.Question.Seed}"), ValueColumn + 2);
        page.Blank();

        void Chance(string name, ProbabilityEstimate chance) => page.Pair("  " + name, ChanceText.Of(chance), ValueColumn + 2);
    }

    private void WriteTimes(RiskAnswer answer)
    {
        TextTable table = new("Time to 95 %, over many runs", new("time to 95 %", ValueColumn), new("1 in 10 within", 18), new("half within", 18), new("9 in 10 within"));
        Row("out of the tank", answer.Drain);
        Row("through the cloth", answer.Strain);
        page.Table(table);
        page.Blank();

        void Row(string name, TimeSpread times) => table.Row(name, Time(times.P10), Time(times.P50), Time(times.P90));

        static string Time(UnitsNet.Duration? time) => time is { } reached ? Display.RoughTime(reached.Seconds) : "-";
    }
}
