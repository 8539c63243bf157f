using System.Diagnostics;
using FlowSim.HeatDamage;
using FlowSim.Heating;
using FlowSim.Vessels;
using FlowSim.Warming;
using UnitsNet;
using UnitsNet.Units;
using Xunit.Abstractions;
using static FlowSim.Tests.HostileValues;
using static FlowSim.Tests.Warming.RandomWarmings;

namespace FlowSim.Tests.Warming;

/// <summary>Setups that nobody should ask for: refused by name, or answered in finite figures and finite time.</summary>
public class HostileWarmingTests(ITestOutputHelper output)
{
    private static readonly WarmingOptions Quick = new() { RadialCells = 3, AxialCells = 4, SeriesPoints = 3, MapTimes = [Duration.FromMinutes(30)] };

    private static Length Mm(double mm) => Length.FromMillimeters(mm);

    /// <summary>An invented pail, well within every range, with something in every place that a kit has.</summary>
    private static WarmingSetup Base(string kit)
    {
        var thermostat = new Thermostat
        {
            Schedule = [new SetpointStep(Duration.Zero, Celsius(35)), new SetpointStep(Duration.FromMinutes(50), Celsius(42), Ramp: true)],
            Lag = Duration.FromSeconds(20),
            CutOut = Celsius(70),
        };
        Power power = Power.FromWatts(150);
        return new WarmingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
            Crystals = Crystals.Fine(Ratio.FromPercent(12)),
            StartTemperature = Celsius(18),
            Vessel = new WarmedVessel
            {
                Shape = new UprightCylinder(Mm(285), Mm(360)),
                Level = Mm(298),
                Wall = [WallMaterial.ByName("polyethylene").Layer(Mm(2))],
            },
            Heating = kit switch
            {
                "bath" => new HeatedBath { Thermostat = thermostat, HeaterPower = power, WaterLevel = Mm(250), BodyStart = Celsius(20) },
                "jacket" => new HeatedJacket { Thermostat = thermostat, HeaterPower = power, To = Mm(250), BodyStart = Celsius(20) },
                "band" => new BandHeater { Thermostat = thermostat, HeaterPower = power, From = Mm(20), To = Mm(120), BodyStart = Celsius(20), BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(5) },
                "element" => new ImmersionHeater { Thermostat = thermostat, HeaterPower = power, From = Mm(20), To = Mm(200), Radius = Mm(20), BodyStart = Celsius(20), BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(5) },
                _ => new WarmAir { Thermostat = thermostat, HeaterPower = power, AirSpeed = Speed.FromMetersPerSecond(1), BodyStart = Celsius(20), LossArea = Area.FromSquareMeters(2) },
            },
            Targets = [WarmingTarget.Mean(Celsius(40)), WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(5))],
            HoldAfter = Duration.FromMinutes(10),
            Longest = Duration.FromHours(3),
            Before = new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(5), DiastaseNumber = 20 },
        };
    }

    private static readonly (string Text, object Value)[] Parts = HostileParts();

    private static (string Text, object Value)[] HostileParts()
    {
        Length largest = Length.FromMeters(20);
        Duration second = Duration.FromSeconds(1), never = new(double.MaxValue, DurationUnit.Year365);
        Temperature warm = Celsius(40), beyond = new(double.MaxValue, TemperatureUnit.Kelvin);
        WallLayer foam = WallMaterial.ByName("foam").Layer(Mm(500));
        return
        [
            ("smallest cylinder", new UprightCylinder(Mm(10), Mm(10))),
            ("largest cylinder", new UprightCylinder(largest, largest)),
            ("smallest lying cylinder", new HorizontalCylinder(Mm(10), Mm(10))),
            ("flattest cone", new ConeBottomedTank(largest, Length.Zero, Mm(1))),
            ("box", new RectangularTank(largest, Mm(10), Mm(400))),
            ("no wall there", new WallLayer[] { null! }),
            ("too many layers", Enumerable.Repeat(foam, 21).ToArray()),
            ("thickest wall", Enumerable.Repeat(foam, 20).ToArray()),
            ("no wall to speak of", new[] { new WallLayer { Thickness = Length.Zero, Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(500) } }),
            ("wall beyond measure", new[] { new WallLayer { Thickness = new Length(double.MaxValue, LengthUnit.Kilometer), Conductivity = ThermalConductivity.Zero } }),
            ("no steps", Array.Empty<SetpointStep>()),
            ("no step there", new SetpointStep[] { null! }),
            ("late first step", new SetpointStep[] { new(second, warm) }),
            ("step beyond time", new SetpointStep[] { new(Duration.Zero, warm), new(never, warm, true) }),
            ("step too hot", new SetpointStep[] { new(Duration.Zero, beyond) }),
            ("backwards", new SetpointStep[] { new(Duration.Zero, warm), new(second * 9, warm), new(second * 8, warm) }),
            ("all at once", new SetpointStep[] { new(Duration.Zero, warm), new(Duration.FromSeconds(double.Epsilon), Celsius(120), true) }),
            ("steepest ramps", new SetpointStep[] { new(Duration.Zero, Celsius(-30)), new(second, Celsius(120), true), new(second * 2, Celsius(-30), true), new(second * 3, Celsius(60)) }),
            ("too many steps", Enumerable.Range(0, 1001).Select(i => new SetpointStep(second * i, warm)).ToArray()),
            ("every second another", Enumerable.Range(0, 1000).Select(i => new SetpointStep(second * i, Celsius(i % 100), i % 2 == 0)).ToArray()),
            ("no targets", Array.Empty<WarmingTarget>()),
            ("no target there", new WarmingTarget[] { null! }),
            ("too many targets", Enumerable.Repeat(WarmingTarget.NoCrystals, 21).ToArray()),
            ("target beyond", new[] { WarmingTarget.Coldest(beyond) }),
            ("target too thin", new[] { WarmingTarget.Thin(DynamicViscosity.Zero) }),
            ("all targets", new[] { WarmingTarget.Mean(warm), WarmingTarget.Coldest(warm), WarmingTarget.CooledTo(warm), WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(0.05)), WarmingTarget.Thick(DynamicViscosity.FromPascalSeconds(10_000)), WarmingTarget.NoCrystals }),
            ("maps backwards", new[] { second, Duration.Zero }),
            ("maps without end", new[] { never }),
            ("maps before", new[] { Duration.FromSeconds(-1) }),
            ("maps at every moment", Enumerable.Range(0, 100).Select(i => Duration.FromMicroseconds(i)).ToArray()),
            ("a thermostat of nothing", new Thermostat { Schedule = null! }),
        ];
    }

    public static TheoryData<string> Kits => ["air", "bath", "jacket", "band", "element"];

    [Theory]
    [MemberData(nameof(Kits))]
    public void One_hostile_value_is_answered_or_refused(string kit)
    {
        WarmingSetup setup = Base(kit);
        Mutation[] mutations = [.. MutationsOf(setup, Parts)];
        Assert.True(mutations.Length > 400, $"only {mutations.Length} hostile values were found");
        string[] troubles = [.. mutations.Select(m => Trouble<WarmingSetup>(m.Name, m.Apply(setup), Simulate)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles));
    }

    [Theory]
    [MemberData(nameof(Kits))]
    public void Two_hostile_values_are_answered_or_refused(string kit)
    {
        WarmingSetup setup = Base(kit);
        Mutation[] passing = [.. MutationsOf(setup, Parts).Where(m => IsAccepted(m.Apply(setup)))];
        Assert.True(passing.Length > 50, $"only {passing.Length} hostile values pass the checks");
        var random = new Random(20);
        List<string> troubles = [];
        for (int i = 0; i < 150; i++)
        {
            Mutation first = passing[random.Next(passing.Length)], second = passing[random.Next(passing.Length)];
            if (first.Path != second.Path && Trouble<WarmingSetup>(first.Name + ", " + second.Name, second.Apply(first.Apply(setup)), Simulate) is { } trouble)
                troubles.Add(trouble);
        }

        Assert.True(troubles.Count == 0, string.Join(Environment.NewLine, troubles.Take(20)));
    }

    [Fact]
    public void Hostile_options_are_answered_or_refused()
    {
        // Grids and series at their limits belong to the tests of extremes.
        Mutation[] mutations = [.. MutationsOf(Quick, Parts).Where(m => !m.Name.Contains("1000", StringComparison.Ordinal))];
        Assert.True(mutations.Length > 30);
        string[] troubles = [.. mutations.Select(m => Trouble<WarmingOptions>(m.Name, m.Apply(Quick), (o, patience) => NotFinite(WarmingRun.Simulate(Base("air"), o, patience), "result", typeof(WarmingSetup)))).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles));
    }

    [Fact]
    public void No_setup_is_refused() => Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => WarmingRun.Simulate(null!)).ParamName);

    /// <summary>Every interval that the records of this namespace document: accepted at both ends, refused by name a little beyond.</summary>
    public static TheoryData<string, double, double> Limits => new()
    {
        { "StartTemperature", -20, 80 },
        { "RoomTemperature", -30, 60 },
        { "HoldAfter", 0, 60 },
        { "Longest", 1, 60 * 24 * 60 },
        { "Vessels", 1, 1000 },
        { "Share", 0, 40 },
        { "MeltFrom", 10, 90 },
        { "MeltTo", 25.5, 95 },
        { "Level", 10, 360 },
        { "Emissivity", 0, 1 },
        { "Thickness", 0, 500 },
        { "Conductivity", 0.005, 500 },
        { "HeaterPower", 1, 1e6 },
        { "BodyHeatCapacity", 0.1, 1e5 },
        { "BodyStart", -30, 120 },
        { "LossArea", 0, 1000 },
        { "LossCoefficient", 0, 100 },
        { "Setpoint", -30, 120 },
        { "Hysteresis", 0.1, 50 },
        { "SensorRadius", 0, 1 },
        { "SensorHeight", 0, 1 },
        { "Lag", 1, 3600 },
        { "CutOut", -20, 150 },
        { "AirSpeed", 0, 20 },
        { "WaterLevel", 10, 10_000 },
        { "Jacket.From", 0, 250 },
        { "Jacket.To", 0, 20_000 },
        { "Jacket.WaterCoefficient", 20, 10_000 },
        { "Bath.WaterCoefficient", 20, 10_000 },
        { "Band.From", 0, 115 },
        { "Band.To", 25, 20_000 },
        { "ContactCoefficient", 5, 1000 },
        { "Element.From", 0, 195 },
        { "Element.To", 25, 20_000 },
        { "Radius", 2, 0.9 * 142.5 },
        { "Mean.Temperature", -20, 100 },
        { "Coldest.Temperature", -20, 100 },
        { "CooledTo.Temperature", -20, 100 },
        { "Thin.Viscosity", 0.05, 10_000 },
        { "Thick.Viscosity", 0.05, 10_000 },
        { "RadialCells", 2, 400 },
        { "AxialCells", 2, 400 },
        { "Tolerance", 1e-7, 1 },
        { "SeriesPoints", 0, 100_000 },
        { "Hmf", 0, 1000 },
        { "DiastaseNumber", 0, 100 },
    };

    [Theory]
    [MemberData(nameof(Limits))]
    public void A_documented_limit_is_the_one_that_is_kept(string name, double low, double high)
    {
        bool whole = name is "Vessels" or "RadialCells" or "AxialCells" or "SeriesPoints";
        string argument = name[(name.IndexOf('.', StringComparison.Ordinal) + 1)..];
        Assert.Null(Refusal(name, low));
        Assert.Null(Refusal(name, high));

        // From and To of a band or element lean on each other: which of the two is blamed may differ.
        string[] blamed = argument is "From" or "To" ? ["From", "To"] : [argument];
        Assert.Contains(Refusal(name, whole ? low - 1 : low - (1e-6 * Math.Max(Math.Abs(low), 1e-3)))?.ParamName, blamed);
        Assert.Contains(Refusal(name, whole ? high + 1 : high * (1 + 1e-6))?.ParamName, blamed);
        ArgumentException far = Refusal(name, whole ? int.MaxValue : 1e300)!;
        Assert.DoesNotContain("NaN", far.Message, StringComparison.Ordinal);
        if (name is "Emissivity" or "DiastaseNumber")
            Assert.Equal(argument, Refusal(name, double.NaN)?.ParamName);
    }

    private static ArgumentException? Refusal(string name, double x)
    {
        WarmingSetup air = Base("air");
        Temperature c = x < 1e200 ? Celsius(x) : default;
        WarmingSetup Kit(HeatingKit kit) => air with { Heating = kit };
        WarmingSetup Stat(Func<Thermostat, Thermostat> change) => Kit(air.Heating with { Thermostat = change(air.Heating.Thermostat) });
        WarmingSetup Vessel(Func<WarmedVessel, WarmedVessel> change) => air with { Vessel = change(air.Vessel) };
        try
        {
            var options = new WarmingOptions();
            WarmingSetup setup = name switch
            {
                "StartTemperature" => air with { StartTemperature = c },
                "RoomTemperature" => air with { RoomTemperature = c },
                "HoldAfter" => air with { HoldAfter = Duration.FromDays(x) },
                "Longest" => air with { Longest = Duration.FromMinutes(x) },
                "Vessels" => air with { Vessels = (int)x },
                "Share" => air with { Crystals = Crystals.Fine(Ratio.FromPercent(x)) },
                "MeltFrom" => air with { Crystals = new Crystals { MeltFrom = c, MeltTo = Celsius(95) } },
                "MeltTo" => air with { Crystals = new Crystals { MeltFrom = Celsius(25), MeltTo = c } },
                "Level" => Vessel(v => v with { Level = Mm(x) }),
                "Emissivity" => Vessel(v => v with { Emissivity = x }),
                "Thickness" => Vessel(v => v with { Wall = [v.Wall[0] with { Thickness = Mm(x) }] }),
                "Conductivity" => Vessel(v => v with { Wall = [v.Wall[0] with { Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(x) }] }),
                "HeaterPower" => Kit(air.Heating with { HeaterPower = Power.FromWatts((decimal)Math.Min(x, 1e20)) }),
                "BodyHeatCapacity" => Kit(air.Heating with { BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(x) }),
                "BodyStart" => Kit(air.Heating with { BodyStart = c }),
                "LossArea" => Kit(air.Heating with { LossArea = Area.FromSquareMeters(x) }),
                "LossCoefficient" => Kit(air.Heating with { LossCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(x) }),
                "Setpoint" => Stat(t => t with { Schedule = [t.Schedule[0], t.Schedule[1] with { Setpoint = c }] }),
                "Hysteresis" => Stat(t => t with { Hysteresis = TemperatureDelta.FromKelvins(x) }),
                "SensorRadius" => Stat(t => t with { SensorRadius = Ratio.FromDecimalFractions(x) }),
                "SensorHeight" => Stat(t => t with { SensorHeight = Ratio.FromDecimalFractions(x) }),
                "Lag" => Stat(t => t with { Lag = Duration.FromSeconds(x) }),
                "CutOut" => Stat(t => t with { CutOut = c }),
                "AirSpeed" => Kit((WarmAir)air.Heating with { AirSpeed = Speed.FromMetersPerSecond(x) }),
                "WaterLevel" => Kit((HeatedBath)Base("bath").Heating with { WaterLevel = Mm(x) }),
                "Bath.WaterCoefficient" => Kit((HeatedBath)Base("bath").Heating with { WaterCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(x) }),
                "Jacket.From" => Kit((HeatedJacket)Base("jacket").Heating with { From = Mm(x) }),
                "Jacket.To" => Kit((HeatedJacket)Base("jacket").Heating with { To = Mm(x) }),
                "Jacket.WaterCoefficient" => Kit((HeatedJacket)Base("jacket").Heating with { WaterCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(x) }),
                "Band.From" => Kit((BandHeater)Base("band").Heating with { From = Mm(x) }),
                "Band.To" => Kit((BandHeater)Base("band").Heating with { To = Mm(x) }),
                "ContactCoefficient" => Kit((BandHeater)Base("band").Heating with { ContactCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(x) }),
                "Element.From" => Kit((ImmersionHeater)Base("element").Heating with { From = Mm(x) }),
                "Element.To" => Kit((ImmersionHeater)Base("element").Heating with { To = Mm(x) }),
                "Radius" => Kit((ImmersionHeater)Base("element").Heating with { Radius = Mm(x) }),
                "Mean.Temperature" => air with { Targets = [WarmingTarget.Mean(c)] },
                "Coldest.Temperature" => air with { Targets = [WarmingTarget.Coldest(c)] },
                "CooledTo.Temperature" => air with { Targets = [WarmingTarget.CooledTo(c)] },
                "Thin.Viscosity" => air with { Targets = [WarmingTarget.Thin(DynamicViscosity.FromPascalSeconds(x))] },
                "Thick.Viscosity" => air with { Targets = [WarmingTarget.Thick(DynamicViscosity.FromPascalSeconds(x))] },
                "Hmf" => air with { Before = new HoneyBeforeHeat { Hmf = MassFraction.FromMilligramsPerKilogram(x) } },
                "DiastaseNumber" => air with { Before = air.Before! with { DiastaseNumber = x } },
                _ => air,
            };
            options = name switch
            {
                "RadialCells" => options with { RadialCells = (int)x },
                "AxialCells" => options with { AxialCells = (int)x },
                "Tolerance" => options with { Tolerance = TemperatureDelta.FromKelvins(x) },
                "SeriesPoints" => options with { SeriesPoints = (int)x },
                _ => options,
            };
            WarmingSetupCheck.Require(setup, options);
            return null;
        }
        catch (ArgumentException refused)
        {
            return refused;
        }
    }

    [Fact]
    public void What_does_not_go_together_is_refused_by_name()
    {
        void Refused(string name, WarmingSetup setup) => Assert.EndsWith(name, Assert.ThrowsAny<ArgumentException>(() => WarmingRun.Simulate(setup, Quick)).ParamName, StringComparison.Ordinal);
        WarmingSetup air = Base("air"), jacket = Base("jacket"), band = Base("band");
        Thermostat t = air.Heating.Thermostat;

        Refused("Vessels", jacket with { Vessels = 2 });
        Refused("HeaterPower", air with { Heating = air.Heating with { HeaterPower = null, Thermostat = t with { Sensor = SensorPlace.Honey } } });
        Refused("Hysteresis", air with { Heating = air.Heating with { Thermostat = t with { Hysteresis = TemperatureDelta.Zero } } }); // It lags.
        Refused("Hysteresis", air with { Heating = air.Heating with { Thermostat = t with { Lag = Duration.Zero, Sensor = SensorPlace.Wall, Hysteresis = TemperatureDelta.Zero } } });
        Refused("To", jacket with { Heating = (HeatedJacket)jacket.Heating with { To = Length.Zero, HeatsFloor = false } });
        Refused("To", jacket with { Heating = (HeatedJacket)jacket.Heating with { From = Mm(300), To = Mm(400), HeatsFloor = false } });
        Refused("From", band with { Heating = (BandHeater)band.Heating with { From = Mm(300), To = Mm(400) } });
        Refused("Shape", air with { Vessel = air.Vessel with { Shape = null! } });
        Refused("Wall", air with { Vessel = air.Vessel with { Wall = null! } });
        Refused("Schedule", air with { Heating = air.Heating with { Thermostat = t with { Schedule = [] } } });
        Refused("At", air with { Heating = air.Heating with { Thermostat = t with { Schedule = [t.Schedule[0], t.Schedule[1] with { At = Duration.FromSeconds(0.5) }] } } });
        Refused("Sensor", air with { Heating = air.Heating with { Thermostat = t with { Sensor = (SensorPlace)9 } } });
        Refused("Response", air with { Response = null! });
        Assert.Equal("MapTimes", Assert.ThrowsAny<ArgumentException>(() => WarmingRun.Simulate(air, Quick with { MapTimes = null! })).ParamName);
        Assert.Equal("Inside", Assert.ThrowsAny<ArgumentException>(() => WarmingRun.Simulate(air, Quick with { Inside = (InsideHeat)7 })).ParamName);
    }

    public static TheoryData<string> Extremes => [.. ExtremeSetups().Keys];

    private static Dictionary<string, (WarmingSetup Setup, WarmingOptions Options)> ExtremeSetups()
    {
        WarmingSetup air = Base("air") with { Targets = [], Longest = Duration.FromDays(60) };

        // 60 days of a thermostat that switches four times an hour are 156 000 steps and take 5 to 9 s; four days show it too.
        WarmingSetup switching = air with { Longest = Duration.FromDays(4) };
        WarmingSetup element = Base("element") with { Targets = [], Longest = Duration.FromDays(60) };
        var jar = new WarmedVessel { Shape = new UprightCylinder(Mm(60), Mm(80)), Level = Mm(10) };
        var options = new WarmingOptions();
        return new Dictionary<string, (WarmingSetup, WarmingOptions)>(StringComparer.Ordinal)
        {
            ["60 days"] = (air with { Heating = air.Heating with { HeaterPower = null } }, options),
            ["4 days of a thermostat"] = (switching, options with { RadialCells = 6, AxialCells = 6 }),
            ["60 days without hysteresis"] = (air with { Heating = air.Heating with { Thermostat = Thermostat.At(Celsius(40)) with { Hysteresis = TemperatureDelta.Zero } } }, options),
            ["1 W"] = (air with { Heating = air.Heating with { HeaterPower = Power.FromWatts(1) } }, options),
            ["1 MW"] = (air with { Heating = air.Heating with { HeaterPower = Power.FromWatts(1e6) }, Longest = Duration.FromMinutes(20) }, options),
            ["1 MW without hysteresis"] = (air with { Heating = air.Heating with { HeaterPower = Power.FromWatts(1e6), BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(0.1), Thermostat = Thermostat.At(Celsius(120)) with { Hysteresis = TemperatureDelta.Zero } } }, options),
            ["1 MW in the honey"] = (element with { Heating = element.Heating with { HeaterPower = Power.FromWatts(1e6), Thermostat = Thermostat.At(Celsius(120)) with { Sensor = SensorPlace.Honey } } }, options),
            ["10 mm in a jar"] = (switching with { Vessel = jar }, options with { RadialCells = 6, AxialCells = 6 }),
            ["10 mm in a large tank"] = (air with { Vessel = jar with { Shape = new UprightCylinder(Length.FromMeters(20), Length.FromMeters(1)) } }, options with { RadialCells = 6, AxialCells = 6 }),
            ["20 m in a thin pipe"] = (switching with { Vessel = jar with { Shape = new UprightCylinder(Mm(10), Length.FromMeters(20)), Level = Length.FromMeters(20) } }, options with { RadialCells = 6, AxialCells = 6 }),
            ["400 cells in radius"] = (air with { Heating = air.Heating with { HeaterPower = null }, Longest = Duration.FromDays(7) }, options with { RadialCells = 400, AxialCells = 2 }),
            ["400 cells in height"] = (air with { Heating = air.Heating with { HeaterPower = null }, Longest = Duration.FromDays(7) }, options with { RadialCells = 2, AxialCells = 400 }),
            ["the finest tolerance"] = (air with { Heating = air.Heating with { HeaterPower = null }, Longest = Duration.FromHours(2) }, options with { RadialCells = 4, AxialCells = 4, Tolerance = TemperatureDelta.FromKelvins(1e-7) }),
            ["1000 vessels in nothing"] = (air with { Vessels = 1000, Longest = Duration.FromDays(1), Heating = air.Heating with { BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(0.1) } }, options with { RadialCells = 4, AxialCells = 4 }),
            ["from the coldest to the hottest"] = (air with { StartTemperature = Celsius(-20), RoomTemperature = Celsius(-30), Heating = new HeatedBath { Thermostat = Thermostat.At(Celsius(120)), WaterLevel = Length.FromMeters(10), WaterCoefficient = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(10_000) }, Vessel = air.Vessel with { Wall = [] } }, options),
            ["from the hottest to the coldest"] = (air with { StartTemperature = Celsius(80), RoomTemperature = Celsius(-30), Heating = new WarmAir { Thermostat = Thermostat.At(Celsius(-30)), AirSpeed = Speed.FromMetersPerSecond(20) }, Vessel = air.Vessel with { Wall = [], Lid = VesselLid.Open } }, options),
            ["bare metal in still air"] = (air with { Vessel = air.Vessel with { Emissivity = 0 }, Heating = new WarmAir { Thermostat = Thermostat.At(Celsius(40)) } }, options),
            ["a step melts it all"] = (switching with { Crystals = new Crystals { Share = Ratio.FromPercent(40), MeltFrom = Celsius(30), MeltTo = Celsius(30.5) } }, options with { RadialCells = 6, AxialCells = 6 }),
        };
    }

    [Theory]
    [MemberData(nameof(Extremes))]
    public void What_is_extreme_but_allowed_comes_to_an_end(string name)
    {
        (WarmingSetup setup, WarmingOptions options) = ExtremeSetups()[name];
        var watch = Stopwatch.StartNew();
        WarmingResult result = WarmingRun.Simulate(setup, options);
        output.WriteLine($"{name}: {watch.ElapsedMilliseconds} ms, {result.Steps} steps, {result.Switchings} switchings, {result.Status} after {result.Elapsed.Days:0.###} d, mean {result.End.Mean.DegreesCelsius:0.00} °C, balance {result.Energy.BalanceRelative:g2}");
        Assert.Null(NotFinite(result, "result", typeof(WarmingSetup)));
        Assert.Equal(0, result.Energy.BalanceRelative, 1e-8);
        Assert.InRange(result.End.Coldest.Kelvins, 233.15, 423.16);
        Assert.InRange(result.End.Hottest.Kelvins, 233.15, 423.16);
        Assert.Equal(name switch { "1 MW in the honey" => WarmingStatus.Overheated, "1 MW" => WarmingStatus.CutOut, _ => WarmingStatus.TimeLimit }, result.Status);
    }

    [Fact]
    public void A_heater_that_switches_without_end_is_given_up_with_advice()
    {
        // A jacket all around: films that do not change cost little.
        WarmingSetup jacket = Base("jacket");
        WarmingSetup setup = jacket with
        {
            Targets = [],
            Longest = Duration.FromDays(60),
            Vessel = jacket.Vessel with { Lid = VesselLid.Insulated },
            Heating = (HeatedJacket)jacket.Heating with
            {
                To = Mm(400),
                LossArea = Area.FromSquareMeters(10),
                HeaterPower = Power.FromWatts(2000),
                BodyHeatCapacity = Entropy.FromKilojoulesPerKelvin(0.1),
                Thermostat = Thermostat.At(Celsius(40)) with { Hysteresis = TemperatureDelta.FromKelvins(0.1) },
            },
        };
        var watch = Stopwatch.StartNew();
        SimulationException given = Assert.Throws<SimulationException>(() => WarmingRun.Simulate(setup, new WarmingOptions { Inside = InsideHeat.WellMixed, SeriesPoints = 0 }));
        output.WriteLine($"{watch.ElapsedMilliseconds} ms: {given.Message}");
        Assert.Contains("500000 steps", given.Message, StringComparison.Ordinal);
        Assert.Contains("hysteresis", given.Message, StringComparison.Ordinal);
    }

    private static bool IsAccepted(object? setup)
    {
        try
        {
            WarmingSetupCheck.Require((WarmingSetup)setup!, Quick);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    private static string? Simulate(WarmingSetup setup, CancellationToken patience)
    {
        try
        {
            return NotFinite(WarmingRun.Simulate(setup, Quick, patience), "result", typeof(WarmingSetup));
        }
        catch (SimulationException given) when (given.Message.Contains("switches too often", StringComparison.Ordinal))
        {
            return null; // A watt in a tenth of a kilojoule, for weeks: given up with advice.
        }
    }
}
