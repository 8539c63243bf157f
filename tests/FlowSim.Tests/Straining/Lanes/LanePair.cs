using FlowSim.Numerics.Ensemble;
using FlowSim.Numerics.Events;
using FlowSim.Straining;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Tests.Straining.Lanes;

/// <summary>Two runs of a setup, once in lanes and once as single systems, taken by hand through the same states and events.</summary>
internal sealed class LanePair
{
    /// <summary>Two runs, and the same two once more.</summary>
    private const int Runs = 4;

    /// <summary>Places in the single state of the unknowns of a lane: a lane has no place for what ran over.</summary>
    private readonly int[] _place;
    private readonly StrainingSystem[] _single = new StrainingSystem[2];
    private readonly StrainingRecord[] _records = new StrainingRecord[2];
    private readonly StrainingParameters[] _parameters = new StrainingParameters[2];
    private readonly double[][] _y = new double[2][];
    private readonly StrainingLanes<Lanes2> _lanes;
    private readonly Lanes2[] _state;
    private readonly StrainingSample[] _samples = new StrainingSample[Runs];
    private readonly EnsembleBatch _batch;
    private readonly string _name;

    /// <summary>Begins both.</summary>
    /// <param name="setup">Setup; the second run varies it in everything that can be varied.</param>
    /// <param name="name">Name, for messages.</param>
    public LanePair(StrainingSetup setup, string name)
    {
        _name = name;
        StrainingInput[] varied = [.. StrainingInputs.All.Where(input => input.AppliesTo(setup))];
        double[] values = new double[Runs * varied.Length];
        for (int i = 0; i < varied.Length; i++)
        {
            double now = varied[i].ValueIn(setup);
            (double low, double high) = varied[i].RangeIn(setup);
            double other = Math.Clamp(varied[i].Unit == "K" ? now + 1.5 : now * 0.97, low, high);
            for (int run = 0; run < Runs; run++)
                values[(run * varied.Length) + i] = run % 2 == 0 ? now : other;
        }

        _batch = new EnsembleBatch(StrainingNumbers.Of(setup), varied, values, _samples, default, 1e-5, null, CancellationToken.None);
        _lanes = new StrainingLanes<Lanes2>(new StrainingParameters(setup));
        _lanes.TakeAll(_batch);
        Take(setup);
        _place = [TankKg, PondKg, StrainedKg, .. Enumerable.Range(TankK, _single[0].Dimension - TankK)];
        Assert.Equal(_place.Length, _lanes.Dimension);
        _state = new Lanes2[_place.Length];
        Array.Fill(_state, Lanes2.Of(double.NaN));
        Start();
    }

    private void Take(StrainingSetup setup)
    {
        for (int lane = 0; lane < 2; lane++)
        {
            Assert.True(_lanes.TryBegin(lane, out double end));
            Assert.Equal(setup.Longest.Seconds, end);
            _parameters[lane] = new StrainingParameters(setup);
            _batch.Fill(_parameters[lane], lane);
            _records[lane] = new StrainingRecord(_parameters[lane], null);
            _single[lane] = new StrainingSystem(_parameters[lane], _records[lane]);
            _y[lane] = new double[_single[lane].Dimension];
        }
    }

    /// <summary>Lets the lanes take the same runs again, while the single systems are made anew.</summary>
    public void BeginAnew()
    {
        Take(_parameters[0].Setup);
        Start();
    }

    /// <summary>What was told of the first runs, or of the same again.</summary>
    public StrainingSample Told(int run) => _samples[run];

    /// <summary>Lanes that have not ended.</summary>
    public uint Alive { get; private set; } = 3;

    public StrainingParameters Parameters(int lane) => _parameters[lane];

    public StrainingMode Mode(int lane) => _single[lane].Mode;

        public double NextStop(int lane) => _single[lane].NextStop(0);

    /// <summary>Time in a lane: the second is a little later.</summary>
    public static double At(double t, int lane) => lane == 0 ? t : t * 1.3;

    private static Lanes2 Both(double first, double second)
    {
        Lanes2 both = Lanes2.Of(first);
        Lane.At(ref both, 1) = second;
        return both;
    }

    private void Start()
    {
        Lanes2[] scales = new Lanes2[_place.Length];
        uint ended = _lanes.Start(3, _state, scales);
        for (int lane = 0; lane < 2; lane++)
        {
            _single[lane].WriteStart(_y[lane]);
            bool stops = _single[lane].Begin(_y[lane]) == EventResponse.Stop;
            Assert.True(stops == ((ended >> lane & 1) != 0), $"{_name}: lane {lane} ends at the start: {!stops}, not {stops}");
            for (int i = 0; i < _place.Length; i++)
                Assert.Equal(_single[lane].Scales[_place[i]], Lane.At(ref scales[i], lane));
        }

        Alive = 3 & ~ended;
        Same("at the start");
    }

    /// <summary>Puts runs that have not ended into a state.</summary>
    /// <param name="tank">Share of the start that is still in the tank.</param>
    /// <param name="pond">Volume of the pond over that at the rim, as far as there is honey for it; some of it is in the receiver, whose level has a corner at its floor.</param>
    /// <param name="over">Share of the rest that went over the rim, once the strainer has run over.</param>
    /// <param name="kelvins">What tank, pond and receiver differ from their start.</param>
    /// <param name="open">Open share of the first cloth; the others are a little more open.</param>
    public void Put(double tank, double pond, double over, (double Tank, double Pond, double Receiver) kelvins, double open)
    {
        for (int lane = 0; lane < 2; lane++)
        {
            if ((Alive >> lane & 1) == 0)
                continue;
            StrainingParameters p = _parameters[lane];
            double[] y = _y[lane];
            y[TankK] = p.StartTankK + kelvins.Tank;
            y[PondK] = p.StartTankK + kelvins.Pond;
            y[ReceiverK] = p.StartReceiverK + kelvins.Receiver;
            y[TankKg] = tank * p.StartTankKg;
            y[PondKg] = Math.Min(pond * p.RimVolumeM3 * p.Honey.DensityKgPerM3(y[PondK]), 0.95 * (p.StartTankKg - y[TankKg]));
            double rest = p.StartTankKg - y[TankKg] - y[PondKg];
            bool hasRunOver = _records[lane].Overflows.Count > 0 || Mode(lane).Pond == PondMode.OverRim;
            y[StrainedKg] = hasRunOver ? rest * (1 - over) : rest;
            y[OverRimKg] = p.StartTankKg - y[TankKg] - y[PondKg] - y[StrainedKg];
            for (int j = FirstOpenShare; j < y.Length; j++)
                y[j] = open + ((1 - open) * 0.2 * (j - FirstOpenShare));
            for (int i = 0; i < _place.Length; i++)
                Lane.At(ref _state[i], lane) = y[_place[i]];
        }
    }

    /// <summary>Lets the same happen to both.</summary>
    /// <param name="watch">Place of the event among those that are watched.</param>
    /// <param name="t">Time.</param>
    /// <param name="mode">Mode of the pond in which it can happen; null for any.</param>
    public void Happen(int watch, double t, PondMode? mode = null)
    {
        uint before = Alive & (mode is null ? 3 : (Mode(0).Pond == mode ? 1u : 0) | (Mode(1).Pond == mode ? 2u : 0));
        uint[] happened = [1u << watch, 1u << watch];
        uint ended = _lanes.OnEvents(before, happened, Both(At(t, 0), At(t, 1)), _state);
        Settle($"event {watch}", before, ended, lane => _single[lane].OnEvent(watch, At(t, lane), _y[lane]));
    }

    /// <summary>Comes to what is due next in each lane.</summary>
    /// <returns>Lanes that came to a stop.</returns>
    public uint Stop()
    {
        uint due = 0;
        double[] at = [1, 1];
        for (int lane = 0; lane < 2; lane++)
        {
            double next = NextStop(lane);
            Assert.Equal(next, _lanes.NextStop(lane, 0));
            if ((Alive >> lane & 1) == 0 || double.IsInfinity(next))
                continue;
            due |= 1u << lane;
            at[lane] = next;
        }

        uint ended = _lanes.OnStops(due, Both(at[0], at[1]), _state);
        Settle($"stop at {at[0]} and {at[1]}", due, ended, lane => _single[lane].OnStop(at[lane], _y[lane]));
        return due;
    }

    private void Settle(string what, uint due, uint ended, Func<int, EventResponse> single)
    {
        for (int lane = 0; lane < 2; lane++)
        {
            if ((due >> lane & 1) == 0)
                continue;
            bool stops = single(lane) == EventResponse.Stop;
            Assert.True(stops == ((ended >> lane & 1) != 0), $"{_name}: lane {lane} ends at {what}: {!stops}, not {stops}");
        }

        Assert.Equal(0u, ended & ~due);
        Alive &= ~ended;
        Same(what);
    }

    private void Same(string when)
    {
        for (int lane = 0; lane < 2; lane++)
        {
            for (int i = 0; i < _place.Length; i++)
                Near(_y[lane][_place[i]], Lane.At(ref _state[i], lane), 1e-13, 1e-15 * _single[lane].Scales[_place[i]], () => $"lane {lane}, unknown {i} {when}");
        }
    }

    /// <summary>Compares rates, event functions and Jacobian of both, in lanes that have not ended.</summary>
    /// <param name="t">Time.</param>
    public void Compare(double t)
    {
        int n = _place.Length;
        Lanes2 times = Both(At(t, 0), At(t, 1));
        Lanes2[] rates = new Lanes2[n], again = new Lanes2[n], timeSlope = new Lanes2[n], jacobian = new Lanes2[n * n];
        Lanes2[] events = new Lanes2[_lanes.EventCount], eventsAgain = new Lanes2[_lanes.EventCount];
        _lanes.Derivative(times, _state, rates);
        _lanes.Events(times, _state, events);
        _lanes.DerivativeAndEvents(times, _state, again, eventsAgain);
        _lanes.Jacobian(times, _state, rates, jacobian, timeSlope);
        for (int lane = 0; lane < 2; lane++)
        {
            if ((Alive >> lane & 1) == 0)
                continue;
            for (int i = 0; i < n; i++)
                Assert.Equal(Lane.At(ref rates[i], lane), Lane.At(ref again[i], lane));
            for (int i = 0; i < events.Length; i++)
                Assert.Equal(Lane.At(ref events[i], lane), Lane.At(ref eventsAgain[i], lane));
            Compare(lane, At(t, lane), Column(rates, lane), Column(events, lane), Column(jacobian, lane), Column(timeSlope, lane));
        }
    }

    private static double[] Column(Lanes2[] values, int lane) => [.. values.Select(value => Lane.At(ref value, lane))];

    private void Compare(int lane, double t, double[] rates, double[] events, double[] jacobian, double[] timeSlope)
    {
        StrainingSystem single = _single[lane];
        double[] y = _y[lane];
        int n = _place.Length, m = y.Length;
        double[] expected = new double[m], values = new double[single.EventCount];
        single.Derivative(t, y, expected);
        single.EventValues(t, y, values);
        Assert.Equal(0, expected[TankKg] + expected[PondKg] + expected[StrainedKg] + expected[OverRimKg], 1e-14 * single.Scales[0]);
        for (int i = 0; i < n; i++)
            Near(expected[_place[i]], rates[i], 1e-9, 1e-13 * single.Scales[_place[i]], () => $"lane {lane} at {t} s, rate {i}");
        CompareEvents(lane, t, values, events);

        double[] slopes = new double[m * m], timeSlopes = new double[m];
        Array.Fill(slopes, double.NaN);
        single.Jacobian(t, y, expected, slopes, timeSlopes, new double[2 * m]);
        double[] typical = Typical(lane, t, expected);
        double[] sizes = [.. y.Zip(single.Scales.ToArray(), (value, scale) => Math.Max(Math.Abs(value), 1e-3 * scale))];
        double thermalKg = Mode(lane).ReceiverKg(_parameters[lane], y) + _parameters[lane].ReceiverThermalKg;
        for (int i = 0; i < n; i++)
        {
            int row = _place[i];
            double rounding = 1e-6 * typical[row];
            for (int j = 0; j < n; j++)
            {
                // What ran over is what is missing: moving one of the three masses moves it the other way.
                bool mass = j <= StrainedKg;
                double slope = slopes[(row * m) + _place[j]] - (mass ? slopes[(row * m) + OverRimKg] : 0);
                double bend = mass && row == ReceiverK ? 1e-7 * single.Scales[0] / thermalKg : 0; // The shifts differ there, and an empty receiver weighs little.
                Near(slope, jacobian[(i * n) + j], 1e-5 + bend, rounding / (mass ? 1e-3 * single.Scales[0] : sizes[_place[j]]), () => $"lane {lane} at {t} s, slope of rate {i} against unknown {j}");
            }

            Near(timeSlopes[row], timeSlope[i], 1e-5, rounding / Math.Max(1, t), () => $"lane {lane} at {t} s, slope of rate {i} against time");
        }
    }

    /// <summary>How large the terms are whose sum a rate is: a difference quotient rounds as they do.</summary>
    private double[] Typical(int lane, double t, double[] rates)
    {
        StrainingParameters p = _parameters[lane];
        double[] y = _y[lane];
        StrainingHydraulics.Evaluate(p, Mode(lane), t, y, out StrainingFlows f);
        double flow = f.GateCapacityKgPerS + f.ClothKgPerS + p.StallKgPerS, kelvins = 10;
        double[] typical = [.. rates.Select(Math.Abs)];
        typical.AsSpan(0, TankK).Fill(flow);
        typical[PondK] += flow * kelvins / (y[PondKg] + p.PondThermalKg);
        typical[ReceiverK] += flow * kelvins / (Mode(lane).ReceiverKg(p, y) + p.ReceiverThermalKg);
        return typical;
    }

    private void CompareEvents(int lane, double t, double[] single, double[] lanes)
    {
        const double Off = -1;
        StrainingParameters p = _parameters[lane];
        StrainingMode mode = _single[lane].Mode;
        StrainingHydraulics.Evaluate(p, mode, t, _y[lane], out StrainingFlows f);
        double gaining = PondBalance.Of(p, mode.Pond, _y[lane], f).SurplusKgPerS / p.StallKgPerS;
        bool corners = p.SubmergedOutlet || p.Setup.Receiver.Spacer.Meters <= 0;
        Assert.Equal(corners ? 14 : 10, lanes.Length);
        double[] expected =
        [
            single[0],
            mode.Pond == PondMode.OverRim ? single[1] : Off, // In lanes the deepest pond is found within the step.
            single[2] == Off ? Off : Math.Min(single[2], gaining),
            .. single[3..10],
            .. corners ? (double[])[single[10], -single[10], single[11], p.SubmergedOutlet ? -single[11] : Off] : [],
        ];
        for (int i = 0; i < lanes.Length; i++)
            Near(expected[i], lanes[i], 1e-9, 1e-11, () => $"lane {lane} at {t} s, event {i}");
    }

    /// <param name="what">Words for it, which are put together only when they are needed.</param>
    private void Near(double expected, double actual, double relative, double absolute, Func<string> what)
    {
        if (!(expected == actual || Math.Abs(expected - actual) <= (relative * Math.Abs(expected)) + absolute))
            Assert.Fail($"{_name}: {what()} is {actual:r}, not {expected:r}");
    }

    /// <summary>Ends what has not ended, and compares what is told of each run.</summary>
    /// <param name="t">Time.</param>
    /// <param name="first">Whether these are the first runs, not those after <see cref="BeginAnew"/>.</param>
    public void Finish(double t, bool first = true)
    {
        for (int lane = 0; lane < 2; lane++)
        {
            StrainingRecord record = _records[lane];
            _lanes.Finish(lane, (Alive >> lane & 1) != 0 ? LaneEnding.ReachedEnd : LaneEnding.Stopped, At(t, lane), _state);
            record.NoteEnd(_single[lane], At(t, lane), _y[lane]);
            StrainingSample expected = StrainingReport.Sample(_parameters[lane], new StrainingOutcome(_single[lane], record, At(t, lane), _y[lane], default));
            StrainingSample told = _samples[(first ? 0 : 2) + lane];
            Assert.True(expected.Ending == told.Ending && expected.Scrapes == told.Scrapes, $"{_name}: {told}, not {expected}");
            Assert.Equal(At(t, lane), told.EndSeconds);
            Assert.True(double.IsNaN(told.DrainSeconds) && double.IsNaN(told.StrainSeconds), $"{_name}: {told}");
            Near(expected.FirstOverflowSeconds, told.FirstOverflowSeconds, 1e-15, 0, () => "first overflow");
            Near(expected.ReceiverFullSeconds, told.ReceiverFullSeconds, 1e-15, 0, () => "receiver full");
            double kg = 3 * StrainingSystem.BelowRim * _parameters[lane].StartTankKg; // As much is put over the rim when a pond is put below it.
            Near(expected.OverRimKg, told.OverRimKg, 0, kg, () => "over the rim");
            Near(expected.BypassedKg, told.BypassedKg, 0, kg, () => "bypassed");
            Near(expected.SpilledKg, told.SpilledKg, 0, kg, () => "spilled");
            Near(Math.Max(0, expected.ReceiverSpilledKg), told.ReceiverSpilledKg, 0, kg, () => "spilled at the receiver");
            Near(expected.StrainedKg, told.StrainedKg, 0, kg, () => "strained");
            if (told.RanOver)
                Assert.Equal(1, told.PeakPondShare);
            else if ((Alive >> lane & 1) != 0)
                Assert.InRange(told.PeakPondShare, record.PeakPondM / _parameters[lane].Form.RimHeightM * (1 - 1e-9), 1);
        }
    }
}
