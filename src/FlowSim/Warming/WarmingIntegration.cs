using FlowSim.HeatDamage;
using FlowSim.Numerics.Ode;

namespace FlowSim.Warming;

/// <summary>Steps a warming run from its start to its end: step control, switchings, targets.</summary>
internal sealed class WarmingIntegration
{
    private const double FirstStepS = 1;
    private const double ShortestStepS = 1e-6;
    private const double StrictestGrowth = 0.2;
    private const double LargestGrowth = 3;
    private const double StepSafety = 0.9;

    /// <summary>Body and probe may err by this many times the tolerance in a step: their errors do not pile up.</summary>
    private const double LooserForBody = 5;

    /// <summary>An event is landed on to this, in its own unit: K, or the logarithm of a viscosity.</summary>
    private const double LandingAccuracy = 1e-7;

    private const int MostLandings = 60;

    /// <summary>Gap of what cannot happen as things stand.</summary>
    private const double Never = double.NegativeInfinity;

    /// <summary>A run of more steps than this is given up: about a minute of computing.</summary>
    private const int MostSteps = 500_000;

    private readonly WarmingParameters _p;
    private readonly WarmingSystem _system;
    private readonly FactoredRosenbrock _step;
    private readonly TargetWatch _targets;
    private readonly double _toleranceK;
    private readonly double[] _breaksS;
    private readonly double[] _gapsBefore;
    private readonly double[] _gapsAfter;

    private double _t;
    private int _nextBreak;

    public WarmingIntegration(WarmingParameters p, WarmingSetup setup, double toleranceK, IEnumerable<double> mapTimesS)
    {
        _p = p;
        _system = new WarmingSystem(p);
        _step = new FactoredRosenbrock(_system.Dimension);
        _targets = new TargetWatch(setup.Targets, p.Honey);
        _toleranceK = toleranceK;
        LongestS = setup.Longest.Seconds;
        HoldS = setup.HoldAfter.Seconds;
        Doses = new CellDoses(setup.Response.Law, p.Grid.Count);
        double[] maps = [.. mapTimesS];
        _breaksS = [.. p.Setpoint.Breaks.Concat(maps).Append(LongestS).Where(at => at > 0 && at <= LongestS).Distinct().Order()];
        MapTimesS = maps;
        _gapsBefore = new double[_targets.Count + Watched];
        _gapsAfter = new double[_targets.Count + Watched];
    }

    /// <summary>Events besides the targets: the thermostat's two, the cut-out, overheating.</summary>
    private const int Watched = 4;

    private double LongestS { get; }

    private double HoldS { get; }

    private double[] MapTimesS { get; }

    public WarmingSystem System => _system;

    public TargetWatch Targets => _targets;

    public CellDoses Doses { get; }

    public double EndS => _t;

    public int Steps { get; private set; }

    public int Switchings { get; private set; }

    public double? CutOutS { get; private set; }

    public bool Overheated { get; private set; }

    /// <summary>Body heat at the start, or when it became free, J: what it was given is counted from here.</summary>
    public double BodyHeatAtStart { get; private set; }

    public double[] State => _step.Start;

    public WarmingMoment Now { get; private set; }

    /// <summary>Runs to the end.</summary>
    /// <param name="recorder">Is shown every step.</param>
    /// <param name="cancellation">Ends early.</param>
    public void Run(WarmingRecorder recorder, CancellationToken cancellation)
    {
        _t = 0;
        _system.Start(_step.Start);
        _system.Mode = _p.Unlimited ? HeaterMode.Follows : HeaterMode.Off;
        BodyHeatAtStart = _step.Start[_system.Body];
        _system.Derivative(0, _step.Start, _step.StartDerivative);
        _step.Start[_system.Probe] = _system.SensorK(_system.BodyK(0, _step.Start));
        double setpoint = _system.SetpointK(0);
        if (!_p.Unlimited)
            _system.Mode = _step.Start[_system.Probe] < setpoint ? HeaterMode.On : HeaterMode.Off;
        Restart();
        if (!_p.Unlimited && _p.HysteresisK == 0 && IsAtSetpoint(Now))
        {
            _system.Mode = HeaterMode.Holds;
            Restart();
        }

        Switch();
        Switchings = 0;
        _system.KeepHighest(_step.Start);
        Doses.Start(_system.TemperatureK);
        recorder.Begin(this);
        MarkReached();
        if (MapTimesS.Length > 0 && MapTimesS[0] == 0)
            recorder.Map(this);

        double step = FirstStepS;
        while (!Ended())
        {
            cancellation.ThrowIfCancellationRequested();
            if (++Steps > MostSteps)
                throw new SimulationException(FormattableString.Invariant($"After {_t:0} s of warming and {MostSteps} steps the run is given up: the heater switches too often ({Switchings} times). Give a larger hysteresis, a larger heat capacity of the body, or a hysteresis of 0."));

            double stop = NextStop();
            double h = Math.Min(step, stop - _t);
            bool toStop = h == stop - _t;
            _step.Step(_system, _t, h);
            double error = ErrorNorm();
            double growth = Math.Clamp(StepSafety / Math.Sqrt(Math.Max(error, 1e-12)), StrictestGrowth, LargestGrowth);
            if (!(error <= 1))
            {
                step = h * (double.IsNaN(error) ? StrictestGrowth : Math.Min(growth, StepSafety));
                if (step < ShortestStepS)
                    throw new SimulationException(FormattableString.Invariant($"The step of the warming run became too short after {_t:0.###} s."));
                continue;
            }

            Gaps(Now, _gapsBefore);
            if (!toStop || growth < 1)
                step = h * growth;
            WarmingMoment after = LookAtEnd(h);
            Gaps(after, _gapsAfter);
            if (LargestOpen(_gapsAfter) >= 0)
            {
                h = Land(h, ref after);
                toStop = false;
            }

            Accept(h, toStop ? stop : _t + h, after);
            recorder.Step(this);
            Switch();
            if (toStop)
                Stop(recorder);
        }

        recorder.End(this);
    }

    private bool Ended()
    {
        if (Overheated || _t >= LongestS)
            return true;
        return _targets.AllReachedS is { } reached && _t >= reached + HoldS;
    }

    private double NextStop()
    {
        double stop = _nextBreak < _breaksS.Length ? _breaksS[_nextBreak] : LongestS;
        return _targets.AllReachedS is { } reached ? Math.Min(stop, reached + HoldS) : stop;
    }

    private void Stop(WarmingRecorder recorder)
    {
        if (_nextBreak < _breaksS.Length && _t >= _breaksS[_nextBreak])
            _nextBreak++;
        int segment = _p.Setpoint.SegmentAt(_t);
        bool next = segment != _system.Segment;
        if (Array.IndexOf(MapTimesS, _t) >= 0)
            recorder.Map(this);
        if (next)
        {
            FollowSetpoint(segment);
            recorder.Step(this);
        }
    }

    private void Accept(double h, double endS, WarmingMoment after)
    {
        _step.Accept(_system);
        _t = endS;
        after.TimeS = endS;
        Now = after;
        _system.KeepHighest(_step.Start);
        Doses.Advance(_system.TemperatureK, h);
        MarkReached();
        if (after.HottestK >= HoneyHeat.HottestK - LandingAccuracy || after.BodyK >= HoneyHeat.HottestK - LandingAccuracy)
            Overheated = true;
    }

    private void MarkReached()
    {
        for (int target = 0; target < _targets.Count; target++)
        {
            if (!_targets.IsReached(target) && _targets.Gap(target, Now.MeanK, Now.ColdestK, Now.CrystalsLeft) >= 0)
                _targets.ReachedS[target] = _t;
        }
    }

    /// <summary>What the thermostat does where the run has got to.</summary>
    private void Switch()
    {
        if (_system.Mode != HeaterMode.CutOut && Now.BodyK >= _p.CutOutK)
        {
            CutOut();
            Restart();
            return;
        }

        // Holding may turn out to take more than the heater has, or less than nothing: then it is left at once.
        for (int look = 0; look < 2; look++)
        {
            Gaps(Now, _gapsAfter);
            HeaterMode next = NextMode(off: _gapsAfter[_targets.Count] >= 0, on: _gapsAfter[_targets.Count + 1] >= 0);
            if (next == _system.Mode)
                return;

            _system.Mode = next;
            Switchings++;
            if (next == HeaterMode.Holds)
                _step.Start[_system.Body] = _p.BodyJPerK * Now.BodyK;
            Restart();
            if (next != HeaterMode.Holds)
                return;
        }
    }

    private HeaterMode NextMode(bool off, bool on) => _system.Mode switch
    {
        HeaterMode.On when off => Satisfied(HeaterMode.Off),
        HeaterMode.Off when on => Satisfied(HeaterMode.On),
        HeaterMode.Holds when on => HeaterMode.On,
        HeaterMode.Holds when off => HeaterMode.Off,
        HeaterMode mode => mode,
    };

    /// <summary>Without hysteresis a body at the setpoint is held there; after a jump of the setpoint it is not there yet.</summary>
    private HeaterMode Satisfied(HeaterMode otherwise) => _p.HysteresisK == 0 && IsAtSetpoint(Now) ? HeaterMode.Holds : otherwise;

    private static bool IsAtSetpoint(in WarmingMoment moment) => AreAlike(moment.BodyK, moment.SetpointK);

    private static bool AreAlike(double bodyK, double setpointK) => Math.Abs(bodyK - setpointK) <= 10 * LandingAccuracy;

    private void Restart()
    {
        _step.Begin(_system, _t);
        Now = Look(_t, _step.Start);
    }

    /// <summary>After a jump of the setpoint, which no crossing announces.</summary>
    private void FollowSetpoint(int segment)
    {
        _system.Segment = segment;
        double bodyK = _step.Start[_system.Body] / _p.BodyJPerK, setpointK = _system.SetpointK(_t);
        if (_system.Mode == HeaterMode.Holds && !AreAlike(bodyK, setpointK))
        {
            _system.Mode = bodyK < setpointK ? HeaterMode.On : HeaterMode.Off;
            Switchings++;
        }

        Restart();
        Switch();
    }

    private void CutOut()
    {
        if (_system.BodyIsSet)
        {
            // A setpoint that jumps beyond the cut-out gets the body no further than there, nor does the cut-out cool it below the room.
            double heat = _p.BodyJPerK * Math.Min(Math.Max(_p.CutOutK, _p.RoomK), _system.BodyK(_t, _step.Start));
            BodyHeatAtStart += heat - _step.Start[_system.Body];
            _step.Start[_system.Body] = heat;
        }

        _system.Mode = HeaterMode.CutOut;
        Switchings++;
        CutOutS = _t;
    }

    private WarmingMoment LookAtEnd(double h)
    {
        _step.EvaluateEnd(_system, _t + h);
        return Look(_t + h, _step.End);
    }

    /// <summary>Looks at the state that was evaluated last.</summary>
    private WarmingMoment Look(double t, double[] y)
    {
        double sum = 0, coldest = double.PositiveInfinity, hottest = double.NegativeInfinity;
        ReadOnlySpan<double> masses = _system.MassKg, temperatures = _system.TemperatureK;
        for (int c = 0; c < masses.Length; c++)
        {
            double kelvins = temperatures[c];
            sum += masses[c] * kelvins;
            coldest = Math.Min(coldest, kelvins);
            hottest = Math.Max(hottest, kelvins);
        }

        double bodyK = _system.BodyK(t, y);
        return new WarmingMoment
        {
            TimeS = t,
            MeanK = sum / _system.HoneyKg,
            ColdestK = coldest,
            HottestK = hottest,
            BodyK = bodyK,
            ProbeK = _p.LagS > 0 ? y[_system.Probe] : _system.SensorK(bodyK),
            SetpointK = _system.SetpointK(t),
            HeaterW = _system.HeaterW,
            CrystalsLeft = CrystalsLeft(),
        };
    }

    private double CrystalsLeft()
    {
        if (_p.Honey.CrystalShare == 0)
            return 0;

        double left = 0;
        ReadOnlySpan<double> masses = _system.MassKg, melted = _system.Melted;
        for (int c = 0; c < masses.Length; c++)
            left += masses[c] * (1 - melted[c]);
        return left / _system.HoneyKg;
    }

    /// <summary>Functions that pass 0 upward at an event: targets, heater off, heater on, cut-out, overheating.</summary>
    private void Gaps(in WarmingMoment m, double[] gaps)
    {
        int n = _targets.Count;
        for (int target = 0; target < n; target++)
            gaps[target] = _targets.IsReached(target) ? Never : _targets.Gap(target, m.MeanK, m.ColdestK, m.CrystalsLeft);

        double half = _p.HysteresisK / 2;
        (gaps[n], gaps[n + 1]) = _system.Mode switch
        {
            HeaterMode.On => (m.ProbeK - m.SetpointK - half, Never),
            HeaterMode.Off => (Never, m.SetpointK - half - m.ProbeK),
            HeaterMode.Holds => (-m.HeaterW / _p.HeaterW, m.HeaterW / _p.HeaterW - 1),
            _ => (Never, Never),
        };
        gaps[n + 2] = _system.Mode == HeaterMode.CutOut ? Never : m.BodyK - _p.CutOutK;
        gaps[n + 3] = Math.Max(m.BodyK, m.HottestK) - HoneyHeat.HottestK;
    }

    /// <summary>The largest of some gaps, among those that were open before the step: 0 or more once something has crossed.</summary>
    private double LargestOpen(double[] gaps)
    {
        double largest = double.NegativeInfinity;
        for (int i = 0; i < gaps.Length; i++)
        {
            if (_gapsBefore[i] < 0)
                largest = Math.Max(largest, gaps[i]);
        }

        return largest;
    }

    /// <summary>Repeats the step, shorter, until it ends just past the first crossing.</summary>
    private double Land(double h, ref WarmingMoment after)
    {
        double low = 0, high = h, atHigh = LargestOpen(_gapsAfter), atLow = LargestOpen(_gapsBefore);
        int side = 0;
        for (int i = 0; i < MostLandings && atHigh > LandingAccuracy && high - low > 1e-9 * Math.Max(1, _t); i++)
        {
            // Regula falsi with the end that stays halved (Illinois), aimed slightly past the crossing.
            double middle = (low * (atHigh - 0.5 * LandingAccuracy) - high * (atLow - 0.5 * LandingAccuracy)) / (atHigh - atLow);
            middle = Math.Clamp(middle, low + 1e-3 * (high - low), high - 1e-3 * (high - low));
            _step.Step(_system, _t, middle);
            WarmingMoment there = LookAtEnd(middle);
            Gaps(there, _gapsAfter);
            double gap = LargestOpen(_gapsAfter);
            if (gap >= 0)
            {
                (high, atHigh, after) = (middle, gap, there);
                if (side > 0)
                    atLow /= 2;
                side = 1;
            }
            else
            {
                (low, atLow) = (middle, gap);
                if (side < 0)
                    atHigh /= 2;
                side = -1;
            }
        }

        if (side < 0)
        {
            // The last step tried was short of the crossing.
            _step.Step(_system, _t, high);
            after = LookAtEnd(high);
        }

        return high;
    }

    /// <summary>Largest error of the step over what is allowed.</summary>
    private double ErrorNorm()
    {
        double worst = 0;
        double[] error = _step.Error;
        ReadOnlySpan<double> capacity = _system.KeptCapacityJPerK;
        for (int c = 0; c < capacity.Length; c++)
        {
            // Math.Max keeps NaN.
            worst = Math.Max(worst, Math.Abs(error[c]) / capacity[c]);
        }

        double loose = 1 / LooserForBody;
        if (!_system.BodyIsSet)
            worst = Math.Max(worst, Math.Abs(error[_system.Body]) / _p.BodyJPerK * loose);
        worst = Math.Max(worst, Math.Abs(error[_system.Probe]) * loose);
        return worst / _toleranceK;
    }
}
