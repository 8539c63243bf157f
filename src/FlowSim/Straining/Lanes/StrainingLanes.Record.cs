using System.Numerics;
using FlowSim.Numerics.Ensemble;

namespace FlowSim.Straining;

/// <content>What is noted on the way and given back at the end, as in <see cref="StrainingRecord"/>.</content>
internal sealed partial class StrainingLanes<TLanes>
{
    private readonly StrainingStatus[] _ending = new StrainingStatus[TLanes.Count];

    // Where the pond has its top in the step at hand, of which an event may leave only what comes before.
    private uint _tops;
    private TLanes _top, _topDepthM;

    /// <inheritdoc/>
    /// <remarks>A pond may rise to the rim and fall again between the ends of a step: where it is highest is asked too.</remarks>
    public uint Hidden(uint lanes, in LaneStep<TLanes> step, ReadOnlySpan<TLanes> atStart, ReadOnlySpan<TLanes> atEnd, ref TLanes theta)
    {
        ref LaneModes<TLanes> modes = ref Modes;
        ref LaneParameters<TLanes> p = ref P;
        TLanes turns = (step.Slope(Zero, PondKg) > Zero) & (step.Slope(One, PondKg) < Zero);
        uint tops = TLanes.Bits(turns) & lanes & ~TLanes.Bits(modes.OverRim | modes.Ridden);
        _tops = tops;
        if (tops == 0)
            return 0;
        TLanes top = step.Top(PondKg);
        TLanes depth = DepthAt(step, top);
        (_top, _topDepthM) = (top, depth);

        // The lowest depth above that at the start at which something happens.
        TLanes before = DepthAt(step, Zero);
        TLanes reaches = p.RimHeightM;
        if (_mayRide)
            reaches = TLanes.Select(p.RideDepthM > before, TLanes.Min(reaches, p.RideDepthM), reaches);
        if (_mayScrape)
            reaches = TLanes.Select(modes.Waits, reaches, TLanes.Select(p.ScrapeDepthM > before, TLanes.Min(reaches, p.ScrapeDepthM), reaches));
        uint over = TLanes.Bits((depth >= reaches) & (before < reaches)) & tops;
        if (over == 0)
            return 0;

        // At the very top it gains no more: a place between there and where it comes to the rim.
        TLanes sought = PondVolume(ref p, reaches) * Density(ref p, step.At(top, PondK));
        theta = (step.Passes(PondKg, sought, top) + top) * TLanes.Of(0.5);
        return over;
    }

    /// <inheritdoc/>
    public void OnStep(uint lanes, in LaneStep<TLanes> step, TLanes part)
    {
        ref LaneParameters<TLanes> p = ref P;
        ref LaneRecord<TLanes> record = ref Record;
        TLanes mine = TLanes.Mask(lanes);
        TLanes depth = DepthAt(step, part);
        if (_tops != 0)
            depth = TLanes.Select(TLanes.Mask(_tops) & (_top <= part), TLanes.Max(depth, _topDepthM), depth);
        record.PeakM = TLanes.Select(mine, TLanes.Max(record.PeakM, depth), record.PeakM);
        NoteShare(ref record.DrainS, TankKg, p.StartTankKg - (TLanes.Of(0.95) * p.CanDrainKg), falls: true, mine, step, part);
        NoteShare(ref record.StrainS, StrainedKg, TLanes.Of(0.95) * p.CanDrainKg, falls: false, mine, step, part);
        if (!_batch.Trace.IsEmpty)
            Trace(lanes, step, part);
    }

    private static void NoteShare(ref TLanes noted, int component, TLanes sought, bool falls, TLanes mine, in LaneStep<TLanes> step, TLanes part)
    {
        TLanes known = noted < TLanes.Of(double.PositiveInfinity); // false for NaN
        TLanes value = step.At(part, component);
        TLanes there = falls ? value <= sought : value >= sought;
        uint now = TLanes.Bits(there & mine) & ~TLanes.Bits(known);
        if (now == 0)
            return;
        TLanes theta = step.Passes(component, sought, part);
        noted = TLanes.Select(TLanes.Mask(now), TLanes.MultiplyAdd(theta, step.Length, step.Start), noted);
    }

    private TLanes DepthAt(in LaneStep<TLanes> step, TLanes theta)
    {
        ref LaneParameters<TLanes> p = ref P;
        TLanes volume = step.At(theta, PondKg) / Density(ref p, step.At(theta, PondK));
        return _pondIsPrism
            ? Clamp(volume * p.PondPerSurface, p.RimHeightM)
            : Each(_forms, volume, static (form, v) => form.PondDepthM(v));
    }

    /// <inheritdoc/>
    public void Finish(int lane, LaneEnding ending, double t, Span<TLanes> y)
    {
        int run = _run[lane];
        if (ending == LaneEnding.GaveUp)
        {
            if (_second)
                _batch.RunAlone(_filled, run);
            else
                _putAside.Push(run);
            return;
        }

        ref LaneRecord<TLanes> record = ref Record;
        TLanes missing = OverRimKg(y);
        double first = Lane.At(ref record.FirstOverflowS, lane);
        double overRim = double.IsPositiveInfinity(first) ? 0 : Math.Max(0, Lane.At(ref missing, lane));
        double strained = Lane.At(ref y[StrainedKg], lane);
        double bypassed = _bypass ? overRim : 0;
        double spilledAtReceiver = 0;
        double full = Lane.At(ref record.ReceiverFullS, lane);
        if (full < double.PositiveInfinity)
        {
            double strainedBefore = Lane.At(ref record.StrainedAtFullKg, lane);
            double bypassedBefore = _bypass ? Math.Max(0, Lane.At(ref record.OverRimAtFullKg, lane)) : 0;
            spilledAtReceiver = Math.Max(0, strained - strainedBefore + bypassed - bypassedBefore);
            (strained, bypassed) = (strainedBefore, bypassedBefore);
        }

        double peak = Lane.At(ref record.PeakM, lane) / _forms[lane].RimHeightM;
        if (!_batch.Trace.IsEmpty)
            EndTrace(lane, run, t, y);
        _batch.Give(run, new StrainingSample
        {
            DrainSeconds = Lane.At(ref record.DrainS, lane),
            StrainSeconds = Lane.At(ref record.StrainS, lane),
            FirstOverflowSeconds = first,
            OverRimKg = overRim,
            BypassedKg = bypassed,
            SpilledKg = (_bypass ? 0 : overRim) + spilledAtReceiver,
            ReceiverFullSeconds = full,
            ReceiverSpilledKg = spilledAtReceiver,
            StrainedKg = strained,
            PeakPondShare = double.IsPositiveInfinity(first) ? peak : 1,
            EndSeconds = t,
            Ending = _ending[lane],
            Scrapes = _schedules[lane].Scrapes,
        });
    }
}
