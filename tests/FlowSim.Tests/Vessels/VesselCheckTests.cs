using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Vessels;

/// <summary>The ranges that the records' documentation gives.</summary>
public class VesselCheckTests
{
    private static readonly Tank GoodTank = new()
    {
        Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(330)),
        Level = Length.FromMillimeters(298),
    };

    private static readonly Receiver GoodReceiver = new() { Shape = GoodTank.Shape };

    [Fact]
    public void Usual_equipment_passes()
    {
        GoodTank.Validate();
        (GoodTank with { Level = Length.FromMillimeters(330), GateHeight = Length.FromMillimeters(20) }).Validate();
        GoodReceiver.Validate();
        (GoodReceiver with { AlreadyIn = Volume.FromLiters(5), Spacer = Length.FromMillimeters(-50), StartTemperature = Temperature.FromDegreesCelsius(40) }).Validate();
    }

    public static TheoryData<string, Tank> BadTanks => new()
    {
        { nameof(Tank.Level), GoodTank with { Level = Length.FromMillimeters(331) } },
        { nameof(Tank.Level), GoodTank with { Level = Length.Zero } },
        { nameof(Tank.Level), GoodTank with { GateHeight = Length.FromMillimeters(298) } },
        { nameof(Tank.GateHeight), GoodTank with { GateHeight = Length.FromMillimeters(-1) } },
        { nameof(Tank.GateHeight), GoodTank with { GateHeight = Length.FromMillimeters(400) } },
        { nameof(Tank.HeatLoss), GoodTank with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(-1) } },
        { nameof(Tank.HeatLoss), GoodTank with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(101) } },
    };

    [Theory]
    [MemberData(nameof(BadTanks))]
    public void A_tank_outside_its_ranges_is_refused_by_name(string name, Tank tank) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(tank.Validate).ParamName);

    public static TheoryData<string, Receiver> BadReceivers => new()
    {
        { nameof(Receiver.AlreadyIn), GoodReceiver with { AlreadyIn = Volume.FromLiters(-1) } },
        { nameof(Receiver.AlreadyIn), GoodReceiver with { AlreadyIn = Volume.FromLiters(25) } },
        { nameof(Receiver.Spacer), GoodReceiver with { Spacer = Length.FromMillimeters(-331) } },
        { nameof(Receiver.Spacer), GoodReceiver with { Spacer = Length.FromMeters(6) } },
        { nameof(Receiver.StartTemperature), GoodReceiver with { StartTemperature = Temperature.FromKelvins(0) } },
        { nameof(Receiver.HeatLoss), GoodReceiver with { HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(1000) } },
    };

    [Theory]
    [MemberData(nameof(BadReceivers))]
    public void A_receiver_outside_its_ranges_is_refused_by_name(string name, Receiver receiver) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(receiver.Validate).ParamName);

    [Fact]
    public void A_missing_shape_is_refused()
    {
        Assert.Equal(nameof(Tank.Shape), Assert.Throws<ArgumentNullException>((GoodTank with { Shape = null! }).Validate).ParamName);
        Assert.Equal(nameof(Receiver.Shape), Assert.Throws<ArgumentNullException>((GoodReceiver with { Shape = null! }).Validate).ParamName);
    }
}
