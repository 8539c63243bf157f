using System.Numerics;
using FlowSim.Numerics.Ensemble;

namespace FlowSim.Straining;

/// <content>What is watched and what it changes, as in <c>StrainingSystem.Events.cs</c>.</content>
internal sealed partial class StrainingLanes<TLanes>
{
    private const double Off = -1;
    private const double BelowRim = StrainingSystem.BelowRim;

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
        BackUpBegins,
        BackUpEnds,
        OutletDips,
        OutletRises,
        Count,
    }

    /// <inheritdoc/>
    public int EventCount => (int)(_hasCorners ? Watch.Count : Watch.BackUpBegins);

    private void Events(TLanes t, ReadOnlySpan<TLanes> y, in LaneFlows<TLanes> f, in LaneBalance<TLanes> pond, Span<TLanes> events)
    {
        ref LaneParameters<TLanes> p = ref P;
        ref LaneModes<TLanes> modes = ref Modes;
        TLanes off = TLanes.Of(Off);
        TLanes gaining = pond.SurplusKgPerS / p.StallKgPerS;
        TLanes bound = modes.OverRim | modes.Ridden;
        events[(int)Watch.RimReached] = TLanes.Select(bound, off, TLanes.Min((f.PondM3 / p.RimM3) - One, gaining));
        events[(int)Watch.SurplusEnds] = TLanes.Select(modes.OverRim, -pond.SurplusKgPerS, off);
        events[(int)Watch.RideBegins] = _mayRide ? TLanes.Select(bound, off, TLanes.Min(f.PondDepthM - p.RideDepthM, gaining)) : off;
        events[(int)Watch.RideEnds] = _mayRide ? TLanes.Select(modes.Ridden, -pond.SurplusKgPerS, off) : off;
        events[(int)Watch.ReceiverFull] = TLanes.Select(modes.ReceiverFull, off, (f.ReceiverM3 / p.ReceiverCapacityM3) - One);
        events[(int)Watch.AtHeel] = TLanes.Select(modes.AtHeel, off, p.HeelLevelM - f.TankLevelM);
        events[(int)Watch.RunThrough] = TLanes.Select(modes.AtHeel, RunThroughMargin(f), off);
        events[(int)Watch.Stalled] = StallMargin(f, pond);
        events[(int)Watch.ScrapeDepth] = _mayScrape ? TLanes.Select(modes.Waits, off, ScrapeMargin(y, f)) : off;
        events[(int)Watch.ClothTurns] = TLanes.Select(
            modes.ClothHasRun,
            TLanes.Select(modes.ClothRests, f.DrivingHeadM - TLanes.Of(StrainingParameters.RunAgainHeadM), -f.DrivingHeadM),
            f.DrivingHeadM);
        if (!_hasCorners)
            return;

        // Corners of the equations change no mode; the steps begin anew there.
        TLanes backUp = f.ReceiverLevelM - p.ScreenAboveFloorM - p.MinimumHeadM;
        events[(int)Watch.BackUpBegins] = backUp;
        events[(int)Watch.BackUpEnds] = -backUp;
        TLanes dips = _submerged ? f.PondDepthM - p.OutletAboveScreenM : off;
        events[(int)Watch.OutletDips] = dips;
        events[(int)Watch.OutletRises] = _submerged ? -dips : off;
    }

    /// <inheritdoc/>
    public uint Start(uint lanes, Span<TLanes> y, Span<TLanes> scales)
    {
        ref LaneParameters<TLanes> p = ref P;
        ref LaneModes<TLanes> modes = ref Modes;
        ref LaneRecord<TLanes> record = ref Record;
        TLanes mine = TLanes.Mask(lanes);
        for (int i = 0; i < Dimension; i++)
        {
            TLanes start = i switch
            {
                TankKg => p.StartTankKg,
                TankK or PondK => p.StartTankK,
                ReceiverK => p.StartReceiverK,
                >= FirstOpenShare => One,
                _ => Zero,
            };
            y[i] = TLanes.Select(mine, start, y[i]);
            scales[i] = TLanes.Select(mine, i < TankK ? p.StartTankKg : i < FirstOpenShare ? TLanes.Of(300) : One, scales[i]);
        }

        Clear(ref modes.OverRim, mine);
        Clear(ref modes.Ridden, mine);
        Clear(ref modes.AtHeel, mine);
        Clear(ref modes.ClothHasRun, mine);
        Clear(ref modes.ClothRests, mine);
        Clear(ref modes.ReceiverFull, mine);
        Clear(ref modes.GateOpen, mine);
        Clear(ref modes.Waits, mine);
        Put(ref modes.OpenedAtS, mine, double.PositiveInfinity);
        Clear(ref modes.OpenedAtLevelM, mine);
        Clear(ref modes.OpenedAtWettedM2, mine);
        Clear(ref modes.FullReceiverKg, mine);
        Put(ref record.DrainS, mine, double.NaN);
        Put(ref record.StrainS, mine, double.NaN);
        Put(ref record.FirstOverflowS, mine, double.PositiveInfinity);
        Put(ref record.ReceiverFullS, mine, double.PositiveInfinity);
        Clear(ref record.PeakM, mine);
        Put(ref record.TraceS, mine, _batch.Trace.IsEmpty ? double.PositiveInfinity : _batch.Trace.TimesS.Span[0]);

        for (uint rest = lanes; rest != 0; rest &= rest - 1)
        {
            int lane = BitOperations.TrailingZeroCount(rest);
            _ending[lane] = StrainingStatus.TimeLimit;
            SetGate(lane, 0);
        }

        // Mass over density may come out a last digit below the volume it was made of.
        TLanes full = ((P.ReceiverCapacityM3 * TLanes.Of(1 - 1e-12)) <= (P.StartReceiverKg / Density(ref p, p.StartReceiverK))) & mine;
        uint ended = FillReceiver(TLanes.Bits(full), Zero, y);
        return ended | Resettle(lanes & ~ended, Zero, y);

        static void Clear(ref TLanes value, TLanes mine) => value = TLanes.Select(mine, Zero, value);
        static void Put(ref TLanes value, TLanes mine, double number) => value = TLanes.Select(mine, TLanes.Of(number), value);
    }

    /// <inheritdoc/>
    public double NextStop(int lane, double t) => _schedules[lane].Next;

    /// <inheritdoc/>
    public uint OnEvents(uint lanes, ReadOnlySpan<uint> happened, TLanes t, Span<TLanes> y)
    {
        ref LaneModes<TLanes> modes = ref Modes;
        uint full = With(Watch.ReceiverFull, lanes, happened);
        uint ended = FillReceiver(full, t, y);
        uint heel = With(Watch.AtHeel, lanes, happened) & ~ended;
        modes.AtHeel |= TLanes.Mask(heel);
        uint over = With(Watch.RunThrough, lanes, happened) & ~ended;
        if (over != 0)
            ended |= EndOfFlow(over, t, y);
        uint stalled = With(Watch.Stalled, lanes, happened) & ~ended;
        for (uint rest = stalled; rest != 0; rest &= rest - 1)
            _ending[BitOperations.TrailingZeroCount(rest)] = StrainingStatus.Stalled;
        ended |= stalled;

        uint turns = With(Watch.ClothTurns, lanes, happened) & ~ended;
        if (turns != 0)
        {
            TLanes mine = TLanes.Mask(turns);
            uint rests = TLanes.Bits(modes.ClothHasRun) & ~TLanes.Bits(modes.ClothRests);
            modes.ClothRests = TLanes.Select(mine, TLanes.Mask(rests), modes.ClothRests);
            modes.ClothHasRun |= mine;
        }

        for (uint rest = With(Watch.ScrapeDepth, lanes, happened) & ~ended; rest != 0; rest &= rest - 1)
            Scrape(BitOperations.TrailingZeroCount(rest), t, y);
        return ended | Resettle(lanes & ~ended, t, y);
    }

    /// <inheritdoc/>
    public uint OnStops(uint lanes, TLanes t, Span<TLanes> y)
    {
        uint looks = 0;
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
        {
            int lane = BitOperations.TrailingZeroCount(rest);
            double now = Lane.At(ref t, lane);
            LaneSchedule schedule = _schedules[lane];
            if (schedule.MoveGate(now))
                SetGate(lane, now, y);
            if (schedule.TakeScrape(now))
                Scrape(lane, t, y);
            if (schedule.TakeEndOfPause(now) && schedule.Scrapes < StrainingParameters.MostScrapesByDepth)
                looks |= 1u << lane;
        }

        if (looks != 0)
        {
            Modes.Waits = TLanes.Select(TLanes.Mask(looks), Zero, Modes.Waits);
            Evaluate(t, y, out LaneFlows<TLanes> f);
            for (uint rest = TLanes.Bits(ScrapeMargin(y, f) >= Zero) & looks; rest != 0; rest &= rest - 1)
                Scrape(BitOperations.TrailingZeroCount(rest), t, y);
        }

        return Resettle(lanes, t, y);
    }

    private static uint With(Watch watch, uint lanes, ReadOnlySpan<uint> happened)
    {
        uint with = 0;
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
        {
            int lane = BitOperations.TrailingZeroCount(rest);
            with |= (happened[lane] >> (int)watch & 1) << lane;
        }

        return with;
    }

    /// <summary>Sets the gate to the opening in force, and what the film begins from when it is first opened.</summary>
    private void SetGate(int lane, double now, Span<TLanes> y = default)
    {
        ref LaneModes<TLanes> modes = ref Modes;
        Gates.GateGeometry gate = _schedules[lane].Gate;
        Lane.At(ref modes.GateOpen, lane) = gate.IsShut ? 0 : BitConverter.UInt64BitsToDouble(ulong.MaxValue);
        Lane.At(ref modes.GateViscous, lane) = gate.IsShut ? 1 : gate.ViscousPerM3;
        Lane.At(ref modes.GateInertial, lane) = gate.IsShut ? 1 : gate.InertialPerM4;
        ref double opened = ref Lane.At(ref modes.OpenedAtS, lane);
        if (gate.IsShut || !double.IsPositiveInfinity(opened))
            return;

        opened = now;
        ref LaneParameters<TLanes> p = ref P;
        TLanes volume = y.IsEmpty ? p.StartTankKg / Density(ref p, p.StartTankK) : y[TankKg] / Density(ref p, y[TankK]);
        double level = _tanks[lane].LevelM(Lane.At(ref volume, lane));
        Lane.At(ref modes.OpenedAtLevelM, lane) = level;
        Lane.At(ref modes.OpenedAtWettedM2, lane) = _tanks[lane].WettedAreaM2(level);
    }

    private void Scrape(int lane, TLanes t, Span<TLanes> y)
    {
        LaneSchedule schedule = _schedules[lane];
        for (int j = FirstOpenShare; j < Dimension; j++)
        {
            ref double open = ref Lane.At(ref y[j], lane);
            open += schedule.Recovery * (1 - open);
        }

        schedule.NoteScrape(Lane.At(ref t, lane));
        bool waits = !double.IsPositiveInfinity(schedule.LookAgainAtS);
        Lane.At(ref Modes.Waits, lane) = waits || schedule.Scrapes >= StrainingParameters.MostScrapesByDepth ? BitConverter.UInt64BitsToDouble(ulong.MaxValue) : 0;
    }

    /// <returns>Lanes in which somebody then shuts the gate.</returns>
    private uint FillReceiver(uint lanes, TLanes t, ReadOnlySpan<TLanes> y)
    {
        if (lanes == 0)
            return 0;
        TLanes mine = TLanes.Mask(lanes);
        ref LaneRecord<TLanes> record = ref Record;
        record.ReceiverFullS = TLanes.Select(mine, t, record.ReceiverFullS);
        record.StrainedAtFullKg = TLanes.Select(mine, y[StrainedKg], record.StrainedAtFullKg);
        record.OverRimAtFullKg = TLanes.Select(mine, OverRimKg(y), record.OverRimAtFullKg);
        ref LaneModes<TLanes> modes = ref Modes;
        TLanes came = y[StrainedKg] + (_bypass ? OverRimKg(y) : Zero);
        modes.FullReceiverKg = TLanes.Select(mine, P.StartReceiverKg + came, modes.FullReceiverKg);
        modes.ReceiverFull |= mine;
        if (!_filled.ShutWhenFull)
            return 0;
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
            _ending[BitOperations.TrailingZeroCount(rest)] = StrainingStatus.ReceiverFull;
        return lanes;
    }

    /// <summary>Picks the ponds' modes from the state as it now is.</summary>
    private uint Resettle(uint lanes, TLanes t, Span<TLanes> y)
    {
        if (lanes == 0)
            return 0;
        ref LaneParameters<TLanes> p = ref P;
        ref LaneModes<TLanes> modes = ref Modes;
        ref LaneRecord<TLanes> record = ref Record;
        TLanes mine = TLanes.Mask(lanes);
        Evaluate(t, y, out LaneFlows<TLanes> f);
        Balance(y, f, out LaneBalance<TLanes> pond);
        TLanes gains = pond.SurplusKgPerS > Zero;
        TLanes atRim = f.PondM3 >= (p.RimM3 * TLanes.Of(1 - (0.5 * BelowRim)));
        TLanes atRide = _mayRide ? f.PondDepthM >= (p.RideDepthM * TLanes.Of(1 - BelowRim)) : TLanes.Mask(0);
        TLanes over = gains & atRim;
        TLanes ridden = TLanes.Select(atRim, Zero, gains & atRide);
        modes.OverRim = TLanes.Select(mine, over, modes.OverRim);
        modes.Ridden = TLanes.Select(mine, ridden, modes.Ridden);
        record.FirstOverflowS = TLanes.Select(mine & over, TLanes.Min(record.FirstOverflowS, t), record.FirstOverflowS);
        record.PeakM = TLanes.Select(mine, TLanes.Max(record.PeakM, f.PondDepthM), record.PeakM);
        TLanes put = TLanes.Select(gains, Zero, mine & atRim);
        y[PondKg] = TLanes.Select(put, TLanes.Min(y[PondKg], p.RimM3 * TLanes.Of(1 - BelowRim) * f.PondDensity), y[PondKg]);

        Balance(y, f, out pond);
        uint through = TLanes.Bits(modes.AtHeel & (RunThroughMargin(f) >= Zero)) & lanes;
        uint stalled = TLanes.Bits(StallMargin(f, pond) > Zero) & lanes & ~through;
        for (uint rest = stalled; rest != 0; rest &= rest - 1)
            _ending[BitOperations.TrailingZeroCount(rest)] = StrainingStatus.Stalled;
        return stalled | (through != 0 ? EndOfFlow(through, t, y) : 0);
    }

    private uint EndOfFlow(uint lanes, TLanes t, ReadOnlySpan<TLanes> y)
    {
        ref LaneParameters<TLanes> p = ref P;
        Evaluate(t, y, out LaneFlows<TLanes> f);
        TLanes layer = PondVolume(ref p, p.MinimumHeadM + TLanes.Of(2 * StrainingParameters.RunThroughHeadM));
        uint held = TLanes.Bits(((f.PondM3 - layer) * f.PondDensity) > (TLanes.Of(StrainingParameters.RunThroughShare) * p.CanDrainKg));
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
        {
            int lane = BitOperations.TrailingZeroCount(rest);
            _ending[lane] = (held >> lane & 1) != 0 ? StrainingStatus.Stalled : StrainingStatus.Drained;
        }

        return lanes;
    }

    private TLanes PondVolume(ref LaneParameters<TLanes> p, TLanes depth) => _pondIsPrism
        ? p.PondSurfaceM2 * Clamp(depth, p.RimHeightM)
        : Each(_forms, depth, static (form, d) => form.PondVolumeM3(d));

    private TLanes RunThroughMargin(in LaneFlows<TLanes> f)
    {
        ref LaneParameters<TLanes> p = ref P;
        TLanes canRun = (f.PondM3 - PondVolume(ref p, f.HeldBackM + f.AirHeadM)) * f.PondDensity;
        return TLanes.Max(
            One - (f.DrivingHeadM * TLanes.Of(1 / StrainingParameters.RunThroughHeadM)),
            One - (canRun / (TLanes.Of(StrainingParameters.RunThroughShare) * p.CanDrainKg)));
    }

    private TLanes StallMargin(in LaneFlows<TLanes> f, in LaneBalance<TLanes> pond)
    {
        TLanes margin = P.StallKgPerS - (pond.GateKgPerS + f.ClothKgPerS + pond.OverRimKgPerS);
        uint due = 0;
        for (int lane = 0; lane < TLanes.Count; lane++)
            due |= _schedules[lane].IsOver ? 0 : 1u << lane;
        return due == 0 ? margin : TLanes.Select(TLanes.Mask(due), TLanes.Of(Off), margin);
    }

    private TLanes ScrapeMargin(ReadOnlySpan<TLanes> y, in LaneFlows<TLanes> f)
    {
        if (!_mayScrape)
            return TLanes.Of(Off);
        TLanes blinded = Zero;
        for (int j = FirstOpenShare; j < Dimension; j++)
            blinded = TLanes.Max(blinded, One - y[j]);
        return TLanes.Min((f.PondDepthM / P.ScrapeDepthM) - One, (blinded * TLanes.Of(1 / StrainingParameters.WorthScraping)) - One);
    }
}
