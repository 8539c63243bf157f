using FlowSim.OverflowRisk;
using FlowSim.Straining;
using FsCheck;
using FsCheck.Xunit;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Run i of a seed is the same whatever follows, on whatever threads.</summary>
public class RunDrawsTests
{
    [Property(MaxTest = 50)]
    public void The_first_half_of_twice_the_draws_is_the_draws(DoNotSize<uint> seed)
    {
        const int dimensions = 5, runs = 256;
        double[] once = new double[runs * dimensions], twice = new double[2 * runs * dimensions], inParts = new double[runs * dimensions];
        new RunDraws(dimensions, seed.Item).Fill(0, once);
        new RunDraws(dimensions, seed.Item).Fill(0, twice);
        var parts = new RunDraws(dimensions, seed.Item);
        parts.Fill(0, inParts.AsSpan(0, 64 * dimensions));
        parts.Fill(64, inParts.AsSpan(64 * dimensions));

        Assert.Equal(once, twice[..once.Length]);
        Assert.Equal(once, inParts);
        Assert.All(twice, u => Assert.True(u is > 0 and < 1));
    }

    [Fact]
    public void A_run_does_not_depend_on_how_many_follow_nor_on_the_chunks()
    {
        var inputs = new SpreadInputs(DefaultSpreads.For(RiskSetups.Pail(25)), []);
        var pass = new CountingPass(inputs, new EnsembleOptions(), 3, 0.1);
        RunTally few = pass.Run(RiskSetups.Pail(25), 64, default);
        RunTally many = pass.Run(RiskSetups.Pail(25), 128, default);
        Assert.Equal(few.OverflowS, many.OverflowS.Take(64));
        Assert.Equal(few.EndS, many.EndS.Take(64));
    }

    /// <summary>
    /// Two, four or eight runs side by side give the same to the last bit; one after the other, by the integrator of single runs, the same but for the
    /// tolerance of 1e-5 a step: a run of 256 may fall on the other side of the rim, and times agree to 0.1 %.
    /// </summary>
    [Fact]
    public void A_run_does_not_depend_on_the_width_of_the_lanes()
    {
        var inputs = new SpreadInputs(DefaultSpreads.For(RiskSetups.Pail(25)), []);
        RunTally Count(LaneWidth lanes) => new CountingPass(inputs, new EnsembleOptions { Lanes = lanes }, 3, 0.1).Run(RiskSetups.Pail(25), 256, default);

        RunTally two = Count(LaneWidth.Two);
        foreach (LaneWidth lanes in new[] { LaneWidth.Four, LaneWidth.Eight, LaneWidth.Widest })
        {
            RunTally wide = Count(lanes);
            Assert.Equal(two.OverflowS, wide.OverflowS);
            Assert.Equal(two.EndS, wide.EndS);
        }

        RunTally single = Count(LaneWidth.OneByOne);
        Assert.InRange(single.Overflow.Sum(), two.Overflow.Sum() - 1, two.Overflow.Sum() + 1);
        Assert.True(single.Overflow.Sum() > 10);
        Assert.Equal(single.Drain.Spread().P50!.Value.Seconds, two.Drain.Spread().P50!.Value.Seconds, 1e-3 * two.Drain.Spread().P50!.Value.Seconds);
    }
}
