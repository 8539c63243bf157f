using FlowSim.OverflowRisk;
using FlowSim.Plots.Drawing;
using MathNet.Numerics.Distributions;

namespace FlowSim.Plots;

/// <summary>Chances in classes of a decade each, with words and shades that get darker all the way.</summary>
internal sealed class ChanceClasses
{
    // Engineering choice: rarer than this is not told apart on a map.
    private static readonly double[] s_edges = [1e-5, 1e-4, 1e-3, 1e-2, 0.1, 0.5];

    // From white over yellow and red to near black, darker at every step, so that the order stays in grey and without colour vision.
    private static readonly string[] s_shades = ["#FFFFFF", "#FFF3B8", "#FED976", "#F79A3B", "#D94A20", "#A31227", "#4F0B22"];

    private readonly List<(double Edge, string Words, string Hex)> _classes = [];
    private readonly double[] _edgeScores;

    /// <summary>The classes that a map needs.</summary>
    public ChanceClasses(RiskMap map)
    {
        ProbabilityEstimate[] all = [.. map.Cells.SelectMany(row => row).Select(cell => cell.Overflow).Where(o => double.IsFinite(o.Value))];
        ProbabilityEstimate[] none = [.. all.Where(o => o.Value <= 0)];
        double least = all.Where(o => o.Value > 0).Select(o => o.Value).DefaultIfEmpty(1).Min();
        double most = all.Select(o => o.Value).DefaultIfEmpty(0).Max();

        // Seen in none of so many runs lies half a run below seen in one of them.
        SmallestPlaced = none.Length > 0 ? 0.25 / Math.Max(1, none.Min(o => o.Runs)) : Math.Max(least, 1e-9);
        double noneBelow = none.Length > 0 ? 2 * SmallestPlaced : 0;
        if (none.Length > 0)
            _classes.Add((0, "none in " + ChanceText.Thousands(none.Min(o => o.Runs)) + " runs", s_shades[0]));
        for (int i = 0; i <= s_edges.Length; i++)
        {
            double from = i == 0 ? 0 : s_edges[i - 1];
            double to = i == s_edges.Length ? 1.0000001 : s_edges[i];
            if (to <= Math.Max(noneBelow, least) || from > most)
                continue;

            // The rarest class drawn has no lower edge to name.
            bool rarest = _classes.Count == 0 || from < noneBelow;
            string words = i == s_edges.Length ? "over 1 in 2" : rarest ? "under " + OneIn(to) : OneIn(from) + " to " + OneIn(to);
            _classes.Add((Math.Max(from, noneBelow), words, s_shades[i]));
        }

        if (_classes.Count == 0)
            _classes.Add((0, "not known", s_shades[0]));
        _edgeScores = [.. _classes.Select(c => c.Edge > 0 ? Normal.InvCDF(0, 1, c.Edge) : double.NegativeInfinity)];
    }

    /// <summary>Where a chance of 0 is placed between others.</summary>
    public double SmallestPlaced { get; }

    public int Count => _classes.Count;

    public string Words(int index) => _classes[index].Words;

    public string Hex(int index) => _classes[index].Hex;

    /// <summary>Index of the class of a chance.</summary>
    public int Of(double share)
    {
        int index = 0;
        while (index + 1 < _classes.Count && share >= _classes[index + 1].Edge)
            index++;
        return index;
    }

    /// <summary>Index of the class of a chance given by its <see cref="Score"/>.</summary>
    public int OfScore(double score)
    {
        int index = 0;
        while (index + 1 < _classes.Count && score >= _edgeScores[index + 1])
            index++;
        return index;
    }

    /// <summary>Standard normal quantile of a chance: between neighbours it is nearly even.</summary>
    public double Score(double share) => Normal.InvCDF(0, 1, Math.Clamp(share, SmallestPlaced, 1 - 1e-4));

    private static string OneIn(double share) => "1 in " + ChanceText.Thousands((long)Math.Round(1 / share));
}
