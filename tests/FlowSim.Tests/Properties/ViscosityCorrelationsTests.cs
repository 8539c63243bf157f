using FlowSim.Properties;
using FsCheck.Xunit;

namespace FlowSim.Tests.Properties;

public class ViscosityCorrelationsTests
{
    public static TheoryData<string> Names => [.. ViscosityCorrelations.All.Select(c => c.Name)];

    [Fact]
    public void Every_correlation_class_stands_in_the_list()
    {
        Type[] classes = [.. typeof(ViscosityCorrelation).Assembly.GetTypes()
            .Where(t => t.IsSubclassOf(typeof(ViscosityCorrelation)) && !t.IsAbstract && t != typeof(MeasuredViscosity))];
        Assert.Equal(classes.Select(t => t.Name).Order(StringComparer.Ordinal), ViscosityCorrelations.All.Select(c => c.GetType().Name).Order(StringComparer.Ordinal));
        Type[] conductivities = [.. typeof(ConductivityCorrelation).Assembly.GetTypes()
            .Where(t => t.IsSubclassOf(typeof(ConductivityCorrelation)) && !t.IsAbstract)];
        Assert.Equal(conductivities.Select(t => t.Name).Order(StringComparer.Ordinal), ConductivityCorrelations.All.Select(c => c.GetType().Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_default_stands_first_and_names_are_unique()
    {
        Assert.Same(ViscosityCorrelations.Default, ViscosityCorrelations.All[0]);
        Assert.Equal("vogel", ViscosityCorrelations.Default.Name);
        Assert.Equal(ViscosityCorrelations.All.Count, ViscosityCorrelations.All.Select(c => c.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.Same(ConductivityCorrelations.Default, ConductivityCorrelations.All[0]);
        Assert.Equal("riedel", ConductivityCorrelations.Default.Name);
    }

    [Theory, MemberData(nameof(Names))]
    public void A_name_finds_its_correlation_whatever_the_case(string name)
    {
        Assert.Equal(name, ViscosityCorrelations.ByName(name).Name);
        Assert.Equal(name, ViscosityCorrelations.ByName(name.ToUpperInvariant()).Name);
    }

    [Theory]
    [InlineData("vogle", "'vogel'")]
    [InlineData("arhenius", "'arrhenius'")]
    [InlineData("VTF-vogel", "'vogel'")]
    public void An_unknown_viscosity_name_is_told_the_nearest(string name, string nearest)
    {
        ArgumentException e = Assert.Throws<ArgumentException>(() => ViscosityCorrelations.ByName(name));
        Assert.Contains("Nearest: " + nearest, e.Message, StringComparison.Ordinal);
        Assert.Contains(name, e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("spreadsheet")]
    [InlineData("")]
    [InlineData("x")]
    public void A_name_that_is_near_to_none_is_told_what_there_is(string name)
    {
        string message = Assert.Throws<ArgumentException>(() => ViscosityCorrelations.ByName(name)).Message;
        Assert.DoesNotContain("Nearest", message, StringComparison.Ordinal);
        Assert.All(ViscosityCorrelations.All, known => Assert.Contains(known.Name, message, StringComparison.Ordinal));
    }

    [Fact]
    public void An_unknown_conductivity_name_is_told_the_nearest()
    {
        ArgumentException e = Assert.Throws<ArgumentException>(() => ConductivityCorrelations.ByName("helvy"));
        Assert.Contains("Nearest: 'helvey'", e.Message, StringComparison.Ordinal);
    }

    // Common knowledge of the trade and of every source cited: warmer or wetter honey is thinner.
    [Property(Arbitrary = [typeof(Fractions)])]
    public void Viscosity_falls_with_temperature_everywhere(Fraction moisture, Fraction temperature, Fraction step)
    {
        foreach (ViscosityCorrelation c in ViscosityCorrelations.All)
        {
            double w = moisture.Within(c.MoistureRange);
            double cool = temperature.Between(c.TemperatureRange.OuterLow, c.TemperatureRange.OuterHigh - 0.01) + 273.15;
            double warm = step.Between(cool + 0.01, c.TemperatureRange.OuterHigh + 273.15);
            Assert.True(c.ViscosityPaS(w, warm) < c.ViscosityPaS(w, cool), $"{c.Name}: {w} %, {cool} K, {warm} K");
        }
    }

    [Property(Arbitrary = [typeof(Fractions)])]
    public void Viscosity_falls_with_moisture_everywhere(Fraction moisture, Fraction temperature, Fraction step)
    {
        foreach (ViscosityCorrelation c in ViscosityCorrelations.All)
        {
            double temperatureK = temperature.Within(c.TemperatureRange) + 273.15;
            double dry = moisture.Between(c.MoistureRange.OuterLow, c.MoistureRange.OuterHigh - 0.01);
            double wet = step.Between(dry + 0.01, c.MoistureRange.OuterHigh);
            Assert.True(c.ViscosityPaS(wet, temperatureK) < c.ViscosityPaS(dry, temperatureK), $"{c.Name}: {dry} %, {wet} %, {temperatureK} K");
        }
    }

    [Fact]
    public void One_percent_of_moisture_is_worth_about_three_and_a_half_kelvin()
    {
        // Rule of thumb, common practice: seen on two public beekeeping pages, no measurement behind it that could be found.
        // ± 0.5 K: the rule is quoted to half a kelvin. At 17 %, 20 °C, where the trade uses it.
        const double step = 1e-3;
        var vogel = new VogelViscosity();
        double perKelvin = Math.Log(vogel.ViscosityPaS(17, 293.15 + step) / vogel.ViscosityPaS(17, 293.15 - step)) / (2 * step);
        double perPercent = Math.Log(vogel.ViscosityPaS(17 + step, 293.15) / vogel.ViscosityPaS(17 - step, 293.15)) / (2 * step);
        Assert.InRange(perPercent / perKelvin, 3.0, 4.0);
    }

    [Theory]
    [InlineData(20, -0.129, -0.479)]
    [InlineData(40, -0.092, -0.339)]
    public void Slopes_of_vogel_are_those_of_its_own_closed_form(double temperatureC, double perKelvin, double perPercent)
    {
        // Derivatives of ln μ by hand: d/dT = −B/(T − T0)², d/dw = −3.7019 B/(T − T0)². Rounded to three decimals, hence 0.0005
        // (0.0006 where rounding of both sides meets).
        const double step = 1e-3;
        double k = temperatureC + 273.15;
        Assert.Equal(perKelvin, Math.Log(VogelViscosity.VogelFit(17, k + step) / VogelViscosity.VogelFit(17, k - step)) / (2 * step), 0.0006);
        Assert.Equal(perPercent, Math.Log(VogelViscosity.VogelFit(17 + step, k) / VogelViscosity.VogelFit(17 - step, k)) / (2 * step), 0.0006);
    }
}
