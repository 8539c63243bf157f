using System.Globalization;
using System.Text;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Quantities;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Output;

/// <summary>A calibration as the <c>[calibration]</c> of a file: as few digits as keep it, for people to read and change.</summary>
internal static class CalibrationToml
{
    /// <summary>How far rounding may move a value, share of its spread. Engineering choice.</summary>
    private const double Coarsest = 5e-4;

    /// <summary>Decimals of a correlation.</summary>
    private const int Decimals = 4;

    /// <summary>Quantiles that stand for a distribution that has no spelling of its own; odd, so that the median is one of them.</summary>
    private const int QuantilesKept = 41;

    /// <summary>Shares below this are written in g/kg, as debris is.</summary>
    private const double SmallShare = 0.005;

    /// <summary>The section, its heading first, lines ended as asked.</summary>
    /// <param name="calibrated">What was learnt.</param>
    /// <param name="date">The day of the fit.</param>
    /// <param name="units">Units.</param>
    /// <param name="newLine">What ends a line.</param>
    public static string Of(CalibratedInputs calibrated, DateOnly date, UnitChoice units, string newLine = "\n")
    {
        UncertainInput[] kept = [.. calibrated.Inputs.Where(input => CalibrationPriors.IsShared(input.Input))];
        StringBuilder text = new();
        Line($"[{Keys.Calibration.Date.Section}]");
        Line($"{Keys.Calibration.Date.Name} = \"{date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}\"");
        List(Keys.Calibration.Runs.Name, calibrated.Runs.Select(run => $"{Escaped(run.Name)}, {run.Date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? CalibrationReader.NoDate}, {run.Fingerprint}"));
        Line($"{Keys.Calibration.Use.Name} = \"{Words.Of(CalibrationUse.All)}\"");
        foreach (UncertainInput input in kept)
            Line($"\"{input.Input.Name}\" = \"{SpreadOf(input, units)}\"");
        string[] pairs = [.. Rounded(kept, calibrated.Correlations).Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.One}, {pair.Other}, {pair.Strength}"))];
        if (pairs.Length > 0)
            List(Keys.Calibration.Correlated.Name, pairs);
        return text.ToString();

        void Line(string line) => text.Append(line).Append(newLine);

        void List(string key, IEnumerable<string> items)
        {
            string[] all = [.. items];
            if (all.Length == 0)
            {
                Line($"{key} = []");
                return;
            }

            Line($"{key} = [");
            foreach (string item in all)
                Line($"  \"{item}\",");
            Line("]");
        }
    }

    /// <summary>Correlations to a few decimals that do not contradict each other: should rounding have made them, all are made a little weaker.</summary>
    /// <param name="inputs">Inputs.</param>
    /// <param name="correlations">Which go together.</param>
    public static IReadOnlyList<InputCorrelation> Rounded(IReadOnlyList<UncertainInput> inputs, IReadOnlyList<InputCorrelation> correlations)
    {
        HashSet<string> names = [.. inputs.Select(input => input.Input.Name)];
        InputCorrelation[] kept = [.. correlations.Where(pair => names.Contains(pair.One) && names.Contains(pair.Other))];
        for (double strength = 1; ; strength -= 1e-4)
        {
            // Towards 0, so that none becomes 1 and weaker stays weaker.
            double scale = Math.Pow(10, Decimals);
            InputCorrelation[] rounded = [.. kept.Select(pair => pair with { Strength = strength == 1 ? Math.Round(pair.Strength, Decimals) : Math.Truncate(pair.Strength * strength * scale) / scale }).Where(pair => pair.Strength != 0)];
            if (strength < 0.5 || Hold(inputs, rounded))
                return rounded;
        }
    }

    private static bool Hold(IReadOnlyList<UncertainInput> inputs, InputCorrelation[] correlations)
    {
        if (inputs.Count == 0)
            return true;
        double[,] matrix = new double[inputs.Count, inputs.Count];
        for (int i = 0; i < inputs.Count; i++)
            matrix[i, i] = 1;
        foreach (InputCorrelation pair in correlations)
            matrix[At(pair.One), At(pair.Other)] = matrix[At(pair.Other), At(pair.One)] = pair.Strength;
        return correlations.All(pair => Math.Abs(pair.Strength) < 1) && GaussianCopula.HighestStrength(matrix) > 1 + 1e-6;

        int At(string name) => inputs.Select((input, i) => (input, i)).First(one => one.input.Input.Name == name).i;
    }

    /// <summary>A spread that reads back as itself, to a thousandth of its width.</summary>
    /// <param name="input">Input with its spread.</param>
    /// <param name="units">Units.</param>
    public static string SpreadOf(UncertainInput input, UnitChoice units)
    {
        Dimension? dimension = CalibrationReader.DimensionOf(input.Input);
        Unit? unit = dimension is { } measured ? UnitOf(measured, input.Spread.Median, units) : null;
        string symbol = unit is null ? string.Empty : " " + unit.Symbol;
        double width = input.Spread is LogNormalDistribution log ? log.Median * Math.Min(1, log.LogStandardDeviation) : input.Spread.StandardDeviation;
        return input.Spread switch
        {
            NormalDistribution normal => $"{Value(normal.Mean)} ± {Figures(normal.StandardDeviation / (unit?.Factor ?? 1), 4)}{symbol}",
            LogNormalDistribution factor => $"{Value(factor.Median)}{symbol} x/ {Rounded(Math.Exp(factor.LogStandardDeviation), Coarsest * factor.LogStandardDeviation)}",
            UniformDistribution uniform => $"{Value(uniform.Lowest)} to {Value(uniform.Highest)}{symbol}",
            TriangularDistribution triangular => $"triangular({Value(triangular.Lowest)}, {Value(triangular.Mode)}, {Value(triangular.Highest)}{symbol})",
            Distribution any => $"empirical({string.Join(", ", Enumerable.Range(0, QuantilesKept).Select(i => Value(any.Quantile((i + 0.5) / QuantilesKept))))}{symbol})",
        };

        string Value(double si) => Rounded((si - (unit?.Offset ?? 0)) / (unit?.Factor ?? 1), Coarsest * width / (unit?.Factor ?? 1));
    }

    private static Unit UnitOf(Dimension dimension, double about, UnitChoice units)
    {
        string symbol = (dimension, units) switch
        {
            (Dimension.Share, _) => Math.Abs(about) < SmallShare ? "g/kg" : "%",
            (Dimension.Length, _) when Math.Abs(about) < 0.00095 => "um",
            (Dimension.Length, UnitChoice.Us) => "in",
            (Dimension.Density, UnitChoice.Us) => "lb/ft3",
            (Dimension.HeatTransfer, UnitChoice.Us) => "Btu/h.ft2.F",
            _ => Units.All.First(unit => unit.Dimension == dimension).Symbol,
        };
        return Units.All.First(unit => unit.Dimension == dimension && unit.Symbol == symbol);
    }

    /// <summary>A number with just the decimals that keep it within a distance.</summary>
    private static string Rounded(double value, double within)
    {
        if (!(within > 0))
            return value.ToString("R", CultureInfo.InvariantCulture);
        int decimals = (int)Math.Clamp(Math.Ceiling(-Math.Log10(2 * within)), 0, 15);
        return Math.Round(value, decimals).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
    }

    private static string Figures(double value, int figures) =>
        double.Parse(value.ToString("E" + (figures - 1).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).ToString("0.###############", CultureInfo.InvariantCulture);

    /// <summary>A name as it may stand in a quoted text of TOML, fit to print.</summary>
    private static string Escaped(string name) => Printable.Of(name, 100).Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal);
}
