using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>What is refused, by the name of what is to blame; what is just within is not.</summary>
public class WarmingSetupCheckTests
{
    private static readonly WarmingSetup s_setup = ThermostatRunTests.Pail();

    private static Length Mm(double mm) => Length.FromMillimeters(mm);

    private static void Accepted(WarmingSetup setup, WarmingOptions? options = null) => WarmingSetupCheck.Require(setup, options ?? Small);

    private static void Refused(string name, WarmingSetup setup, WarmingOptions? options = null)
    {
        var refused = Assert.ThrowsAny<ArgumentException>(() => WarmingSetupCheck.Require(setup, options ?? Small));
        Assert.EndsWith(name, refused.ParamName, StringComparison.Ordinal);
    }

    private static WarmingSetup With(Func<Thermostat, Thermostat> change) => s_setup with { Heating = s_setup.Heating with { Thermostat = change(s_setup.Heating.Thermostat) } };

    private static WarmingSetup In(Func<WarmedVessel, WarmedVessel> change) => s_setup with { Vessel = change(s_setup.Vessel) };

    [Fact]
    public void What_is_missing_is_named()
    {
        Accepted(s_setup);
        Refused("setup", null!);
        Refused("Honey", s_setup with { Honey = null! });
        Refused("Response", s_setup with { Response = null! });
        Refused("Vessel", s_setup with { Vessel = null! });
        Refused("Shape", In(v => v with { Shape = null! }));
        Refused("Wall", In(v => v with { Wall = null! }));
        Refused("Wall", In(v => v with { Wall = [null!] }));
        Refused("Heating", s_setup with { Heating = null! });
        Refused("Thermostat", s_setup with { Heating = s_setup.Heating with { Thermostat = null! } });
        Refused("Schedule", With(t => t with { Schedule = null! }));
        Refused("Schedule", With(t => t with { Schedule = [null!] }));
        Refused("Targets", s_setup with { Targets = null! });
        Refused("Targets", s_setup with { Targets = [null!] });
        Refused("MapTimes", s_setup, Small with { MapTimes = null! });
    }

    [Fact]
    public void Parts_are_checked_by_their_own_rules()
    {
        Refused("FloralMultiplier", s_setup with { Response = new HeatResponse { FloralMultiplier = 13 } });
        Refused("Hmf", s_setup with { Before = new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(-1) } });
        Accepted(s_setup with { Before = new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(1) } });
        WallLayer layer = s_setup.Vessel.Wall[0];
        Refused("Thickness", In(v => v with { Wall = [layer, layer with { Thickness = Mm(501) }] }));
        Refused("Lid", In(v => v with { Lid = (VesselLid)3 }));
        Refused("Base", In(v => v with { Base = (VesselBase)2 }));
        Refused("Sensor", With(t => t with { Sensor = (SensorPlace)3 }));
        Refused("Inside", s_setup, Small with { Inside = (InsideHeat)3 });
    }

    [Fact]
    public void Numbers_of_parts_have_limits()
    {
        WallLayer layer = s_setup.Vessel.Wall[0] with { Thickness = Mm(1) };
        Accepted(In(v => v with { Wall = [.. Enumerable.Repeat(layer, 20)] }));
        Refused("Wall", In(v => v with { Wall = [.. Enumerable.Repeat(layer, 21)] }));
        Accepted(s_setup with { Targets = [.. Enumerable.Repeat(WarmingTarget.NoCrystals, 20)] });
        Refused("Targets", s_setup with { Targets = [.. Enumerable.Repeat(WarmingTarget.NoCrystals, 21)] });
        Accepted(s_setup, Small with { MapTimes = [.. Enumerable.Range(0, 100).Select(i => Duration.FromSeconds(i))] });
        Refused("MapTimes", s_setup, Small with { MapTimes = [.. Enumerable.Range(0, 101).Select(i => Duration.FromSeconds(i))] });
        Accepted(With(t => t with { Schedule = [.. Enumerable.Range(0, 1000).Select(i => HeatNets.Step(i, 40))] }));
        Refused("Schedule", With(t => t with { Schedule = [.. Enumerable.Range(0, 1001).Select(i => HeatNets.Step(i, 40))] }));
        Refused("Schedule", With(t => t with { Schedule = [] }));
        Accepted(s_setup with { Vessels = 1000 });
        Refused("Vessels", s_setup with { Vessels = 1001 });
        Refused("Vessels", s_setup with { Vessels = 0 });
    }

    [Theory]
    [InlineData("air", 1000)]
    [InlineData("bath", 1000)]
    [InlineData("jacket", 1)]
    [InlineData("band", 1)]
    [InlineData("element", 1)]
    public void Only_air_and_baths_take_more_than_one_vessel(string kit, int most)
    {
        WarmingSetup setup = s_setup with { Heating = Kit(kit) };
        Accepted(setup with { Vessels = most });
        Refused("Vessels", setup with { Vessels = most + 1 });
    }

    [Fact]
    public void The_maps_come_one_after_the_other_from_the_start_on()
    {
        void Times(bool accepted, params double[] seconds)
        {
            WarmingOptions options = Small with { MapTimes = [.. seconds.Select(s => Duration.FromSeconds(s))] };
            if (accepted)
                Accepted(s_setup, options);
            else
                Refused("MapTimes", s_setup, options);
        }

        Times(true);
        Times(true, 0);
        Times(true, 0, 1e-3, 5);
        Times(false, -1e-9);
        Times(false, -0.5, 5);
        Times(false, 0, 0);
        Times(false, 3, 5, 5);
        Times(false, 3, 5, 4);
    }

    [Fact]
    public void A_schedule_begins_at_0_and_goes_on_by_a_second_at_least()
    {
        void Steps(bool accepted, params double[] seconds)
        {
            WarmingSetup setup = With(t => t with { Schedule = [.. seconds.Select(at => HeatNets.Step(at, 40))] });
            if (accepted)
                Accepted(setup);
            else
                Refused("At", setup);
        }

        Steps(true, 0, 1, 2.5);
        Steps(false, 1e-9);
        Steps(false, -1);
        Steps(false, 1);
        Steps(false, 0, 0.999);
        Steps(false, 0, 5, 5.999);
        Steps(false, 0, 5, 4);
        string second = Assert.ThrowsAny<ArgumentException>(() => Accepted(With(t => t with { Schedule = [HeatNets.Step(0, 40), HeatNets.Step(7, 40), HeatNets.Step(7.5, 40)] }))).Message;
        Assert.Contains("7.5 s follows 7 s", second, StringComparison.Ordinal);
        string first = Assert.ThrowsAny<ArgumentException>(() => Accepted(With(t => t with { Schedule = [HeatNets.Step(3, 40)] }))).Message;
        Assert.Contains("3 s follows the start", first, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hysteresis_of_0_goes_with_a_sensor_in_the_body_that_does_not_lag()
    {
        WarmingSetup Of(double hysteresis, SensorPlace sensor, double lag, double? watts = 200)
        {
            WarmingSetup setup = With(t => t with { Hysteresis = TemperatureDelta.FromKelvins(hysteresis), Sensor = sensor, Lag = Duration.FromSeconds(lag) });
            return setup with { Heating = setup.Heating with { HeaterPower = watts is { } w ? Power.FromWatts(w) : null } };
        }

        Accepted(Of(0, SensorPlace.Body, 0));
        Refused("Hysteresis", Of(0, SensorPlace.Body, 1));
        Refused("Hysteresis", Of(0, SensorPlace.Wall, 0));
        Refused("Hysteresis", Of(0, SensorPlace.Honey, 0));
        Refused("Hysteresis", Of(0.09, SensorPlace.Body, 0));
        Accepted(Of(0.1, SensorPlace.Honey, 3600));
        Refused("Hysteresis", Of(50.1, SensorPlace.Body, 0));
        Refused("Lag", Of(2, SensorPlace.Body, 0.5));
        Refused("Lag", Of(2, SensorPlace.Body, -1));
        Refused("Lag", Of(2, SensorPlace.Body, 3601));

        // Without a limit of power the hysteresis plays no part, and a sensor elsewhere has nothing to do.
        Accepted(Of(0, SensorPlace.Body, 30, null));
        Accepted(Of(77, SensorPlace.Body, 0, null));
        Refused("HeaterPower", Of(2, SensorPlace.Wall, 0, null));
        Refused("HeaterPower", Of(2, SensorPlace.Honey, 0, null));
    }

    [Fact]
    public void A_power_beyond_all_numbers_is_refused_as_any_other()
    {
        Refused("HeaterPower", s_setup with { Heating = s_setup.Heating with { HeaterPower = Power.FromPetawatts(decimal.MaxValue) } });
        Refused("HeaterPower", s_setup with { Heating = s_setup.Heating with { HeaterPower = Power.FromPetawatts(decimal.MinValue) } });
        Assert.Equal(double.PositiveInfinity, Value(decimal.MaxValue));
        Assert.Equal(double.NegativeInfinity, Value(decimal.MinValue));
        object? Value(decimal petawatts) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => Accepted(s_setup with { Heating = s_setup.Heating with { HeaterPower = Power.FromPetawatts(petawatts) } })).ActualValue;
    }

    /// <summary>The pail is 298 mm full and 285 mm wide.</summary>
    [Fact]
    public void A_kit_is_refused_where_it_touches_no_honey()
    {
        WarmingSetup With(HeatingKit kit) => s_setup with { Heating = kit };
        var jacket = (HeatedJacket)Kit("jacket");
        Accepted(With(jacket with { From = Mm(0), To = Mm(0) }));
        Accepted(With(jacket with { From = Mm(400), To = Mm(400) }));
        Refused("To", With(jacket with { From = Mm(100), To = Mm(99) }));
        Refused("From", With(jacket with { From = Mm(20_001), To = Mm(20_010) }));
        jacket = jacket with { HeatsFloor = false };
        Accepted(With(jacket with { From = Mm(100), To = Mm(100.1) }));
        Refused("To", With(jacket with { From = Mm(100), To = Mm(100) }));
        Accepted(With(jacket with { From = Mm(297.9), To = Mm(400) }));
        Refused("To", With(jacket with { From = Mm(298), To = Mm(400) }));

        var band = (BandHeater)Kit("band");
        Accepted(With(band with { From = Mm(293), To = Mm(298) }));
        Refused("From", With(band with { From = Mm(293.1), To = Mm(299) }));
        Refused("From", With(band with { From = Mm(-0.1) }));
        Refused("From", With(band with { From = Mm(20_001), To = Mm(20_010) }));
        Refused("To", With(band with { From = Mm(100), To = Mm(104.9) }));
        Refused("ContactCoefficient", With(band with { ContactCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(4.9) }));

        var element = (ImmersionHeater)Kit("element");
        Accepted(With(element with { From = Mm(293), To = Mm(298) }));
        Refused("From", With(element with { From = Mm(293.1), To = Mm(400) }));
        Refused("To", With(element with { From = Mm(100), To = Mm(104.9) }));
        Accepted(With(element with { Radius = Mm(128.2) }));
        Refused("Radius", With(element with { Radius = Mm(128.3) }));
        Refused("Radius", With(element with { Radius = Mm(1.9) }));

        // In a tank 2 m wide 500 mm are the most.
        WarmedVessel wide = s_setup.Vessel with { Shape = new UprightCylinder(Mm(2000), Mm(360)) };
        Accepted(With(element with { Radius = Mm(500) }) with { Vessel = wide });
        Refused("Radius", With(element with { Radius = Mm(501) }) with { Vessel = wide });
        Refused("WaterLevel", With((HeatedBath)Kit("bath") with { WaterLevel = Mm(9.9) }));
        Refused("AirSpeed", With((WarmAir)Kit("air") with { AirSpeed = Speed.FromMetersPerSecond(20.1) }));
    }

    /// <summary>10 mm of honey in the point of a cone, 20 mm wide at its rim H above: r = 10 mm · (10 mm/H)/√3, 1 mm at H = 57.7 mm.</summary>
    [Fact]
    public void The_honey_fills_a_cylinder_of_a_millimetre_at_least()
    {
        WarmingSetup Cone(double height) => In(v => v with { Shape = new ConeBottomedTank(Mm(20), Mm(20), Mm(height)), Level = Mm(10) });
        Accepted(Cone(57.6));
        Refused("Shape", Cone(57.9));
    }

    private static HeatingKit Kit(string word)
    {
        Thermostat warm = s_setup.Heating.Thermostat;
        return word switch
        {
            "bath" => new HeatedBath { Thermostat = warm, WaterLevel = Mm(200) },
            "jacket" => new HeatedJacket { Thermostat = warm, To = Mm(200) },
            "band" => new BandHeater { Thermostat = warm, From = Mm(20), To = Mm(120) },
            "element" => new ImmersionHeater { Thermostat = warm, From = Mm(20), To = Mm(120), Radius = Mm(10) },
            _ => new WarmAir { Thermostat = warm },
        };
    }
}
