using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Thermal conductivity of honey.</summary>
[Publication("Helvey 1954", "Food Research 19:282", Standing.SecondaryCopy, Remark = "figures from copies, none of which names him (the attribution is from memory); the table itself could not be opened")]
public class Helvey1954Tests
{
    [Theory]
    [InlineData(21, 0.536)]
    [InlineData(71, 0.595)]
    [Publication("a trade specification sheet of honey", "conductivity at 17 %", Standing.Opened)]
    public void It_passes_through_the_two_figures_at_17_percent(double temperatureC, double wPerMK) =>
        Published.Agrees(wPerMK, HelveyConductivity.Helvey1954(temperatureC + 273.15), Within.Rounding(1e-12), $"conductivity at 17 %, {temperatureC} °C", "W/(m·K)");

    /// <summary>130e-5 cal/(cm·s·°C); 1 of that unit is 418.68 W/(m·K).</summary>
    [Fact]
    [Publication("a table after White and Krell", "conductivity at 20 °C", Standing.SecondaryCopy)]
    public void It_agrees_with_another_copy_at_20_C() => Published.Agrees(
        130e-5 * 418.68, HelveyConductivity.Helvey1954(293.15), Within.Absolute(0.02, "the stated error"), "conductivity at 20 °C", "W/(m·K)");

    [Theory]
    [InlineData(15, 0.5547)]
    [InlineData(21, 0.5375)]
    [Publication("a Russian page on honey", "conductivity at 15 and 21 %", Standing.Opened, Remark = "without a temperature; taken as room temperature, 15 to 25 °C")]
    public void It_agrees_with_a_page_that_tells_moistures_apart(double moisturePercent, double wPerMK) => Published.Agrees(
        wPerMK, HelveyConductivity.Helvey1954(293.15), Within.Absolute(0.02, "the stated error"), $"conductivity at {moisturePercent} %", "W/(m·K)");

    [Fact]
    public void The_supported_range_ends_where_the_figures_do()
    {
        ValidityRange t = new HelveyConductivity().TemperatureRange;
        Assert.Equal((21, 71), (t.Low, t.High));
        Assert.True(new HelveyConductivity().MoistureRange.Supports(17));
        Assert.False(new HelveyConductivity().MoistureRange.Supports(19));
    }
}
