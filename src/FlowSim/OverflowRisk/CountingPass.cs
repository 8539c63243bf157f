using FlowSim.Straining;

namespace FlowSim.OverflowRisk;

/// <summary>Runs setups with the draws of a seed and counts what happens; memory does not grow with the runs.</summary>
/// <param name="inputs">Inputs.</param>
/// <param name="options">How runs are computed.</param>
/// <param name="seed">Seed.</param>
/// <param name="massThatMattersKg">Bypass and spill above this are counted.</param>
internal sealed class CountingPass(SpreadInputs inputs, EnsembleOptions options, ulong seed, double massThatMattersKg)
{
    private const int ChunkRuns = 4096;

    private readonly RunDraws _draws = new(inputs.Count, seed);
    private double[] _points = [];
    private StrainingSample[] _samples = [];

    /// <summary>Runs a setup from the first draw on.</summary>
    /// <param name="setup">Setup.</param>
    /// <param name="runs">Runs, a multiple of <see cref="RunDraws.Replicates"/>.</param>
    /// <param name="cancellation">Ends early.</param>
    /// <param name="moved">Inputs whose spread is carried to the value in this setup.</param>
    public RunTally Run(StrainingSetup setup, int runs, CancellationToken cancellation, params ReadOnlySpan<StrainingInput> moved)
    {
        var tally = new RunTally(massThatMattersKg);
        Extend(tally, new StrainingBatch(setup, inputs, options, moved), runs, cancellation);
        return tally;
    }

    /// <summary>Goes on until a number of runs is counted.</summary>
    /// <param name="tally">Counts so far.</param>
    /// <param name="batch">What is run.</param>
    /// <param name="runs">Runs wanted, a multiple of <see cref="RunDraws.Replicates"/>.</param>
    /// <param name="cancellation">Ends early.</param>
    public void Extend(RunTally tally, StrainingBatch batch, int runs, CancellationToken cancellation)
    {
        int most = Math.Min(ChunkRuns, runs);
        if (_samples.Length < most)
            (_points, _samples) = (new double[most * inputs.Count], new StrainingSample[most]);
        while (tally.Runs < runs)
        {
            int take = (int)Math.Min(most, runs - tally.Runs);
            Span<double> points = _points.AsSpan(0, take * inputs.Count);
            _draws.Fill(tally.Runs, points);
            batch.Run(points, _samples.AsMemory(0, take), cancellation);
            tally.Add(_samples.AsSpan(0, take));
        }
    }
}
