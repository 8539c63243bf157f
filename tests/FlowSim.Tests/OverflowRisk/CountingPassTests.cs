using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Runs are counted in chunks, in order, each once.</summary>
public class CountingPassTests
{
    private static readonly StrainingSetup Setup = Pail(50) with { Longest = Duration.FromSeconds(20) };
    private static SpreadInputs Inputs => ScreenOf(Setup, 1.3);

    private static CountingPass Pass(double massThatMattersKg = 0.1) => new(Inputs, OneThread, 7, massThatMattersKg);

    private static StrainingSample[] Direct(int runs)
    {
        var samples = new StrainingSample[runs];
        new StrainingBatch(Setup, Inputs, OneThread).Run(Draws(1, runs, 7), samples, default);
        return samples;
    }

    /// <summary>4096 runs are one chunk, those after them the next.</summary>
    [Fact]
    public void More_than_a_chunk_are_the_draws_one_after_the_other()
    {
        const int runs = 4096 + 32;
        StrainingSample[] direct = Direct(runs);
        RunTally tally = Pass().Run(Setup, runs, default);
        Assert.Equal(runs, tally.Runs);
        Assert.Equal(direct.Select(sample => sample.FirstOverflowSeconds), tally.OverflowS);
        Assert.Equal(direct.Count(sample => sample.RanOver), tally.Overflow.Sum());
        Assert.InRange(tally.Overflow.Sum(), 1000, 3000); // Else it would prove little.
    }

    [Fact]
    public void It_goes_on_where_it_stopped_and_starts_anew_for_another_count()
    {
        CountingPass pass = Pass();
        var batch = new StrainingBatch(Setup, Inputs, OneThread);
        var tally = new RunTally(0.1);
        pass.Extend(tally, batch, 48, default);
        Assert.Equal((48, 48), (tally.Runs, batch.Runs));
        pass.Extend(tally, batch, 112, default);
        Assert.Equal((112, 112), (tally.Runs, batch.Runs));
        pass.Extend(tally, batch, 112, default);
        Assert.Equal(112, batch.Runs);

        double[] expected = [.. Direct(112).Select(sample => sample.FirstOverflowSeconds)];
        Assert.Equal(expected, tally.OverflowS);
        Assert.Equal(expected[..32], pass.Run(Setup, 32, default).OverflowS);
        Assert.Equal(expected, pass.Run(Setup, 112, default).OverflowS);
    }

    /// <summary>All that runs over falls to the floor: the kilograms of each run, held against the mass that matters.</summary>
    [Fact]
    public void Spills_above_the_mass_that_matters_are_counted()
    {
        double[] spilt = [.. Direct(64).Select(sample => sample.SpilledKg).Where(kg => kg > 0).Order()];
        double middle = spilt[spilt.Length / 2];
        Assert.Equal(spilt.Length, Pass(0).Run(Setup, 64, default).Spill.Sum());
        Assert.Equal(spilt.Count(kg => kg > middle), Pass(middle).Run(Setup, 64, default).Spill.Sum());
        Assert.Equal(0, Pass(1000).Run(Setup, 64, default).Spill.Sum());
    }

    [Fact]
    public void Spreads_are_carried_along_when_they_are_asked_to_be()
    {
        SpreadInputs opening = Alone(Normal(StrainingInputs.Opening, 0.9, 0.02));
        var pass = new CountingPass(opening, OneThread, 7, 0.1);
        Assert.Equal(0, pass.Run(Pail(20), 16, default, StrainingInputs.Opening).Overflow.Sum());
        Assert.Equal(16, pass.Run(Pail(20), 16, default).Overflow.Sum());
    }

    [Fact]
    public void It_can_be_cancelled()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => Pass().Run(Setup, 64, cancelled.Token));
    }
}
