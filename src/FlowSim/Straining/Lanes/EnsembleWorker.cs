using FlowSim.Numerics.Ensemble;

namespace FlowSim.Straining;

/// <summary>One thread's share of an ensemble: its lanes and everything they need, made once.</summary>
internal abstract class EnsembleWorker
{
    /// <summary>Absolute tolerance as a share of the relative one, as in <see cref="StrainingIntegration"/>.</summary>
    private const double AbsoluteShare = StrainingIntegration.AbsoluteShare;

    /// <summary>Takes runs from a batch until there are none left.</summary>
    /// <param name="batch">Batch.</param>
    public abstract void Work(EnsembleBatch batch);

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
        /// <summary>Steps after which a run counts as stiff: several times what one that is not takes.</summary>
        private const int MostExplicitSteps = 250;

        private readonly StrainingLanes<TLanes> _lanes;
        private readonly EnsembleIntegrator<StrainingLanes<TLanes>, TLanes> _quick;
        private readonly EnsembleIntegrator<StrainingLanes<TLanes>, TLanes> _stiff;

        public Wide(StrainingParameters parameters, double relativeTolerance)
        {
            _lanes = new StrainingLanes<TLanes>(parameters);
            double absolute = AbsoluteShare * relativeTolerance;
            _quick = new EnsembleIntegrator<StrainingLanes<TLanes>, TLanes>(_lanes, relativeTolerance, absolute, LaneMethod.DormandPrince, MostExplicitSteps);
            _stiff = new EnsembleIntegrator<StrainingLanes<TLanes>, TLanes>(_lanes, relativeTolerance, absolute, LaneMethod.Rodas5P);
        }

        public override void Work(EnsembleBatch batch)
        {
            _lanes.TakeAll(batch);
            _quick.Run(batch.Cancellation);
            if (_lanes.TakePutAside())
                _stiff.Run(batch.Cancellation);
        }
    }

    private sealed class OneByOne(StrainingParameters parameters) : EnsembleWorker
    {
        public override void Work(EnsembleBatch batch)
        {
            while (batch.TryTake(parameters, out int run))
            {
                batch.Cancellation.ThrowIfCancellationRequested();
                batch.RunAlone(parameters, run);
            }
        }
    }
}
