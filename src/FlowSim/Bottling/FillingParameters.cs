using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;

namespace FlowSim.Bottling;

/// <summary>What the equations of a run need, as doubles.</summary>
internal sealed class FillingParameters
{
    /// <summary>Converts a setup that has been checked.</summary>
    /// <param name="setup">Setup to run.</param>
    /// <param name="targetKg">Target fill, kg.</param>
    public FillingParameters(FillingSetup setup, double targetKg)
    {
        Setup = setup;
        Honey = HoneyProperties.Of(setup.Honey);
        TargetKg = targetKg;
        Shape = setup.Tank.Shape;
        GateHeightM = setup.Tank.GateHeight.Meters;
        StartK = setup.Temperature.Kelvins;
        RoomK = setup.RoomTemperature.Kelvins;
        LossWPerM2K = setup.Tank.HeldAtTemperature ? 0 : setup.Tank.HeatLoss.WattsPerSquareMeterKelvin;
        StartLevelM = setup.Tank.Level.Meters;
        StartWettedM2 = Shape.WettedAreaM2(StartLevelM);
        StartKg = Honey.DensityKgPerM3(StartK) * Shape.VolumeM3(StartLevelM);
        RadiusM = setup.Gate.Bore.Meters / 2;
        HeelM3 = Shape.VolumeM3(TankHeel.LevelM(Shape, GateHeightM, 2 * RadiusM));
        double opening = setup.Opening.DecimalFractions;
        Gate = GateFlow.GeometryOf(setup.Gate, opening);
        OpenAreaM2 = GateOpening.Of(setup.Gate.Blade, RadiusM, Math.Min(1, opening)).AreaM2;
        ClosingS = setup.ClosingTime.Seconds;
        ChangeOverS = setup.ChangeOver.Seconds;
        LipM = setup.Lip.Meters;
        DripLimitKg = setup.DripLimit.Kilograms;
        LongestWaitS = setup.LongestWait.Seconds;
        LongestFillS = setup.LongestFill.Seconds;
        MostJars = setup.MostJars ?? NetWeightQuestion.MostJars;
    }

    public FillingSetup Setup { get; }
    public HoneyProperties Honey { get; }
    public double TargetKg { get; }
    public VesselShape Shape { get; }
    public double GateHeightM { get; }
    public double StartK { get; }
    public double RoomK { get; }
    public double LossWPerM2K { get; }
    public double StartLevelM { get; }
    public double StartWettedM2 { get; }
    public double StartKg { get; }
    public double RadiusM { get; }

    /// <summary>Volume below the level at which the tank counts as drained, m³.</summary>
    public double HeelM3 { get; }
    public GateGeometry Gate { get; }
    public double OpenAreaM2 { get; }
    public double ClosingS { get; }
    public double ChangeOverS { get; }
    public double LipM { get; }
    public double DripLimitKg { get; }
    public double LongestWaitS { get; }
    public double LongestFillS { get; }
    public int MostJars { get; }

    /// <summary>
    /// Film on the wall, m³: ⅔ √(ν z/(g t)) times the wall bared, z the fall of the level, t the time since the first jar
    /// (<see cref="WallFilm"/>), as in straining.
    /// </summary>
    /// <param name="volumeM3">Honey in the tank, film included, m³.</param>
    /// <param name="kinematicM2PerS">Kinematic viscosity, m²/s.</param>
    /// <param name="timeS">Time since the gate was first opened, s.</param>
    public double FilmM3(double volumeM3, double kinematicM2PerS, double timeS)
    {
        double levelM = Shape.LevelM(volumeM3);
        double fallen = StartLevelM - levelM;
        return Setup.Tank.WallFilm && fallen > 0 && timeS > 0
            ? Math.Min(volumeM3, WallFilm.VolumeM3(kinematicM2PerS, fallen, Physical.StandardGravity, timeS, StartWettedM2 - Shape.WettedAreaM2(levelM)))
            : 0;
    }

    /// <summary>Temperature of the tank after it has stood for a time, K: exact while area and mass stay.</summary>
    /// <param name="temperatureK">Temperature before, K.</param>
    /// <param name="massKg">Honey in the tank, kg.</param>
    /// <param name="levelM">Its level, m.</param>
    /// <param name="timeS">Time, s.</param>
    public double CooledK(double temperatureK, double massKg, double levelM, double timeS)
    {
        double lossWPerK = LossWPerM2K * (Shape.WettedAreaM2(levelM) + Shape.SurfaceAreaM2(levelM));
        return RoomK + (temperatureK - RoomK) * Math.Exp(-lossWPerK * timeS / (Honey.HeatCapacityJPerKgK(temperatureK) * massKg));
    }
}
