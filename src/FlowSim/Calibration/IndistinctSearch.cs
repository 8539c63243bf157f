using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using MathNet.Numerics.LinearAlgebra;
using static System.FormattableString;

namespace FlowSim.Calibration;

/// <summary>Finds inputs of honey and kit that readings know together better than alone.</summary>
internal static class IndistinctSearch
{
    /// <summary>Correlation from which two inputs go together so closely that neither is known by itself: the other fixed, less than 0.6 of its spread is left (engineering choice).</summary>
    private const double Close = 0.8;

    /// <summary>Share of its spread below which an input is known well enough by itself, whatever goes with it (engineering choice).</summary>
    private const double WellKnown = 0.25;

    /// <summary>The groups, the least known first.</summary>
    /// <param name="inputs">Shared inputs, in the order of the scores.</param>
    /// <param name="correlations">Correlations of their scores.</param>
    public static IReadOnlyList<IndistinctInputs> Find(IReadOnlyList<FittedInput> inputs, IReadOnlyList<IReadOnlyList<double>> correlations)
    {
        var groups = new List<(double Left, IndistinctInputs Group)>();
        bool[] placed = new bool[inputs.Count];
        for (int first = 0; first < inputs.Count; first++)
        {
            List<int> group = [first];
            for (int next = 0; next < group.Count; next++)
            {
                for (int other = 0; other < inputs.Count; other++)
                {
                    if (!placed[other] && !group.Contains(other) && Math.Abs(correlations[group[next]][other]) >= Close && inputs[other].Left > WellKnown && inputs[group[next]].Left > WellKnown)
                        group.Add(other);
                }
            }

            if (placed[first] || group.Count < 2)
                continue;
            foreach (int member in group)
                placed[member] = true;
            groups.Add((group.Max(i => inputs[i].Left), new IndistinctInputs([.. group.Select(i => inputs[i].Input)], Words(group, inputs, correlations))));
        }

        return [.. groups.OrderByDescending(group => group.Left).Select(group => group.Group)];
    }

    private static string Words(List<int> group, IReadOnlyList<FittedInput> inputs, IReadOnlyList<IReadOnlyList<double>> correlations)
    {
        string together = "only what they do together is known";
        if (group.Count == 2 && LogSd(inputs[group[0]]) is { } one && LogSd(inputs[group[1]]) is { } other)
        {
            double r = correlations[group[0]][group[1]];
            double sd = Math.Sqrt(Math.Max(0, (one * one) + (other * other) - (2 * Math.Abs(r) * one * other)));
            together = Invariant($"their {(r < 0 ? "product" : "ratio")} is known to {100 * sd:0.#} %, each alone to {100 * one:0.#} and {100 * other:0.#} %");
        }

        return $"{together}. {Remedy([.. group.Select(i => inputs[i].Input)])}";
    }

    /// <summary>Standard deviation of ln of an input that is a factor.</summary>
    private static double? LogSd(FittedInput input) => input.Low > 0 ? Math.Log(input.High / input.Low) / (2 * NormalDistribution.HalfWidth95) : null;

    private static string Remedy(StrainingInput[] inputs)
    {
        if (inputs.Contains(StrainingInputs.LotFactor) && inputs.Contains(StrainingInputs.Moisture) && inputs.Length == 2)
            return "For this honey that is enough; a refractometer tells them apart.";
        if (inputs.Contains(StrainingInputs.LotFactor) && (inputs.Contains(StrainingInputs.GateFactor) || inputs.Contains(StrainingInputs.ScreenFactor) || inputs.Contains(StrainingInputs.TubeLength)))
            return "With this honey on this kit that is enough; a falling ball, which needs no kit, or another honey of known viscosity tells them apart.";
        if (inputs.Contains(StrainingInputs.DebrisLoad) && inputs.Any(input => input == StrainingInputs.DebrisSize || input == StrainingInputs.DebrisCapture || input == StrainingInputs.DebrisSizeSpread))
            return "With this cloth that is enough; a sample strained through two cloths and weighed tells them apart.";
        if (inputs.Contains(StrainingInputs.ScreenFactor) && inputs.Contains(StrainingInputs.DebrisLoad))
            return "Read the pond's depth early, while the cloth is clean, or scrape and note when.";
        if (inputs.Contains(StrainingInputs.GateFactor) && inputs.Contains(StrainingInputs.ScreenFactor))
            return "Read tank and receiver, or the pond's depth: the gate shows in one and the cloth in the other.";
        return "Vary one of them on purpose in the next run, and measure the other by itself.";
    }
}
