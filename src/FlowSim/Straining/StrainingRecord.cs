using FlowSim.Numerics.Events;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>What is noted down while a run goes on.</summary>
internal sealed class StrainingRecord
{
    /// <summary>Shares whose times are reported.</summary>
    public static readonly double[] Shares = [0.50, 0.90, 0.95, 0.99];

    private readonly StrainingParameters _p;
    private readonly SeriesBuilder? _series;
    private readonly double[] _drainS = [double.NaN, double.NaN, double.NaN, double.NaN];
    private readonly double[] _strainS = [double.NaN, double.NaN, double.NaN, double.NaN];
    private readonly double[] _state;
    private int _nextDrain;
    private int _nextStrain;
    private PondMode _pondMode;
    private double _overflowFromS;
    private double _overflowFromKg;

    /// <summary>Starts a record.</summary>
    /// <param name="parameters">The run.</param>
    /// <param name="series">Collects the series; null for none.</param>
    public StrainingRecord(StrainingParameters parameters, SeriesBuilder? series)
    {
        _p = parameters;
        _series = series;
        _state = new double[FirstOpenShare + parameters.ClothResistancesPerM.Length];
    }

    /// <summary>Reads quantities at set times; null for none.</summary>
    public RunTrace? Trace { get; init; }

    public StrainingStatus Ending { get; set; } = StrainingStatus.TimeLimit;
    public double HeelS { get; private set; } = double.NaN;
    public double ReceiverFullS { get; private set; } = double.NaN;
    public double StrainedAtFullKg { get; private set; } = double.NaN;
    public double OverRimAtFullKg { get; private set; } = double.NaN;
    public double PeakPondM { get; private set; }
    public double PeakPondS { get; private set; }
    public List<(double FromS, double ToS, double Kg)> Overflows { get; } = [];
    public List<double> Scrapes { get; } = [];
    public ReadOnlySpan<double> DrainS => _drainS;
    public ReadOnlySpan<double> StrainS => _strainS;

    public void NoteHeel(double t) => HeelS = t;

    public void NoteScrape(double t) => Scrapes.Add(t);

    public void NoteReceiverFull(double t, ReadOnlySpan<double> y)
    {
        ReceiverFullS = t;
        StrainedAtFullKg = y[StrainedKg];
        OverRimAtFullKg = y[OverRimKg];
    }

    public void NoteMode(PondMode mode, double t, ReadOnlySpan<double> y)
    {
        if (mode == _pondMode)
            return;

        if (mode == PondMode.OverRim)
            (_overflowFromS, _overflowFromKg) = (t, y[OverRimKg]);
        if (_pondMode == PondMode.OverRim)
            CloseOverflow(t, y);
        _pondMode = mode;
    }

    /// <summary>Closes what is open at the end of the run.</summary>
    public void NoteEnd(StrainingSystem system, double t, ReadOnlySpan<double> y)
    {
        if (_pondMode == PondMode.OverRim)
            CloseOverflow(t, y);
        Trace?.NoteEnd(system, t, y);
    }

    public void NoteStep(StrainingSystem system, in DenseStep step)
    {
        step.Evaluate(step.End, _state);
        NoteDepth(step.End, _state);
        NoteShares(step, TankKg, _drainS, ref _nextDrain);
        NoteShares(step, StrainedKg, _strainS, ref _nextStrain);
        _series?.NoteStep(system, step);
        Trace?.NoteStep(system, step);
    }

    /// <summary>Keeps the deepest pond; called at every step's end and at every event, a pond at its deepest among them.</summary>
    public void NoteDepth(double t, ReadOnlySpan<double> y)
    {
        double depth = _p.Form.PondDepthM(y[PondKg] / _p.Honey.DensityKgPerM3(y[PondK]));
        if (depth > PeakPondM * (1 + 1e-9))
            (PeakPondM, PeakPondS) = (depth, t);
    }

    /// <summary>Adds a row to the series, if one is kept.</summary>
    public void NoteRow(StrainingSystem system, double t, ReadOnlySpan<double> y) => _series?.Add(system, t, y);

    private void CloseOverflow(double t, ReadOnlySpan<double> y) =>
        Overflows.Add((_overflowFromS, t, y[OverRimKg] - _overflowFromKg));

    private void NoteShares(in DenseStep step, int component, double[] times, ref int next)
    {
        while (next < Shares.Length)
        {
            double sought = component == TankKg
                ? _p.StartTankKg - (Shares[next] * _p.CanDrainKg)
                : Shares[next] * _p.CanDrainKg;
            double sign = component == TankKg ? -1 : 1;
            if (sign * (step.Evaluate(step.End, component) - sought) < 0)
                return;

            times[next++] = Bisect(step, component, sought, sign);
        }
    }

    private static double Bisect(in DenseStep step, int component, double sought, double sign)
    {
        (double low, double high) = (step.Start, step.End);
        while (true)
        {
            double middle = low + (0.5 * (high - low));
            if (middle <= low || middle >= high)
                return high;
            if (sign * (step.Evaluate(middle, component) - sought) < 0)
                low = middle;
            else
                high = middle;
        }
    }
}
