using System.Runtime.InteropServices;

namespace FlowSim.Straining;

/// <summary>What <see cref="StrainingParameters"/> holds, of the runs in the lanes.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct LaneParameters<TLanes>
    where TLanes : struct
{
    public TLanes DensityAt20C, DensityPerK, DensityPerK2, HeatCapacityAt0C, HeatCapacityPerK, ViscosityA, ViscosityB, ViscosityT0;
    public TLanes RoomK, StartTankK, StartReceiverK;
    public TLanes StartTankKg, HeelLevelM, CanDrainKg, TankThermalKg, TankLoss, PondLoss, GateHeightM, OutletAboveScreenM, StallKgPerS, StartDensity;
    public TLanes TankFloorM2, TankPerFloor, TankPerimeterM, TankHeightM;
    public TLanes PondSurfaceM2, PondPerSurface, FloorClothM2, WallClothM, RimHeightM, RimM3, PondThermalKg, MinimumHeadM, InverseScreenFactor, RideDepthM, ScrapeDepthM;
    public TLanes ReceiverFloorM2, ReceiverPerFloor, ReceiverPerimeterM, ReceiverHeightM, ReceiverCapacityM3, ScreenAboveFloorM, StartReceiverKg, ReceiverLoss, ReceiverThermalKg;
    public TLanes AirAtStartM3, LeastAirM3;
}

/// <summary>What <see cref="StrainingMode"/> holds, of the runs in the lanes. What is yes or no is a mask.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct LaneModes<TLanes>
    where TLanes : struct
{
    public TLanes OverRim, Ridden, AtHeel, ClothHasRun, ClothRests, ReceiverFull, GateOpen, Waits;

    /// <summary>R̂ and B̂ of the opening; 1 while it is shut.</summary>
    public TLanes GateViscous, GateInertial;

    /// <summary>+∞ before the gate is first opened.</summary>
    public TLanes OpenedAtS;

    public TLanes OpenedAtLevelM, OpenedAtWettedM2, FullReceiverKg;
}

/// <summary>What is noted of the runs in the lanes.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct LaneRecord<TLanes>
    where TLanes : struct
{
    public TLanes DrainS, StrainS, FirstOverflowS, PeakM, ReceiverFullS, StrainedAtFullKg, OverRimAtFullKg, TraceS;
}

/// <summary>Levels and flows that follow from a state, as in <see cref="StrainingFlows"/>.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct LaneFlows<TLanes>
    where TLanes : struct
{
    public TLanes TankLevelM, GateCapacityKgPerS;
    public TLanes PondDensity, PondM3, PondDepthM, PondSurfaceM2, WettedClothM2, PondCapacityJPerKgK;
    public TLanes ReceiverKg, ReceiverM3, ReceiverLevelM, HeldBackM, AirHeadM, DrivingHeadM, ClothKgPerS, ClothPerShareM;
}

/// <summary>As <see cref="PondBalance"/>.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct LaneBalance<TLanes>
    where TLanes : struct
{
    public TLanes GateKgPerS, OverRimKgPerS, SurplusKgPerS, KelvinPerS;
}
