using FlowSim.OverflowRisk;
using FlowSim.Straining;
using static FlowSim.Tests.OverflowRisk.RiskParts;

namespace FlowSim.Tests.OverflowRisk;

/// <summary>Counts over invented runs, each counted by hand.</summary>
public class RunTallyTests
{
    private static RunTally Of(params StrainingSample[] samples)
    {
        var tally = new RunTally(0.1);
        tally.Add(samples);
        return tally;
    }

    [Fact]
    public void Nothing_is_counted_of_a_run_in_which_nothing_happens()
    {
        RunTally tally = Of(Quiet);
        Assert.Equal(1, tally.Runs);
        foreach (int[] hits in new[] { tally.Overflow, tally.Bypass, tally.Spill, tally.ReceiverFull, tally.ReceiverOverfilled })
            Assert.Equal(new int[16], hits);
        Assert.Equal(0, tally.TimeLimit);
        Assert.Equal([double.PositiveInfinity], tally.OverflowS);
        Assert.Equal([120.0], tally.EndS);
        Assert.Equal((1, 0), (tally.Drain.Count, tally.Drain.Never));
    }

    /// <summary>Each mishap by itself, in the third run of sixteen: only its own count, and only in the third replicate.</summary>
    [Fact]
    public void Each_mishap_is_counted_in_the_replicate_of_its_run_and_nowhere_else()
    {
        int[] third = [0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        void Only(StrainingSample mishap, Func<RunTally, int[]> count)
        {
            RunTally tally = Of(Quiet, Quiet, mishap);
            Assert.Equal(third, count(tally));
            int all = tally.Overflow.Sum() + tally.Bypass.Sum() + tally.Spill.Sum() + tally.ReceiverFull.Sum() + tally.ReceiverOverfilled.Sum();
            Assert.Equal(1, all);
        }

        Only(Over(7), tally => tally.Overflow);
        Only(Quiet with { BypassedKg = 0.11 }, tally => tally.Bypass);
        Only(Quiet with { SpilledKg = 0.11 }, tally => tally.Spill);
        Only(Quiet with { ReceiverFullSeconds = 50 }, tally => tally.ReceiverFull);
        Only(Quiet with { ReceiverSpilledKg = 1e-9 }, tally => tally.ReceiverOverfilled);
    }

    /// <summary>"Above this": just the mass that matters does not count.</summary>
    [Fact]
    public void Mass_up_to_what_matters_is_not_counted()
    {
        RunTally tally = Of(Quiet with { BypassedKg = 0.1, SpilledKg = 0.1 }, Quiet with { BypassedKg = 0.1001, SpilledKg = 0.1001 });
        Assert.Equal((1, 1), (tally.Bypass.Sum(), tally.Spill.Sum()));
        Assert.Equal((1, 1), (tally.Bypass[1], tally.Spill[1]));
    }

    [Fact]
    public void Runs_that_end_at_the_longest_time_are_counted_and_no_others()
    {
        RunTally tally = Of([.. Enum.GetValues<StrainingStatus>().Select(ending => Quiet with { Ending = ending }), Quiet with { Ending = StrainingStatus.TimeLimit }]);
        Assert.Equal(2, tally.TimeLimit);
    }

    /// <summary>Runs 0 and 16 are of the first replicate, run 17 of the second, however they are handed over.</summary>
    [Fact]
    public void Replicates_are_taken_in_turn_in_one_piece_or_in_several()
    {
        StrainingSample[] runs = [.. Enumerable.Range(0, 48).Select(i => i is 0 or 16 or 17 or 47 ? Over(i + 1) : Quiet with { EndSeconds = i + 1 })];
        RunTally inParts = Of(runs[..16]), whole = Of(runs);
        inParts.Add(runs.AsSpan(16, 16));
        inParts.Add(runs.AsSpan(32));
        int[] expected = [2, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1];
        Assert.Equal(expected, whole.Overflow);
        Assert.Equal(expected, inParts.Overflow);
        Assert.Equal(48, inParts.Runs);
        Assert.Equal(runs.Select(run => run.FirstOverflowSeconds), inParts.OverflowS);
        Assert.Equal(runs.Select(run => run.EndSeconds), inParts.EndS);
    }

    [Fact]
    public void Times_go_to_their_own_sketches()
    {
        RunTally tally = Of(Quiet with { DrainSeconds = 10, StrainSeconds = 100, EndSeconds = 1000 }, Quiet with { DrainSeconds = double.NaN, StrainSeconds = double.NaN });
        Assert.Equal((2, 1), (tally.Drain.Count, tally.Drain.Never));
        Assert.Equal((2, 1), (tally.Strain.Count, tally.Strain.Never));
        Assert.Equal((2, 0), (tally.End.Count, tally.End.Never));
        Assert.Equal(10, tally.Drain.Quantile(0.25), 0.01);
        Assert.Equal(100, tally.Strain.Quantile(0.25), 0.1);
        Assert.Equal(1000, tally.End.Quantile(0.75), 1.0);
    }

    /// <summary>Two of 32 in each of sixteen replicates is 1/16.</summary>
    [Fact]
    public void A_chance_is_hits_over_runs()
    {
        RunTally tally = Tally(64, 512);
        Assert.Equal(64, tally.Overflow.Sum());
        ProbabilityEstimate chance = tally.ChanceOf(tally.Overflow);
        Assert.Equal((0.125, 512L, EstimateMethod.Counting), (chance.Value, chance.Runs, chance.Method));
        Assert.True(chance.Low < 0.125 && chance.High > 0.125);
    }

    /// <summary>131 072 runs keep their times; those after them are counted all the same.</summary>
    [Fact]
    public void Times_of_the_first_runs_are_kept_and_all_are_counted()
    {
        var samples = new StrainingSample[RunTally.MostKept + 16];
        Array.Fill(samples, Over(5));
        RunTally tally = Of(samples);
        Assert.Equal((1 << 17, 1 << 17), (tally.OverflowS.Count, tally.EndS.Count));
        Assert.Equal(samples.Length, tally.Runs);
        Assert.Equal(samples.Length, tally.Overflow.Sum());
        Assert.Equal(samples.Length, tally.Strain.Count);
    }
}
