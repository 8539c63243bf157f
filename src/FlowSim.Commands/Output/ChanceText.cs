using System.Globalization;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Output;

/// <summary>Chances in the words that people judge them by.</summary>
internal static class ChanceText
{
    /// <summary>Chance from which "37 in 100" says more than "1 in 3". Engineering choice.</summary>
    private const double InHundredFrom = 0.2;

    /// <summary>Chance below which no spread of a honey house supports a figure. Engineering choice: the least tolerance that can be set.</summary>
    private const double Least = 1e-6;

    /// <summary>Chance that rounds to every run.</summary>
    private const double Most = 0.995;

    private const string Hundred = " in 100";

    /// <summary>A chance with its interval, as in "about 1 in 40 (1 in 52 to 1 in 33)".</summary>
    /// <param name="chance">Chance.</param>
    public static string Of(ProbabilityEstimate chance)
    {
        if (chance.High < Least)
            return Words(Least / 2);
        if (chance.Value <= 0)
            return string.Create(CultureInfo.InvariantCulture, $"none in {chance.Runs} runs (at most {Words(chance.High)})");
        if (chance.Value < Least)
            return $"{Words(chance.Value)} (at most {Words(chance.High)})";
        if (chance.Value >= Most)
            return chance.Low >= Most ? Words(chance.Value) : $"{Words(chance.Value)} (at least {Words(chance.Low)})";
        string low = Words(chance.Low);
        string high = Words(chance.High);
        string middle = Words(chance.Value);
        if (low == middle && middle == high)
            return "about " + middle;
        bool alike = chance.High < Most && low.EndsWith(Hundred, StringComparison.Ordinal) && high.EndsWith(Hundred, StringComparison.Ordinal);
        return $"about {middle} ({(alike ? low[..^Hundred.Length] : low)} to {high})";
    }

    /// <summary>A chance alone.</summary>
    /// <param name="chance">Chance, 0 to 1.</param>
    public static string Words(double chance) => chance switch
    {
        <= 0 => "none",
        < Least => string.Create(CultureInfo.InvariantCulture, $"less than 1 in {1 / Least:0}"),
        < InHundredFrom => string.Create(CultureInfo.InvariantCulture, $"1 in {double.Parse(Display.Figures(1 / chance, 2), CultureInfo.InvariantCulture):0.#}"),
        < Most => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(100 * chance, MidpointRounding.AwayFromZero):0}{Hundred}"),
        < 1 => "more than 99" + Hundred,
        _ => "all",
    };

    /// <summary>A chance as a percentage of two figures.</summary>
    /// <param name="chance">Chance, 0 to 1.</param>
    public static string Percent(double chance) =>
        double.Parse(Display.Figures(100 * chance, 2), CultureInfo.InvariantCulture).ToString("0.########", CultureInfo.InvariantCulture) + " %";
}
