namespace FlowSim.Numerics.Ensemble;

/// <summary>In every lane a bracket around a place where a function passes zero from below.</summary>
/// <remarks>
/// <b>Equation</b>: the inverse quadratic through both ends and the end last given up, where that is sure to be monotone between them, else the
/// middle; the first time the secant. <b>Source</b>: Chandrupatla 1997, Advances in Engineering Software 28:145 (from memory).
/// <b>Checked by</b>: <c>Ensemble/LaneBracketTests.cs</c>.
/// </remarks>
internal struct LaneBracket<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    private TLanes _before;
    private TLanes _fBefore;
    private TLanes _past;
    private TLanes _fPast;

    /// <summary>The end last given up, and the mask of lanes in which the other end took its place. At first there is none.</summary>
    private TLanes _old;
    private TLanes _fOld;
    private TLanes _pastIsNew;
    private bool _hasOld;

    /// <summary>Makes brackets.</summary>
    /// <param name="before">Where the function is below zero.</param>
    /// <param name="fBefore">Its value there.</param>
    /// <param name="past">A later place where it is not.</param>
    /// <param name="fPast">Its value there.</param>
    public LaneBracket(TLanes before, TLanes fBefore, TLanes past, TLanes fPast)
    {
        (_before, _fBefore, _past, _fPast) = (before, fBefore, past, fPast);
        (_old, _fOld, _pastIsNew) = (past, fPast, TLanes.Mask(0));
    }

    /// <summary>The end at which the function is not below zero.</summary>
    public readonly TLanes Past => _past;

    /// <summary>Lanes that are not done yet.</summary>
    /// <param name="near">Value at the end that is near enough to zero.</param>
    /// <param name="narrow">Width that is narrow enough.</param>
    public readonly TLanes IsWiderThan(TLanes near, TLanes narrow) => (_fPast > near) & ((_past - _before) > narrow);

    /// <summary>Where to look next, inside the bracket.</summary>
    /// <param name="aim">Value aimed at, a little above zero: so the end that counts comes near, too.</param>
    /// <param name="bisect">Whether to take the middle.</param>
    public readonly TLanes Between(TLanes aim, bool bisect)
    {
        TLanes middle = (_before + _past) * TLanes.Of(0.5);
        if (bisect)
            return middle;
        TLanes newest = TLanes.Select(_pastIsNew, _past, _before), stayed = TLanes.Select(_pastIsNew, _before, _past);
        TLanes fNewest = TLanes.Select(_pastIsNew, _fPast, _fBefore) - aim, fStayed = TLanes.Select(_pastIsNew, _fBefore, _fPast) - aim;
        TLanes way = stayed - newest;
        TLanes share = fNewest / (fNewest - fStayed);
        if (_hasOld)
        {
            TLanes fOld = _fOld - aim;
            TLanes toOld = _old - stayed, fToOld = fOld - fStayed, one = TLanes.Of(1);
            TLanes place = -way / toOld;
            TLanes value = (fNewest - fStayed) / fToOld;
            TLanes isMonotone = ((value * value) < place) & (((one - value) * (one - value)) < (one - place));
            share = (share * fOld / fToOld) + ((_old - newest) / way * fNewest / (fOld - fNewest) * fStayed / fToOld);
            share = TLanes.Select(isMonotone, share, TLanes.Of(0.5));
        }

        TLanes between = TLanes.MultiplyAdd(share, way, newest);
        return TLanes.Select((between > _before) & (between < _past), between, middle);
    }

    /// <summary>Takes a value inside the bracket.</summary>
    /// <param name="c">Place.</param>
    /// <param name="fc">Value.</param>
    /// <param name="lanes">Mask of the lanes that take it.</param>
    public void Narrow(TLanes c, TLanes fc, TLanes lanes)
    {
        TLanes past = (fc >= TLanes.Of(0)) & lanes;
        TLanes before = (fc < TLanes.Of(0)) & lanes;
        _old = TLanes.Select(past, _past, TLanes.Select(before, _before, _old));
        _fOld = TLanes.Select(past, _fPast, TLanes.Select(before, _fBefore, _fOld));
        _pastIsNew = TLanes.Select(lanes, past, _pastIsNew);
        _before = TLanes.Select(before, c, _before);
        _fBefore = TLanes.Select(before, fc, _fBefore);
        _past = TLanes.Select(past, c, _past);
        _fPast = TLanes.Select(past, fc, _fPast);
        _hasOld = true;
    }
}
