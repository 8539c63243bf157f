using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Benches;

/// <summary>The run that all measurements share: the first batch of the reference, a 19 L pail through a flat cloth.</summary>
internal static class PlainPail
{
    public static StrainingSetup Setup { get; } = new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        RoomTemperature = Temperature.FromDegreesCelsius(22),
        Tank = new Tank
        {
            Shape = new UprightCylinder(Length.FromMeters(0.285), Length.FromMeters(0.36)),
            Level = Length.FromMeters(0.298),
            HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(8),
        },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = GateControl.LeaveAt(Ratio.FromPercent(35)),
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMeters(0.285), Length.FromMillimeters(100)),
            Cloths = [new Cloth { Opening = Length.FromMicrometers(400), WireDiameter = Length.FromMicrometers(250) }],
        },
        Receiver = new Receiver
        {
            Shape = new UprightCylinder(Length.FromMeters(0.3), Length.FromMeters(0.4)),
            ShutWhenFull = false,
            HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(8),
        },
        Longest = Duration.FromDays(7),
    };

    public static StrainingOptions AtTolerance(double relativeTolerance) =>
        new() { SeriesPoints = 0, RelativeTolerance = relativeTolerance };
}
