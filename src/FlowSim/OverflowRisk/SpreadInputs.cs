using FlowSim.Numerics.Sampling;
using FlowSim.Straining;
using static System.FormattableString;

namespace FlowSim.OverflowRisk;

/// <summary>The uncertain inputs of a question, ready to be drawn.</summary>
/// <remarks>
/// A draw is a point of as many coordinates as there are inputs, uniform on (0, 1). The copula ties coordinates together where inputs
/// go together, and the quantile of each spread, truncated to what the setup allows, makes a value of it. Variants of the setup take the same
/// draws, so that they differ by what they are and not by chance.
/// </remarks>
internal sealed class SpreadInputs
{
    private readonly GaussianCopula? _copula;

    /// <summary>Checks inputs and correlations against a setup.</summary>
    /// <param name="inputs">Inputs, at least one, none twice.</param>
    /// <param name="correlations">Which go together.</param>
    /// <exception cref="ArgumentException">Something does not fit; the message names it.</exception>
    public SpreadInputs(IReadOnlyList<UncertainInput> inputs, IReadOnlyList<InputCorrelation> correlations)
    {
        Given = inputs;
        RequireInputs(inputs);
        double[,] matrix = Matrix(inputs, EquipmentCheck.Present(correlations), out bool any);
        _copula = any ? new GaussianCopula(matrix, [.. inputs.Select(input => input.Input.Name)]) : null;
        Groups = Together(matrix);
    }

    /// <summary>The inputs as they were given.</summary>
    public IReadOnlyList<UncertainInput> Given { get; }

    /// <summary>Number of inputs.</summary>
    public int Count => Given.Count;

    /// <summary>Numbers of the inputs, those that go together in one group, in the order of the inputs.</summary>
    public IReadOnlyList<IReadOnlyList<int>> Groups { get; }

    /// <summary>Ties the coordinates of points together, in place.</summary>
    /// <param name="points">Points, row by row.</param>
    public void Correlate(Span<double> points) => _copula?.Apply(points);

    /// <summary>A spread, truncated to what a setup allows.</summary>
    /// <param name="input">Input with the spread.</param>
    /// <param name="spread">The spread, or the same carried elsewhere.</param>
    /// <param name="setup">Setup.</param>
    /// <param name="cutOff">Probability that is cut off.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing of the spread lies within what is allowed.</exception>
    public static Distribution Cut(UncertainInput input, Distribution spread, StrainingSetup setup, out double cutOff)
    {
        (double low, double high) = input.Input.RangeIn(setup);
        cutOff = spread.Cumulative(low) + (1 - spread.Cumulative(high));
        if (!(low < high) || !(cutOff < 1 - 1e-9))
            throw EquipmentCheck.OutOfRange(nameof(RiskQuestion.Inputs), input.Input.Name, Invariant($"The spread of {input.Input.Name}, {spread}, lies outside what it may be in this setup: {low:g6} to {high:g6} {input.Input.Unit}").TrimEnd() + ".");
        return spread.Within(low, high);
    }

    private static void RequireInputs(IReadOnlyList<UncertainInput> inputs)
    {
        EquipmentCheck.Present(inputs);
        if (inputs.Count == 0)
            throw EquipmentCheck.Refused(nameof(RiskQuestion.Inputs), "No input has a spread: without one there is nothing to be unsure of. Give a spread, or leave the inputs out for the common ones.");
        foreach (UncertainInput input in inputs)
        {
            EquipmentCheck.Present(input);
            EquipmentCheck.Present(input.Input);
            EquipmentCheck.Present(input.Spread);
            EquipmentCheck.Present(input.Source);
        }

        if (inputs.GroupBy(input => input.Input.Name, StringComparer.Ordinal).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw EquipmentCheck.Refused(nameof(RiskQuestion.Inputs), $"{twice.Key} is given two spreads.");
    }

    private static double[,] Matrix(IReadOnlyList<UncertainInput> inputs, IReadOnlyList<InputCorrelation> correlations, out bool any)
    {
        var matrix = new double[inputs.Count, inputs.Count];
        for (int i = 0; i < inputs.Count; i++)
            matrix[i, i] = 1;
        any = false;
        foreach (InputCorrelation correlation in correlations)
        {
            EquipmentCheck.Present(correlation);
            int one = Find(correlation.One), other = Find(correlation.Other);
            if (one == other)
                throw EquipmentCheck.Refused(nameof(RiskQuestion.Correlations), $"{correlation.One} is correlated with itself.");
            if (!(Math.Abs(correlation.Strength) < 1))
                throw EquipmentCheck.OutOfRange(nameof(InputCorrelation.Strength), correlation.Strength, Invariant($"The correlation of {correlation.One} and {correlation.Other} is {correlation.Strength}; it must be between -1 and 1, both excluded."));
            if (matrix[one, other] != 0 && matrix[one, other] != correlation.Strength)
                throw EquipmentCheck.Refused(nameof(RiskQuestion.Correlations), $"The correlation of {correlation.One} and {correlation.Other} is given twice.");
            matrix[one, other] = matrix[other, one] = correlation.Strength;
            any |= correlation.Strength != 0;
        }

        return matrix;

        int Find(string name)
        {
            EquipmentCheck.Present(name);
            for (int i = 0; i < inputs.Count; i++)
            {
                if (string.Equals(inputs[i].Input.Name, name, StringComparison.OrdinalIgnoreCase))
                    return i;
            }

            string known = string.Join(", ", inputs.Select(input => input.Input.Name));
            throw EquipmentCheck.Refused(nameof(RiskQuestion.Correlations), $"The correlation names '{name}', which has no spread here. Inputs with one: {known}.");
        }
    }

    /// <summary>The connected parts of who goes with whom.</summary>
    private static List<IReadOnlyList<int>> Together(double[,] matrix)
    {
        int count = matrix.GetLength(0);
        var groups = new List<IReadOnlyList<int>>();
        bool[] placed = new bool[count];
        for (int first = 0; first < count; first++)
        {
            if (placed[first])
                continue;
            var group = new List<int> { first };
            placed[first] = true;
            for (int next = 0; next < group.Count; next++)
            {
                for (int other = 0; other < count; other++)
                {
                    if (placed[other] || matrix[group[next], other] == 0)
                        continue;
                    placed[other] = true;
                    group.Add(other);
                }
            }

            group.Sort();
            groups.Add(group);
        }

        return groups;
    }
}
