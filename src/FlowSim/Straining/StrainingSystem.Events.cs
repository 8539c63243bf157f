using FlowSim.Numerics.Events;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <content>The events of a run: what is watched, and what changes when it happens.</content>
internal sealed partial class StrainingSystem
{
    /// <summary>Relative amount by which the pond is put below the rim when it stops running over, so that the next overflow is seen as new.</summary>
    public const double BelowRim = 1e-12;

    /// <summary>Written for an event that the present mode switches off.</summary>
    private const double Off = -1;

    private enum Watch
    {
        RimReached,
        SurplusEnds,
        RideBegins,
        RideEnds,
        ReceiverFull,
        AtHeel,
        RunThrough,
        Stalled,
        ScrapeDepth,
        ClothTurns,
        BackUp,
        OutletDips,
        Count,
    }

    public int EventCount => (int)Watch.Count;

    public EventDirection DirectionOf(int index) => (Watch)index switch
    {
        Watch.BackUp or Watch.OutletDips => EventDirection.Either,
        _ => EventDirection.Rising,
    };

    public void EventValues(double t, ReadOnlySpan<double> y, Span<double> values)
    {
        StrainingHydraulics.Evaluate(_p, _mode, t, y, out StrainingFlows f);
        PondBalance pond = PondBalance.Of(_p, _mode.Pond, y, f);
        bool free = _mode.Pond == PondMode.Free;
        bool riding = !double.IsPositiveInfinity(_p.RideDepthM);

        values[(int)Watch.RimReached] = free ? RimMargin(f, pond) : Off;
        values[(int)Watch.SurplusEnds] = _mode.Pond != PondMode.Ridden ? -pond.SurplusKgPerS : Off;
        values[(int)Watch.RideBegins] = free && riding ? f.PondDepthM - _p.RideDepthM : Off;
        values[(int)Watch.RideEnds] = _mode.Pond == PondMode.Ridden ? -pond.SurplusKgPerS : Off;
        values[(int)Watch.ReceiverFull] = !_mode.ReceiverFull ? (f.ReceiverM3 / _p.ReceiverCapacityM3) - 1 : Off;
        values[(int)Watch.AtHeel] = !_mode.AtHeel ? _p.HeelLevelM - f.TankLevelM : Off;
        values[(int)Watch.RunThrough] = _mode.AtHeel ? RunThroughMargin(f) : Off;
        values[(int)Watch.Stalled] = StallMargin(t, f, pond);
        values[(int)Watch.ScrapeDepth] = !_mode.InScrapePause ? ScrapeMargin(y, f) : Off;
        values[(int)Watch.ClothTurns] = ClothMargin(f);
        values[(int)Watch.BackUp] = f.BackUpM - _p.MinimumHeadM;
        values[(int)Watch.OutletDips] = _p.SubmergedOutlet ? f.PondDepthM - _p.OutletAboveScreenM : Off;
    }

    public EventResponse OnEvent(int index, double t, Span<double> y)
    {
        if (_mode.Ended)
            return EventResponse.Stop;

        _record.NoteDepth(t, y);
        if ((Watch)index == Watch.SurplusEnds && _mode.Pond == PondMode.Free)
            return EventResponse.Continue; // The pond is at its deepest; nothing changes.

        _record.NoteRow(this, t, y);
        EventResponse response = Handle((Watch)index, t, y);
        _record.NoteRow(this, t, y);
        return response;
    }

    private EventResponse Handle(Watch watch, double t, Span<double> y)
    {
        switch (watch)
        {
            case Watch.ReceiverFull:
                _record.NoteReceiverFull(t, y);
                if (_p.ShutWhenFull)
                    return End(StrainingStatus.ReceiverFull);
                _mode.FullReceiverKg = _mode.ReceiverKg(_p, y);
                break;
            case Watch.AtHeel:
                _mode.AtHeel = true;
                _record.NoteHeel(t);
                break;
            case Watch.RunThrough:
                return EndOfFlow(t, y);
            case Watch.Stalled:
                return End(StrainingStatus.Stalled);
            case Watch.ClothTurns:
                _mode.ClothRests = _mode.ClothHasRun && !_mode.ClothRests;
                _mode.ClothHasRun = true;
                break;
            case Watch.ScrapeDepth:
                Scrape(t, y);
                break;
        }

        return Resettle(t, y);
    }

    public double NextStop(double t)
    {
        double next = _mode.LookAgainAtS;
        if (_mode.OpeningStep + 1 < _p.OpeningTimesS.Length)
            next = Math.Min(next, _p.OpeningTimesS[_mode.OpeningStep + 1]);
        if (_mode.NextScrape < _p.ScrapeTimesS.Length)
            next = Math.Min(next, _p.ScrapeTimesS[_mode.NextScrape]);
        return next;
    }

    public EventResponse OnStop(double t, Span<double> y)
    {
        if (_mode.Ended)
            return EventResponse.Stop;

        _record.NoteRow(this, t, y);
        while (_mode.OpeningStep + 1 < _p.OpeningTimesS.Length && _p.OpeningTimesS[_mode.OpeningStep + 1] <= t)
            SetOpening(_mode.OpeningStep + 1, t, y);
        if (_mode.NextScrape < _p.ScrapeTimesS.Length && _p.ScrapeTimesS[_mode.NextScrape] <= t)
        {
            Scrape(t, y);
            while (_mode.NextScrape < _p.ScrapeTimesS.Length && _p.ScrapeTimesS[_mode.NextScrape] <= t)
                _mode.NextScrape++;
        }

        if (_mode.LookAgainAtS <= t)
        {
            _mode.LookAgainAtS = double.PositiveInfinity;
            StrainingHydraulics.Evaluate(_p, _mode, t, y, out StrainingFlows f);
            if (ScrapeMargin(y, f) >= 0)
                Scrape(t, y);
        }

        EventResponse response = Resettle(t, y);
        _record.NoteRow(this, t, y);
        return response;
    }

    public void OnStep(in DenseStep step) => _record.NoteStep(this, step);

    /// <summary>Sets the gate and the modes before the first step.</summary>
    public EventResponse Begin(Span<double> y)
    {
        SetOpening(0, 0, y);
        EventResponse response = _p.StartReceiverM3 >= _p.ReceiverCapacityM3
            ? Handle(Watch.ReceiverFull, 0, y)
            : Resettle(0, y);
        _record.NoteRow(this, 0, y);
        return response;
    }

    /// <summary>
    /// Zero or more while the pond is at the rim and gains. One that has just stopped running over lies at the rim to rounding, and the
    /// integration's error may lift it over again: without a surplus that is nothing.
    /// </summary>
    private double RimMargin(in StrainingFlows f, in PondBalance pond) =>
        Math.Min((f.PondM3 / _p.RimVolumeM3) - 1, pond.SurplusKgPerS / _p.StallKgPerS);

    /// <summary>Passes zero when honey first comes through the cloth, when it comes to rest, and when it runs again, m.</summary>
    private double ClothMargin(in StrainingFlows f) => !_mode.ClothHasRun ? f.DrivingHeadM
        : _mode.ClothRests ? f.DrivingHeadM - StrainingParameters.RunAgainHeadM
        : -f.DrivingHeadM;

    private void SetOpening(int step, double t, ReadOnlySpan<double> y)
    {
        _mode.OpeningStep = step;
        _mode.Gate = _p.OpeningGeometries[step];
        if (_mode.Gate.IsShut || !double.IsPositiveInfinity(_mode.OpenedAtS))
            return;

        _mode.OpenedAtS = t;
        _mode.OpenedAtLevelM = _p.Tank.LevelM(y[TankKg] / _p.Honey.DensityKgPerM3(y[TankK]));
        _mode.OpenedAtWettedM2 = _p.Tank.WettedAreaM2(_mode.OpenedAtLevelM);
    }

    private void Scrape(double t, Span<double> y)
    {
        foreach (ref double open in y[FirstOpenShare..])
            open += _p.ScrapeRecovery * (1 - open);
        _record.NoteScrape(t);
        if (!double.IsPositiveInfinity(_p.ScrapeDepthM))
            _mode.LookAgainAtS = t + _p.ScrapePauseS;
    }

    /// <summary>Zero or more while the pond is deep enough, and the cloth blinded enough, to be scraped.</summary>
    private double ScrapeMargin(ReadOnlySpan<double> y, in StrainingFlows f)
    {
        if (double.IsPositiveInfinity(_p.ScrapeDepthM) || _record.Scrapes.Count >= StrainingParameters.MostScrapesByDepth)
            return Off;

        double blinded = 0;
        foreach (double open in y[FirstOpenShare..])
            blinded = Math.Max(blinded, 1 - open);
        return Math.Min((f.PondDepthM / _p.ScrapeDepthM) - 1, (blinded / StrainingParameters.WorthScraping) - 1);
    }

    /// <summary>What this moves over the rim is a rounding; without it a pond that rests at the rim would reach it again and again.</summary>
    private void PutBelowRim(Span<double> y)
    {
        double below = _p.RimVolumeM3 * (1 - BelowRim) * _p.Honey.DensityKgPerM3(y[PondK]);
        if (y[PondKg] > below)
        {
            y[OverRimKg] += y[PondKg] - below;
            y[PondKg] = below;
        }
    }

    /// <summary>Picks the pond's mode from the state as it now is; run after every discrete change.</summary>
    private EventResponse Resettle(double t, Span<double> y)
    {
        StrainingHydraulics.Evaluate(_p, _mode, t, y, out StrainingFlows f);
        PondBalance pond = PondBalance.Of(_p, _mode.Pond, y, f);
        bool gains = pond.SurplusKgPerS > 0;
        bool atRim = f.PondM3 >= _p.RimVolumeM3 * (1 - (0.5 * BelowRim));
        bool atRide = f.PondDepthM >= _p.RideDepthM * (1 - BelowRim);
        _mode.Pond = gains && atRim ? PondMode.OverRim : gains && atRide ? PondMode.Ridden : PondMode.Free;
        if (atRim && !gains)
            PutBelowRim(y);
        _record.NoteMode(_mode.Pond, t, y);

        bool restsNow = StallMargin(t, f, PondBalance.Of(_p, _mode.Pond, y, f)) > 0;
        if (_mode.AtHeel && RunThroughMargin(f) >= 0)
            return EndOfFlow(t, y);
        return restsNow ? End(StrainingStatus.Stalled) : EventResponse.Restart;
    }

    /// <summary>Positive once all flows together are too small to matter and nothing is scheduled to change that, kg/s.</summary>
    private double StallMargin(double t, in StrainingFlows f, in PondBalance pond) => double.IsPositiveInfinity(NextStop(t))
        ? _p.StallKgPerS - (pond.GateKgPerS + f.ClothKgPerS + pond.OverRimKgPerS)
        : Off;

    private EventResponse EndOfFlow(double t, ReadOnlySpan<double> y)
    {
        StrainingHydraulics.Evaluate(_p, _mode, t, y, out StrainingFlows f);
        double layer = _p.MinimumHeadM + (2 * StrainingParameters.RunThroughHeadM);
        double aboveLayer = (f.PondM3 - _p.Form.PondVolumeM3(layer)) * f.PondDensity;
        return End(aboveLayer > StrainingParameters.RunThroughShare * _p.CanDrainKg ? StrainingStatus.Stalled : StrainingStatus.Drained);
    }

    /// <summary>Zero or more once what still drives the pond through the cloth, or what it can still bring, is negligible.</summary>
    private double RunThroughMargin(in StrainingFlows f)
    {
        double canRun = (f.PondM3 - _p.Form.PondVolumeM3(f.HeldBackM + f.AirHeadM)) * f.PondDensity;
        return Math.Max(
            1 - (f.DrivingHeadM / StrainingParameters.RunThroughHeadM),
            1 - (canRun / (StrainingParameters.RunThroughShare * _p.CanDrainKg)));
    }

    private EventResponse End(StrainingStatus ending)
    {
        _mode.Ended = true;
        _record.Ending = ending;
        return EventResponse.Stop;
    }
}
