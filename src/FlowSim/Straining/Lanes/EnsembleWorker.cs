using FlowSim.Numerics.Ensemble;

namespace FlowSim.Straining.Lanes;

/// <summary>One thread's share of an ensemble: its lanes and everything they need, made once.</summary>
internal abstract class EnsembleWorker
{
    /// <summary>Absolute tolerance as a share of the relative one, as in <see cref="StrainingIntegration"/>.</summary>
    private const double AbsoluteShare = StrainingIntegration.AbsoluteShare;

    /// <summary>Takes runs from a batch until there are none left.</summary>
    /// <param name="batch">Batch.</param>
    public abstract void Work(StrainingBatch batch);

    /// <summary>A worker of the width that is wanted, or that the machine has.</summary>
    /// <param name="options">Options.</param>
    /// <param name="parameters">Parameters to fill; not shared.</param>
    public static EnsembleWorker Of(EnsembleOptions options, StrainingParameters parameters)
    {
        LaneWidth width = options.Lanes;
        if (width == LaneWidth.Widest)
            width = Lanes8.IsFast ? LaneWidth.Eight : Lanes4.IsFast ? LaneWidth.Four : Lanes2.IsFast ? LaneWidth.Two : LaneWidth.OneByOne;
        if (!StrainingLanes<Lanes2>.Admits(parameters))
            width = LaneWidth.OneByOne;
        return width switch
        {
            LaneWidth.Eight => new Wide<Lanes8>(parameters, options.RelativeTolerance),
            LaneWidth.Four => new Wide<Lanes4>(parameters, options.RelativeTolerance),
            LaneWidth.Two => new Wide<Lanes2>(parameters, options.RelativeTolerance),
            _ => new OneByOne(parameters),
        };
    }

    private sealed class Wide<TLanes> : EnsembleWorker
        where TLanes : struct, ILanes<TLanes>
    {
        private readonly StrainingLanes<TLanes> _lanes;
        private readonly EnsembleIntegrator<StrainingLanes<TLanes>, TLanes> _integrator;

        public Wide(StrainingParameters parameters, double relativeTolerance)
        {
            _lanes = new StrainingLanes<TLanes>(parameters);
            _integrator = new EnsembleIntegrator<StrainingLanes<TLanes>, TLanes>(_lanes, relativeTolerance, AbsoluteShare * relativeTolerance);
        }

        public override void Work(StrainingBatch batch)
        {
            _lanes.Take(batch);
            _integrator.Run(batch.Cancellation);
        }
    }

    private sealed class OneByOne(StrainingParameters parameters) : EnsembleWorker
    {
        public override void Work(StrainingBatch batch)
        {
            while (batch.TryTake(parameters, out int run))
            {
                batch.Cancellation.ThrowIfCancellationRequested();
                batch.RunAlone(parameters, run);
            }
        }
    }
}
