using FlowSim.Numerics.Events;
using FlowSim.Screens;
using static FlowSim.Straining.StrainingState;

namespace FlowSim.Straining;

/// <summary>
/// The straining run as a hybrid system: the rates (here), and the events that change them
/// (<c>StrainingSystem.Events.cs</c>). Equations 5 to 8 of the model in docs/guides/model.md.
/// </summary>
internal sealed partial class StrainingSystem : IHybridSystem
{
    /// <summary>Share of an unknown's scale by which it is shifted for a difference quotient: the square root of the rounding unit.</summary>
    public const double Shift = 1.5e-8;

    private readonly StrainingParameters _p;
    private readonly StrainingMode _mode = new();
    private readonly StrainingRecord _record;
    private readonly double[] _scales;

    public StrainingSystem(StrainingParameters parameters, StrainingRecord record)
    {
        _p = parameters;
        _record = record;
        Dimension = FirstOpenShare + parameters.ClothResistancesPerM.Length;
        _scales = new double[Dimension];
        Array.Fill(_scales, parameters.StartTankKg, 0, TankK);
        Array.Fill(_scales, 300, TankK, 3);
        Array.Fill(_scales, 1, FirstOpenShare, Dimension - FirstOpenShare);
    }

    public int Dimension { get; }

    public StrainingParameters Parameters => _p;

    public StrainingMode Mode => _mode;

    /// <summary>Typical size of each unknown, for tolerances and difference quotients.</summary>
    public ReadOnlySpan<double> Scales => _scales;

    /// <summary>Writes the state at the start.</summary>
    public void WriteStart(Span<double> y)
    {
        y.Clear();
        y[TankKg] = _p.StartTankKg;
        y[TankK] = _p.StartTankK;
        y[PondK] = _p.StartTankK;
        y[ReceiverK] = _p.StartReceiverK;
        y[FirstOpenShare..].Fill(1);
    }

    public void Derivative(double t, ReadOnlySpan<double> y, Span<double> derivative)
    {
        StrainingHydraulics.Evaluate(_p, _mode, t, y, out StrainingFlows f);
        Rates(y, f, derivative);
    }

    /// <remarks>
    /// Difference quotients, evaluating for each unknown only what follows from it. The pond's row is then minus the sum of the
    /// rows it exchanges honey with, so that the columns sum to zero and a step conserves mass to rounding.
    /// </remarks>
    public void Jacobian(
        double t,
        ReadOnlySpan<double> y,
        ReadOnlySpan<double> derivative,
        Span<double> jacobian,
        Span<double> timeDerivative,
        Span<double> scratch)
    {
        int n = Dimension;
        Span<double> shifted = scratch[..n];
        Span<double> rates = scratch.Slice(n, n);
        y.CopyTo(shifted);
        StrainingHydraulics.Evaluate(_p, _mode, t, y, out StrainingFlows unmoved);
        for (int j = 0; j < n; j++)
        {
            if (j == OverRimKg && !_p.Bypass)
            {
                // What went onto the floor acts on nothing.
                for (int i = 0; i < n; i++)
                    jacobian[(i * n) + j] = 0;
                continue;
            }

            double delta = Shift * Math.Max(Math.Abs(y[j]), 1e-3 * _scales[j]);
            double moved = y[j] + delta;
            shifted[j] = moved;
            StrainingFlows f = unmoved;
            StrainingHydraulics.Reevaluate(_p, _mode, t, shifted, j, ref f);
            Rates(shifted, f, rates);
            shifted[j] = y[j];
            double perDelta = 1 / (moved - y[j]);
            for (int i = 0; i < n; i++)
                jacobian[(i * n) + j] = (rates[i] - derivative[i]) * perDelta;
            jacobian[(PondKg * n) + j] =
                -(jacobian[(TankKg * n) + j] + jacobian[(StrainedKg * n) + j] + jacobian[(OverRimKg * n) + j]);
        }

        double step = Shift * Math.Max(1, Math.Abs(t));
        StrainingHydraulics.Reevaluate(_p, _mode, t + step, y, -1, ref unmoved);
        Rates(y, unmoved, rates);
        for (int i = 0; i < n; i++)
            timeDerivative[i] = (rates[i] - derivative[i]) / step;
        timeDerivative[PondKg] = -(timeDerivative[TankKg] + timeDerivative[StrainedKg] + timeDerivative[OverRimKg]);
    }

    private void Rates(ReadOnlySpan<double> y, in StrainingFlows f, Span<double> derivative)
    {
        PondBalance pond = PondBalance.Of(_p, _mode.Pond, y, f);

        derivative[TankKg] = -pond.GateKgPerS;
        derivative[StrainedKg] = f.ClothKgPerS;
        derivative[OverRimKg] = pond.OverRimKgPerS;
        derivative[PondKg] = -(derivative[TankKg] + derivative[StrainedKg] + derivative[OverRimKg]);

        derivative[TankK] = TankCooling(y, f);
        derivative[PondK] = pond.KelvinPerS;
        derivative[ReceiverK] = ReceiverWarming(y, f, _mode.ReceiverFull ? 0 : f.ClothKgPerS + (_p.Bypass ? pond.OverRimKgPerS : 0));

        double superficial = f.WettedClothM2 > 0 ? f.ClothKgPerS / (f.PondDensity * f.WettedClothM2) : 0;
        for (int j = 0; j < _p.BlindingPerM.Length; j++)
        {
            double open = Math.Max(0, y[FirstOpenShare + j]);
            derivative[FirstOpenShare + j] = Clogging.OpenShareRate(_p.Law, open, _p.BlindingPerM[j], superficial);
        }
    }

    /// <summary>Newton's law over wall, floor and surface: T′ = −k A (T − T_room)/(c m).</summary>
    private double TankCooling(ReadOnlySpan<double> y, in StrainingFlows f)
    {
        if (_p.TankLossWPerM2K == 0)
            return 0;

        double area = _p.Tank.WettedAreaM2(f.TankLevelM) + _p.Tank.SurfaceAreaM2(f.TankLevelM);
        double heatCapacity = _p.Honey.HeatCapacityJPerKgK(y[TankK]);
        return -_p.TankLossWPerM2K * area * (y[TankK] - _p.RoomK) / (heatCapacity * (y[TankKg] + _p.TankThermalKg));
    }

    /// <summary>What comes in mixes, and the vessel loses to the room: T′ = [q (T_P − T) − k A (T − T_room)/c]/m.</summary>
    private double ReceiverWarming(ReadOnlySpan<double> y, in StrainingFlows f, double inflow)
    {
        double area = _p.Receiver.WettedAreaM2(f.ReceiverLevelM) + _p.Receiver.SurfaceAreaM2(f.ReceiverLevelM);
        double loss = _p.ReceiverLossWPerM2K * area * (y[ReceiverK] - _p.RoomK) / _p.Honey.HeatCapacityJPerKgK(y[ReceiverK]);
        return ((inflow * (y[PondK] - y[ReceiverK])) - loss) / (_mode.ReceiverKg(_p, y) + _p.ReceiverThermalKg);
    }
}
