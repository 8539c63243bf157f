using System.Globalization;
using FlowSim.OverflowRisk;

namespace FlowSim.Console.Output;

/// <summary>Chances in the words that people judge them by.</summary>
internal static class ChanceText
{
    /// <summary>Chance from which "37 in 100" says more than "1 in 3". Engineering choice.</summary>
    private const double InHundredFrom = 0.2;

    /// <summary>A chance with its interval, as in "about 1 in 40 (1 in 52 to 1 in 33)".</summary>
    /// <param name="chance">Chance.</param>
    public static string Of(ProbabilityEstimate chance)
    {
        if (chance.Value <= 0)
            return string.Create(CultureInfo.InvariantCulture, $"none in {chance.Runs} runs (at most {Words(chance.High)})");
        if (chance.Value >= 1)
            return string.Create(CultureInfo.InvariantCulture, $"all of {chance.Runs} runs (at least {Words(Math.Min(chance.Low, 0.99))})");
        string low = Words(chance.Low);
        string high = Words(chance.High);
        string middle = Words(chance.Value);
        if (low == middle && middle == high)
            return "about " + middle;
        const string Hundred = " in 100";
        if (low.EndsWith(Hundred, StringComparison.Ordinal) && high.EndsWith(Hundred, StringComparison.Ordinal))
            low = low[..^Hundred.Length];
        return $"about {middle} ({low} to {high})";
    }

    /// <summary>A chance alone.</summary>
    /// <param name="chance">Chance, 0 to 1.</param>
    public static string Words(double chance)
    {
        if (chance <= 0)
            return "none";
        if (chance < InHundredFrom)
            return string.Create(CultureInfo.InvariantCulture, $"1 in {double.Parse(Display.Figures(1 / chance, 2), CultureInfo.InvariantCulture):0.#}");
        double hundredths = Math.Round(100 * chance, MidpointRounding.AwayFromZero);
        if (chance < 1 && hundredths >= 100)
            return "more than 99 in 100";
        return string.Create(CultureInfo.InvariantCulture, $"{hundredths:0} in 100");
    }

    /// <summary>A chance as a percentage of two figures.</summary>
    /// <param name="chance">Chance, 0 to 1.</param>
    public static string Percent(double chance) =>
        double.Parse(Display.Figures(100 * chance, 2), CultureInfo.InvariantCulture).ToString("0.########", CultureInfo.InvariantCulture) + " %";
}
