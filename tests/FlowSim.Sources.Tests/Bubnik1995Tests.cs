using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Heat capacity by Bubník, Kadlec, Urban &amp; Bruhns 1995, Sugar Technologists Manual. Standing: formula from memory. Checked
/// on water and on figures for honey itself.
/// </summary>
public class Bubnik1995Tests
{
    [Fact]
    public void With_no_sugar_it_gives_water()
    {
        // Water at 20 °C: 4182 J/(kg·K) (CRC Handbook, from memory). 0.3 %: the formula starts from 4186.8 at every temperature.
        Assert.Equal(4182, HoneyHeatCapacity.Bubnik1995(100, 293.15), 4182 * 0.003);
    }

    [Fact]
    public void Honey_at_17_4_percent()
    {
        // 2.26 kJ/(kg·K) at 17.4 %, 20 °C, in a trade specification sheet (opened). 2 %: stated under Error.
        Assert.Equal(2260, HoneyHeatCapacity.Bubnik1995(17.4, 293.15), 2260 * 0.02);
    }

    [Fact]
    public void Honey_at_17_percent_in_a_table_that_reads_higher()
    {
        // 0.57 cal/(g·°C) at 17 %, 20 °C, in a table after White and Krell (opened): 2.386 kJ/(kg·K). 8 %: stated under Error.
        Assert.Equal(0.57 * 4186.8, HoneyHeatCapacity.Bubnik1995(17, 293.15), 0.57 * 4186.8 * 0.08);
    }

    [Fact]
    public void At_17_percent_and_20_C_it_is_2_23()
    {
        // The formula by hand: 4.1868 − 0.0251·83 + 7.5e-5·83·20 = 2.2280.
        Assert.Equal(2228.0, HoneyHeatCapacity.Bubnik1995(17, 293.15), 0.1);
    }
}
