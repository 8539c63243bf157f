using FlowSim.Properties;
using UnitsNet;
using static System.FormattableString;

namespace FlowSim.ShelfLife;

/// <summary>What published classes say of a honey on the shelf: fermentation, water activity, granulation. Signs, not promises.</summary>
public sealed record ShelfNotes
{
    /// <summary>Crystals that a honey commonly has once it is set, for the moisture between them: share of mass (from memory: 10 to 20 %).</summary>
    private const double CommonCrystals = 0.15;

    /// <summary>What was asked.</summary>
    public required ShelfQuestion Question { get; init; }

    /// <summary>Class of the whole honey.</summary>
    public required FermentationClass Class { get; init; }

    /// <summary>Whether it is expected to ferment within a year.</summary>
    public required FermentationRisk Fermentation { get; init; }

    /// <summary>Moisture of the liquid between the crystals: those in it, or 15 % once it is set.</summary>
    public required Ratio LiquorMoisture { get; init; }

    /// <summary>Crystals that <see cref="LiquorMoisture"/> is for.</summary>
    public required Ratio LiquorCrystals { get; init; }

    /// <summary>Whether the liquid between those crystals is expected to ferment, if the classes of whole honey are asked for it.</summary>
    public required FermentationRisk LiquorFermentation { get; init; }

    /// <summary>Water activity near 25 °C: low end, value, high end.</summary>
    public required (double Low, double Value, double High) WaterActivity { get; init; }

    /// <summary>Glucose over water; null when the glucose is not known.</summary>
    public required double? GlucoseOverWater { get; init; }

    /// <summary>How soon it is expected to granulate.</summary>
    public required GranulationTendency Tendency { get; init; }

    /// <summary>What the user should know.</summary>
    public required IReadOnlyList<Notice> Notices { get; init; }

    /// <summary>Reminders.</summary>
    public required IReadOnlyList<Caution> Cautions { get; init; }

    /// <summary>Answers a question.</summary>
    /// <param name="question">The question.</param>
    /// <exception cref="ArgumentException">A value is out of its range.</exception>
    public static ShelfNotes Of(ShelfQuestion question)
    {
        EquipmentCheck.Present(question).Require();
        double moisture = question.Moisture.Percent;
        FermentationClass row = FermentationClasses.OfMoistureLochhead1933(moisture);
        Ratio crystals = question.Crystals > Ratio.Zero ? question.Crystals : Ratio.FromDecimalFractions(CommonCrystals);
        Ratio liquor = CrystalLiquor.MoistureOfLiquid(question.Moisture, crystals);
        double activity = HoneyWaterActivity.Chirife2006(moisture);
        (double low, double high) = HoneyWaterActivity.Spread.Around(activity);
        double? ratio = question.Glucose is { } glucose ? glucose.Percent / moisture : null;
        var notes = new ShelfNotes
        {
            Question = question,
            Class = row,
            Fermentation = FermentationClasses.RiskOf(row, question.YeastsPerGram),
            LiquorMoisture = liquor,
            LiquorCrystals = crystals,
            LiquorFermentation = FermentationClasses.RiskOf(FermentationClasses.OfMoistureLochhead1933(liquor.Percent), question.YeastsPerGram),
            WaterActivity = (Math.Max(0, low), activity, Math.Min(1, high)),
            GlucoseOverWater = ratio,
            Tendency = ratio is { } known ? Granulation.OfRatioWhite1962(known) : GranulationTendency.Unknown,
            Notices = [],
            Cautions = [FlowSim.Cautions.Infants, FlowSim.Cautions.LocalRules],
        };
        return notes with { Notices = NoticesOf(notes) };
    }

    private static List<Notice> NoticesOf(ShelfNotes notes)
    {
        var notices = new List<Notice>();
        if (HoneyWaterActivity.MoistureRange.NoticeFor(notes.Question.Moisture.Percent) is { } activity)
            notices.Add(activity);
        if (notes.Question.Glucose is { } glucose && Granulation.GlucoseRange.NoticeFor(glucose.Percent) is { } range)
            notices.Add(range);

        switch (notes.Fermentation)
        {
            case FermentationRisk.Likely:
                notices.Add(new Notice(
                    "shelf.ferments",
                    Invariant($"{notes.Question.Moisture.Percent:0.0} % moisture{Count(notes.Question.YeastsPerGram)}"),
                    "honeys like it were liable to ferment within a year",
                    "sell it soon, keep it below about 10 °C, dry it before it is packed, or heat it as yeasts ask for and count what that costs"));
                break;
            case FermentationRisk.DependsOnYeasts:
                notices.Add(new Notice(
                    "shelf.yeasts",
                    Invariant($"{notes.Question.Moisture.Percent:0.0} % moisture, and nobody counted the yeasts"),
                    Invariant($"it keeps if they are fewer than {notes.Class.YeastsBelowPerGram:0} in a gram; fresh honeys hold from under 1 to 100 000"),
                    "have the yeasts counted, or treat it as honey that may ferment"));
                break;
        }

        if (notes.LiquorFermentation > notes.Fermentation)
        {
            notices.Add(new Notice(
                "shelf.granulated-ferments",
                Invariant($"between {100 * notes.LiquorCrystals.DecimalFractions:0} % crystals the liquid has {notes.LiquorMoisture.Percent:0.0} % moisture"),
                "once it granulates it ferments more readily than it does liquid",
                "keep it liquid, or cold, or sell it before it sets"));
        }

        return notices;
    }

    private static string Count(double? yeasts) => yeasts is { } count ? Invariant($", {count:0.#} yeasts in a gram") : "";
}
