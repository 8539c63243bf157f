using FlowSim.Properties;

namespace FlowSim.Tests.Properties;

/// <summary>Where a correlation says of itself that ln μ = A + B/(T − T0), that is what it gives.</summary>
public class VogelFormTests
{
    [Theory]
    [InlineData("vogel")]
    [InlineData("arrhenius")]
    [InlineData("one figure")]
    [InlineData("two figures")]
    public void The_form_is_the_correlation(string name)
    {
        ViscosityCorrelation correlation = name switch
        {
            "one figure" => new MeasuredViscosity(Given.Figure(33, 7)),
            "two figures" => new MeasuredViscosity(Given.Figure(25, 12), Given.Figure(45, 1.5)),
            _ => ViscosityCorrelations.ByName(name),
        };
        foreach (double moisture in new[] { 14.5, 17, 20 })
        {
            VogelForm form = correlation.FormAt(moisture)!.Value;
            foreach (double kelvins in new[] { 288.15, 306.15, 328.15 })
            {
                double expected = Math.Log(correlation.ViscosityPaS(moisture, kelvins));
                Assert.Equal(expected, form.A + form.BKelvin / (kelvins - form.T0Kelvin), 1e-9);
            }
        }
    }

    /// <summary>By hand for the straight line of the documentation, at 20 % and 40 °C: 2.1201 + 9595.2 (1/313.15 − 1/298.15) − 0.4296 × 3 = −0.7103.</summary>
    [Fact]
    public void The_straight_line_by_hand()
    {
        VogelForm form = new ArrheniusViscosity().FormAt(20)!.Value;
        Assert.Equal(-0.7103, form.A + form.BKelvin / 313.15, 1e-4);
        Assert.Equal((9595.2, 0.0), (form.BKelvin, form.T0Kelvin));
    }

    /// <summary>Three figures make a line with a corner.</summary>
    [Fact]
    public void A_line_with_a_corner_has_no_such_form() =>
        Assert.Null(new MeasuredViscosity(Given.Figure(20, 80), Given.Figure(30, 20), Given.Figure(40, 6)).FormAt(17));
}
