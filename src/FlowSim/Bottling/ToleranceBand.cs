using UnitsNet;

namespace FlowSim.Bottling;

/// <summary>One row of a table of tolerable errors: how far a jar of such a net weight may fall short.</summary>
/// <param name="From">Lowest net weight of the row.</param>
/// <param name="To">Highest net weight of the row; it belongs to the row above, too, where both agree.</param>
/// <param name="Share">Tolerable shortfall as a share of the net weight; null when it is a mass.</param>
/// <param name="Amount">Tolerable shortfall as a mass; null when it is a share.</param>
public sealed record ToleranceBand(Mass From, Mass To, Ratio? Share, Mass? Amount)
{
    /// <summary>Tolerable shortfall of a net weight in this row. A share is rounded up to a tenth of a gram, as the directive asks.</summary>
    /// <param name="netWeight">Net weight.</param>
    internal double GramsFor(Mass netWeight)
    {
        if (Amount is { } amount)
            return amount.Grams;

        // Rounded to a milligram first, or 150 g × 4.5 % would be a last digit above 6.75 and round to more than it should elsewhere.
        double grams = Math.Round(netWeight.Grams * Share!.Value.DecimalFractions, 6);
        return Math.Ceiling(Math.Round(grams * 10, 6)) / 10;
    }
}
