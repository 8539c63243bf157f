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
}
