using FlowSim.Bottling;
using static System.FormattableString;

namespace FlowSim.Commands.Output;

/// <summary>A filling as text: setup, jars, when to shut, net weight, masses, assumptions, notices, cautions, and last the result with what to do next.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class FillingText(IPage page, Display display)
{
    private const int ValueColumn = 22;

    public void Write(FillingStory story)
    {
        WriteDetails(story);
        WriteOutcome(story);
    }

    /// <summary>All but the result.</summary>
    /// <param name="story">Filling.</param>
    public void WriteDetails(FillingStory story)
    {
        FillingResult result = story.Band.Likely;
        WriteSetup(story.Name, result);
        WriteTimes(result);
        WriteNetWeight(result);
        WriteLeak(result);
        WriteMasses(result.Masses);
        ResultText.WriteAssumptions(page, display, story.Journal);
        ResultText.WriteNotices(page, display, result.Notices);
        ResultText.WriteCautions(page, display, result.Cautions);
    }

    /// <summary>The result and what to do next, alone.</summary>
    /// <param name="story">Filling.</param>
    public void WriteOutcome(FillingStory story)
    {
        FillingResult result = story.Band.Likely;
        page.Heading("Result", PagePart.Result);
        page.Outcome(Outcome(result), result.Status is FillingStatus.TooSlow or FillingStatus.JarTooSmall || result.Headspace.Verdict != HeadspaceVerdict.Fits);
        if (result.Jars > 0)
        {
            page.Item("", Invariant($"{result.JarsPerHour:0} jars an hour, {result.CasesPerHour:0.#} cases; a jar fills in {Display.Time(result.FillTimes!.First.Seconds)} at first and {Display.Time(result.FillTimes.Last.Seconds)} at last."));
            if (story.Band.Slow.Elapsed > story.Band.Quick.Elapsed)
                page.Item("", $"If the honey is as thin or thick as one in ten of its moisture: {Display.RoughTime(story.Band.Quick.Elapsed.Seconds)} to {Display.RoughTime(story.Band.Slow.Elapsed.Seconds)}{Fewer(story.Band)}.");
            page.Item("", $"Given away: {display.SmallMass(result.Target.AboveLabel.Kilograms)} a jar, {display.Mass(result.GivenAwayPerDay.Kilograms)} in {Display.Time(result.Setup.WorkDay.Seconds)} at this rate; {display.Mass(result.SavedPerDayAtHalfScatter.Kilograms)} less if fills scattered half as much.");
        }

        ResultText.WriteNextSteps(page, story.NextSteps);
    }

    private string Outcome(FillingResult result)
    {
        string jars = Invariant($"{Count(result.Jars)} of {display.SmallMass(result.Target.Question.Label.Kilograms)}");
        string cases = result.Cases > 0 ? Invariant($" ({result.Cases} {(result.Cases == 1 ? "case" : "cases")}{(result.LooseJars > 0 ? Invariant($" and {result.LooseJars} over") : "")})") : "";
        string left = display.Mass((result.Masses.Rest + result.Masses.Heel + result.Masses.Film).Kilograms);
        return result.Status switch
        {
            FillingStatus.JarTooSmall => $"DOES NOT GO IN: the jar holds {display.SmallVolume(result.Headspace.Jar.Brimful.CubicMeters)}, the fill takes {display.SmallVolume(result.Headspace.HoneyAtFilling.CubicMeters)}.",
            FillingStatus.TooSlow => $"TOO SLOW: {jars}{cases} in {Display.Time(result.Elapsed.Seconds)}, then the next would take longer than {Display.Time(result.Setup.LongestFill.Seconds)}; {left} stay in the tank.",
            _ => $"FILLS {jars}{cases} in {Display.Time(result.Elapsed.Seconds)}; {left} stay in the tank.",
        };
    }

    private static string Fewer(FillingBand band) => band.Slow.Jars < band.Likely.Jars ? Invariant($", and {Count(band.Likely.Jars - band.Slow.Jars)} fewer when thick") : "";

    private static string Count(int jars) => Invariant($"{jars} {(jars == 1 ? "jar" : "jars")}");

    private void WriteSetup(string name, FillingResult result)
    {
        FillingSetup setup = result.Setup;
        Headspace room = result.Headspace;
        page.Heading(Printable.Of(name, 70), PagePart.Setup);
        page.Pair("Honey", $"{Display.Share(setup.Honey.Moisture.DecimalFractions)} moisture at {display.Temperature(setup.Temperature.Kelvins)}, {Display.Viscosity(result.StartViscosity.PascalSeconds)}", ValueColumn);
        page.Pair("Tank", $"{display.Mass(result.Masses.Start.Kilograms)}, {display.Length(setup.Tank.Level.Meters - setup.Tank.GateHeight.Meters)} above the gate{(setup.Tank.HeldAtTemperature ? ", held warm" : "")}", ValueColumn);
        page.Pair("Gate", $"{display.Length(setup.Gate.Bore.Meters)} bore, {display.Length(setup.Gate.TubeLength.Meters)} tube, {Display.Share(setup.Opening.DecimalFractions)} open", ValueColumn);
        page.Pair("Jar", $"{display.SmallVolume(room.Jar.Brimful.CubicMeters)} to the brim; the fill takes {display.SmallVolume(room.HoneyAtFilling.CubicMeters)}", ValueColumn);
        page.Pair("  room in it", $"{Display.Share(room.ShareAtFilling.DecimalFractions)} when filled{(room.DepthAtFilling is { } depth && depth.Meters >= 0 ? $" ({display.Length(depth.Meters)} below the brim)" : "")}, {Display.Share(room.ShareAtHottest.DecimalFractions)} at {display.Temperature(room.Hottest.Kelvins)}: {Fit(room)}", ValueColumn);
        page.Blank();
    }

    private string Fit(Headspace room) => room.Verdict switch
    {
        HeadspaceVerdict.Fits => $"within the limit you set, {Display.Share(room.Least.DecimalFractions)}; at most {display.SmallMass(room.Most.Kilograms)}",
        HeadspaceVerdict.TooTight => $"less than the {Display.Share(room.Least.DecimalFractions)} asked for",
        _ => "it cannot be held",
    };

    private void WriteTimes(FillingResult result)
    {
        if (result.FillTimes is not { } times || result.CutOffs is not { } cut)
            return;
        TextTable table = new("When to shut the gate", new(string.Empty, ValueColumn) { Spoken = "of a jar" }, new("first jar", 16), new("middle", 16), new("last"));
        Row("time to fill", times.First, times.Median, times.Last, time => Display.Time(time.Seconds));
        Row("in the air", cut.First, cut.Median, cut.Last, c => display.SmallMass(c.InTheAir.Kilograms));
        Row("while shutting", cut.First, cut.Median, cut.Last, c => display.SmallMass(c.WhileClosing.Kilograms));
        Row("shut early by", cut.First, cut.Median, cut.Last, c => display.SmallMass(c.Lead.Kilograms));
        Row("on a scale by", cut.First, cut.Median, cut.Last, c => display.SmallMass(c.LeadOnScale.Kilograms));
        Row("by the clock", cut.First, cut.Median, cut.Last, c => Display.Time(c.LeadTime.Seconds));
        Row("let it drip for", cut.First, cut.Median, cut.Last, c => Display.Time(c.Wait.Seconds));
        page.Table(table);
        page.Item("", "A scale feels the stream's push and not what hangs on the gate, so it is ahead of what is in the jar; below 0, let it show more than the target.");
        page.Blank();

        void Row<T>(string name, T first, T middle, T last, Func<T, string> text) => table.Row(name, text(first), text(middle), text(last));
    }

    private void WriteNetWeight(FillingResult result)
    {
        TargetFill target = result.Target;
        page.Caption("net weight");
        page.Pair("  label", $"{result.Label.Metric}, {result.Label.Customary}, rounded down; local law decides", ValueColumn);
        page.Pair("  target fill", $"{display.SmallMass(target.Target.Kilograms)}: {Why(target)}", ValueColumn);
        page.Pair("  scatter", $"{display.SmallMass(target.ScatterUsed.Kilograms)}{(target.Question.ScatterFrom is { } from ? Invariant($", the upper limit from {from} jars") : "")}; half of it would need {display.SmallMass(target.TargetAtHalfScatter.Kilograms)}", ValueColumn);
        page.Pair("  rule", $"{target.Question.Rule.Name}, lot of {target.Question.Lot}{(target.TolerableShortfall is { } error ? $", one jar may be {display.SmallMass(error.Kilograms)} short" : "")}: broken by at most {Display.Share(target.ChanceLotBreaks.DecimalFractions)} of such lots, within the limit you set", ValueColumn);
        if (target.Plan is { } plan)
            page.Pair("  officials' samples", Invariant($"{plan.First} jars, then {plan.Second} more: the count passes {Display.Share(target.ChanceCountAccepted?.DecimalFractions ?? 1)} of such lots, the average {Display.Share(target.ChanceAverageAccepted!.Value.DecimalFractions)}"), ValueColumn);
        page.Blank();
    }

    private static string Why(TargetFill target) => target.Binds switch
    {
        FillLimit.Average => "the lot's average decides",
        FillLimit.SingleJars => "single short jars decide",
        _ => "the label, for fills do not scatter",
    };

    private void WriteLeak(FillingResult result)
    {
        if (result.Leak is not { } leak)
            return;
        page.Pair("leak when shut", $"{display.SmallMass(leak.PerHour.Kilograms)} an hour, {display.SmallMass(leak.OverNight.Kilograms)} in {Display.Time(result.Setup.Night.Seconds)}; {display.SmallMass(leak.OverNightTightened.Kilograms)} with half the gap{(leak.OverNightWarmer is { } warmer ? $", {display.SmallMass(warmer.Kilograms)} when {display.TemperatureDifference(5)} warmer" : "")}", ValueColumn);
        page.Blank();
    }

    private void WriteMasses(FillingMasses masses)
    {
        MassTable table = new(display, masses.Start, ValueColumn);
        table.Row("in jars", masses.InJars);
        table.Row("  above the label", masses.GivenAway);
        table.Row("dripped", masses.Drips);
        table.Row("on the tank's wall", masses.Film);
        table.Row("not a jar's worth", masses.Rest);
        table.Row("below the gate", masses.Heel);
        table.WriteTo(page);
    }
}
