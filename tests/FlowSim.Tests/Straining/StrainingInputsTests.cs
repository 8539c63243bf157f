using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>The inputs that can be varied: names, units, values and the values that they may take.</summary>
public class StrainingInputsTests
{
    /// <summary>An invented setup in which every input does something.</summary>
    private static StrainingSetup Setup() => new()
    {
        Honey = new Honey { Moisture = Percent(17), LotFactor = 1.2 },
        HoneyTemperature = Celsius(35),
        RoomTemperature = Celsius(20),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(300), Length.FromMillimeters(400)), Level = Length.FromMillimeters(350), GateHeight = Length.FromMillimeters(30), HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(7) },
        Gate = new Gate { Bore = Length.FromMillimeters(40), TubeLength = Length.FromMillimeters(50), Factor = 1.3, Outlet = GateOutlet.Submerged, OutletAboveScreen = Length.FromMillimeters(15) },
        Control = GateControl.RideAt(Length.FromMillimeters(60), Percent(70)),
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(250), Length.FromMillimeters(100)),
            Cloths = [new Cloth { Opening = Length.FromMillimeters(0.5), WireDiameter = Length.FromMillimeters(0.2) }, Cloth.FromAstmSieve(60)],
            ScreenFactor = 0.9,
            MinimumHead = Length.FromMillimeters(3),
        },
        Debris = new Debris { Load = Percent(0.1), MedianSize = Length.FromMillimeters(0.8), SizeSpread = 0.6, CaptureEfficiency = 0.4, Density = Density.FromKilogramsPerCubicMeter(960) },
        Scraping = new Scraping { AtPondDepth = Length.FromMillimeters(80), Recovery = 0.65, Pause = Duration.FromSeconds(90) },
        Receiver = new Receiver
        {
            Shape = new RectangularTank(Length.FromMillimeters(400), Length.FromMillimeters(500), Length.FromMillimeters(300)),
            AlreadyIn = Volume.FromLiters(6),
            StartTemperature = Celsius(18),
            Spacer = Length.FromMillimeters(25),
            HeatLoss = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(5),
        },
    };

    /// <summary>Name, words, unit, value in the setup above, lowest and highest: the limits of the parts' own checks, of what is ridden or hung in the tank and receiver, or half to twice of what stands there.</summary>
    /// <remarks>The heel of the tank is 2 mm above the gate (engineering choice), and at least 2 mm must stand above it: 34 mm; 350 − 2 − 2 = 346 mm is the highest gate.</remarks>
    public static TheoryData<string, string, string, double, double, double> All => new()
    {
        { "honey.moisture", "moisture", "", 0.17, double.NaN, double.NaN },
        { "honey.temperature", "honey temperature", "K", 308.15, double.NaN, double.NaN },
        { "honey.lot_factor", "lot factor of viscosity", "", 1.2, 0.05, 20 },
        { "room.temperature", "room temperature", "K", 293.15, 263.15, 333.15 },
        { "tank.level", "level in the tank", "m", 0.35, 0.034, 0.4 },
        { "tank.gate_height", "height of the gate", "m", 0.03, 0, 0.346 },
        { "tank.heat_loss", "heat loss of the tank", "W/(m²·K)", 7, 0, 100 },
        { "gate.bore", "bore of the gate", "m", 0.04, 0.003, 0.2 },
        { "gate.tube_length", "length of the gate's tube", "m", 0.05, 0, 2 },
        { "gate.factor", "resistance of the gate", "", 1.3, 0.1, 10 },
        { "gate.opening", "opening of the gate", "", 0.7, 0, 1 },
        { "gate.ride_pond", "depth of pond that is held", "m", 0.06, 0.004, 0.099 },
        { "gate.outlet_above_screen", "height of the outlet", "m", 0.015, 0, 5 },
        { "screen.opening", "opening of the cloth", "m", 0.0005, 0.00025, 0.001 },
        { "screen.wire", "wire of the cloth", "m", 0.0002, 0.0001, 0.0003 },
        { "screen.rim_height", "height of the rim", "m", 0.1, 0.061, 0.2 },
        { "screen.factor", "resistance of the cloth", "", 0.9, 0.05, 20 },
        { "screen.minimum_head", "head that the wet cloth holds back", "m", 0.003, 0, 0.05 },
        { "debris.load", "debris", "", 0.001, 0, 0.02 },
        { "debris.median_size", "size of the debris", "m", 0.0008, 1e-6, 0.02 },
        { "debris.size_spread", "spread of the debris' sizes", "", 0.6, 0.05, 2 },
        { "debris.capture", "share of the bits that is caught", "", 0.4, 0, 1 },
        { "debris.density", "density of the bits", "kg/m³", 960, 500, 3000 },
        { "scraping.recovery", "what a scrape clears", "", 0.65, 0, 1 },
        { "scraping.at_pond_depth", "depth at which the cloth is scraped", "m", 0.08, 0.001, 10 },
        { "scraping.pause", "pause between scrapes", "s", 90, 1, 2592000 },
        { "receiver.already_in", "honey already in the receiver", "m³", 0.006, 0, 0.06 },
        { "receiver.temperature", "temperature of the receiver", "K", 291.15, 243.15, 373.15 },
        { "receiver.spacer", "spacer", "m", 0.025, -0.3, 5 },
        { "receiver.heat_loss", "heat loss of the receiver", "W/(m²·K)", 5, 0, 100 },
    };

    [Theory]
    [MemberData(nameof(All))]
    public void An_input_is_named_and_knows_its_limits(string name, string words, string unit, double value, double low, double high)
    {
        StrainingSetup setup = Setup();
        StrainingInput input = StrainingInputs.ByName(name.ToUpperInvariant());
        Assert.Equal((name, words, unit, name), (input.Name, input.Words, input.Unit, input.ToString()));
        Assert.True(input.AppliesTo(setup));
        Assert.Equal(value, input.ValueIn(setup), 1e-13 * value);
        (double lowest, double highest) = input.RangeIn(setup);
        if (!double.IsNaN(low))
        {
            Assert.Equal(low, lowest, 1e-12 * Math.Max(1e-3, Math.Abs(low)));
            Assert.Equal(high, highest, 1e-12 * high);
        }

        // A setup with another value has that value and is otherwise the same: put back, all is as before.
        double other = double.IsNaN(low) ? value * 1.01 : 0.5 * (value + high);
        StrainingSetup changed = input.With(setup, other);
        Assert.Equal(other, input.ValueIn(changed), 1e-13 * other);
        foreach (StrainingInput each in StrainingInputs.All.Where(each => each != input))
            Assert.Equal(each.ValueIn(setup), each.ValueIn(changed));
        StrainingSetupCheck.Require(changed);
        Assert.Equal(value, input.ValueIn(input.With(changed, value)), 1e-13 * value);
    }

    [Fact]
    public void All_are_in_the_list()
    {
        Assert.Equal(All.Select(row => (string)row[0]), StrainingInputs.All.Select(input => input.Name));
        ArgumentException unknown = Assert.Throws<ArgumentException>(() => StrainingInputs.ByName("gate.bora"));
        Assert.StartsWith("No input that can be varied is named 'gate.bora'. Nearest: 'gate.bore'.", unknown.Message, StringComparison.Ordinal);
    }

    /// <summary>The ends of these ranges are the ends of what the setup's own checks take.</summary>
    [Theory]
    [InlineData("honey.moisture")]
    [InlineData("honey.temperature")]
    [InlineData("honey.lot_factor")]
    [InlineData("room.temperature")]
    [InlineData("tank.level")]
    [InlineData("tank.heat_loss")]
    [InlineData("gate.tube_length")]
    [InlineData("gate.factor")]
    [InlineData("gate.opening")]
    [InlineData("gate.ride_pond")]
    [InlineData("gate.outlet_above_screen")]
    [InlineData("screen.factor")]
    [InlineData("debris.load")]
    [InlineData("debris.median_size")]
    [InlineData("debris.size_spread")]
    [InlineData("debris.capture")]
    [InlineData("debris.density")]
    [InlineData("scraping.recovery")]
    [InlineData("scraping.at_pond_depth")]
    [InlineData("scraping.pause")]
    [InlineData("receiver.already_in")]
    [InlineData("receiver.temperature")]
    [InlineData("receiver.spacer")]
    [InlineData("receiver.heat_loss")]
    public void A_value_at_an_end_is_taken_and_one_beyond_refused(string name)
    {
        StrainingSetup setup = Setup();
        StrainingInput input = StrainingInputs.ByName(name);
        (double low, double high) = input.RangeIn(setup);
        double beyond = 1e-4 * (high - low);
        StrainingSetupCheck.Require(input.With(setup, low));
        StrainingSetupCheck.Require(input.With(setup, high));
        Assert.Throws<ArgumentOutOfRangeException>(() => StrainingSetupCheck.Require(input.With(setup, low - beyond)));
        Assert.Throws<ArgumentOutOfRangeException>(() => StrainingSetupCheck.Require(input.With(setup, high + beyond)));
    }

    [Fact]
    public void What_nobody_does_cannot_be_varied()
    {
        StrainingSetup plain = Setup() with { Control = GateControl.LeaveAt(Percent(50)), Scraping = Scraping.Never };
        plain = plain with
        {
            Gate = plain.Gate with { Outlet = GateOutlet.Free },
            Receiver = plain.Receiver with { StartTemperature = null },
            Strainer = plain.Strainer with { Shape = new Unresizable() },
        };
        string[] idle = ["gate.ride_pond", "gate.outlet_above_screen", "screen.rim_height", "scraping.recovery", "scraping.at_pond_depth", "scraping.pause", "receiver.temperature"];
        Assert.Equal(idle, StrainingInputs.All.Where(input => !input.AppliesTo(plain)).Select(input => input.Name));

        // A depth to ride changes nothing where nobody rides; scrapes at set times clear something, but look at no depth.
        Assert.Same(plain, StrainingInputs.RideDepth.With(plain, 0.05));
        StrainingSetup timed = plain with { Scraping = new Scraping { Times = [Duration.FromMinutes(3)] } };
        Assert.True(StrainingInputs.ScrapeRecovery.AppliesTo(timed));
        Assert.False(StrainingInputs.ScrapeDepth.AppliesTo(timed));
        Assert.False(StrainingInputs.ScrapePause.AppliesTo(timed));
        Assert.Equal(double.PositiveInfinity, StrainingInputs.RideDepth.ValueIn(plain));
        Assert.Equal(double.PositiveInfinity, StrainingInputs.ScrapeDepth.ValueIn(plain));
        Assert.True(double.IsNaN(StrainingInputs.ReceiverTemperature.ValueIn(plain)));
    }

    /// <summary>Of a schedule the widest opening is meant, and the others keep their ratio to it, at most wide open; all shut, all take it.</summary>
    [Fact]
    public void An_opening_varies_with_its_control()
    {
        StrainingSetup setup = Setup();
        Assert.Equal(0.25, ((FixedOpening)StrainingInputs.Opening.With(setup with { Control = GateControl.LeaveAt(Percent(50)) }, 0.25).Control).Opening.DecimalFractions, 1e-12);
        RiddenGate ridden = (RiddenGate)StrainingInputs.Opening.With(setup, 0.25).Control;
        Assert.Equal((0.25, 0.06), (ridden.Widest.DecimalFractions, ridden.PondDepth.Meters));

        GateControl Steps(params double[] percents) => GateControl.Follow([.. percents.Select((percent, i) => new OpeningStep(Duration.FromMinutes(i), Percent(percent)))]);
        double[] Openings(StrainingSetup of) => [.. ((OpeningSchedule)of.Control).Steps.Select(step => Math.Round(step.Opening.DecimalFractions, 12))];
        StrainingSetup moved = setup with { Control = Steps(20, 40, 0) };
        Assert.Equal(0.4, StrainingInputs.Opening.ValueIn(moved), 1e-12);
        Assert.Equal([0.3, 0.6, 0], Openings(StrainingInputs.Opening.With(moved, 0.6)));
        Assert.Equal([Duration.Zero, Duration.FromMinutes(1), Duration.FromMinutes(2)], ((OpeningSchedule)StrainingInputs.Opening.With(moved, 0.6).Control).Steps.Select(step => step.At));
        Assert.Equal([0.6, 0.6], Openings(StrainingInputs.Opening.With(setup with { Control = Steps(0, 0) }, 0.6)));

        // A run that varies the opening has the same openings as the setup with that value.
        StrainingNumbers numbers = StrainingNumbers.Of(moved);
        StrainingInputs.Opening.Set(ref numbers, 0.6);
        var parameters = new StrainingParameters(moved);
        Assert.Equal([0.2, 0.4, 0], parameters.Openings.Select(opening => Math.Round(opening, 12)));
        parameters.Fill(numbers);
        Assert.Equal([0.3, 0.6, 0], parameters.Openings.Select(opening => Math.Round(opening, 12)));
        numbers = StrainingNumbers.Of(setup with { Control = Steps(0, 0) });
        StrainingInputs.Opening.Set(ref numbers, 0.6);
        parameters = new StrainingParameters(setup with { Control = Steps(0, 0) });
        parameters.Fill(numbers);
        Assert.Equal([0.6, 0.6], parameters.Openings);
    }

    /// <summary>Half to twice the cloth, one and a half of the wire, but within 20 µm to 10 mm and 10 µm to 5 mm; a rim of at most 3 m.</summary>
    [Fact]
    public void Ranges_about_a_value_stay_within_the_limits_of_the_part()
    {
        StrainingSetup With(double openingUm, double wireUm)
        {
            StrainingSetup setup = Setup();
            return setup with { Strainer = setup.Strainer with { Cloths = [new Cloth { Opening = Length.FromMicrometers(openingUm), WireDiameter = Length.FromMicrometers(wireUm) }] } };
        }

        Assert.Equal(20e-6, StrainingInputs.ClothOpening.RangeIn(With(30, 16)).Low, 1e-15);
        Assert.Equal(10e-6, StrainingInputs.Wire.RangeIn(With(30, 16)).Low, 1e-15);
        Assert.Equal(0.01, StrainingInputs.ClothOpening.RangeIn(With(8000, 4000)).High, 1e-12);
        Assert.Equal(0.005, StrainingInputs.Wire.RangeIn(With(8000, 4000)).High, 1e-12);

        StrainingSetup Rim(double millimetres, GateControl control)
        {
            StrainingSetup setup = Setup();
            return setup with { Control = control, Strainer = setup.Strainer with { Shape = new FlatDisc(Length.FromMillimeters(250), Length.FromMillimeters(millimetres)) } };
        }

        GateControl open = GateControl.LeaveAt(Percent(50));
        Assert.Equal((0.05, 0.2), StrainingInputs.RimHeight.RangeIn(Rim(100, open)));
        Assert.Equal(3, StrainingInputs.RimHeight.RangeIn(Rim(2000, open)).High);
        Assert.Equal(0.004, StrainingInputs.RimHeight.RangeIn(Rim(5, open)).Low, 1e-12); // the wet cloth's 3 mm and 1 mm
        Assert.Equal(0.003, StrainingInputs.RimHeight.RangeIn(Rim(3, open)).Low, 1e-12); // the rim itself
        Assert.Equal((0.05, 0.2), StrainingInputs.RimHeight.RangeIn(Rim(100, GateControl.RideAt(Length.FromMillimeters(40), Percent(50)))));
    }

    [Fact]
    public void The_temperatures_are_those_of_the_viscosity_in_use()
    {
        var measured = new MeasuredViscosity((Celsius(30), DynamicViscosity.FromPascalSeconds(8)), (Celsius(40), DynamicViscosity.FromPascalSeconds(3)));
        StrainingSetup setup = Setup() with { Honey = new Honey { Moisture = Percent(17), Viscosity = measured } };
        (double low, double high) = StrainingInputs.HoneyTemperature.RangeIn(setup);
        Assert.Equal(measured.TemperatureRange.OuterLow, low - 273.15, 1e-9);
        Assert.Equal(measured.TemperatureRange.OuterHigh, high - 273.15, 1e-9);
        Assert.NotEqual(StrainingInputs.HoneyTemperature.RangeIn(Setup()), (low, high));
    }

    /// <summary>A gate that is higher than the level would allow stays where it is.</summary>
    [Fact]
    public void A_gate_may_stand_as_high_as_it_does()
    {
        StrainingSetup setup = Setup();
        setup = setup with { Tank = setup.Tank with { Level = Length.FromMillimeters(34) } };
        Assert.Equal(0.03, StrainingInputs.GateHeight.RangeIn(setup).High, 1e-12);
    }

    private sealed class Unresizable : ScreenShape
    {
        private static readonly FlatDisc s_disc = new(Length.FromMillimeters(250), Length.FromMillimeters(100));

        protected internal override double RimHeightM => s_disc.RimHeightM;

        protected internal override double PondVolumeM3(double depthM) => s_disc.PondVolumeM3(depthM);

        protected internal override double PondDepthM(double volumeM3) => s_disc.PondDepthM(volumeM3);

        protected internal override double SurfaceAreaM2(double depthM) => s_disc.SurfaceAreaM2(depthM);

        protected internal override double WettedClothAreaM2(double depthM) => s_disc.WettedClothAreaM2(depthM);

        protected internal override double HeadIntegralM3(double depthM) => s_disc.HeadIntegralM3(depthM);
    }
}
