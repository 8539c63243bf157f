using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Thermal conductivity of honey after Helvey 1954, Food Research 19:282 (attribution from memory). Standing: figures from
/// copies, none of which names him; the table itself could not be opened.
/// </summary>
public class Helvey1954Tests
{
    [Theory]
    [InlineData(21, 0.536)]
    [InlineData(71, 0.595)]
    public void It_passes_through_the_two_figures_at_17_percent(double temperatureC, double wPerMK) =>
        Assert.Equal(wPerMK, HelveyConductivity.Helvey1954(temperatureC + 273.15), 1e-12); // trade specification sheet, opened

    [Fact]
    public void It_agrees_with_another_copy_at_20_C()
    {
        // 130e-5 cal/(cm·s·°C) at 20 °C in a table after White and Krell (opened); 1 of that unit is 418.68 W/(m·K). ±0.02 stated.
        Assert.Equal(130e-5 * 418.68, HelveyConductivity.Helvey1954(293.15), 0.02);
    }

    [Theory]
    [InlineData(0.5547)] // 15 %
    [InlineData(0.5375)] // 21 %
    public void It_agrees_with_a_page_that_tells_moistures_apart(double wPerMK)
    {
        // A Russian page on honey (opened) gives these at 15 and 21 % without a temperature; taken as room temperature, 15-25 °C.
        Assert.Equal(wPerMK, HelveyConductivity.Helvey1954(293.15), 0.02);
    }

    [Fact]
    public void The_supported_range_ends_where_the_figures_do()
    {
        ValidityRange t = new HelveyConductivity().TemperatureRange;
        Assert.Equal((21, 71), (t.Low, t.High));
        Assert.True(new HelveyConductivity().MoistureRange.Supports(17));
        Assert.False(new HelveyConductivity().MoistureRange.Supports(19));
    }
}
