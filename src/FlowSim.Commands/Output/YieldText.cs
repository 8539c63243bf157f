using FlowSim.Screens;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>A whole job as text: steps, account, what standing longer saves, assumptions, notices, cautions, and last the result with what would recover most.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class YieldText(IPage page, Display display)
{
    private const int ValueColumn = 32;

    public void Write(JobStory story)
    {
        WriteDetails(story);
        WriteOutcome(story);
    }

    /// <summary>All but the result.</summary>
    /// <param name="story">Job.</param>
    public void WriteDetails(JobStory story)
    {
        page.Heading(Printable.Of(story.Name, 70), PagePart.Setup);
        WriteSteps(story.Result);
        WriteAccount(story.Result.Account);
        WriteStanding(story);
        ResultText.WriteAssumptions(page, display, story.Journal);
        ResultText.WriteNotices(page, display, story.Result.Notices);
        ResultText.WriteCautions(page, display, story.Result.Cautions);
    }

    /// <summary>The result and what would recover most, alone.</summary>
    /// <param name="story">Job.</param>
    public void WriteOutcome(JobStory story)
    {
        JobResult job = story.Result;
        page.Heading("Result", PagePart.Result);
        page.Outcome(Outcome(job), job.Total is null || RunsOver(job));
        foreach (JobStep step in job.Steps.Where(step => step.Times is null))
            page.Item("", $"{Capital(Name(step.Kind))} does not come to its end: {step.Never}.");
        if (job.Total is { } total)
            page.Item("", $"All steps one after the other take {Display.RoughTime(total.Likely.Seconds)}, {Display.RoughTime(total.Quick.Seconds)} to {Display.RoughTime(total.Slow.Seconds)} as honey and kit may differ.");
        if (RunsOver(job))
            page.Item("", $"{display.Mass((job.Account.Unstrained + job.Account.Of(JobPlace.Floor)).Kilograms)} went past the cloth or onto the floor.");
        ResultText.WriteNextSteps(page, [.. Overflow(job), .. job.Recoveries.Take(3).Select(recovery => $"{recovery.How} {Capital(PlaceName(recovery.Place))}: up to {display.Mass(recovery.Mass.Kilograms)}.")]);
    }

    private static bool RunsOver(JobResult job) => job.Straining.Overflows.Count > 0 || job.Straining.Masses.SpilledAtReceiver > Mass.Zero;

    private static IEnumerable<string> Overflow(JobResult job)
    {
        if (RunsOver(job))
            yield return "The strainer must not run over: \"flowsim strain\" with this file says how far to open the gate.";
    }

    private void WriteSteps(JobResult job)
    {
        TextTable table = new("How long each step takes", new("step", ValueColumn), new("likely", 16), new("if quick", 16), new("if slow"));
        foreach (JobStep step in job.Steps)
        {
            if (step.Times is { } times)
                table.Row(Name(step.Kind), Display.Time(times.Likely.Seconds), Display.Time(times.Quick.Seconds), Display.Time(times.Slow.Seconds));
            else
                table.Row(Name(step.Kind), step.Never);
        }

        page.Table(table);
        page.Blank();
    }

    private void WriteAccount(JobAccount account)
    {
        MassTable table = new(display, account.Start, ValueColumn);
        foreach (AccountLine line in account.Lines)
            table.Row(PlaceName(line.Place), line.Mass);
        table.Row("altogether", account.Start);
        table.WriteTo(page);
    }

    private void WriteStanding(JobStory story)
    {
        if (story.Standing.Count == 0)
            return;
        TextTable table = new(
            "What standing longer saves at the strainer",
            new("stands for", 14), new("bits left", 18), new("in the scum", 14), new("95 % strained", 16), new("deepest pond"));
        foreach (StandingChoice choice in story.Standing)
        {
            table.Row(new TextRow(
                [
                    Display.RoughTime(choice.StandsFor.Seconds),
                    choice.DebrisLeft is { } left ? Bits(left) : "-",
                    display.Mass(choice.Scum.Kilograms),
                    choice.StrainTime is { } time ? Display.Time(time.Seconds) : "-",
                    choice.FirstOverflow is null ? display.Length(choice.PeakPond.Meters) : "runs over",
                ],
                Chosen: story.Result.Setup.Settling is { } settling && Math.Abs((choice.StandsFor - settling.StandsFor).Seconds) < 1));
        }

        page.Table(table);
        page.Blank();
    }

    private string Outcome(JobResult job)
    {
        JobAccount account = job.Account;
        string of = $"of {display.Mass(account.Start.Kilograms)}";
        if (job.Setup.Filling is null)
            return $"BOTTLING TANK: {display.Mass(account.Of(JobPlace.BottlingTank).Kilograms)} {of} are in it ({Display.Share(account.Of(JobPlace.BottlingTank) / account.Start)}).";
        return job.Filling is { Jars: > 0 } filled
            ? $"YIELD {Display.Share(account.Yield.DecimalFractions)}: {display.Mass(account.Of(JobPlace.InJars).Kilograms)} {of} are sold by the label, in {Counted(filled.Jars, "jar")}."
            : $"NO JARS: of {display.Mass(account.Start.Kilograms)} none can be filled.";
    }

    private static string Bits(Debris left) =>
        left.Load.PartsPerThousand is > 0 and < 0.001 ? "under 0.001 g/kg" : Display.Figures(left.Load.PartsPerThousand, 2) + " g/kg";

    private static string Counted(int count, string what) => FormattableString.Invariant($"{count} {what}{(count == 1 ? "" : "s")}");

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Name(JobStepKind kind) => kind switch
    {
        JobStepKind.Warm => "warming",
        JobStepKind.Settle => "settling",
        JobStepKind.Strain => "straining",
        _ => "filling",
    };

    private static string PlaceName(JobPlace place) => place switch
    {
        JobPlace.Scum => "skimmed with the scum",
        JobPlace.TankHeel => "in the tank",
        JobPlace.TankFilm => "on the tank's wall",
        JobPlace.Cloth => "on the strainer",
        JobPlace.Floor => "on the floor",
        JobPlace.BottlingTank => "in the bottling tank",
        JobPlace.BottlingHeel => "left in the bottling tank",
        JobPlace.BottlingFilm => "on the bottling tank's wall",
        JobPlace.Drips => "dripped beside the jars",
        JobPlace.InJars => "in jars, by the label",
        _ => "in jars, given away",
    };
}
