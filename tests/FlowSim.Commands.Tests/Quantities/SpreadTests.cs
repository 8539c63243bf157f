using System.Globalization;
using FlowSim.Commands.Quantities;
using FlowSim.Numerics.Sampling;
using FsCheck.Xunit;

namespace FlowSim.Commands.Tests.Quantities;

/// <summary>Values with a spread: every way of writing one, and what is refused.</summary>
public class SpreadTests
{
    /// <summary>Share of a normal distribution below one standard deviation above its mean: Φ(1), from memory, any table of it.</summary>
    private const double BelowOneDeviation = 0.8413447460685429;

    [Theory]
    [InlineData("17.8 ± 0.2 %", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("17.8±0.2%", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("17.8 +- 0.2 %", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("17.8 +/- 0.2 %", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("17.8 % ± 0.2 %", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("normal(17.8, 0.2 %)", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("normal(17.8 %, 0.2 %)", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("Normal(17.8, 0.2) %", nameof(Dimension.Share), 0.178, 0.002)]
    [InlineData("0.3 ± 0.1 g/kg", nameof(Dimension.Share), 0.0003, 0.0001)]
    [InlineData("35 ± 1 °C", nameof(Dimension.Temperature), 308.15, 1)] // a deviation is a difference: no 273.15 in it
    [InlineData("35 °C ± 1 K", nameof(Dimension.Temperature), 308.15, 1)]
    [InlineData("95 ± 1.8 F", nameof(Dimension.Temperature), 308.15, 1)] // 1.8 °F of difference is 1 K
    [InlineData("35 °C ± 1.8 F", nameof(Dimension.Temperature), 308.15, 1)]
    [InlineData("308.15 ± 1 K", nameof(Dimension.Temperature), 308.15, 1)]
    [InlineData("1 1/2 ± 1/8 in", nameof(Dimension.Length), 0.0381, 0.003175)] // the inch is 25.4 mm
    [InlineData("298 mm ± 1/2 cm", nameof(Dimension.Length), 0.298, 0.005)]
    [InlineData("30 cm ± 5 mm", nameof(Dimension.Length), 0.3, 0.005)]
    [InlineData("1 ± 0.1 min", nameof(Dimension.Duration), 60, 6)]
    public void Normal(string text, string dimension, double mean, double deviation)
    {
        Spread spread = Reads(text, Enum.Parse<Dimension>(dimension));
        NormalDistribution normal = Assert.IsType<NormalDistribution>(spread.ToDistribution());
        Assert.Equal(mean, normal.Mean, 1e-12 * mean);
        Assert.Equal(deviation, normal.StandardDeviation, 1e-12);
        Assert.Equal(mean, spread.Middle, 1e-12 * mean);
    }

    [Theory]
    [InlineData("0.3 g/kg x/ 3")]
    [InlineData("0.3 g/kg X/ 3")]
    [InlineData("0.3 g/kg x/÷ 3")]
    [InlineData("0.3 g/kg ×/÷ 3")]
    [InlineData("0.3 g/kg ×÷ 3")]
    [InlineData("0.3 g/kg ×/3")]
    [InlineData("0.3 g/kg */ 3")]
    [InlineData("0.03 % x/ 3")]
    [InlineData("log-normal(0.3 g/kg, 3)")]
    [InlineData("lognormal(0.3 g/kg, 3)")]
    [InlineData("log-normal(0.3, 3) g/kg")]
    public void Log_normal(string text)
    {
        Distribution spread = Reads(text, Dimension.Share).ToDistribution();
        Assert.Equal(0.0003, spread.Median, 1e-12);

        // One standard deviation of the logarithm up is the factor.
        Assert.Equal(0.0009, spread.Quantile(BelowOneDeviation), 1e-9);
        Assert.Equal(0.0001, spread.Quantile(1 - BelowOneDeviation), 1e-9);
    }

    [Theory]
    [InlineData("17.6 to 18.0 %")]
    [InlineData("17.6 % to 18 %")]
    [InlineData("176 g/kg to 18 %")]
    [InlineData("uniform(17.6, 18.0 %)")]
    [InlineData("uniform(17.6, 18) %")]
    public void Uniform(string text)
    {
        Distribution spread = Reads(text, Dimension.Share).ToDistribution();
        Assert.Equal([0.176, 0.177, 0.178, 0.18], new[] { 0, 0.25, 0.5, 1 }.Select(p => Math.Round(spread.Quantile(p), 12)));
    }

    [Fact]
    public void Triangular()
    {
        // Cumulative probability at the mode of a triangle: (mode − low)/(high − low), Evans, Hastings and Peacock (from memory).
        Spread spread = Reads("triangular(20, 30, 35 %)", Dimension.Share);
        Assert.Equal(10 / 15.0, spread.ToDistribution().Cumulative(0.30), 1e-12);

        // The median lies where half of the area does: 20 + √(½·15·10).
        Assert.Equal(0.20 + Math.Sqrt(0.5 * 0.15 * 0.10), spread.Middle, 1e-12);
    }

    [Fact]
    public void Empirical()
    {
        Spread spread = Reads("empirical(17.6, 18.1, 17.7 %)", Dimension.Share);
        Assert.Equal(0.177, spread.Middle, 1e-12);
        Assert.Equal((0.176, 0.181), (Math.Round(spread.ToDistribution().Lowest, 12), Math.Round(spread.ToDistribution().Highest, 12)));
    }

    [Theory]
    [InlineData("1.0 x/ 1.35", 1)]
    [InlineData("1 ± 0.1", 1)]
    [InlineData("0.62 to 1", 0.81)]
    [InlineData("uniform(0.62, 1)", 0.81)]
    public void Plain_numbers_alike(string text, double middle)
    {
        Assert.Null(SpreadGrammar.Read(text, null, signed: false, out Spread? spread));
        Assert.Equal(middle, spread!.Middle, 1e-12);
    }

    [Theory]
    [InlineData("17.8 ± 0 %")]
    [InlineData("17.8 % x/ 1")]
    [InlineData("17.8 to 17.8 %")]
    [InlineData("triangular(17.8, 17.8, 17.8 %)")]
    [InlineData("empirical(17.8, 17.8 %)")]
    public void Exact(string text)
    {
        Spread spread = Reads(text, Dimension.Share);
        Assert.True(spread.IsExact);
        Assert.Equal(0.178, spread.Middle, 1e-12);
    }

    [Theory]
    [InlineData("-20 ± 5 mm", -0.02)]
    [InlineData("-20 mm ± 5 mm", -0.02)]
    [InlineData("-30 to -10 mm", -0.02)]
    [InlineData("20 ± 5 mm", 0.02)]
    public void A_height_may_be_negative(string text, double middle)
    {
        Assert.Null(SpreadGrammar.Read(text, Dimension.Length, signed: true, out Spread? spread));
        Assert.Equal(middle, spread!.Middle, 1e-12);
        if (middle < 0)
            Assert.NotNull(SpreadGrammar.Read(text, Dimension.Length, signed: false, out _));
    }

    [Fact]
    public void Another_measure_of_the_same()
    {
        // 2 kg ± 0.1 kg at 1.4 kg/L.
        Assert.Equal([2 / 1.4, 0.1 / 1.4], Reads("2 ± 0.1 kg", Dimension.Mass).Times(1 / 1.4).Values);
        Assert.Equal([2 / 1.4, 3], Reads("2 kg x/ 3", Dimension.Mass).Times(1 / 1.4).Values);
    }

    [Theory]
    [InlineData("17.8 ± 0.2", "needs one: %")]
    [InlineData("17.8 % ± 0.2", "needs one: %")]
    [InlineData("± 0.2 %", "is empty")]
    [InlineData("17.8 ± %", "has no unit")]
    [InlineData("17.8 ± -0.2 %", "0 % or more")]
    [InlineData("17,8 ± 0,2 %", "comma")]
    [InlineData("17.8 ± 0.2 mm", "is a length, but a share is wanted")]
    [InlineData("17.8 % ± 2 g/kg", "in two ways; write both in %")]
    [InlineData("0.3 g/kg ± 50 %", "in two ways; write both in g/kg")]
    [InlineData("18 to 17 %", "runs backwards")]
    [InlineData("0.3 g/kg x/ 0.5", "allowed: 1 to 1000")]
    [InlineData("0.3 g/kg x/ 5000", "allowed: 1 to 1000")]
    [InlineData("0.3 g/kg x/ 3 g/kg", "plain number")]
    [InlineData("0.3 g/kg x/ ", "plain number")]
    [InlineData("0 g/kg x/ 3", "above 0")]
    [InlineData("nromal(17, 1 %)", "nearest: \"normal\"")]
    [InlineData("normal(17.8 %)", "holds 1 values; normal takes mean, standard deviation")]
    [InlineData("normal(17,8, 0.2 %)", "holds 3 values")]
    [InlineData("normal(17.8, 0.2 %", "no closing bracket")]
    [InlineData("triangular(20, 40, 35 %)", "runs backwards")]
    [InlineData("empirical(17.8 %)", "2 to 200 measured values")]
    [InlineData("uniform(, 18 %)", "is empty")]
    [InlineData("17 ± 1 to 18 %", "which is not known")]
    public void Refused(string text, string said) => Refuses(text, Dimension.Share, said);

    [Fact]
    public void A_temperature_has_no_factor() => Refuses("35 °C x/ 1.1", Dimension.Temperature, "zero is a matter of the unit");

    [Fact]
    public void A_flood_is_refused_and_costs_nothing() => Refuses("empirical(" + string.Join(',', Enumerable.Repeat("17.8", 1000)) + " %)", Dimension.Share, "at most 2000");

    [Theory]
    [InlineData("17.8 %")]
    [InlineData("1 h 30 min")]
    [InlineData("600 um / 400 um")]
    [InlineData("Btu/h")]
    [InlineData("12 h ramp 40 °C")]
    [InlineData("-20 mm")]
    public void What_is_no_spread(string text) => Assert.False(SpreadGrammar.IsSpread(text));

    [Property]
    public void What_is_printed_is_read_again(double mean, double deviation)
    {
        (double m, double s) = (Math.Abs(mean) % 1000, Math.Abs(deviation) % 1000);
        if (!double.IsFinite(m) || !double.IsFinite(s))
            return;
        string text = string.Create(CultureInfo.InvariantCulture, $"{m:F9} ± {s:F9} mm");
        Spread spread = Reads(text, Dimension.Length);
        Assert.Equal(m / 1000, spread.Values[0], 1e-11);
        Assert.Equal(s / 1000, spread.Values[1], 1e-11);
    }

    [Property]
    public void Whatever_is_written_is_read_or_refused_in_words(string? text)
    {
        foreach (string sign in new[] { "±", " to ", "x/", "uniform(" })
        {
            QuantityFault? fault = SpreadGrammar.Read(sign + text + sign, Dimension.Length, signed: true, out Spread? spread);
            Assert.True(fault is null ? spread is not null && spread.Values.All(double.IsFinite) : fault.What.Length > 0);
        }
    }

    private static Spread Reads(string text, Dimension dimension)
    {
        Assert.True(SpreadGrammar.IsSpread(text), text);
        QuantityFault? fault = SpreadGrammar.Read(text, dimension, signed: false, out Spread? spread);
        Assert.True(fault is null, fault?.What);
        return spread!;
    }

    private static void Refuses(string text, Dimension dimension, string said)
    {
        QuantityFault? fault = SpreadGrammar.Read(text, dimension, signed: false, out _);
        Assert.NotNull(fault);
        Assert.Contains(said, fault.What, StringComparison.Ordinal);
        Assert.InRange(fault.Offset, 0, text.Length);
    }
}
