using FlowSim.HeatDamage;
using UnitsNet;

namespace FlowSim.Warming;

/// <summary>Keeps what a run shows on its way: extremes, the series, the maps.</summary>
internal sealed class WarmingRecorder(WarmingParameters p, WarmingSetup setup, int points)
{
    /// <summary>Columns of a row: those of <see cref="WarmingMoment"/>, wall, heat given, damage.</summary>
    private const int Columns = 17;

    private readonly List<double[]> _rows = [];
    private readonly int _mostRows = Math.Max(4000, 8 * points);
    private int _every = 1;
    private int _skipped;

    public List<VesselMap> Maps { get; } = [];

    public (double Kelvins, double AtS) HottestWall { get; private set; } = (0, 0);

    public double HottestHoneyK { get; private set; }

    public double WallAboveProbeK { get; private set; } = double.NegativeInfinity;

    public void Begin(WarmingIntegration run) => Step(run);

    /// <summary>Is shown an accepted step.</summary>
    public void Step(WarmingIntegration run)
    {
        WarmingMoment now = run.Now;
        double wallK = run.System.HottestWallK(now.BodyK);
        if (wallK > HottestWall.Kelvins)
            HottestWall = (wallK, now.TimeS);
        HottestHoneyK = Math.Max(HottestHoneyK, now.HottestK);
        WallAboveProbeK = Math.Max(WallAboveProbeK, wallK - now.ProbeK);
        if (points == 0)
            return;

        if (++_skipped < _every && _rows.Count > 0)
            return;
        _skipped = 0;
        Add(run, wallK);
        if (_rows.Count > _mostRows)
            Thin();
    }

    /// <summary>Is shown the end.</summary>
    public void End(WarmingIntegration run)
    {
        if (points > 0 && _rows[^1][0] < run.EndS)
            Add(run, run.System.HottestWallK(run.Now.BodyK));
    }

    /// <summary>Keeps a map of where the run is.</summary>
    public void Map(WarmingIntegration run)
    {
        CylinderGrid grid = p.Grid;
        double[] kelvins = new double[grid.Count], left = new double[grid.Count];
        ReadOnlySpan<double> from = run.System.TemperatureK, melted = run.System.Melted;
        bool crystals = p.Honey.CrystalShare > 0;
        for (int k = 0; k < grid.AxialCells; k++)
        {
            for (int i = 0; i < grid.RadialCells; i++)
            {
                int to = k * grid.RadialCells + i, c = i * grid.AxialCells + k;
                kelvins[to] = from[c];
                left[to] = crystals ? 1 - melted[c] : 0;
            }
        }

        Maps.Add(new VesselMap(
            Duration.FromSeconds(run.EndS), Length.FromMeters(grid.RadiusM), Length.FromMeters(grid.HeightM), grid.RadialCells, grid.AxialCells, kelvins, left));
    }

    /// <summary>The series, on an even grid of times, straight between the steps.</summary>
    public WarmingSeries Series()
    {
        int count = points == 0 ? 0 : Math.Max(2, points);
        double[][] columns = new double[Columns][];
        for (int column = 0; column < Columns; column++)
            columns[column] = new double[count];

        double end = count == 0 ? 0 : _rows[^1][0];
        int row = 0;
        for (int j = 0; j < count; j++)
        {
            double t = j + 1 == count ? end : end * j / (count - 1);
            while (row + 2 < _rows.Count && _rows[row + 1][0] <= t)
                row++;
            double[] a = _rows[row], b = _rows[Math.Min(row + 1, _rows.Count - 1)];
            double share = b[0] > a[0] ? (t - a[0]) / (b[0] - a[0]) : 1;
            for (int column = 0; column < Columns; column++)
                columns[column][j] = share <= 0 ? a[column] : share >= 1 ? b[column] : a[column] + share * (b[column] - a[column]);
            columns[0][j] = t;
        }

        return new WarmingSeries
        {
            TimeS = columns[0],
            ColdestK = columns[1],
            MeanK = columns[2],
            HottestK = columns[3],
            WallK = columns[4],
            ProbeK = columns[5],
            BodyK = columns[6],
            SetpointK = columns[7],
            HeaterW = Power(columns[0], columns[8]),
            CrystalsLeft = columns[9],
            ViscosityPaS = columns[10],
            HmfGainLow = columns[11],
            HmfGain = columns[12],
            HmfGainHigh = columns[13],
            DiastaseLeftLow = columns[14],
            DiastaseLeft = columns[15],
            DiastaseLeftHigh = columns[16],
        };
    }

    private double _startW;

    private double[] Power(double[] timeS, double[] givenJ)
    {
        double[] power = new double[timeS.Length];
        for (int j = 0; j < power.Length; j++)
            power[j] = j > 0 && timeS[j] > timeS[j - 1] ? (givenJ[j] - givenJ[j - 1]) / (timeS[j] - timeS[j - 1]) : _startW;
        return power;
    }

    private void Add(WarmingIntegration run, double wallK)
    {
        WarmingMoment now = run.Now;
        if (_rows.Count == 0)
            _startW = now.HeaterW;
        var damage = run.Doses.AverageNow(run.System.MassKg, setup.Response);
        _rows.Add(
        [
            now.TimeS, now.ColdestK, now.MeanK, now.HottestK, wallK, now.ProbeK, now.BodyK, now.SetpointK,
            run.State[run.System.FromHeater], now.CrystalsLeft * p.Honey.CrystalShare, p.Honey.ViscosityPaS(now.MeanK),
            damage.HmfLow, damage.Hmf, damage.HmfHigh, damage.DiastaseLow, damage.Diastase, damage.DiastaseHigh,
        ]);
    }

    /// <summary>Drops every second row but the first, and keeps every second from now on.</summary>
    private void Thin()
    {
        int kept = 1;
        for (int row = 2; row < _rows.Count; row += 2)
            _rows[kept++] = _rows[row];
        _rows.RemoveRange(kept, _rows.Count - kept);
        _every *= 2;
    }
}
