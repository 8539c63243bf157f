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

    private static HeatTransferCoefficient Loss(double value) => HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(value);

    [Fact]
    public void Equipment_at_its_limits_passes()
    {
        foreach (Tank tank in new[] { GoodTank with { HeatLoss = Loss(0) }, GoodTank with { HeatLoss = Loss(100) }, GoodTank with { Level = GoodTank.Shape.Height, GateHeight = Length.Zero } })
            tank.Validate();
        foreach (Receiver receiver in new[]
                 {
                     GoodReceiver with { HeatLoss = Loss(0) }, GoodReceiver with { HeatLoss = Loss(100) }, GoodReceiver with { AlreadyIn = GoodReceiver.Shape.Capacity },
                     GoodReceiver with { Spacer = -GoodReceiver.Shape.Height }, GoodReceiver with { Spacer = Length.FromMeters(5) },
                     GoodReceiver with { StartTemperature = Temperature.FromDegreesCelsius(-30) }, GoodReceiver with { StartTemperature = Temperature.FromDegreesCelsius(100) },
                 })
        {
            receiver.Validate();
        }
    }

    [Fact]
    public void Equipment_just_beyond_its_limits_is_named()
    {
        Assert.Equal("tank", Assert.Throws<ArgumentNullException>(() => VesselCheck.Validate((Tank)null!)).ParamName);
        Assert.Equal("receiver", Assert.Throws<ArgumentNullException>(() => VesselCheck.Validate((Receiver)null!)).ParamName);
        foreach (double celsius in new[] { -30.01, 100.01 })
            Assert.Equal("StartTemperature", Assert.Throws<ArgumentOutOfRangeException>((GoodReceiver with { StartTemperature = Temperature.FromDegreesCelsius(celsius) }).Validate).ParamName);
        foreach (double loss in new[] { -0.001, 100.001 })
        {
            Assert.Equal("HeatLoss", Assert.Throws<ArgumentOutOfRangeException>((GoodReceiver with { HeatLoss = Loss(loss) }).Validate).ParamName);
            Assert.Equal("HeatLoss", Assert.Throws<ArgumentOutOfRangeException>((GoodTank with { HeatLoss = Loss(loss) }).Validate).ParamName);
        }

        Assert.Equal("Spacer", Assert.Throws<ArgumentOutOfRangeException>((GoodReceiver with { Spacer = Length.FromMeters(5.001) }).Validate).ParamName);

        // Nothing runs out of a tank filled up to its gate: the refusal says where gate and brim are.
        ArgumentOutOfRangeException level = Assert.Throws<ArgumentOutOfRangeException>((GoodTank with { Level = Length.FromMillimeters(20), GateHeight = Length.FromMillimeters(20) }).Validate);
        Assert.Equal("Level", level.ParamName);
        Assert.Contains("The level, 0.02 m, must be above the gate, 0.02 m, and at most the brim, 0.33 m", level.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Equipment_is_minded_unless_told_otherwise()
    {
        Tank tank = new() { Shape = GoodTank.Shape, Level = GoodTank.Level };
        Receiver receiver = new() { Shape = GoodTank.Shape };
        Assert.True(tank.WallFilm);
        Assert.False(tank.HeldAtTemperature);
        Assert.True(receiver.ShutWhenFull);
        Assert.Equal((6.0, 6.0), (tank.HeatLoss.WattsPerSquareMeterKelvin, receiver.HeatLoss.WattsPerSquareMeterKelvin));
    }

    /// <summary>A user's own shape, 0.5 m high and 0.1 m² wide, that from some level on answers one question with something else.</summary>
    private sealed class Odd(string what, double answer, double fromM) : VesselShape
    {
        protected internal override double HeightM => what == "height" ? answer : 0.5;

        protected internal override double CapacityM3 => what == "capacity" ? answer : 0.05;

        protected internal override double VolumeM3(double levelM) => what == "volume" && levelM >= fromM ? answer : 0.1 * levelM;

        protected internal override double LevelM(double volumeM3) => what == "level of the volume" && volumeM3 >= 0.1 * fromM ? answer : 10 * volumeM3;

        protected internal override double SurfaceAreaM2(double levelM) => what == "free surface" && levelM >= fromM ? answer : 0.1;

        protected internal override double WettedAreaM2(double levelM) => what == "wetted area" && levelM >= fromM ? answer : 0.1 + levelM;
    }

    /// <summary>The vessel is asked at every eighth of its height, both ends included: 0.5 · 3/8 = 0.1875 m is the first from 0.15 m on.</summary>
    [Theory]
    [InlineData("height", 0, "")]
    [InlineData("capacity", 0, "")]
    [InlineData("volume", 0, " at 0 m")]
    [InlineData("volume", 0.15, " at 0.1875 m")]
    [InlineData("volume", 0.5, " at 0.5 m")]
    [InlineData("level of the volume", 0.15, " at 0.1875 m")]
    [InlineData("free surface", 0.15, " at 0.1875 m")]
    [InlineData("wetted area", 0.15, " at 0.1875 m")]
    [InlineData("wetted area", 0.5, " at 0.5 m")]
    public void A_shape_of_the_users_own_must_answer_with_numbers(string what, double fromM, string where)
    {
        foreach (double answer in new[] { double.NaN, -1, double.PositiveInfinity })
        {
            foreach (Action check in new Action[] { (GoodTank with { Shape = new Odd(what, answer, fromM) }).Validate, (GoodReceiver with { Shape = new Odd(what, answer, fromM) }).Validate })
            {
                ArgumentException refused = Assert.Throws<ArgumentException>(check);
                Assert.Equal("Shape", refused.ParamName);
                Assert.Contains($"for its {what}{where};", refused.Message, StringComparison.Ordinal);
            }
        }

        (GoodTank with { Shape = new Odd("nothing", 0, 0) }).Validate();
        (GoodReceiver with { Shape = new Odd("nothing", 0, 0) }).Validate();
    }

    [Fact]
    public void A_missing_shape_is_refused()
    {
        Assert.Equal(nameof(Tank.Shape), Assert.Throws<ArgumentNullException>((GoodTank with { Shape = null! }).Validate).ParamName);
        Assert.Equal(nameof(Receiver.Shape), Assert.Throws<ArgumentNullException>((GoodReceiver with { Shape = null! }).Validate).ParamName);
    }
}
