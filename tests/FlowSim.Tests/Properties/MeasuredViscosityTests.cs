using FlowSim.Properties;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Properties;

public class MeasuredViscosityTests
{
    // Invented figures, thick like a granulated honey; any liquid-like figures would do.
    private static readonly MeasuredViscosity s_three = new(Given.Figure(40, 6), Given.Figure(20, 80), Given.Figure(30, 20));

    [Theory]
    [InlineData(20, 80)]
    [InlineData(30, 20)]
    [InlineData(40, 6)]
    public void The_curve_goes_through_the_figures_whatever_the_moisture(double temperatureC, double viscosityPaS)
    {
        Assert.Equal(viscosityPaS, s_three.ViscosityPaS(15, temperatureC + 273.15), viscosityPaS * 1e-12);
        Assert.Equal(viscosityPaS, s_three.ViscosityPaS(20, temperatureC + 273.15), viscosityPaS * 1e-12);
    }

    [Fact]
    public void Between_and_beyond_two_figures_ln_viscosity_is_straight_in_1_over_T()
    {
        // Closed form: an Arrhenius law is reproduced exactly by two of its points, also outside them.
        static double Law(double temperatureK) => Math.Exp(9000 * (1 / temperatureK - 1 / 300.0));
        var two = new MeasuredViscosity(Given.Figure(25, Law(298.15)), Given.Figure(45, Law(318.15)));
        foreach (double t in new[] { 10.0, 25, 31, 45, 60 })
            Assert.Equal(Law(t + 273.15), two.ViscosityPaS(17, t + 273.15), Law(t + 273.15) * 1e-11);
    }

    [Fact]
    public void One_figure_takes_the_temperature_slope_of_the_default_correlation()
    {
        var one = new MeasuredViscosity(Given.Figure(30, 12));
        var honey = ViscosityCorrelations.Default;
        foreach (double k in new[] { 285.0, 303.15, 320 })
        {
            double expected = 12 * honey.ViscosityPaS(17.5, k) / honey.ViscosityPaS(17.5, 303.15);
            Assert.Equal(expected, one.ViscosityPaS(17.5, k), expected * 1e-12);
        }
    }

    [Property(Arbitrary = [typeof(Fractions)])]
    public void Any_accepted_pair_gives_a_finite_falling_curve(Fraction t1, Fraction span, Fraction mu, Fraction energy, Fraction at)
    {
        double low = t1.Between(0, 79.4);
        double high = span.Between(low + 0.5001, 80);
        double kelvins = energy.Between(10.1, 299) * 1000 / 8.314462618;
        double muLow = Math.Exp(mu.Between(Math.Log(0.01), Math.Log(1e4)));
        double muHigh = muLow * Math.Exp(kelvins * (1 / (high + 273.15) - 1 / (low + 273.15)));
        if (muHigh < 0.001)
            return; // not allowed as a figure
        var two = new MeasuredViscosity(Given.Figure(low, muLow), Given.Figure(high, muHigh));
        double k = at.Within(two.TemperatureRange) + 273.15;
        double here = two.ViscosityPaS(17, k);
        Assert.True(double.IsFinite(here) && here > 0);
        Assert.True(two.ViscosityPaS(17, k + 0.1) < here);
    }

    [Fact]
    public void No_figure_is_refused() => Assert.Throws<ArgumentException>(() => new MeasuredViscosity());

    [Fact]
    public void Two_figures_at_one_temperature_are_refused() =>
        Assert.Throws<ArgumentException>(() => new MeasuredViscosity(Given.Figure(30, 10), Given.Figure(30.2, 9.8)));

    [Fact]
    public void Viscosity_that_rises_with_temperature_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new MeasuredViscosity(Given.Figure(30, 10), Given.Figure(40, 12)));

    [Fact]
    public void A_slip_of_a_decimal_point_is_refused()
    {
        // 400 instead of 4 Pa·s at 20 °C against 3 at 25 °C would be an activation energy of 711 kJ/mol.
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(
            () => new MeasuredViscosity(Given.Figure(20, 400), Given.Figure(25, 3)));
        Assert.Contains("kJ/mol", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-0.001, 10)]
    [InlineData(80.001, 10)]
    [InlineData(30, 0.0009)]
    [InlineData(30, 100_001)]
    [InlineData(30, -1)]
    [InlineData(30, double.PositiveInfinity)]
    [InlineData(30, double.NaN)]
    [InlineData(double.NaN, 10)]
    public void A_figure_outside_its_range_is_refused(double temperatureC, double viscosityPaS) =>
        Assert.ThrowsAny<ArgumentException>(() => new MeasuredViscosity(Given.Figure(temperatureC, viscosityPaS)));

    [Theory]
    [InlineData(0, 10)]
    [InlineData(80, 10)]
    [InlineData(30, 0.001)]
    [InlineData(30, 100_000)]
    public void A_figure_at_the_edge_of_its_range_is_taken(double temperatureC, double viscosityPaS) =>
        Assert.Equal(viscosityPaS, new MeasuredViscosity(Given.Figure(temperatureC, viscosityPaS)).Figures[0].Viscosity.PascalSeconds);

    [Fact]
    public void Its_range_reaches_a_little_beyond_the_figures()
    {
        // 5 K without and 20 K with a notice are the engineering choices stated on the class.
        ValidityRange range = s_three.TemperatureRange;
        Assert.Equal(15.0, range.Low, 1e-9);
        Assert.Equal(45.0, range.High, 1e-9);
        Assert.Equal(0.0, range.OuterLow, 1e-9);
        Assert.Equal(60.0, range.OuterHigh, 1e-9);
    }

    [Fact]
    public void Figures_are_needed() =>
        Assert.Equal("figures", Assert.Throws<ArgumentNullException>(() => new MeasuredViscosity(null!)).ParamName);

    /// <summary>Half a kelvin apart is enough, and less is not; ln μ falls by 9000 K times the step in 1/T.</summary>
    [Theory]
    [InlineData(300.5, true)]
    [InlineData(300.4375, false)]
    public void Figures_half_a_kelvin_apart_are_taken(double kelvins, bool taken)
    {
        (Temperature, DynamicViscosity)[] figures =
        [
            (Temperature.FromKelvins(300), DynamicViscosity.FromPascalSeconds(10)),
            (Temperature.FromKelvins(kelvins), DynamicViscosity.FromPascalSeconds(10 * Math.Exp(9000 * (1 / kelvins - 1 / 300.0)))),
        ];
        if (taken)
            Assert.Equal(2, new MeasuredViscosity(figures).Figures.Count);
        else
            Assert.Contains("at least 0.5 K apart; 26.85 °C and 27.29 °C are not", Assert.Throws<ArgumentException>(() => new MeasuredViscosity(figures)).Message, StringComparison.Ordinal);
    }

    /// <summary>From 5 K below the first to 5 K above the last no notice is given, to 20 K beyond a value.</summary>
    [Fact]
    public void Its_range_is_that_of_its_figures()
    {
        ValidityRange two = new MeasuredViscosity(Given.Figure(28, 12), Given.Figure(42, 2)).TemperatureRange;
        Assert.Equal((8.0, 23.0, 47.0, 62.0), (Math.Round(two.OuterLow, 9), Math.Round(two.Low, 9), Math.Round(two.High, 9), Math.Round(two.OuterHigh, 9)));
        ValidityRange one = new MeasuredViscosity(Given.Figure(28, 12)).TemperatureRange;
        Assert.Equal((8.0, 23.0, 33.0, 48.0), (Math.Round(one.OuterLow, 9), Math.Round(one.Low, 9), Math.Round(one.High, 9), Math.Round(one.OuterHigh, 9)));
    }
}
