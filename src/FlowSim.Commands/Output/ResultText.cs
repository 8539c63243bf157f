using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.OverflowRisk;
using FlowSim.RunSheets;
using FlowSim.Straining;

namespace FlowSim.Commands.Output;

/// <summary>All that is told of a run.</summary>
/// <param name="Result">The run.</param>
/// <param name="Journal">What was assumed and how units were read.</param>
/// <param name="Name">Name of the input.</param>
internal sealed record RunStory(StrainingResult Result, Journal Journal, string Name)
{
    /// <summary>What to do next.</summary>
    public IReadOnlyList<string> NextSteps { get; init; } = [];

    /// <summary>Numbers to keep in sight.</summary>
    public IReadOnlyList<WatchNumber> Watch { get; init; } = [];

    /// <summary>How far the answers move; null when it is not known.</summary>
    public StrainingSpread? Spread { get; init; }
}

/// <summary>A run as text: setup, times, masses, assumptions, notices, cautions, and last the result with what to do next.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class ResultText(IPage page, Display display)
{
    private const int ValueColumn = 22;

    public void Write(RunStory story)
    {
        WriteDetails(story);
        WriteOutcome(story);
    }

    /// <summary>All but the result.</summary>
    /// <param name="story">Run.</param>
    public void WriteDetails(RunStory story)
    {
        WriteSetup(story.Name, story.Result);
        WriteTimes(story.Result);
        WriteMasses(story.Result.Masses);
        WriteAssumptions(page, display, story.Journal);
        WriteNotices(page, display, story.Result.Notices);
        WriteCautions(page, display, story.Result.Cautions);
    }

    /// <summary>The result and what to do next, alone.</summary>
    /// <param name="story">Run.</param>
    public void WriteOutcome(RunStory story)
    {
        page.Heading("Result", PagePart.Result);
        StrainingResult result = story.Result;
        page.Outcome(Outcome(result, display), result.Status != StrainingStatus.Drained);
        if (result.Strain.To95 is { } strained)
        {
            page.Item("", $"95 % strained in {Display.Time(strained.Seconds)}; deepest pond {display.Length(result.PeakPond.Meters)} of {display.Length(result.Setup.Strainer.Shape.RimHeight.Meters)}.");
        }
        else
        {
            double share = result.Masses.Strained / result.Masses.CanDrain;
            page.Item("", $"95 % strained is not reached: {Display.Share(share)} of what can drain has passed the cloth when the run ends after {Display.Time(result.Elapsed.Seconds)}.");
        }

        if (story.Spread is { } spread)
            WriteSpread(spread, story.Journal.Calibration);
        WriteNextSteps(page, story.NextSteps);
    }

    /// <summary>Notices in the form: what was seen – what it may mean – what helps.</summary>
    /// <param name="page">Takes the text.</param>
    /// <param name="display">Units.</param>
    /// <param name="notices">Notices.</param>
    public static void WriteNotices(IPage page, Display display, IReadOnlyList<Notice> notices)
    {
        if (notices.Count == 0)
            return;
        page.Heading("Notices", PagePart.Notices);
        foreach (Notice notice in notices)
            page.Notice(display.Words(notice.Seen), display.Words(notice.MayMean), display.Words(notice.Helps));
        page.Blank();
    }

    private void WriteSpread(StrainingSpread spread, CalibrationTable? calibration)
    {
        string times = spread.Strain95 switch
        {
            ({ } low, { } high) => $"95 % strained in {Display.RoughTime(low.Seconds)} to {Display.RoughTime(high.Seconds)}",
            ({ } low, null) => $"95 % strained in {Display.RoughTime(low.Seconds)} at best, in some cases not at all",
            _ => "95 % strained in no case",
        };
        string over = spread.EarliestOverflow is { } first
            ? string.Create(CultureInfo.InvariantCulture, $"the strainer runs over in {spread.RunsThatRunOver} of {spread.Runs} cases, at the earliest after {Display.RoughTime(first.Seconds)}")
            : "the strainer does not run over";
        string differ = calibration is { Entries.Count: > 0 } ? $"as far as the {calibration.Words} leaves open" : "as they commonly do";
        page.Item("", $"If honey, cloth and debris differ {differ}: {times}; {over}.");
    }

    private static string Outcome(StrainingResult result, Display display)
    {
        string opening = result.Setup.Control is FixedOpening { Opening: var share } ? $" with the gate at {Display.Share(share.DecimalFractions)}" : string.Empty;
        double overKg = result.Overflows.Sum(overflow => overflow.Mass.Kilograms);
        return result.Status switch
        {
            StrainingStatus.Overflowed => $"RUNS OVER: the strainer runs over after {Display.Time(result.FirstOverflow!.Value.Seconds)}{opening}; {display.Mass(overKg)} go over the rim.",
            StrainingStatus.ReceiverOverfilled => $"RUNS OVER: the receiver is full after {Display.Time(result.ReceiverFullAt!.Value.Seconds)}; {display.Mass(result.Masses.SpilledAtReceiver.Kilograms)} run onto the floor.",
            StrainingStatus.Stalled => $"STALLS: the flow all but stops; {display.Mass(result.Masses.HeldInTank.Kilograms)} stay in the tank.",
            StrainingStatus.TimeLimit => $"NOT THROUGH after {Display.Time(result.Elapsed.Seconds)}, the longest time asked for.",
            StrainingStatus.ReceiverFull => $"RECEIVER FULL after {Display.Time(result.Elapsed.Seconds)}; the gate is shut with {display.Mass(result.Masses.HeldInTank.Kilograms)} still in the tank.",
            _ => $"DRAINS: what can drain is strained; the rim is not reached{opening}.",
        };
    }

    /// <summary>What is strained, a line each for honey, tank, gate, strainer and receiver.</summary>
    /// <param name="name">Name of the input.</param>
    /// <param name="result">Run.</param>
    public void WriteSetup(string name, StrainingResult result)
    {
        StrainingSetup setup = result.Setup;
        page.Heading(Printable.Of(name, 70), PagePart.Setup);
        page.Pair("Honey", $"{Display.Share(setup.Honey.Moisture.DecimalFractions)} moisture at {display.Temperature(setup.HoneyTemperature.Kelvins)}, {Display.Viscosity(result.StartViscosity.PascalSeconds)}", ValueColumn);
        page.Pair("Tank", $"{display.Mass(result.Masses.Start.Kilograms)}, {display.Mass(result.Masses.CanDrain.Kilograms)} of it can drain", ValueColumn);
        page.Pair("Gate", $"{display.Length(setup.Gate.Bore.Meters)} bore, {display.Length(setup.Gate.TubeLength.Meters)} tube, {ControlText(setup.Control)}", ValueColumn);
        page.Pair("Strainer", $"rim {display.Length(setup.Strainer.Shape.RimHeight.Meters)}, cloth {string.Join(" + ", setup.Strainer.Cloths.Select(cloth => FormattableString.Invariant($"{cloth.Opening.Micrometers:0.#}/{cloth.WireDiameter.Micrometers:0.#} um")))}", ValueColumn);
        page.Pair("Receiver", $"{display.Volume(setup.Receiver.Shape.Capacity.CubicMeters)} to the brim", ValueColumn);
        page.Blank();
    }

    private string ControlText(GateControl control) => control switch
    {
        FixedOpening fixedOpening => $"{Display.Share(fixedOpening.Opening.DecimalFractions)} open",
        OpeningSchedule schedule => string.Join(", ", schedule.Steps.Select(step => $"{Display.Share(step.Opening.DecimalFractions)} from {Display.Time(step.At.Seconds)}")),
        RiddenGate ridden => $"ridden at a pond of {display.Length(ridden.PondDepth.Meters)}, {Display.Share(ridden.Widest.DecimalFractions)} at most",
        _ => string.Empty,
    };

    private void WriteTimes(StrainingResult result)
    {
        TextTable table = new("When how much is through", new("of what can drain", ValueColumn), new("out of the tank", 18), new("through the cloth"));
        table.Row("50 %", TimeOrDash(result.Drain.To50), TimeOrDash(result.Strain.To50));
        table.Row("90 %", TimeOrDash(result.Drain.To90), TimeOrDash(result.Strain.To90));
        table.Row("95 %", TimeOrDash(result.Drain.To95), TimeOrDash(result.Strain.To95));
        table.Row("99 %", TimeOrDash(result.Drain.To99), TimeOrDash(result.Strain.To99));
        page.Table(table);
        page.Pair("tank at its heel", result.DrainToHeel is { } heel ? Display.Time(heel.Seconds) : "-", ValueColumn);
        page.Pair("deepest pond", $"{display.Length(result.PeakPond.Meters)} after {Display.Time(result.PeakPondAt.Seconds)}", ValueColumn);
        if (result.Overflows.Count > 0)
            page.Pair("over the rim", string.Join(", ", result.Overflows.Take(3).Select(o => $"{Display.Time(o.From.Seconds)} to {Display.Time(o.To.Seconds)}")) + (result.Overflows.Count > 3 ? ", …" : string.Empty), ValueColumn);
        if (result.Scrapes.Count > 0)
            page.Pair("scraped after", string.Join(", ", result.Scrapes.Take(4).Select(s => Display.Time(s.Seconds))) + (result.Scrapes.Count > 4 ? FormattableString.Invariant($", … {result.Scrapes.Count} times") : string.Empty), ValueColumn);
        page.Pair("cloth blinded", string.Join(", ", result.Blinded.Select(share => Display.Share(share.DecimalFractions))) + " at the end", ValueColumn);
        page.Pair("end of the run", $"{Display.Time(result.Elapsed.Seconds)}, tank at {display.Temperature(result.EndTemperatures.Tank.Kelvins)}", ValueColumn);
        page.Blank();
    }

    private static string TimeOrDash(UnitsNet.Duration? time) => time is { } reached ? Display.Time(reached.Seconds) : "-";

    private void WriteMasses(MassAccount masses)
    {
        MassTable table = new(display, masses.Start, ValueColumn);
        table.Row("strained", masses.Strained);
        table.Row("past the cloth", masses.Bypassed);
        table.Row("on the floor", masses.Spilled);
        table.Row("on the strainer", masses.HeldOnCloth);
        table.Row("on the tank's wall", masses.HeldInFilm);
        table.Row("in the tank", masses.HeldInTank);
        table.WriteTo(page);
    }

    /// <summary>What was assumed and how units were read.</summary>
    /// <param name="page">Takes the text.</param>
    /// <param name="display">Units.</param>
    /// <param name="journal">Journal of the input.</param>
    public static void WriteAssumptions(IPage page, Display display, Journal journal)
    {
        if (journal.Assumptions.Count + journal.Echoes.Count == 0)
            return;
        page.Heading("Assumed (a key in the file replaces it)", PagePart.Assumed);
        foreach (string echo in journal.Echoes)
            page.Item("- ", echo);
        foreach (Assumption assumption in journal.Assumptions)
            page.Assumed(display.Words(assumption.Text), assumption.Standing, assumption.Key);
        page.Blank();
    }

    /// <summary>Reminders for those at work.</summary>
    /// <param name="page">Takes the text.</param>
    /// <param name="display">Units.</param>
    /// <param name="cautions">Reminders.</param>
    public static void WriteCautions(IPage page, Display display, IReadOnlyList<Caution> cautions)
    {
        if (cautions.Count == 0)
            return;
        page.Heading("Mind", PagePart.Mind);
        foreach (Caution caution in cautions)
            page.Caution(display.Words(caution.Text), caution.Source);
        page.Blank();
    }

    /// <summary>What to do next, numbered.</summary>
    /// <param name="page">Takes the text.</param>
    /// <param name="steps">Steps.</param>
    public static void WriteNextSteps(IPage page, IReadOnlyList<string> steps)
    {
        if (steps.Count == 0)
            return;
        page.Heading("What to do next", PagePart.Next);
        page.Steps(steps);
    }
}
