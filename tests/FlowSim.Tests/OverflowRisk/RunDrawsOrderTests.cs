using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Run i is point i / 16 of replicate i mod 16, from whatever run on.</summary>
public class RunDrawsOrderTests
{
    [Fact]
    public void Sixteen_nets_are_taken_in_turn()
    {
        const int dimensions = 3, runs = 80;
        double[] points = Draws(dimensions, runs, 9), later = new double[dimensions * 32];
        for (int run = 0; run < runs; run++)
        {
            double[] point = new double[dimensions];
            new ScrambledSobol(dimensions, 9, run % 16).Fill(run / 16, point);
            Assert.Equal(point, points[(run * dimensions)..((run + 1) * dimensions)]);
        }

        new RunDraws(dimensions, 9).Fill(48, later);
        Assert.Equal(points[(48 * dimensions)..], later);
    }

    /// <summary>A longer fill after a shorter one, and a shorter after a longer: the buffer of before is not seen.</summary>
    [Fact]
    public void Fills_of_any_length_follow_one_another()
    {
        var draws = new RunDraws(2, 4);
        double[] expected = Draws(2, 64, 4);
        foreach (int runs in new[] { 16, 64, 32, 48 })
        {
            double[] points = new double[2 * runs];
            draws.Fill(0, points);
            Assert.Equal(expected[..(2 * runs)], points);
        }
    }

    [Theory]
    [InlineData(1, 16)]
    [InlineData(15, 16)]
    [InlineData(16, 16)]
    [InlineData(17, 32)]
    [InlineData(64, 64)]
    [InlineData(10_000_000, 10_000_000)]
    public void Runs_are_rounded_up_to_whole_sixteens(int runs, int whole) => Assert.Equal(whole, RunDraws.Whole(runs));
}
