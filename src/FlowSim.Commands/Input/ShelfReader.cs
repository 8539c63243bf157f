using FlowSim.ShelfLife;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>Reads what is known of a honey that is to stand on a shelf.</summary>
internal static class ShelfReader
{
    /// <summary>Reads <c>[honey]</c> and <c>[shelf]</c>.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The question; null when something is wrong.</returns>
    public static ShelfQuestion? Read(InputDocument document, Problems problems, Journal journal)
    {
        SetupReader.RefuseStrangeSections(document, problems);
        Section honey = new("honey", document, problems, journal), shelf = new("shelf", document, problems, journal);
        honey.KnowAll();
        double? moisture = honey.Quantity(Keys.Honey.Moisture);
        honey.RefuseStrangers();
        if (!honey.Has(Keys.Honey.Moisture))
            honey.Missing(Keys.Honey.Moisture, "\"17.8 %\"");
        double? yeasts = shelf.Number(Keys.Shelf.Yeasts), glucose = shelf.Quantity(Keys.Shelf.Glucose), crystals = shelf.Quantity(Keys.Shelf.Crystals);
        shelf.RefuseStrangers();
        return problems.Any || moisture is not { } water ? null : new ShelfQuestion
        {
            Moisture = Ratio.FromDecimalFractions(water),
            YeastsPerGram = yeasts,
            Glucose = glucose is { } sugar ? Ratio.FromDecimalFractions(sugar) : null,
            Crystals = Ratio.FromDecimalFractions(crystals ?? 0),
        };
    }
}
