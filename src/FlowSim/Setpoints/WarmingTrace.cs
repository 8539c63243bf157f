using FlowSim.HeatDamage;
using FlowSim.Warming;

namespace FlowSim.Setpoints;

/// <summary>A warming run at one setpoint, to be stopped at any moment: what has been reached and what it has cost by then.</summary>
internal sealed class WarmingTrace
{
    private readonly WarmingSeries _series;
    private readonly HeatResponse _response;
    private readonly double[] _hottestK;
    private readonly double[] _wallK;
    private readonly double[] _heaterJ;
    private readonly int _crystalsGone;

    public WarmingTrace(double setpointC, WarmingResult result)
    {
        SetpointC = setpointC;
        _series = result.Series;
        _response = result.Setup.Response;
        int rows = _series.TimeS.Count;
        _hottestK = new double[rows];
        _wallK = new double[rows];
        _heaterJ = new double[rows];
        for (int row = 0; row < rows; row++)
        {
            _hottestK[row] = Math.Max(row > 0 ? _hottestK[row - 1] : 0, _series.HottestK[row]);
            _wallK[row] = Math.Max(row > 0 ? _wallK[row - 1] : 0, _series.WallK[row]);
            _heaterJ[row] = row > 0 ? _heaterJ[row - 1] + _series.HeaterW[row] * (_series.TimeS[row] - _series.TimeS[row - 1]) : 0;
        }

        double mayBeLeft = TargetWatch.GoneBelow * (result.Setup.Crystals?.Share.DecimalFractions ?? 1);
        _crystalsGone = 0;
        while (_crystalsGone < rows && _series.CrystalsLeft[_crystalsGone] > mayBeLeft * (1 + 1e-9))
            _crystalsGone++;
    }

    public double SetpointC { get; }

    /// <summary>The moment at which the mean has got to a temperature and the crystals are gone; null when that never happens.</summary>
    /// <param name="kelvins">Temperature, K.</param>
    public Stop? WhenMeanIs(double kelvins)
    {
        IReadOnlyList<double> mean = _series.MeanK;
        int row = 0;
        while (row < mean.Count && mean[row] < kelvins)
            row++;
        row = Math.Max(row, _crystalsGone);
        if (row >= mean.Count)
            return null;
        if (row == 0 || row == _crystalsGone && mean[row - 1] >= kelvins)
            return StopAt(row, 1);

        double share = (kelvins - mean[row - 1]) / (mean[row] - mean[row - 1]);
        return StopAt(row, row == _crystalsGone ? Math.Max(share, 1) : share);
    }

    private Stop StopAt(int row, double share)
    {
        double Between(IReadOnlyList<double> column) => row == 0 ? column[0] : column[row - 1] + share * (column[row] - column[row - 1]);

        double left = Between(_series.DiastaseLeft);
        return new Stop(
            Between(_series.TimeS),
            Between(_series.MeanK),
            _hottestK[row],
            _wallK[row],
            Between(_heaterJ),
            HoneyHeatDamage.OfGains(
                (Between(_series.HmfGainLow), Between(_series.HmfGain), Between(_series.HmfGainHigh)),
                (Between(_series.DiastaseLeftLow), left, Between(_series.DiastaseLeftHigh)),
                -Math.Log(left),
                _response,
                []));
    }

    /// <summary>A moment at which warming may be stopped.</summary>
    /// <param name="TimeS">Time, s.</param>
    /// <param name="MeanK">Mean temperature, K.</param>
    /// <param name="HottestK">Hottest honey so far, K.</param>
    /// <param name="WallK">Hottest wall so far, K.</param>
    /// <param name="HeaterJ">Heat given so far, J.</param>
    /// <param name="Damage">Damage so far.</param>
    internal sealed record Stop(double TimeS, double MeanK, double HottestK, double WallK, double HeaterJ, HoneyHeatDamage Damage);
}
