using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>Counts over the runs of a batch, in the order of the runs; fixed memory but for the first runs' times.</summary>
/// <param name="massThatMattersKg">Bypass and spill above this are counted.</param>
internal sealed class RunTally(double massThatMattersKg)
{
    /// <summary>Runs whose times are kept one by one.</summary>
    public const int MostKept = 1 << 17;

    private readonly List<double> _overflowS = [];
    private readonly List<double> _endS = [];

    /// <summary>Runs counted.</summary>
    public long Runs { get; private set; }

    /// <summary>Runs that ran over, by replicate.</summary>
    public int[] Overflow { get; } = new int[RunDraws.Replicates];

    /// <summary>Runs with unstrained honey in the receiver.</summary>
    public int[] Bypass { get; } = new int[RunDraws.Replicates];

    /// <summary>Runs with honey on the floor.</summary>
    public int[] Spill { get; } = new int[RunDraws.Replicates];

    /// <summary>Runs whose receiver got full.</summary>
    public int[] ReceiverFull { get; } = new int[RunDraws.Replicates];

    /// <summary>Runs whose receiver ran over.</summary>
    public int[] ReceiverOverfilled { get; } = new int[RunDraws.Replicates];

    /// <summary>Time to 95 % drained.</summary>
    public TimeSketch Drain { get; } = new();

    /// <summary>Time to 95 % strained.</summary>
    public TimeSketch Strain { get; } = new();

    /// <summary>Time simulated.</summary>
    public TimeSketch End { get; } = new();

    /// <summary>Runs that ended at the longest time.</summary>
    public long TimeLimit { get; private set; }

    /// <summary>When the first runs ran over first, s, in their order; +∞ when they did not.</summary>
    public IReadOnlyList<double> OverflowS => _overflowS;

    /// <summary>When the first runs ended, s.</summary>
    public IReadOnlyList<double> EndS => _endS;

    /// <summary>Counts runs.</summary>
    /// <param name="samples">The next runs, from a multiple of <see cref="RunDraws.Replicates"/> on.</param>
    public void Add(ReadOnlySpan<StrainingSample> samples)
    {
        for (int i = 0; i < samples.Length; i++)
        {
            ref readonly StrainingSample sample = ref samples[i];
            int replicate = i % RunDraws.Replicates;
            Overflow[replicate] += sample.RanOver ? 1 : 0;
            Bypass[replicate] += sample.BypassedKg > massThatMattersKg ? 1 : 0;
            Spill[replicate] += sample.SpilledKg > massThatMattersKg ? 1 : 0;
            ReceiverFull[replicate] += double.IsFinite(sample.ReceiverFullSeconds) ? 1 : 0;
            ReceiverOverfilled[replicate] += sample.ReceiverSpilledKg > 0 ? 1 : 0;
            Drain.Add(sample.DrainSeconds);
            Strain.Add(sample.StrainSeconds);
            End.Add(sample.EndSeconds);
            TimeLimit += sample.Ending == StrainingStatus.TimeLimit ? 1 : 0;
            if (_overflowS.Count < MostKept)
            {
                _overflowS.Add(sample.FirstOverflowSeconds);
                _endS.Add(sample.EndSeconds);
            }
        }

        Runs += samples.Length;
    }

    /// <summary>The chance that a count tells.</summary>
    /// <param name="hits">Runs by replicate.</param>
    public ProbabilityEstimate ChanceOf(int[] hits) => Chance.Counted(hits, (int)(Runs / RunDraws.Replicates));
}
