using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Sources.Tests;

/// <summary>Moisture against refractive index at 20 °C, the basis of AOAC 969.38B (that attribution from memory).</summary>
[Publication("Chataway 1932, table; Wedmore 1955, equation", "Bee World 36:197, as printed in Bogdanov, The Book of Honey, chapter 4", Standing.SecondaryCopy, Remark = "the chapter's page was opened")]
public class Chataway1932Tests
{
    // The whole table: 13.0 % to 25.0 % in steps of 0.2.
    private static readonly double[] s_index =
    [
        1.5044, 1.5038, 1.5033, 1.5028, 1.5023, 1.5018, 1.5012, 1.5007, 1.5002, 1.4997,
        1.4992, 1.4987, 1.4982, 1.4976, 1.4971, 1.4966, 1.4961, 1.4956, 1.4951, 1.4946,
        1.4940, 1.4935, 1.4930, 1.4925, 1.4920, 1.4915, 1.4910, 1.4905, 1.4900, 1.4895,
        1.4890, 1.4885, 1.4880, 1.4875, 1.4870, 1.4865, 1.4860, 1.4855, 1.4850, 1.4845,
        1.4840, 1.4835, 1.4830, 1.4825, 1.4820, 1.4815, 1.4810, 1.4805, 1.4800, 1.4795,
        1.4790, 1.4785, 1.4780, 1.4775, 1.4770, 1.4765, 1.4760, 1.4755, 1.4750, 1.4745,
        1.4740,
    ];

    [Fact]
    public void The_equation_meets_the_whole_table()
    {
        Within rounding = Within.Absolute(0.025, "the table is rounded to 0.0001 in index, which is 0.04 % of moisture");
        Assert.Equal(61, s_index.Length);
        for (int i = 0; i < s_index.Length; i++)
        {
            double moisture = MoistureReading.FromRefractiveIndex(s_index[i], Temperature.FromDegreesCelsius(20)).Moisture.Percent;
            Published.Agrees(13 + 0.2 * i, moisture, rounding, $"moisture at index {s_index[i]:F4}, 20 °C", "%");
        }
    }

    [Fact]
    public void The_constant_printed_as_1_73190_is_bar_notation()
    {
        // Taken at face value it gives a moisture near 900 %; as −1 + 0.73190 it gives the table's 17 % for 1.4940.
        double faceValue = (1.73190 - Math.Log10(0.4940)) / 0.002243;
        double barNotation = (-1 + 0.73190 - Math.Log10(0.4940)) / 0.002243;
        Assert.True(faceValue > 100);
        Assert.Equal(17, barNotation, 0.025);
        Assert.Equal(barNotation, MoistureReading.Wedmore1955(1.4940), 1e-9);
    }

    [Theory]
    [InlineData(25)]
    [InlineData(30)]
    [InlineData(15)]
    public void Above_20_C_0_00023_per_kelvin_is_added_and_below_subtracted(double temperatureC)
    {
        double read = 1.4940 - 0.00023 * (temperatureC - 20);
        Published.Agrees(
            17,
            MoistureReading.FromRefractiveIndex(read, Temperature.FromDegreesCelsius(temperatureC)).Moisture.Percent,
            Within.Absolute(0.025, "the rounding of the table"),
            $"moisture at index {read:F5}, {temperatureC} °C",
            "%");
    }

    [Theory]
    [InlineData(1.4901, 80.0)]
    [InlineData(1.4774, 75.0)]
    [InlineData(1.5033, 85.0)]
    [Publication("ICUMSA 1974", "sucrose scale, refractive index at 20 °C of 75, 80 and 85 °Bx", Standing.FromMemory)]
    public void Brix_and_refractive_index_of_one_honey_give_one_moisture(double indexAt20C, double brix)
    {
        double fromIndex = MoistureReading.Wedmore1955(indexAt20C);
        Published.Agrees(
            fromIndex,
            MoistureReading.FromBrix(brix).Moisture.Percent,
            Within.Absolute(0.3, "the spread that the reading by Brix states"),
            $"moisture of {brix} °Bx, by the index {indexAt20C} and by Brix",
            "%");
    }
}
