using System.Runtime.CompilerServices;
using FlowSim.Numerics.Ensemble;
using FlowSim.Screens;
using FlowSim.Vessels;

namespace FlowSim.Straining;

/// <summary>
/// Straining runs side by side: the model of <see cref="StrainingFlows"/>, <see cref="PondBalance"/> and <see cref="StrainingSystem"/>, lane by lane.
/// Those are the ones to read; here stands the same without branches. Tests hold every lane to them.
/// </summary>
/// <remarks>
/// What runs over is not an unknown here but what is missing from the others, so that mass is conserved by construction. Shapes whose
/// walls are not upright are asked lane by lane.
/// </remarks>
internal sealed partial class StrainingLanes<TLanes> : ILaneSystem<TLanes>
    where TLanes : struct, ILanes<TLanes>
{
    private const int TankKg = 0;
    private const int PondKg = 1;
    private const int StrainedKg = 2;
    private const int TankK = 3;
    private const int PondK = 4;
    private const int ReceiverK = 5;
    private const int FirstOpenShare = 6;

    private readonly StrainingParameters _filled;
    private readonly AlignedMemory _memory;
    private readonly int _cloths;
    private readonly bool _wallFilm;
    private readonly bool _submerged;
    private readonly bool _bypass;
    private readonly bool _sealedOn;
    private readonly bool _hasCorners;
    private readonly bool _mayRide;
    private readonly bool _mayScrape;
    private readonly BlockingLaw _law;
    private readonly bool _tankIsPrism;
    private readonly bool _pondIsPrism;
    private readonly bool _receiverIsPrism;

    private readonly VesselShape[] _tanks = new VesselShape[TLanes.Count];
    private readonly ScreenShape[] _forms = new ScreenShape[TLanes.Count];
    private readonly VesselShape[] _receivers = new VesselShape[TLanes.Count];
    private readonly LaneSchedule[] _schedules;
    private readonly Stack<int> _putAside = new();
    private EnsembleBatch _batch = null!;
    private bool _second;
    private readonly int[] _run = new int[TLanes.Count];
    private readonly int[] _traced = new int[TLanes.Count];

    /// <summary>Makes lanes; every thread has its own.</summary>
    /// <param name="parameters">Parameters to fill; not shared.</param>
    public StrainingLanes(StrainingParameters parameters)
    {
        _filled = parameters;
        StrainingSetup setup = parameters.Setup;
        _cloths = parameters.ClothResistancesPerM.Length;
        _wallFilm = parameters.WallFilm;
        _submerged = parameters.SubmergedOutlet;
        _bypass = parameters.Bypass;
        _sealedOn = parameters.SealedOn;
        _hasCorners = _submerged || setup.Receiver.Spacer.Meters <= 0;
        _mayRide = setup.Control is RiddenGate;
        _mayScrape = setup.Scraping.AtPondDepth is not null;
        _law = parameters.Law;
        _tankIsPrism = parameters.Tank.AsPrism is not null;
        _pondIsPrism = parameters.Form.AsPrism is not null;
        _receiverIsPrism = parameters.Receiver.AsPrism is not null;
        _schedules = new LaneSchedule[TLanes.Count];
        for (int lane = 0; lane < TLanes.Count; lane++)
            _schedules[lane] = new LaneSchedule(parameters.Openings.Length);

        _memory = new AlignedMemory(
            Unsafe.SizeOf<LaneParameters<TLanes>>() + Unsafe.SizeOf<LaneModes<TLanes>>() + Unsafe.SizeOf<LaneRecord<TLanes>>()
            + (2 * _cloths * Unsafe.SizeOf<TLanes>()) + (2 * Dimension * Unsafe.SizeOf<TLanes>()));
    }

    /// <inheritdoc/>
    public int Dimension => FirstOpenShare + _cloths;

    /// <summary>Whether runs of a setup can stand side by side: its viscosity must be a Vogel form.</summary>
    /// <param name="parameters">Parameters.</param>
    public static bool Admits(StrainingParameters parameters) => parameters.Viscosity.FormAt(parameters.MoisturePercent) is not null;

    /// <summary>Takes the runs of a batch from now on and puts aside those that are given up.</summary>
    /// <param name="batch">Batch.</param>
    public void TakeAll(EnsembleBatch batch)
    {
        _batch = batch;
        _putAside.Clear();
        _second = false;
    }

    /// <summary>Takes the runs that were put aside from now on; what is given up now is run alone.</summary>
    /// <returns>Whether there are any.</returns>
    public bool TakePutAside()
    {
        _second = true;
        return _putAside.Count > 0;
    }

    private ref LaneParameters<TLanes> P => ref _memory.Values<LaneParameters<TLanes>>(0, 1)[0];

    private ref LaneModes<TLanes> Modes => ref _memory.Values<LaneModes<TLanes>>(Unsafe.SizeOf<LaneParameters<TLanes>>(), 1)[0];

    private ref LaneRecord<TLanes> Record =>
        ref _memory.Values<LaneRecord<TLanes>>(Unsafe.SizeOf<LaneParameters<TLanes>>() + Unsafe.SizeOf<LaneModes<TLanes>>(), 1)[0];

    private int Tail => Unsafe.SizeOf<LaneParameters<TLanes>>() + Unsafe.SizeOf<LaneModes<TLanes>>() + Unsafe.SizeOf<LaneRecord<TLanes>>();

    private Span<TLanes> ClothResistances => _memory.Values<TLanes>(Tail, _cloths);

    private Span<TLanes> Blinding => _memory.Values<TLanes>(Tail + (_cloths * Unsafe.SizeOf<TLanes>()), _cloths);

    private Span<TLanes> Shifted => _memory.Values<TLanes>(Tail + (2 * _cloths * Unsafe.SizeOf<TLanes>()), Dimension);

    private Span<TLanes> Moved => _memory.Values<TLanes>(Tail + ((2 * _cloths) + Dimension) * Unsafe.SizeOf<TLanes>(), Dimension);

    /// <inheritdoc/>
    public bool TryBegin(int lane, out double end)
    {
        end = 0;
        int run;
        if (!_second)
        {
            if (!_batch.TryTake(_filled, out run))
                return false;
        }
        else if (_putAside.TryPop(out run))
        {
            _batch.Fill(_filled, run);
        }
        else
        {
            return false;
        }

        _run[lane] = run;
        _traced[lane] = 0;
        end = _filled.LongestS;
        Load(lane, _filled);
        return true;
    }

    /// <summary>Puts the numbers of a run into a lane.</summary>
    private void Load(int lane, StrainingParameters p)
    {
        ref LaneParameters<TLanes> all = ref P;
        (double at20C, double perK, double perK2) = Properties.HoneyDensity.CoefficientsAt(p.MoisturePercent);
        Set(ref all.DensityAt20C, at20C);
        Set(ref all.DensityPerK, perK);
        Set(ref all.DensityPerK2, perK2);
        (double at0C, double capacityPerK) = Properties.HoneyHeatCapacity.CoefficientsAt(p.MoisturePercent);
        Set(ref all.HeatCapacityAt0C, at0C);
        Set(ref all.HeatCapacityPerK, capacityPerK);
        VogelForm form = p.Viscosity.FormAt(p.MoisturePercent)!.Value;
        Set(ref all.ViscosityA, form.A + Math.Log(p.LotFactor));
        Set(ref all.ViscosityB, form.BKelvin);
        Set(ref all.ViscosityT0, form.T0Kelvin);
        Set(ref all.RoomK, p.RoomK);
        Set(ref all.StartTankK, p.StartTankK);
        Set(ref all.StartReceiverK, p.StartReceiverK);

        Set(ref all.StartTankKg, p.StartTankKg);
        Set(ref all.HeelLevelM, p.HeelLevelM);
        Set(ref all.CanDrainKg, p.CanDrainKg);
        Set(ref all.TankThermalKg, p.TankThermalKg);
        Set(ref all.TankLoss, p.TankLossWPerM2K);
        Set(ref all.PondLoss, p.PondLossWPerM2K);
        Set(ref all.GateHeightM, p.GateHeightM);
        Set(ref all.OutletAboveScreenM, p.OutletAboveScreenM);
        Set(ref all.StallKgPerS, p.StallKgPerS);
        Set(ref all.StartDensity, p.StartDensityKgPerM3);
        _tanks[lane] = p.Tank;
        Prism tank = p.Tank.AsPrism ?? default;
        Set(ref all.TankFloorM2, tank.FloorM2);
        Set(ref all.TankPerFloor, 1 / tank.FloorM2);
        Set(ref all.TankPerimeterM, tank.PerimeterM);
        Set(ref all.TankHeightM, p.Tank.HeightM);

        _forms[lane] = p.Form;
        PrismScreen pond = p.Form.AsPrism ?? default;
        Set(ref all.PondSurfaceM2, pond.SurfaceM2);
        Set(ref all.PondPerSurface, 1 / pond.SurfaceM2);
        Set(ref all.FloorClothM2, pond.FloorClothM2);
        Set(ref all.WallClothM, pond.WallClothM);
        Set(ref all.RimHeightM, p.Form.RimHeightM);
        Set(ref all.RimM3, p.RimVolumeM3);
        Set(ref all.PondThermalKg, p.PondThermalKg);
        Set(ref all.MinimumHeadM, p.MinimumHeadM);
        Set(ref all.InverseScreenFactor, 1 / p.ScreenFactor);
        Set(ref all.RideDepthM, p.RideDepthM);
        Set(ref all.ScrapeDepthM, p.ScrapeDepthM);
        for (int j = 0; j < _cloths; j++)
        {
            Set(ref ClothResistances[j], p.ClothResistancesPerM[j]);
            Set(ref Blinding[j], p.BlindingPerM[j]);
        }

        _receivers[lane] = p.Receiver;
        Prism receiver = p.Receiver.AsPrism ?? default;
        Set(ref all.ReceiverFloorM2, receiver.FloorM2);
        Set(ref all.ReceiverPerFloor, 1 / receiver.FloorM2);
        Set(ref all.ReceiverPerimeterM, receiver.PerimeterM);
        Set(ref all.ReceiverHeightM, p.Receiver.HeightM);
        Set(ref all.ReceiverCapacityM3, p.ReceiverCapacityM3);
        Set(ref all.ScreenAboveFloorM, p.Receiver.HeightM + p.SpacerM);
        Set(ref all.StartReceiverKg, p.StartReceiverKg);
        Set(ref all.ReceiverLoss, p.ReceiverLossWPerM2K);
        Set(ref all.ReceiverThermalKg, p.ReceiverThermalKg);
        double leastAir = StrainingHydraulics.LeastAirShare * p.ReceiverCapacityM3;
        Set(ref all.LeastAirM3, leastAir);
        Set(ref all.AirAtStartM3, Math.Max(leastAir, p.ReceiverCapacityM3 - p.StartReceiverM3));
        _schedules[lane].Take(p);

        void Set(ref TLanes value, double number) => Lane.At(ref value, lane) = number;
    }
}
