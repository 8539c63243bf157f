using System.Numerics;
using System.Runtime.CompilerServices;
using FlowSim.Numerics.Ode;

namespace FlowSim.Numerics.Ensemble;

/// <summary>Integrates many runs of an <see cref="ILaneSystem{TLanes}"/> side by side, each lane with its own steps and events.</summary>
/// <remarks>
/// <para>
/// With <see cref="LaneMethod.Rodas5P"/> the method, its error control and its extension are those of
/// <see cref="Events.HybridIntegrator{TSystem}"/>, lane by lane, except that matrices are factored without pivots (a bad one shows in the error, and a
/// shorter step makes it good). <see cref="LaneMethod.DormandPrince"/> has the same order and control, needs no matrix and costs a quarter, but gives
/// up on stiff runs. Events are looked for at the ends of a step and where the system knows of hidden ones, and located to 1e-10 of the step.
/// </para>
/// <para>
/// A lane whose run has ended takes the next one, so that lanes are busy until the runs give out. No lane sees another: a run gives
/// the same bits whatever stands beside it and however wide the register is. <see cref="Run"/> allocates nothing.
/// </para>
/// </remarks>
/// <typeparam name="TSystem">The system.</typeparam>
/// <typeparam name="TLanes">Register.</typeparam>
public sealed class EnsembleIntegrator<TSystem, TLanes>
    where TSystem : ILaneSystem<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    /// <summary>As in the integrator of single runs: a step that would leave less than a tenth of itself before a stop is stretched to it.</summary>
    private const double Stretch = 1.1;

    /// <summary>An error smaller than this is none; it keeps logarithms finite.</summary>
    private const double NoError = 1e-14;

    /// <summary>Events are located past their crossing by at most this share of the function's rise over the step.</summary>
    private const double EventShare = 1e-10;

    private const int MostSecants = 60;

    private readonly TSystem _system;
    private readonly LaneMethod _method;
    private readonly int _n;
    private readonly int _eventCount;
    private readonly TLanes _relative;
    private readonly TLanes _absoluteShare;
    private readonly double _inverseN;
    private readonly int _mostSteps;

    private readonly AlignedMemory _memory;
    private readonly int[] _at = new int[(int)Part.Count];
    private readonly int[] _size = new int[(int)Part.Count];
    private readonly uint[] _happened;
    private readonly int[] _tries;

    private uint _running;
    private long _steps;
    private long _rejected;

    /// <summary>Prepares an integration.</summary>
    /// <param name="system">The system.</param>
    /// <param name="relativeTolerance">Tolerated error of a step relative to each unknown, 1e-12 to 0.1.</param>
    /// <param name="absoluteTolerance">Tolerated error of a step in units of the scales that the system gives, positive.</param>
    /// <param name="method">Method of a step.</param>
    /// <param name="mostSteps">Steps after which a run is given up, at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or the system has no unknowns or too many events.</exception>
    public EnsembleIntegrator(TSystem system, double relativeTolerance, double absoluteTolerance, LaneMethod method = LaneMethod.Rodas5P, int mostSteps = 5000)
    {
        ArgumentNullException.ThrowIfNull(system);
        if (system.Dimension < 1)
            throw new ArgumentOutOfRangeException(nameof(system), system.Dimension, "A system must have at least 1 unknown.");
        if (system.EventCount is < 0 or > 32)
            throw new ArgumentOutOfRangeException(nameof(system), system.EventCount, "A system must have 0 to 32 events.");
        if (!(relativeTolerance is >= 1e-12 and <= 0.1))
            throw new ArgumentOutOfRangeException(nameof(relativeTolerance), relativeTolerance, "The relative tolerance must lie in [1e-12, 0.1].");
        if (!(absoluteTolerance > 0 && double.IsFinite(absoluteTolerance)))
            throw new ArgumentOutOfRangeException(nameof(absoluteTolerance), absoluteTolerance, "The absolute tolerance must lie in (0, infinity).");
        ArgumentOutOfRangeException.ThrowIfLessThan(mostSteps, 1);

        _system = system;
        _method = method;
        _n = system.Dimension;
        _eventCount = system.EventCount;
        _relative = TLanes.Of(relativeTolerance);
        _absoluteShare = TLanes.Of(absoluteTolerance);
        _inverseN = 1.0 / _n;
        _mostSteps = mostSteps;
        _happened = new uint[TLanes.Count];
        _tries = new int[TLanes.Count];

        int bytes = 0;
        for (Part part = Part.Y0; part < Part.Count; part++)
        {
            _size[(int)part] = SizeOf(part);
            _at[(int)part] = bytes;
            bytes += _size[(int)part] * Unsafe.SizeOf<TLanes>();
        }

        _memory = new AlignedMemory(bytes);
    }

    /// <summary>Steps taken since the integrator was made, of all lanes.</summary>
    public long Steps => _steps;

    /// <summary>Steps tried in vain.</summary>
    public long RejectedSteps => _rejected;

    /// <summary>Takes runs from the system until there are no more.</summary>
    /// <param name="cancellation">Looked at before every step; the runs in the lanes are then lost.</param>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public void Run(CancellationToken cancellation)
    {
        _running = 0;
        uint restarted = Refill(Lane.All<TLanes>());
        while (_running != 0)
        {
            cancellation.ThrowIfCancellationRequested();
            restarted = Advance(restarted);
        }
    }

    private enum Part
    {
        
        Y0, Y1, F0, F1, Scales, Jacobian, TimeDerivative, Factors, Stages, Extension, StageState, StageDerivative,
        Events0, Events1, EventsThere,
        Time, Step, End, LastStep, LastError, Rejected,
        Count,
    
    }

    private int SizeOf(Part part) => part switch
    {
        Part.Jacobian or Part.Factors => _n * _n,
        Part.Stages => Rodas5PTableau.Stages * _n,
        Part.Extension => Rodas5PTableau.ExtensionTerms * _n,
        Part.Events0 or Part.Events1 or Part.EventsThere => Math.Max(1, _eventCount),
        >= Part.Time => 1,
        _ => _n,
    };

    private Span<TLanes> Of(Part part) => _memory.Values<TLanes>(_at[(int)part], _size[(int)part]);

    private ref TLanes One(Part part) => ref Of(part)[0];

    /// <summary>Puts runs into empty lanes.</summary>
    /// <returns>The lanes that have begun.</returns>
    private uint Refill(uint empty)
    {
        uint begun = 0;
        while (empty != 0)
        {
            uint given = 0;
            for (uint rest = empty; rest != 0; rest &= rest - 1)
            {
                int lane = BitOperations.TrailingZeroCount(rest);
                if (!_system.TryBegin(lane, out double end))
                    break;
                given |= 1u << lane;
                Lane.At(ref One(Part.Time), lane) = 0;
                Lane.At(ref One(Part.End), lane) = end;
                Lane.At(ref One(Part.Step), lane) = end;
                _tries[lane] = 0;
            }

            if (given == 0)
                break;
            uint over = _system.Start(given, Of(Part.Y0), Of(Part.Scales));
            Finish(over, LaneEnding.Stopped);
            begun |= given & ~over;
            _running |= given & ~over;
            empty = over;
        }

        return begun;
    }

    /// <summary>Tries one step in every lane.</summary>
    /// <param name="restarted">Lanes that begin anew: at a start, an event or a stop.</param>
    /// <returns>Lanes that begin anew after it.</returns>
    private uint Advance(uint restarted)
    {
        Span<TLanes> y0 = Of(Part.Y0), y1 = Of(Part.Y1), f0 = Of(Part.F0), f1 = Of(Part.F1);
        Span<TLanes> events0 = Of(Part.Events0), events1 = Of(Part.Events1);
        ref TLanes time = ref One(Part.Time);
        ref TLanes due = ref One(Part.Step);

        // Lanes that go on get the same values again.
        if (restarted != 0)
            _system.DerivativeAndEvents(time, y0, f0, events0);
        bool stiff = _method == LaneMethod.Rodas5P;
        if (stiff)
            _system.Jacobian(time, y0, f0, Of(Part.Jacobian), Of(Part.TimeDerivative));
        if (restarted != 0)
            BeginSteps(restarted);

        TLanes stop = Stops();
        TLanes remaining = stop - time;
        TLanes toStop = remaining <= (due * TLanes.Of(Stretch));
        TLanes even = TLanes.Select(remaining < (due * TLanes.Of(2)), remaining * TLanes.Of(0.5), due);
        TLanes timeAtEnd = TLanes.Select(toStop, stop, time + even);
        TLanes h = timeAtEnd - time;

        Span<TLanes> stages = Of(Part.Stages);
        Span<TLanes> estimate = stages[((Rodas5PTableau.Stages - 1) * _n)..];
        if (stiff)
            LaneRodas5P.Step(_system, _n, time, h, y0, y1, f0, Of(Part.Jacobian), Of(Part.TimeDerivative), Of(Part.Factors), stages, Of(Part.StageState), Of(Part.StageDerivative));
        else
            LaneDormandPrince.Step(_system, _n, time, h, y0, y1, f0, stages);
        _system.DerivativeAndEvents(timeAtEnd, y1, f1, events1);
        if (!stiff)
            LaneDormandPrince.Error(_n, h, stages, f1, estimate);
        TLanes error = Error(y0, y1, estimate);
        uint accepted = TLanes.Bits(error <= TLanes.Of(1)) & Finite(f1, events1) & _running;
        uint wasCut = TLanes.Bits(timeAtEnd < (time + due));
        ControlSteps(h, error, accepted, wasCut);
        _steps += BitOperations.PopCount(accepted);
        _rejected += BitOperations.PopCount(_running & ~accepted);

        uint gaveUp = CountTries(_running & ~accepted);
        uint ended = gaveUp;
        uint anew = 0;
        if (accepted != 0)
        {
            if (stiff)
                LaneRodas5P.Extension(_n, stages, Of(Part.Extension));
            else
                LaneDormandPrince.Extension(_n, h, y0, y1, f1, stages, Of(Part.Extension));
            var step = new LaneStep<TLanes>(time, h, y0, y1, Of(Part.Extension));
            TLanes part = TLanes.Of(1);
            uint crossed = FindEvents(accepted, step, ref part);
            _system.OnStep(accepted, step, part);

            uint atStop = MoveOn(accepted, crossed, step, part, timeAtEnd, stop);
            uint stopped = crossed != 0 ? _system.OnEvents(crossed, _happened, time, y0) : 0;
            uint atEnd = atStop & TLanes.Bits(time >= One(Part.End));
            uint interrupted = atStop & ~atEnd & ~stopped;
            stopped |= interrupted != 0 ? _system.OnStops(interrupted, time, y0) : 0;
            atEnd &= ~stopped;
            Finish(stopped, LaneEnding.Stopped);
            Finish(atEnd, LaneEnding.ReachedEnd);
            gaveUp &= ~(stopped | atEnd);
            ended |= stopped | atEnd;
            anew = (crossed | interrupted) & ~ended;
        }

        Finish(gaveUp, LaneEnding.GaveUp);
        return ended != 0 ? (anew & ~ended) | Refill(ended) : anew;
    }

    /// <summary>The step becomes the past: only lanes that made it move on, those with an event up to there.</summary>
    /// <returns>Lanes that are at their stop.</returns>
    private uint MoveOn(uint accepted, uint crossed, in LaneStep<TLanes> step, TLanes part, TLanes timeAtEnd, TLanes stop)
    {
        Span<TLanes> y0 = Of(Part.Y0), y1 = Of(Part.Y1), f0 = Of(Part.F0), f1 = Of(Part.F1), events0 = Of(Part.Events0), events1 = Of(Part.Events1);
        TLanes moves = TLanes.Mask(accepted);
        if (crossed != 0)
        {
            TLanes partly = TLanes.Mask(crossed);
            timeAtEnd = TLanes.Select(partly & (part < TLanes.Of(1)), TLanes.MultiplyAdd(part, step.Length, step.Start), timeAtEnd);
            for (int i = 0; i < _n; i++)
                y1[i] = TLanes.Select(partly, step.At(part, i), y1[i]);
        }

        ref TLanes time = ref One(Part.Time);
        time = TLanes.Select(moves, timeAtEnd, time);
        for (int i = 0; i < _n; i++)
        {
            y0[i] = TLanes.Select(moves, y1[i], y0[i]);
            f0[i] = TLanes.Select(moves, f1[i], f0[i]);
        }

        for (int i = 0; i < _eventCount; i++)
            events0[i] = TLanes.Select(moves, events1[i], events0[i]);
        return TLanes.Bits(timeAtEnd >= stop) & accepted;
    }

    /// <summary>The next time that a lane must not step over.</summary>
    private TLanes Stops()
    {
        TLanes stop = One(Part.End);
        for (uint rest = _running; rest != 0; rest &= rest - 1)
        {
            int lane = BitOperations.TrailingZeroCount(rest);
            ref double end = ref Lane.At(ref stop, lane);
            end = Math.Min(end, _system.NextStop(lane, Lane.At(ref One(Part.Time), lane)));
        }

        return stop;
    }

    /// <summary>First step lengths after a start or a change, as in <see cref="InitialStep"/>.</summary>
    private void BeginSteps(uint lanes)
    {
        Span<TLanes> y0 = Of(Part.Y0), f0 = Of(Part.F0), scales = Of(Part.Scales), second = Of(Part.StageDerivative);
        TLanes size = TLanes.Of(0), slope = TLanes.Of(0), curvature = TLanes.Of(0);
        for (int i = 0; i < _n; i++)
        {
            TLanes weight = Weight(y0[i], scales[i]);
            size += Square(y0[i] * weight);
            slope += Square(f0[i] * weight);
        }

        SecondDerivative(size, slope, second);
        for (int i = 0; i < _n; i++)
            curvature += Square(second[i] * Weight(y0[i], scales[i]));

        TLanes share = TLanes.Of(_inverseN);
        TLanes tiny = TLanes.Of(1e-200);
        (size, slope, curvature) = (TLanes.Sqrt(size * share), TLanes.Sqrt(slope * share), TLanes.Sqrt(curvature * share));
        TLanes interval = One(Part.End) - One(Part.Time);
        TLanes curved = curvature > tiny;
        TLanes moving = slope > tiny;
        TLanes safeCurvature = TLanes.Select(curved, curvature, TLanes.Of(1));
        TLanes safeSlope = TLanes.Select(moving, slope, TLanes.Of(1));

        // (e s³/c⁴)^(1/5) and √(e/c), the larger; e the error aimed at.
        TLanes fifth = LaneMath.Exp((TLanes.Of(Math.Log(InitialStep.TargetError)) + (TLanes.Of(3) * LaneMath.Log(safeSlope)) - (TLanes.Of(4) * LaneMath.Log(safeCurvature))) * TLanes.Of(0.2));
        TLanes h = TLanes.Max(TLanes.Select(moving, fifth, TLanes.Of(0)), TLanes.Sqrt(TLanes.Of(InitialStep.TargetError) / safeCurvature));
        h = TLanes.Select(curved, h, interval);
        h = TLanes.Select((size > TLanes.Of(1)) & moving, TLanes.Min(h, size / safeSlope), h);
        TLanes small = interval * TLanes.Of(InitialStep.FractionWhenNothingMoves);
        h = TLanes.Select(curved | moving, h, small);
        h = TLanes.Select((h > TLanes.Of(0)) & (h < TLanes.Of(double.PositiveInfinity)), TLanes.Min(h, interval), small);

        TLanes begins = TLanes.Mask(lanes);
        One(Part.Step) = TLanes.Select(begins, h, One(Part.Step));
        One(Part.LastStep) = TLanes.Select(begins, TLanes.Of(0), One(Part.LastStep));
        One(Part.Rejected) = TLanes.Select(begins, TLanes.Of(0), One(Part.Rejected));
    }

    private TLanes Weight(TLanes y, TLanes scale) => TLanes.Of(1) / TLanes.MultiplyAdd(_absoluteShare, scale, _relative * TLanes.Abs(y));

    /// <summary>(∂f/∂y)·f + ∂f/∂t, from the matrix where there is one, else from a small step ahead.</summary>
    private void SecondDerivative(TLanes size, TLanes slope, Span<TLanes> second)
    {
        Span<TLanes> y0 = Of(Part.Y0), f0 = Of(Part.F0);
        if (_method == LaneMethod.Rodas5P)
        {
            Span<TLanes> jacobian = Of(Part.Jacobian), timeDerivative = Of(Part.TimeDerivative);
            for (int i = 0; i < _n; i++)
            {
                TLanes sum = timeDerivative[i];
                for (int j = 0; j < _n; j++)
                    sum = TLanes.MultiplyAdd(jacobian[(i * _n) + j], f0[j], sum);
                second[i] = sum;
            }

            return;
        }

        // A hundredth of what would change the state by itself, as Hairer, Nørsett and Wanner do (section II.4).
        TLanes tiny = TLanes.Of(1e-200);
        TLanes ahead = TLanes.Of(0.01) * TLanes.Sqrt(TLanes.Max(size, tiny) / TLanes.Max(slope, tiny));
        ahead = TLanes.Min(ahead, TLanes.Of(1e-3) * (One(Part.End) - One(Part.Time)));
        Span<TLanes> y = Of(Part.StageState);
        for (int i = 0; i < _n; i++)
            y[i] = TLanes.MultiplyAdd(ahead, f0[i], y0[i]);
        _system.Derivative(One(Part.Time) + ahead, y, second);
        for (int i = 0; i < _n; i++)
            second[i] = (second[i] - f0[i]) / ahead;
    }

    private TLanes Error(ReadOnlySpan<TLanes> y0, ReadOnlySpan<TLanes> y1, ReadOnlySpan<TLanes> error)
    {
        ReadOnlySpan<TLanes> scales = Of(Part.Scales);
        TLanes sum = TLanes.Of(0);
        for (int i = 0; i < _n; i++)
        {
            TLanes tolerance = TLanes.MultiplyAdd(_absoluteShare, scales[i], _relative * TLanes.Max(TLanes.Abs(y0[i]), TLanes.Abs(y1[i])));
            sum += Square(error[i] / tolerance);
        }

        return TLanes.Sqrt(sum * TLanes.Of(_inverseN));
    }

    private uint Finite(ReadOnlySpan<TLanes> f1, ReadOnlySpan<TLanes> events1)
    {
        TLanes sum = TLanes.Of(0);
        foreach (TLanes f in f1)
            sum += f * TLanes.Of(0);
        for (int i = 0; i < _eventCount; i++)
            sum += events1[i] * TLanes.Of(0);
        return TLanes.Bits(sum <= TLanes.Of(0));
    }

    /// <summary>The control of <see cref="StepSizeController"/>, lane by lane.</summary>
    private void ControlSteps(TLanes h, TLanes error, uint accepted, uint wasCut)
    {
        ref TLanes due = ref One(Part.Step);
        ref TLanes lastStep = ref One(Part.LastStep);
        ref TLanes lastError = ref One(Part.LastError);
        ref TLanes rejected = ref One(Part.Rejected);
        TLanes finite = error < TLanes.Of(double.PositiveInfinity);
        TLanes e = TLanes.Max(TLanes.Select(finite, error, TLanes.Of(1)), TLanes.Of(NoError));
        TLanes lnError = LaneMath.Log(e);
        TLanes fifth = TLanes.Of(1.0 / (Rodas5PTableau.EmbeddedOrder + 1));
        TLanes inverseSafety = TLanes.Of(1 / StepSizeController.Safety);
        TLanes shrink = LaneMath.Exp(lnError * fifth) * inverseSafety;
        TLanes hasPast = lastStep > TLanes.Of(0);
        TLanes predicted = lastStep / h * LaneMath.Exp(((lnError * TLanes.Of(2)) - LaneMath.Log(TLanes.Select(hasPast, lastError, TLanes.Of(1)))) * fifth) * inverseSafety;
        TLanes either = TLanes.Select(hasPast, TLanes.Max(shrink, predicted), shrink);
        TLanes longest = TLanes.Of(1 / StepSizeController.LargestShrink);
        TLanes next = h / TLanes.Min(TLanes.Max(either, TLanes.Of(1 / StepSizeController.LargestGrowth)), longest);
        next = TLanes.Select(rejected, TLanes.Min(next, h), next);

        // A step cut short by a stop says nothing against the length that was due.
        next = TLanes.Select(TLanes.Mask(wasCut & ~TLanes.Bits(rejected)), TLanes.Max(next, due), next);
        TLanes shorter = TLanes.Select(finite, h / TLanes.Min(TLanes.Max(shrink, TLanes.Of(1)), longest), h * TLanes.Of(StepSizeController.ShrinkWhenNotFinite));

        // An error within tolerance that comes with a derivative that is not finite shrinks too.
        shorter = TLanes.Select(error <= TLanes.Of(1), h * TLanes.Of(StepSizeController.ShrinkWhenNotFinite), shorter);
        TLanes passed = TLanes.Mask(accepted);
        due = TLanes.Select(passed, next, shorter);
        lastStep = TLanes.Select(passed, h, lastStep);
        lastError = TLanes.Select(passed, TLanes.Max(e, TLanes.Of(StepSizeController.SmallestRememberedError)), lastError);
        rejected = TLanes.Mask(~accepted);
    }

    private uint CountTries(uint rejected)
    {
        uint gaveUp = 0;
        for (int lane = 0; lane < TLanes.Count; lane++)
        {
            if ((_running >> lane & 1) == 0)
                continue;
            bool tooShort = (rejected >> lane & 1) != 0 && Lane.At(ref One(Part.Step), lane) < 1e-14 * Math.Max(Lane.At(ref One(Part.Time), lane), 1e-12 * Lane.At(ref One(Part.End), lane));
            if (++_tries[lane] > _mostSteps || tooShort)
                gaveUp |= 1u << lane;
        }

        return gaveUp;
    }

    /// <summary>Finds the first event of each lane in a step.</summary>
    /// <returns>Lanes with an event; <paramref name="part"/> then tells where, just past the crossing.</returns>
    private uint FindEvents(uint accepted, in LaneStep<TLanes> step, ref TLanes part)
    {
        if (_eventCount == 0)
            return 0;
        Span<TLanes> events0 = Of(Part.Events0), events1 = Of(Part.Events1), there = Of(Part.EventsThere), y = Of(Part.StageState);
        TLanes zero = TLanes.Of(0);
        TLanes crossing = TLanes.Mask(0);
        for (int i = 0; i < _eventCount; i++)
            crossing |= (events0[i] < zero) & (events1[i] >= zero);
        TLanes b = TLanes.Of(1);
        uint hidden = _system.Hidden(accepted, step, events0, events1, ref b) & accepted;
        b = TLanes.Select(TLanes.Mask(hidden), b, TLanes.Of(1));
        uint lanes = (TLanes.Bits(crossing) & accepted) | hidden;
        if (lanes == 0)
            return 0;

        b = Locate(lanes, hidden, step, b);

        // What has happened is what has passed zero there.
        TLanes located = TLanes.Mask(lanes);
        part = TLanes.Select(located, b, part);
        step.At(part, y);
        _system.Events(TLanes.MultiplyAdd(part, step.Length, step.Start), y, there);
        Array.Clear(_happened);
        for (int i = 0; i < _eventCount; i++)
        {
            // At the end of the step as it was found there: a time that rounding puts before it may not undo that.
            TLanes value = TLanes.Select(part < TLanes.Of(1), there[i], events1[i]);
            uint now = TLanes.Bits((events0[i] < zero) & (value >= zero)) & lanes;
            for (; now != 0; now &= now - 1)
                _happened[BitOperations.TrailingZeroCount(now)] |= 1u << i;
        }

        return lanes;
    }

    /// <summary>Closes in on the first event of each lane between the start of the step and <paramref name="b"/>.</summary>
    private TLanes Locate(uint lanes, uint hidden, in LaneStep<TLanes> step, TLanes b)
    {
        Span<TLanes> events0 = Of(Part.Events0);
        TLanes fa = Highest(events0, events0);
        TLanes fb = Highest(events0, Of(Part.Events1));
        if (hidden != 0)
            fb = TLanes.Select(TLanes.Mask(hidden), HighestAt(step, b), fb);
        var bracket = new LaneBracket<TLanes>(TLanes.Of(0), fa, b, fb);
        TLanes near = TLanes.Of(EventShare) * (fb - fa);
        TLanes open = TLanes.Mask(lanes);
        for (int i = 0; i < MostSecants; i++)
        {
            open &= bracket.IsWiderThan(near, TLanes.Of(1e-15));
            if (TLanes.Bits(open) == 0)
                break;

            // Now and then a bisection, for functions with corners.
            TLanes c = bracket.Between(near * TLanes.Of(0.5), bisect: i % 6 == 5);
            bracket.Narrow(c, HighestAt(step, c), open);
        }

        return bracket.Past;
    }

    /// <summary>Highest of the functions that were below zero at the start: it passes zero with the first of them.</summary>
    private TLanes Highest(ReadOnlySpan<TLanes> atStart, ReadOnlySpan<TLanes> values)
    {
        TLanes highest = TLanes.Of(double.NegativeInfinity);
        for (int i = 0; i < _eventCount; i++)
            highest = TLanes.Select(atStart[i] < TLanes.Of(0), TLanes.Max(highest, values[i]), highest);
        return highest;
    }

    private TLanes HighestAt(in LaneStep<TLanes> step, TLanes theta)
    {
        Span<TLanes> y = Of(Part.StageState), values = Of(Part.EventsThere);
        step.At(theta, y);
        _system.Events(TLanes.MultiplyAdd(theta, step.Length, step.Start), y, values);
        return Highest(Of(Part.Events0), values);
    }

    private void Finish(uint lanes, LaneEnding ending)
    {
        for (uint rest = lanes; rest != 0; rest &= rest - 1)
        {
            int lane = BitOperations.TrailingZeroCount(rest);
            _system.Finish(lane, ending, Lane.At(ref One(Part.Time), lane), Of(Part.Y0));
        }

        _running &= ~lanes;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TLanes Square(TLanes value) => value * value;
}

/// <summary>Method of a step.</summary>
public enum LaneMethod
{
    /// <summary>Linearly implicit: any stiffness.</summary>
    Rodas5P,

    /// <summary>Explicit: for runs that are hardly stiff, at a quarter of the cost.</summary>
    DormandPrince,
}
