using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>Heat capacity, a formula for sugar solutions that was recalled from memory: checked on water and on figures for honey itself.</summary>
[Publication("Bubník, Kadlec, Urban and Bruhns 1995", "Sugar Technologists Manual, heat capacity", Standing.FromMemory)]
public class Bubnik1995Tests
{
    [Fact]
    [Publication("the CRC Handbook", "heat capacity of water", Standing.FromMemory)]
    public void With_no_sugar_it_gives_water() => Published.Agrees(
        4182,
        HoneyHeatCapacity.Bubnik1995(100, 293.15),
        Within.Relative(0.003, "the formula starts from 4186.8 at every temperature"),
        "water at 20 °C",
        "J/(kg·K)");

    [Fact]
    [Publication("a trade specification sheet of honey", "heat capacity at 17.4 %", Standing.Opened)]
    public void Honey_at_17_4_percent() => Published.Agrees(
        2260, HoneyHeatCapacity.Bubnik1995(17.4, 293.15), Within.Relative(0.02, "the stated error of the formula"), "honey of 17.4 % at 20 °C", "J/(kg·K)");

    /// <summary>0.57 cal/(g·°C).</summary>
    [Fact]
    [Publication("a table after White and Krell", "heat capacity at 17 %", Standing.SecondaryCopy)]
    public void Honey_at_17_percent_in_a_table_that_reads_higher() => Published.Agrees(
        0.57 * 4186.8,
        HoneyHeatCapacity.Bubnik1995(17, 293.15),
        Within.Relative(0.08, "the stated error of the formula against tables that read higher"),
        "honey of 17 % at 20 °C",
        "J/(kg·K)");

    /// <summary>4.1868 − 0.0251·83 + 7.5e-5·83·20 = 2.2280.</summary>
    [Fact]
    [Publication("a working by hand", "the same formula", Standing.Derived)]
    public void At_17_percent_and_20_C_it_is_2_23() =>
        Published.Agrees(2228.0, HoneyHeatCapacity.Bubnik1995(17, 293.15), Within.Absolute(0.1, "a unit of the last digit"), "honey of 17 % at 20 °C", "J/(kg·K)");
}
