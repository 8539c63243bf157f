using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.OverflowRisk;

/// <summary>The widest opening within a tolerance, all openings tried with the same draws.</summary>
/// <remarks>
/// A run that runs over at one opening does so at every wider one, so after each step of the bisection only the runs that the step has not
/// settled are run again: some two times the number of runs in place of eight. Where wetted area grows with the pond (cones, bags) a run may break
/// that rule; the opening found is therefore run with all draws, and lowered until it holds.
/// </remarks>
internal sealed class OpeningSearch
{
    private readonly SpreadInputs _inputs;
    private readonly EnsembleOptions _options;
    private readonly double[] _points;
    private readonly int _runs;
    private readonly StrainingInput[] _moved;

    /// <summary>Prepares a search.</summary>
    /// <param name="inputs">Inputs.</param>
    /// <param name="options">How runs are computed.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="runs">Runs at each opening, a multiple of <see cref="RunDraws.Replicates"/>.</param>
    /// <param name="moved">Inputs whose spread is carried to the value in the setup, besides the opening.</param>
    public OpeningSearch(SpreadInputs inputs, EnsembleOptions options, ulong seed, int runs, params ReadOnlySpan<StrainingInput> moved)
    {
        (_inputs, _options, _runs) = (inputs, options, runs);
        _moved = [StrainingInputs.Opening, .. moved];
        _points = new double[runs * inputs.Count];
        new RunDraws(inputs.Count, seed).Fill(0, _points);
    }

    /// <summary>Runs made so far.</summary>
    public long Runs { get; private set; }

    /// <summary>Finds the opening.</summary>
    /// <param name="setup">Setup; its gate control is replaced.</param>
    /// <param name="tolerance">Tolerance, 0 to 1.</param>
    /// <param name="cancellation">Ends early.</param>
    public OpeningAdvice Find(StrainingSetup setup, double tolerance, CancellationToken cancellation)
    {
        int allowed = (int)Chance.MostHits(_runs, Chance.AsFarAsTold(tolerance, _runs));
        int[] open = [.. Enumerable.Range(0, _runs)];
        (int holds, int runsOver, int settled) = (0, WidestOpening.StepsToFullyOpen + 1, 0);

        // Near the answer from the first, most runs are settled at once.
        int next = Math.Max(1, WidestOpening.StepsOf(WidestOpening.Find(setup, cancellation)));
        while (runsOver - holds > 1)
        {
            int[] over = RunningOver(setup, next, open, cancellation);
            if (settled + over.Length > allowed)
            {
                (runsOver, open) = (next, over);
            }
            else
            {
                (holds, settled) = (next, settled + over.Length);
                open = [.. open.Except(over)];
            }

            next = runsOver > WidestOpening.StepsToFullyOpen ? WidestOpening.StepsToFullyOpen : (holds + runsOver) / 2;
        }

        for (int lower = 1; holds > 0; lower *= 2)
        {
            RunTally all = All(setup, holds, cancellation);
            long hits = all.Overflow.Sum();
            if (hits <= allowed)
                return new OpeningAdvice(WidestOpening.AtStep(holds), Chance.Pooled(hits, all.Runs), all.Strain.Spread());
            holds = Math.Max(0, holds - lower);
        }

        return new OpeningAdvice(Ratio.Zero, null, null);
    }

    private StrainingBatch Batch(StrainingSetup setup, int steps) => new(
        setup with { Control = GateControl.LeaveAt(WidestOpening.AtStep(steps)) }, _inputs, _options, _moved);

    /// <summary>Those of some runs that run over at an opening.</summary>
    private int[] RunningOver(StrainingSetup setup, int steps, int[] runs, CancellationToken cancellation)
    {
        StrainingBatch batch = Batch(setup, steps);
        int width = _inputs.Count;
        double[] points = new double[runs.Length * width];
        for (int i = 0; i < runs.Length; i++)
            _points.AsSpan(runs[i] * width, width).CopyTo(points.AsSpan(i * width));
        var samples = new StrainingSample[runs.Length];
        batch.Run(points, samples, cancellation);
        Runs += runs.Length;
        return [.. runs.Where((_, i) => samples[i].RanOver)];
    }

    private RunTally All(StrainingSetup setup, int steps, CancellationToken cancellation)
    {
        var samples = new StrainingSample[_runs];
        Batch(setup, steps).Run(_points, samples, cancellation);
        Runs += _runs;
        var tally = new RunTally(0);
        tally.Add(samples);
        return tally;
    }
}
