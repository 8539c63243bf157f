using FlowSim.Commands.Input;
using FlowSim.Properties;
using FlowSim.ShelfLife;
using static System.FormattableString;

namespace FlowSim.Commands.Output;

/// <summary>Notes for the shelf as text.</summary>
/// <param name="page">Takes the text.</param>
/// <param name="display">Units.</param>
internal sealed class ShelfText(IPage page, Display display)
{
    private const int ValueColumn = 22;

    public void Write(ShelfNotes notes, Loaded loaded)
    {
        page.Heading(Printable.Of(loaded.Name, 70), PagePart.Setup);
        page.Pair("Honey", $"{Display.Share(notes.Question.Moisture.DecimalFractions)} moisture{(notes.Question.YeastsPerGram is { } yeasts ? Invariant($", {yeasts:0.###} yeasts in a gram") : ", yeasts not counted")}{(notes.Question.Glucose is { } glucose ? $", {Display.Share(glucose.DecimalFractions)} glucose" : ", glucose not measured")}", ValueColumn);
        page.Pair("fermentation", $"{Ferments(notes.Fermentation)}{Limit(notes.Class)}", ValueColumn);
        page.Pair("  once granulated", $"between {Display.Share(notes.LiquorCrystals.DecimalFractions)} crystals {Display.Share(notes.LiquorMoisture.DecimalFractions)} moisture: {Ferments(notes.LiquorFermentation)}", ValueColumn);
        page.Pair("water activity", Invariant($"{notes.WaterActivity.Value:0.00}, between {notes.WaterActivity.Low:0.00} and {notes.WaterActivity.High:0.00}"), ValueColumn);
        page.Pair("granulation", notes.GlucoseOverWater is { } ratio ? Invariant($"glucose/water {ratio:0.00}: {Granulates(notes.Tendency)}") : "unknown without the glucose content; a floral name does not tell it", ValueColumn);
        page.Blank();
        page.Heading("Where that comes from");
        foreach (Source source in new[] { FermentationClasses.Source, HoneyWaterActivity.Source, Granulation.Source })
            page.Item("- ", $"{source.Citation} [{StandingText.Of(source.Standing)}]");
        page.Blank();
        foreach (string echo in loaded.Journal.Echoes)
            page.Item("- ", echo);
        ResultText.WriteNotices(page, display, notes.Notices);
        ResultText.WriteCautions(page, display, notes.Cautions);
        WriteOutcome(notes);
    }

    /// <summary>The result alone.</summary>
    /// <param name="notes">Notes.</param>
    public void WriteOutcome(ShelfNotes notes)
    {
        page.Heading("Result", PagePart.Result);
        page.Outcome(notes.Fermentation switch
        {
            FermentationRisk.NotExpected => "KEEPS, as honeys like it did for a year; once it granulates: " + Ferments(notes.LiquorFermentation) + ".",
            FermentationRisk.Likely => "MAY FERMENT: honeys like it did within a year.",
            _ => Invariant($"DEPENDS ON THE YEASTS: it keeps if fewer than {notes.Class.YeastsBelowPerGram:0} are in a gram."),
        }, notes.Fermentation == FermentationRisk.Likely);
        page.Item("", notes.Tendency switch
        {
            GranulationTendency.Unknown => "How soon it granulates cannot be told without its glucose content.",
            _ => "Granulation: " + Granulates(notes.Tendency) + ".",
        });
    }

    private static string Limit(FermentationClass row) => row.YeastsBelowPerGram switch
    {
        double.PositiveInfinity => " at any number of yeasts",
        <= 0 => " at any number of yeasts",
        double below => Invariant($"; the class keeps with fewer than {below:0} yeasts in a gram"),
    };

    private static string Ferments(FermentationRisk risk) => risk switch
    {
        FermentationRisk.NotExpected => "not expected to ferment within a year",
        FermentationRisk.Likely => "liable to ferment within a year",
        _ => "depends on the yeasts",
    };

    private static string Granulates(GranulationTendency tendency) => tendency switch
    {
        GranulationTendency.Slow => "stays liquid for long",
        GranulationTendency.Between => "between slow and fast",
        _ => "soon",
    };
}
