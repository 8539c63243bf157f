using System.Numerics;
using FlowSim.Numerics.Ode;

namespace FlowSim.Warming;

/// <summary>
/// The equations of a warming run: heat moved between the cells, the body and the room. State: enthalpies of the cells, J; then
/// <see cref="Body"/>, <see cref="Probe"/>, <see cref="FromHeater"/>, <see cref="ToRoom"/>.
/// </summary>
internal sealed partial class WarmingSystem : IFactoredOdeSystem
{
    private const double StirringWPerM2K = 100;

    private readonly WarmingParameters _p;
    private readonly CylinderGrid _grid;
    private readonly HoneyEnthalpy _enthalpy;
    private readonly int _nr;
    private readonly int _nz;
    private readonly int _n;

    // Of each cell.
    private readonly double[] _massKg;
    private readonly double[] _highest;
    private readonly double[] _temperatureK;
    private readonly double[] _capacity;
    private readonly double[] _conductivity;
    private readonly double[] _stirs;
    private readonly double[] _melted;

    // Conductances, W/K: of the faces outside (i, k) in radius, above (i, k) in height; to body and room of each cell.
    private readonly double[] _radial;
    private readonly double[] _axial;
    private readonly double[] _sideToBody;
    private readonly double[] _sideToRoom;
    private readonly double[] _floor;
    private readonly double[] _top;
    private readonly double[] _element;

    private readonly double[] _bodySideShare;
    private readonly double[] _elementLengthM;
    private readonly FaceFilms _films;

    public WarmingSystem(WarmingParameters p)
    {
        _p = p;
        _grid = p.Grid;
        _enthalpy = p.Honey.Enthalpy;
        (_nr, _nz, _n) = (_grid.RadialCells, _grid.AxialCells, _grid.Count);
        _massKg = new double[_n];
        _highest = new double[_n];
        _temperatureK = new double[_n];
        _capacity = new double[_n];
        _conductivity = new double[_n];
        _stirs = new double[_n];
        _melted = new double[_n];
        _radial = new double[_n];
        _axial = new double[_n];
        _sideToBody = new double[_nz];
        _sideToRoom = new double[_nz];
        _element = new double[_nz];
        _floor = new double[_nr];
        _top = new double[_nr];
        _bodySideShare = new double[_nz];
        _elementLengthM = new double[_nz];
        _matrix = new KeptMatrix(_nr, _nz);

        double density = p.Honey.DensityKgPerM3(p.StartK);
        double start = _enthalpy.OnCurve(p.StartK);
        for (int i = 0; i < _nr; i++)
        {
            for (int k = 0; k < _nz; k++)
                _massKg[i * _nz + k] = density * _grid.CellVolumeM3(i);
        }

        HoneyKg = _massKg.Sum();
        Array.Fill(_highest, start);
        double covered = 0;
        for (int k = 0; k < _nz; k++)
        {
            _bodySideShare[k] = _grid.ShareBetween(k, p.Contacts.BodySideFromM, p.Contacts.BodySideToM);
            covered += _bodySideShare[k];
            if (p.Contacts.ElementRadiusM > 0)
                _elementLengthM[k] = _grid.AxialStepM * _grid.ShareBetween(k, p.Contacts.ElementFromM, p.Contacts.ElementToM);
        }

        // Divided once: the sum of n times 1/n can fall short of 1, and leave a face to the room that no cell has.
        _films = new FaceFilms(p, Math.Min(1, covered / _nz));
    }

    /// <summary>Place of the body's heat in the state, J above 0 K.</summary>
    public int Body => _n;

    /// <summary>Place of the probe, K.</summary>
    public int Probe => _n + 1;

    /// <summary>Place of what the heater gave, J.</summary>
    public int FromHeater => _n + 2;

    /// <summary>Place of what the room got, J.</summary>
    public int ToRoom => _n + 3;

    /// <inheritdoc/>
    public int Dimension => _n + 4;

    /// <summary>What the heater does now.</summary>
    public HeaterMode Mode { get; set; }

    /// <summary>Segment of the setpoint's curve that the run is in: a step ends in it even where the next one begins.</summary>
    public int Segment { get; set; }

    /// <summary>Whether the body is at the setpoint rather than free.</summary>
    public bool BodyIsSet => Mode is HeaterMode.Follows or HeaterMode.Holds;

    /// <summary>Power of the heater at the last evaluation, W.</summary>
    public double HeaterW { get; private set; }

    /// <summary>Temperatures of the cells at the last evaluation, K.</summary>
    public ReadOnlySpan<double> TemperatureK => _temperatureK;

    /// <summary>Melted shares of the cells' crystals at the last evaluation; of no meaning without crystals.</summary>
    public ReadOnlySpan<double> Melted => _melted;

    /// <summary>Heat capacities of the cells where the matrix was kept, melting included, J/K.</summary>
    public ReadOnlySpan<double> KeptCapacityJPerK => _matrix.Capacity;

    /// <summary>Masses of the cells, kg.</summary>
    public ReadOnlySpan<double> MassKg => _massKg;

    /// <summary>Mass of all cells, kg.</summary>
    public double HoneyKg { get; }

    /// <summary>Enhancement of the conductivity at the last evaluation.</summary>
    public double Enhancement => _films.Enhancement;

    /// <summary>Temperature of the body in a state, K.</summary>
    public double BodyK(double t, ReadOnlySpan<double> y) => BodyIsSet ? SetpointK(t) : y[_n] / _p.BodyJPerK;

    /// <summary>Setpoint, K.</summary>
    public double SetpointK(double t) => _p.Setpoint.At(Segment, t);

    /// <summary>Writes the state at the start.</summary>
    public void Start(Span<double> y)
    {
        double start = _enthalpy.OnCurve(_p.StartK);
        for (int c = 0; c < _n; c++)
            y[c] = _massKg[c] * start;
        y[Body] = _p.BodyJPerK * (_p.Unlimited ? SetpointK(0) : _p.BodyStartK);
        y[FromHeater] = y[ToRoom] = 0;
    }

    /// <summary>Keeps the highest enthalpy of each cell after an accepted step: crystals do not come back.</summary>
    public void KeepHighest(ReadOnlySpan<double> y)
    {
        if (!_enthalpy.Melts)
            return;
        for (int c = 0; c < _n; c++)
            _highest[c] = Math.Max(_highest[c], y[c] / _massKg[c]);
    }

    /// <inheritdoc/>
    public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
    {
        double bodyK = BodyK(t, y);
        Temperatures(y);
        FaceMeans();
        _films.Solve(bodyK, StirredMeanK());
        Conductances();

        derivative.Clear();
        ConductInside(derivative);
        double fromBody = 0, toRoom = 0;
        for (int k = 0; k < _nz; k++)
        {
            int side = (_nr - 1) * _nz + k;
            Exchange(_sideToBody[k], bodyK, side, derivative, ref fromBody);
            Exchange(_element[k], bodyK, k, derivative, ref fromBody);
            ExchangeWithRoom(_sideToRoom[k], side, derivative, ref toRoom);
        }

        for (int i = 0; i < _nr; i++)
        {
            if (_p.Contacts.FloorFacesBody)
                Exchange(_floor[i], bodyK, i * _nz, derivative, ref fromBody);
            else
                ExchangeWithRoom(_floor[i], i * _nz, derivative, ref toRoom);
            if (_p.Contacts.TopFacesBody)
                Exchange(_top[i], bodyK, i * _nz + _nz - 1, derivative, ref fromBody);
            else
                ExchangeWithRoom(_top[i], i * _nz + _nz - 1, derivative, ref toRoom);
        }

        double loss = _p.BodyLossWPerK * (bodyK - _p.RoomK);
        double given = _p.Vessels * fromBody + loss;
        double slope = Mode == HeaterMode.Holds ? _p.Setpoint.SlopeAt(Segment) * _p.BodyJPerK : 0;
        HeaterW = Mode switch
        {
            HeaterMode.On => _p.HeaterW,
            HeaterMode.Follows or HeaterMode.Holds => given + slope,
            _ => 0,
        };
        derivative[Body] = BodyIsSet ? slope : HeaterW - given;
        derivative[FromHeater] = HeaterW;
        derivative[ToRoom] = _p.Vessels * toRoom + loss;
        derivative[Probe] = _p.LagS > 0 ? (SensorK(bodyK) - y[Probe]) / _p.LagS : 0;
    }

    /// <summary>What the sensor feels at the last evaluation, K.</summary>
    public double SensorK(double bodyK) => _p.Sensor switch
    {
        SensorPlace.Honey => _temperatureK[_p.SensorCell],
        SensorPlace.Wall => WallK(_p.SensorCell - (_nr - 1) * _nz, bodyK),
        _ => bodyK,
    };

    /// <summary>Hottest surface that touches honey, at the last evaluation, K.</summary>
    public double HottestWallK(double bodyK)
    {
        double hottest = _p.Contacts.ElementRadiusM > 0 ? bodyK : 0;
        for (int k = 0; k < _nz; k++)
        {
            int c = (_nr - 1) * _nz + k;
            double area = _grid.SideCellAreaM2;
            hottest = Math.Max(hottest, Inside(c, _sideToBody[k], area * _bodySideShare[k], bodyK, FaceFilms.BodySide));
            hottest = Math.Max(hottest, Inside(c, _sideToRoom[k], area * (1 - _bodySideShare[k]), _p.RoomK, FaceFilms.RoomSide));
        }

        for (int i = 0; i < _nr; i++)
        {
            double area = _grid.RingAreaM2[i];
            hottest = Math.Max(hottest, Inside(i * _nz, _floor[i], area, _p.Contacts.FloorFacesBody ? bodyK : _p.RoomK, FaceFilms.Floor));
            hottest = Math.Max(hottest, Inside(i * _nz + _nz - 1, _top[i], area, _p.Contacts.TopFacesBody ? bodyK : _p.RoomK, FaceFilms.Top));
        }

        return hottest;
    }

    // Inside of a face: the cell, and what the heat that comes through loses on the way through half of it. A face of no area is no wall.
    private double Inside(int c, double conductance, double areaM2, double outsideK, int face)
    {
        if (!(areaM2 > 0))
            return 0;
        return _temperatureK[c] + (outsideK - _temperatureK[c]) * conductance * HalfCell(c, face) / areaM2;
    }

    private double WallK(int k, double bodyK)
    {
        int c = (_nr - 1) * _nz + k;
        double flux = _sideToBody[k] * (bodyK - _temperatureK[c]) + _sideToRoom[k] * (_p.RoomK - _temperatureK[c]);
        return _temperatureK[c] + flux * HalfCell(c, FaceFilms.BodySide) / _grid.SideCellAreaM2;
    }

    private void Exchange(double conductance, double bodyK, int c, Span<double> derivative, ref double fromBody)
    {
        double heat = conductance * (bodyK - _temperatureK[c]);
        derivative[c] += heat;
        fromBody += heat;
    }

    private void ExchangeWithRoom(double conductance, int c, Span<double> derivative, ref double toRoom)
    {
        double heat = conductance * (_temperatureK[c] - _p.RoomK);
        derivative[c] -= heat;
        toRoom += heat;
    }

    private void Temperatures(ReadOnlySpan<double> y)
    {
        if (!_enthalpy.Melts)
        {
            for (int c = 0; c < _n; c++)
            {
                double kelvins = _enthalpy.LiquidK(y[c] / _massKg[c]);
                _temperatureK[c] = kelvins;
                _capacity[c] = _massKg[c] * _enthalpy.SensibleCapacity(kelvins);
                _conductivity[c] = _p.Honey.ConductivityWPerMK(kelvins);
                _stirs[c] = 1;
            }

            return;
        }

        double crystals = _p.Honey.CrystalShare;
        for (int c = 0; c < _n; c++)
        {
            (double kelvins, double capacity, double melted) = _enthalpy.Of(y[c] / _massKg[c], _highest[c]);
            _temperatureK[c] = kelvins;
            _capacity[c] = _massKg[c] * capacity;
            _conductivity[c] = _p.Honey.ConductivityWPerMK(kelvins);
            _melted[c] = melted;
            _stirs[c] = Math.Max(0, 1 - crystals * (1 - melted) / FaceFilms.StillFromCrystals);
        }
    }

    private double StirredMeanK()
    {
        double sum = 0, weight = 0;
        for (int c = 0; c < _n; c++)
        {
            double w = _massKg[c] * _stirs[c];
            weight += w;
            sum += w * _temperatureK[c];
        }

        return weight > 0 ? sum / weight : double.NaN;
    }

    private void FaceMeans()
    {
        int last = (_nr - 1) * _nz;
        for (int face = 0; face < FaceFilms.Count; face++)
        {
            bool side = face is FaceFilms.BodySide or FaceFilms.RoomSide;
            double area = 0, kelvins = 0, conductivity = 0, stirred = 0;
            for (int j = 0; j < (side ? _nz : _nr); j++)
            {
                int c = side ? last + j : j * _nz + (face == FaceFilms.Floor ? 0 : _nz - 1);
                double a = face switch
                {
                    FaceFilms.BodySide => _bodySideShare[j],
                    FaceFilms.RoomSide => 1 - _bodySideShare[j],
                    _ => _grid.RingAreaM2[j],
                };
                area += a;
                kelvins += a * _temperatureK[c];
                conductivity += a * _conductivity[c];
                stirred += a * _conductivity[c] * _stirs[c];
            }

            if (!(area > 0))
                continue;
            _films.FaceK[face] = kelvins / area;
            _films.FaceConductivity[face] = conductivity / area;
            _films.FaceStirred[face] = stirred / area;
        }
    }

    /// <summary>All conductances, with the enhanced conductivity. Between neighbours it is the harmonic mean.</summary>
    private void Conductances()
    {
        double more = _films.Enhancement - 1;
        if (more > 0)
        {
            for (int c = 0; c < _n; c++)
                _conductivity[c] *= 1 + more * _stirs[c];
        }

        int width = Vector<double>.Count;
        for (int i = 0; i < _nr; i++)
        {
            int row = i * _nz;
            double radial = 2 * _grid.RadialFaceM(i), axial = 2 * _grid.AxialFaceM(i);
            int k = 0;
            if (i + 1 < _nr)
            {
                for (; k <= _nz - width; k += width)
                {
                    Vector<double> a = new(_conductivity, row + k), b = new(_conductivity, row + _nz + k);
                    (radial * a * b / (a + b)).CopyTo(_radial, row + k);
                }

                for (; k < _nz; k++)
                    _radial[row + k] = radial * _conductivity[row + k] * _conductivity[row + _nz + k] / (_conductivity[row + k] + _conductivity[row + _nz + k]);
            }

            for (k = 0; k <= _nz - 1 - width; k += width)
            {
                Vector<double> a = new(_conductivity, row + k), b = new(_conductivity, row + k + 1);
                (axial * a * b / (a + b)).CopyTo(_axial, row + k);
            }

            for (; k + 1 < _nz; k++)
                _axial[row + k] = axial * _conductivity[row + k] * _conductivity[row + k + 1] / (_conductivity[row + k] + _conductivity[row + k + 1]);
        }

        int last = (_nr - 1) * _nz;
        for (int k = 0; k < _nz; k++)
        {
            double area = _grid.SideCellAreaM2;
            _sideToBody[k] = Face(last + k, area * _bodySideShare[k], FaceFilms.BodySide);
            _sideToRoom[k] = Face(last + k, area * (1 - _bodySideShare[k]), FaceFilms.RoomSide);
            _element[k] = Element(k);
        }

        for (int i = 0; i < _nr; i++)
        {
            _floor[i] = Face(i * _nz, _grid.RingAreaM2[i], FaceFilms.Floor);
            _top[i] = Face(i * _nz + _nz - 1, _grid.RingAreaM2[i], FaceFilms.Top);
        }
    }

    private double Face(int c, double areaM2, int face) =>
        areaM2 > 0 && _films.Passes(face) ? areaM2 / (_films.OutsideM2KPerW(face) + HalfCell(c, face)) : 0;

    /// <summary>Resistance of half a cell, m²·K/W.</summary>
    private double HalfCell(int c, int face)
    {
        double halfM = _films.HalfCellM(face);
        return halfM == 0 ? 0 : halfM / _conductivity[c];
    }

    private double Element(int k)
    {
        double lengthM = _elementLengthM[k];
        if (!(lengthM > 0))
            return 0;
        double radiusM = _p.Contacts.ElementRadiusM;
        return _p.Inside == InsideHeat.WellMixed
            ? StirringWPerM2K * 2 * Math.PI * radiusM * lengthM
            : 2 * Math.PI * _conductivity[k] * lengthM / double.LogP1(_grid.RadialStepM / (2 * radiusM));
    }

    private void ConductInside(Span<double> derivative)
    {
        for (int i = 0; i < _nr; i++)
        {
            int row = i * _nz;
            if (i + 1 < _nr)
            {
                for (int c = row; c < row + _nz; c++)
                {
                    double heat = _radial[c] * (_temperatureK[c + _nz] - _temperatureK[c]);
                    derivative[c] += heat;
                    derivative[c + _nz] -= heat;
                }
            }

            for (int c = row; c < row + _nz - 1; c++)
            {
                double heat = _axial[c] * (_temperatureK[c + 1] - _temperatureK[c]);
                derivative[c] += heat;
                derivative[c + 1] -= heat;
            }
        }
    }
}
