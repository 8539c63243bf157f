using System.Numerics;
using System.Runtime.InteropServices;

namespace FlowSim.HeatDamage;

/// <summary>
/// Heat doses of many cells of honey at once, along the temperatures at the ends of an integrator's steps. A kernel: it
/// allocates in its constructor only, and arguments are not checked.
/// </summary>
/// <remarks>
/// Within a step the logarithm of a rate is taken as straight in time. Where the temperature is straight instead, a step
/// of ΔT reads low by (E/R) ΔT²/(6 T³) of itself: 2.6e-4 of the gain of HMF for 2 K at 40 °C.
/// </remarks>
internal sealed class CellDoses
{
    private static readonly int s_lanes = Vector<double>.Count;

    private readonly HmfRateLaw _law;
    private readonly int _cells;

    // All columns are padded to whole vectors. The padding stays at the temperature of Start's last cell.
    private readonly double[] _temperatureK;
    private readonly double[] _hmfRate;
    private readonly double[] _diastaseRate;
    private readonly double[] _hmf;
    private readonly double[] _diastase;
    private readonly double[] _coldestK;
    private readonly double[] _hottestK;

    // The ends of the band are constant shares of the best estimate but for cells that have been above the wide band's
    // beginning; what those have besides is kept apart, so that the others cost nothing.
    private readonly double[] _lowBesides;
    private readonly double[] _highBesides;

    private double _seconds;

    /// <summary>Creates doses of 0.</summary>
    /// <param name="law">Rate law of HMF.</param>
    /// <param name="cells">Number of cells, at least 1.</param>
    public CellDoses(HmfRateLaw law, int cells)
    {
        _law = law;
        _cells = cells;
        int padded = (cells + s_lanes - 1) / s_lanes * s_lanes;
        _temperatureK = new double[padded];
        _hmfRate = new double[padded];
        _diastaseRate = new double[padded];
        _hmf = new double[padded];
        _diastase = new double[padded];
        _coldestK = new double[padded];
        _hottestK = new double[padded];
        _lowBesides = new double[padded];
        _highBesides = new double[padded];
    }

    /// <summary>The cell with the largest gain of HMF; the first of equals.</summary>
    public int WorstCell => IndexOfLargest(_hmf);

    /// <summary>Sets all doses to 0 and the temperatures at which the first step begins.</summary>
    /// <param name="temperaturesK">Temperatures of the cells, K.</param>
    public void Start(ReadOnlySpan<double> temperaturesK)
    {
        temperaturesK[.._cells].CopyTo(_temperatureK);
        _temperatureK.AsSpan(_cells).Fill(temperaturesK[_cells - 1]);
        _temperatureK.CopyTo(_coldestK, 0);
        _temperatureK.CopyTo(_hottestK, 0);
        _seconds = 0;
        Array.Clear(_hmf);
        Array.Clear(_diastase);
        Array.Clear(_lowBesides);
        Array.Clear(_highBesides);
        for (int i = 0; i < _temperatureK.Length; i += s_lanes)
        {
            var kelvin = new Vector<double>(_temperatureK, i);
            _law.RateMgPerKgPerS(kelvin).CopyTo(_hmfRate, i);
            DiastaseLoss.RatePerS(kelvin).CopyTo(_diastaseRate, i);
        }
    }

    /// <summary>Adds a step.</summary>
    /// <param name="temperaturesK">Temperatures of the cells at its end, K.</param>
    /// <param name="seconds">Its length, s, at least 0.</param>
    public void Advance(ReadOnlySpan<double> temperaturesK, double seconds)
    {
        temperaturesK = temperaturesK[.._cells];
        ReadOnlySpan<Vector<double>> whole = MemoryMarshal.Cast<double, Vector<double>>(temperaturesK);
        for (int i = 0; i < whole.Length; i++)
            Advance(i * s_lanes, whole[i], seconds);

        int done = whole.Length * s_lanes;
        if (done < _cells)
        {
            Span<double> rest = stackalloc double[s_lanes];
            _temperatureK.AsSpan(done).CopyTo(rest);
            temperaturesK[done..].CopyTo(rest);
            Advance(done, new Vector<double>(rest), seconds);
        }

        _seconds += seconds;
    }

    /// <summary>Dose of a cell.</summary>
    /// <param name="cell">Index of the cell.</param>
    public HeatDose DoseOf(int cell) => new(
        _law,
        HmfRateLaw.BandLow * _hmf[cell] + _lowBesides[cell],
        _hmf[cell],
        HmfRateLaw.BandHigh * _hmf[cell] + _highBesides[cell],
        _diastase[cell],
        _seconds,
        _coldestK[cell],
        _hottestK[cell]);

    /// <summary>Damage on the average over the honey so far: means by mass of the gains of HMF, mg/kg, and of the shares of diastase that are left.</summary>
    /// <param name="masses">Masses of the cells, in any unit.</param>
    /// <param name="response">How the honey responds, checked.</param>
    public (double HmfLow, double Hmf, double HmfHigh, double DiastaseLow, double Diastase, double DiastaseHigh) AverageNow(ReadOnlySpan<double> masses, HeatResponse response)
    {
        (double hmfLow, double hmf, double hmfHigh) = MeanGains(masses, response);
        return (
            hmfLow,
            hmf,
            hmfHigh,
            Math.Exp(-MeanExponent(masses, DiastaseLoss.HalfLifeFactorLow)),
            Math.Exp(-MeanExponent(masses, 1)),
            Math.Exp(-MeanExponent(masses, DiastaseLoss.HalfLifeFactorHigh)));
    }

    /// <summary>Damage on the average over the honey; equivalents at 20 °C from the average gain and the average share.</summary>
    /// <param name="masses">Masses of the cells, in any unit.</param>
    /// <param name="response">How the honey responds; checked here.</param>
    /// <exception cref="ArgumentException">The response names another rate law.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value of the response is outside its range.</exception>
    public HoneyHeatDamage Average(ReadOnlySpan<double> masses, HeatResponse response)
    {
        response.Validate();
        response.RequireLaw(_law, nameof(response));
        var now = AverageNow(masses, response);
        return HoneyHeatDamage.OfGains(
            (now.HmfLow, now.Hmf, now.HmfHigh),
            (now.DiastaseLow, now.Diastase, now.DiastaseHigh),
            MeanExponent(masses, 1),
            response,
            DoseOf(IndexOfLargest(_hottestK)).Notices());
    }

    private void Advance(int at, Vector<double> endK, double seconds)
    {
        var startK = new Vector<double>(_temperatureK, at);
        Vector<double> inverseFall = (endK - startK) / (startK * endK);

        var startRate = new Vector<double>(_diastaseRate, at);
        Vector<double> endRate = DiastaseLoss.RatePerS(endK);
        (new Vector<double>(_diastase, at) + seconds * LogarithmicMean.Of(startRate, endRate, DiastaseLoss.ActivationK * inverseFall)).CopyTo(_diastase, at);
        endRate.CopyTo(_diastaseRate, at);

        startRate = new Vector<double>(_hmfRate, at);
        endRate = _law.RateMgPerKgPerS(endK);
        Vector<double> gain = seconds * LogarithmicMean.Of(startRate, endRate, _law.ActivationK * inverseFall);
        Vector<long> hot = Vector.GreaterThan(Vector.Max(startK, endK), new Vector<double>(HmfRateLaw.WideBandFromK));
        if (hot == Vector<long>.Zero)
            (new Vector<double>(_hmf, at) + gain).CopyTo(_hmf, at);
        else
            AdvanceSomeHot(at, hot, gain, endK, seconds);
        endRate.CopyTo(_hmfRate, at);

        endK.CopyTo(_temperatureK, at);
        Vector.Min(new Vector<double>(_coldestK, at), endK).CopyTo(_coldestK, at);
        Vector.Max(new Vector<double>(_hottestK, at), endK).CopyTo(_hottestK, at);
    }

    private void AdvanceSomeHot(int at, Vector<long> hot, Vector<double> gain, Vector<double> endK, double seconds)
    {
        for (int lane = 0; lane < s_lanes; lane++)
        {
            if (hot[lane] == 0)
                _hmf[at + lane] += gain[lane];
            else
                AdvanceHot(at + lane, endK[lane], seconds);
        }
    }

    /// <summary>A step that ends or begins where the band is wide. The band has a step and a corner: the time is cut there, as if the temperature went straight.</summary>
    private void AdvanceHot(int cell, double endK, double seconds)
    {
        double coldest = Math.Min(_temperatureK[cell], endK);
        double hottest = Math.Max(_temperatureK[cell], endK);
        double wideFromK = HmfRateLaw.WideBandFromK;
        double perK = hottest > coldest ? seconds / (hottest - coldest) : 0;
        double Gain(double fromK, double toK)
        {
            double time = hottest > coldest ? (toK - fromK) * perK : seconds;
            return time * LogarithmicMean.Of(_law.White1964MgPerKgPerS(fromK), _law.White1964MgPerKgPerS(toK), _law.ActivationK * (toK - fromK) / (fromK * toK));
        }

        double below = coldest < wideFromK ? Gain(coldest, wideFromK) : 0;
        double fromK = Math.Max(coldest, wideFromK);
        double heldToK = Math.Min(hottest, _law.LowHeldToK);
        double whereHeld = 0, low = 0;
        // A cell held at just that temperature too.
        if (fromK <= _law.LowHeldToK)
        {
            whereHeld = Gain(fromK, heldToK);
            low = _law.LowMgPerKgPerS(heldToK) * (hottest > coldest ? (heldToK - fromK) * perK : seconds);
            fromK = heldToK;
        }

        double beyond = hottest > _law.LowHeldToK ? Gain(fromK, hottest) : 0;
        double above = whereHeld + beyond;
        _hmf[cell] += below + above;
        _highBesides[cell] += (HmfRateLaw.WideBandFactor - HmfRateLaw.BandHigh) * above;
        _lowBesides[cell] += low + beyond / HmfRateLaw.WideBandFactor - HmfRateLaw.BandLow * above;
    }

    private (double Low, double Best, double High) MeanGains(ReadOnlySpan<double> masses, HeatResponse response)
    {
        double mass = 0, best = 0, low = 0, high = 0;
        for (int i = 0; i < _cells; i++)
        {
            mass += masses[i];
            best += masses[i] * _hmf[i];
            low += masses[i] * _lowBesides[i];
            high += masses[i] * _highBesides[i];
        }

        return (
            response.LowMultiplier * (HmfRateLaw.BandLow * best + low) / mass,
            response.FloralMultiplier * best / mass,
            response.HighMultiplier * (HmfRateLaw.BandHigh * best + high) / mass);
    }

    /// <summary>−ln of the mean share of diastase left, for half-lives of a multiple of the stated. Finite where the share itself is below the smallest number.</summary>
    private double MeanExponent(ReadOnlySpan<double> masses, double halfLifeFactor)
    {
        double least = double.PositiveInfinity;
        for (int i = 0; i < _cells; i++)
            least = Math.Min(least, _diastase[i]);

        double mass = 0, left = 0;
        for (int i = 0; i < _cells; i++)
        {
            mass += masses[i];
            left += masses[i] * Math.Exp((least - _diastase[i]) / halfLifeFactor);
        }

        return least / halfLifeFactor - Math.Min(0, Math.Log(left / mass));
    }

    private int IndexOfLargest(double[] column)
    {
        int largest = 0;
        for (int i = 1; i < _cells; i++)
        {
            if (column[i] > column[largest])
                largest = i;
        }

        return largest;
    }
}
