using System.Globalization;
using FlowSim.Screens;
using FlowSim.Settling;
using UnitsNet;

namespace FlowSim.Commands.Output;

/// <summary>A settling run as text: setup, what is left, scum, heat, assumptions, notices, cautions, and last the result with what to do next.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class SettlingText(IPage page, Display display)
{
    private const int ValueColumn = 22;
    private const int MatterColumn = 16;

    public void Write(SettleStory story)
    {
        WriteDetails(story);
        WriteOutcome(story);
    }

    /// <summary>All but the result.</summary>
    /// <param name="story">Run.</param>
    public void WriteDetails(SettleStory story)
    {
        WriteSetup(story);
        WriteLeft(story.Result);
        WriteGathered(story);
        ResultText.WriteAssumptions(page, display, story.Journal);
        ResultText.WriteNotices(page, display, story.Notices);
        ResultText.WriteCautions(page, display, story.Result.Cautions);
    }

    /// <summary>The result and what to do next, alone.</summary>
    /// <param name="story">Run.</param>
    public void WriteOutcome(SettleStory story)
    {
        SettlingResult result = story.Result;
        page.Heading("Result", PagePart.Result);
        page.Outcome(Outcome(result), result.Status != SettlingStatus.Clear);
        if (story.Band is { } band && BandSentence(band) is { } sentence)
            page.Item("", sentence);
        page.Item("", LeftSentence(result));
        if (result.Scum.Thickness > Length.Zero)
            page.Item("", $"The scum is then {display.Length(result.Scum.Thickness.Meters)} thick; skimming it takes {HoneyIn(result.Scum)} along.");
        page.Item("", $"Meanwhile the heat adds HMF {DamageText.Hmf(story.Damage)} and leaves {DamageText.Diastase(story.Damage)} of the diastase.");
        ResultText.WriteNextSteps(page, story.NextSteps);
    }

    private void WriteSetup(SettleStory story)
    {
        SettlingResult result = story.Result;
        SettlingSetup setup = result.Setup;
        page.Heading(Printable.Of(story.Name, 70), PagePart.Setup);
        double startK = result.StartTemperature.Kelvins;
        page.Pair("Honey", $"{Display.Share(setup.Honey.Moisture.DecimalFractions)} moisture, {display.Temperature(startK)} at the start, {Display.Viscosity(result.StartViscosity.PascalSeconds)}", ValueColumn);
        page.Pair("Layer", display.Length(setup.Depth.Meters) + " deep" + (setup.HoneyMass is { } mass ? ", " + display.Mass(mass.Kilograms) : string.Empty), ValueColumn);
        if (setup.Bubbles is { } bubbles && result.Bubbles is { } risen)
            page.Pair("Bubbles", $"{Display.Share(bubbles.Load.DecimalFractions)} of the volume, {Size(bubbles.MedianSize)} median, {Speed(risen)}", ValueColumn);
        if (setup.Debris is { } debris && result.Debris is { } gone)
            page.Pair("Debris", $"{Load(debris)}, {Size(debris.MedianSize)} median, {Speed(gone)}", ValueColumn);
        page.Blank();
    }

    private void WriteLeft(SettlingResult result)
    {
        SettledMatter?[] kinds = [result.Bubbles, result.Debris];
        string[] heads = ["bubbles", "debris"];
        string after = "after " + Display.Time(result.Setup.StandsFor.Seconds);
        TextTable table = new(
            "What is left " + after,
            [new(after, ValueColumn), .. heads.Where((_, i) => kinds[i] is not null).Select(head => new TextColumn(head, MatterColumn))]);
        Row("left", matter => Left(matter.Left));
        Row("largest left", matter => matter.LargestLeft is { } size ? Size(size) : "-");
        Row("clear depth", matter => display.Length(matter.ClearDepth.Meters));
        Row("all clear after", matter => matter.ClearAfter is { } at ? Display.Time(at.Seconds) : "-");
        page.Table(table);
        page.Blank();

        void Row(string name, Func<SettledMatter, string> text) => table.Row([name, .. kinds.OfType<SettledMatter>().Select(text)]);
    }

    private void WriteGathered(SettleStory story)
    {
        SettlingResult result = story.Result;
        page.Pair("scum on top", Gathered(result.Scum), ValueColumn);
        if (result.Sediment.Thickness > Length.Zero)
            page.Pair("on the floor", Gathered(result.Sediment), ValueColumn);
        if (result.DebrisLeft is { } left)
            page.Pair("left for a strainer", $"{Load(left)} of debris, {Size(left.MedianSize)} median, ln-spread {left.SizeSpread.ToString("0.##", CultureInfo.InvariantCulture)}", ValueColumn);
        page.Pair("what the heat costs", $"HMF {DamageText.Hmf(story.Damage)}, diastase left {DamageText.Diastase(story.Damage)}", ValueColumn);
        page.Blank();
    }

    private string Gathered(Deposit deposit) => deposit.Thickness > Length.Zero ? $"{display.Length(deposit.Thickness.Meters)} thick, {HoneyIn(deposit)} in it" : "none";

    private string HoneyIn(Deposit deposit) =>
        (deposit.Honey is { } honey ? display.Mass(honey.Kilograms) + $" ({SmallShare(deposit.HoneyShare)})" : SmallShare(deposit.HoneyShare)) + " of the honey";

    /// <summary>A share that is left; a little is not nothing.</summary>
    /// <param name="share">Share.</param>
    public static string Left(Ratio share) => share.Percent is > 0 and < 0.05 ? "under 0.1 %" : Display.Share(share.DecimalFractions);

    private static string SmallShare(Ratio share) => Display.Figures(share.Percent, 2) + " %";

    private static string Outcome(SettlingResult result)
    {
        string stood = Display.Time(result.Setup.StandsFor.Seconds);
        string what = result.Setup.ClearOf switch
        {
            ClearOf.Bubbles => " of bubbles",
            ClearOf.Debris => " of debris",
            _ => string.Empty,
        };
        return (result.Status, result.ClearAfter) switch
        {
            (SettlingStatus.Clear, { } clear) => $"CLEAR{what} after {Display.RoughTime(clear.Seconds)}, of {stood} that it stands.",
            (_, { } clear) => $"NOT CLEAR{what} after {stood}; it would be after {Display.RoughTime(clear.Seconds)}.",
            _ => $"NOT CLEAR{what} after {stood}, nor within {Display.Time(Math.Max(result.Setup.StandsFor.Seconds, result.Setup.Longest.Seconds))}, as far ahead as was looked.",
        };
    }

    private string LeftSentence(SettlingResult result)
    {
        List<string> left = [];
        if (result.Bubbles is { } bubbles)
            left.Add($"{Left(bubbles.Left)} of the bubbles{Largest(bubbles)}");
        if (result.Debris is { } debris)
            left.Add($"{Left(debris.Left)} of the debris{Largest(debris)}");
        return $"When it has stood, {string.Join(" and ", left)} are left in the honey.";
    }

    private string Largest(SettledMatter matter) => matter.LargestLeft is { } size && matter.Left > Ratio.Zero ? $" (none above {Size(size)})" : string.Empty;

    private static string? BandSentence(SettlingBand band)
    {
        const string If = "If viscosity and sizes differ as they commonly do: clear after ";
        return (band.Quick, band.Slow) switch
        {
            ({ } quick, { } slow) => $"{If}{Display.RoughTime(quick.Seconds)} to {Display.RoughTime(slow.Seconds)}.",
            ({ } quick, null) => $"{If}{Display.RoughTime(quick.Seconds)} at best, in other cases not within the time looked ahead.",
            _ => null,
        };
    }

    private string Speed(SettledMatter matter)
    {
        string way = matter.Direction switch { SettlingDirection.Rises => "rises", SettlingDirection.Sinks => "sinks", _ => "stays" };
        return matter.Direction == SettlingDirection.Stays ? way : $"{way} {display.Length(matter.MedianSpeed.MetersPerSecond * 3600)} an hour";
    }

    private static string Load(Debris debris) => Display.Figures(debris.Load.PartsPerThousand, 2) + " g/kg";

    private string Size(Length size) => display.System == UnitChoice.Us
        ? Display.Figures(size.Inches, 2) + " in"
        : Display.Figures(size.Millimeters, 2) + " mm";
}
