using System.Globalization;
using FlowSim.Bottling;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

public class NetWeightLabelTests
{
    /// <summary>One pound is 453.59237 g and one ounce 28.349523125 g by definition; three figures, downwards.</summary>
    [Theory]
    [InlineData(500, "500 g", "17.6 oz (1 lb 1.6 oz)")]
    [InlineData(453.59237, "453 g", "16 oz (1 lb)")]
    [InlineData(340.194277, "340 g", "12 oz")]
    [InlineData(1000, "1 kg", "35.2 oz (2 lb 3.2 oz)")]
    [InlineData(2267.96185, "2.26 kg", "80 oz (5 lb)")]
    [InlineData(30, "30 g", "1.05 oz")]
    [InlineData(250, "250 g", "8.81 oz")]
    [InlineData(999.9, "999 g", "35.2 oz (2 lb 3.2 oz)")]
    [InlineData(100_000, "100 kg", "3520 oz (220 lb)")] // 3527 oz, three figures: 3520 = 220 · 16
    [InlineData(28.349523125, "28.3 g", "1 oz")]
    [InlineData(283.49523125, "283 g", "10 oz")]
    [InlineData(2834.9523125, "2.83 kg", "100 oz (6 lb 4 oz)")]
    [InlineData(28, "28 g", "0.987 oz")]
    [InlineData(5, "5 g", "0.176 oz")]
    [InlineData(1, "1 g", "0.0352 oz")]
    public void Both_systems(double grams, string metric, string customary)
    {
        NetWeightLabel label = NetWeightLabel.Of(Mass.FromGrams(grams));
        Assert.Equal(metric, label.Metric);
        Assert.Equal(customary, label.Customary);
    }

    /// <summary>What is printed is never more than there is, and less by no more than one in a hundred.</summary>
    [Fact]
    public void No_label_promises_more_than_is_in_the_jar()
    {
        for (int tenths = 10; tenths < 40_000; tenths += 7)
        {
            NetWeightLabel label = NetWeightLabel.Of(Mass.FromGrams(tenths / 10.0));
            string[] metric = label.Metric.Split(' ');
            double grams = Number(metric[0]) * (metric[1] == "kg" ? 1000 : 1), ounces = Number(label.Customary.Split(' ')[0]);
            Assert.InRange(grams, 0.99 * tenths / 10, tenths / 10.0 * (1 + 1e-6));
            Assert.InRange(ounces * 28.349523125, 0.99 * tenths / 10, tenths / 10.0 * (1 + 1e-6));
        }

        static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
    }
}
