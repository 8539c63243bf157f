using FlowSim.Commands.Input;
using FlowSim.Commands.Quantities;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;

namespace FlowSim.Commands.Output;

/// <summary>Spreads in words.</summary>
/// <param name="display">Units.</param>
internal sealed class SpreadText(Display display)
{
    /// <summary>Shares below this are given in g/kg, as debris is.</summary>
    private const double SmallShare = 0.005;

    /// <summary>Figures of what is given in the unit it is read in.</summary>
    private const int Figures = 4;

    /// <summary>A spread about its middle, as in "17.8 % ± 0.2 %".</summary>
    /// <param name="input">Input with its spread.</param>
    public string Of(UncertainInput input)
    {
        Dimension? dimension = CalibrationReader.DimensionOf(input.Input);
        return input.Spread switch
        {
            NormalDistribution normal => $"{Value(normal.Mean, dimension)} ± {Difference(normal.StandardDeviation, dimension, normal.Mean)}",
            LogNormalDistribution factor => $"{Value(factor.Median, dimension)} ×/÷ {Display.Figures(Math.Exp(factor.LogStandardDeviation), 3)}",
            UniformDistribution uniform => $"{Value(uniform.Lowest, dimension)} to {Value(uniform.Highest, dimension)}",
            TriangularDistribution triangular => $"{Value(triangular.Lowest, dimension)} to {Value(triangular.Highest, dimension)}, likeliest {Value(triangular.Mode, dimension)}",
            Distribution any => $"{Value(any.Median, dimension)}, eight in ten between {Value(any.Quantile(0.1), dimension)} and {Value(any.Quantile(0.9), dimension)}",
        };
    }

    /// <summary>A value of an input.</summary>
    /// <param name="input">Input.</param>
    /// <param name="si">Value, SI.</param>
    public string Of(Straining.StrainingInput input, double si) => Value(si, CalibrationReader.DimensionOf(input));

    private string Value(double si, Dimension? dimension) => dimension switch
    {
        Dimension.Temperature => display.Temperature(si),
        Dimension.Length => Length(si),
        Dimension.Volume => display.Volume(si),
        Dimension.Duration => Display.Time(si),
        Dimension.Share when Math.Abs(si) < SmallShare => Plain(si * 1000) + " g/kg",
        Dimension.Share => Plain(si * 100) + " %",
        { } measured => Units.Text(si, Units.All.First(unit => unit.Dimension == measured), Figures),
        null => Plain(si),
    };

    private string Difference(double si, Dimension? dimension, double about) => dimension switch
    {
        Dimension.Temperature => display.TemperatureDifference(si),
        Dimension.Share when Math.Abs(about) < SmallShare => Plain(si * 1000) + " g/kg",
        Dimension.Share => Plain(si * 100) + " %",
        _ => Value(si, dimension),
    };

    /// <summary>Lengths of a cloth stay in µm: the trade gives them so everywhere.</summary>
    private string Length(double metre) => Math.Abs(metre) is > 0 and < 0.00095 ? Plain(metre * 1e6) + " µm" : display.Length(metre);

    private static string Plain(double value) => double.Parse(Display.Figures(value, 3), System.Globalization.CultureInfo.InvariantCulture).ToString("0.######", System.Globalization.CultureInfo.InvariantCulture);
}
