using UnitsNet;
using static System.FormattableString;

namespace FlowSim.Bottling;

/// <summary>A net weight in both systems, as labels print it: three figures, rounded down so that no label promises more than is in the jar.</summary>
/// <remarks>Where the two do not agree to the last figure, the larger may be what counts; local law decides.</remarks>
public sealed record NetWeightLabel
{
    /// <summary>Where the rounding comes from.</summary>
    public static Source Source { get; } = new(
        "NIST, Fact Sheet on Metric Labeling for Consumer Packages: rounded declarations must in no case overstate, and the larger of the two counts (read in a copy)",
        Standing.SecondaryCopy);

    /// <summary>Grams or kilograms.</summary>
    public required string Metric { get; init; }

    /// <summary>Ounces, with pounds beside them from one pound.</summary>
    public required string Customary { get; init; }

    /// <summary>Writes a net weight.</summary>
    /// <param name="netWeight">Net weight. 1 g to 100 kg.</param>
    /// <exception cref="ArgumentOutOfRangeException">The weight is out of its range.</exception>
    public static NetWeightLabel Of(Mass netWeight)
    {
        double grams = EquipmentCheck.Within(netWeight.Grams, 1, 100_000, "g", nameof(netWeight));
        double ounces = RoundedDown(netWeight.Ounces);
        double pounds = Math.Floor(ounces / 16), rest = Math.Round(ounces - 16 * pounds, 2);
        string inPounds = rest > 0 ? Invariant($"{pounds:0} lb {rest:0.##} oz") : Invariant($"{pounds:0} lb");
        double metric = RoundedDown(grams);
        return new NetWeightLabel
        {
            Metric = metric < 1000 ? Invariant($"{metric:0.##} g") : Invariant($"{metric / 1000:0.##} kg"),
            // Below an ounce three figures need more places.
            Customary = pounds > 0 ? Invariant($"{ounces:0.##} oz ({inPounds})") : Invariant($"{ounces:0.####} oz"),
        };
    }

    /// <summary>Three figures, downwards; what is a last digit of a unit's conversion below a round figure is that figure.</summary>
    private static double RoundedDown(double value)
    {
        double unit = Math.Pow(10, Math.Floor(Math.Log10(value * (1 + 1e-9))) - 2);
        return Math.Floor(value / unit + 1e-6) * unit;
    }
}
