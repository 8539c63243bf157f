using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>Which faces each kit touches and through what (equations 4 to 6 of the model), and what an element and crystals do to a state at hand.</summary>
public class KitContactsTests
{
    private static readonly WarmedVessel OnRack = ThermostatRunTests.Pail().Vessel;

    private static readonly WarmedVessel OnBoards = OnRack with { Base = VesselBase.Insulated };

    private static readonly Thermostat Warm = Thermostat.At(RandomWarmings.Celsius(40));

    private static HeatTransferCoefficient W(double wPerM2K) => HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(wPerM2K);

    private static Length Mm(double mm) => Length.FromMillimeters(mm);

    [Fact]
    public void Warm_air_is_all_around_but_under_what_stands_on_boards()
    {
        var air = new WarmAir { Thermostat = Warm, AirSpeed = Speed.FromMetersPerSecond(2) };
        KitContacts c = air.Contacts(OnRack);
        Assert.Equal(new Film(FilmKind.AirOnSide, AirSpeedMPerS: 2), c.BodySide);
        Assert.Equal((0, double.PositiveInfinity), (c.BodySideFromM, c.BodySideToM));
        Assert.Equal((new Film(FilmKind.AirUnderFloor, AirSpeedMPerS: 2), true), (c.Floor, c.FloorFacesBody));
        Assert.Equal((new Film(FilmKind.AirOnTop, AirSpeedMPerS: 2), true), (c.Top, c.TopFacesBody));
        Assert.Equal(FilmKind.None, air.Contacts(OnBoards).Floor.Kind);
    }

    [Fact]
    public void A_bath_is_around_the_side_to_its_level_and_under_the_floor()
    {
        var bath = new HeatedBath { Thermostat = Warm, WaterLevel = Mm(200), WaterCoefficient = W(250) };
        KitContacts c = bath.Contacts(OnRack);
        Assert.Equal((Film.Coefficient(250), 0.0, 0.2), (c.BodySide, c.BodySideFromM, c.BodySideToM));
        Assert.Equal((Film.Coefficient(250), true), (c.Floor, c.FloorFacesBody));
        Assert.Equal((FilmKind.AirOnSide, FilmKind.AirOnTop, false), (c.RoomSide.Kind, c.Top.Kind, c.TopFacesBody));
        Assert.Equal(FilmKind.None, bath.Contacts(OnBoards).Floor.Kind);
    }

    [Fact]
    public void A_jacket_heats_its_part_of_the_side_and_the_floor_if_it_is_to()
    {
        var jacket = new HeatedJacket { Thermostat = Warm, From = Mm(50), To = Mm(200), WaterCoefficient = W(250) };
        KitContacts c = jacket.Contacts(OnRack);
        Assert.Equal((Film.Coefficient(250), 0.05, 0.2), (c.BodySide, c.BodySideFromM, c.BodySideToM));
        Assert.Equal((Film.Coefficient(250), true), (c.Floor, c.FloorFacesBody));
        Assert.False(c.TopFacesBody);
        KitContacts side = (jacket with { HeatsFloor = false }).Contacts(OnRack);
        Assert.Equal((FilmKind.AirUnderFloor, false), (side.Floor.Kind, side.FloorFacesBody));
        Assert.Equal(FilmKind.None, (jacket with { HeatsFloor = false }).Contacts(OnBoards).Floor.Kind);
    }

    [Fact]
    public void A_band_and_an_element_leave_the_rest_to_the_room()
    {
        KitContacts band = new BandHeater { Thermostat = Warm, From = Mm(50), To = Mm(120), ContactCoefficient = W(60) }.Contacts(OnRack);
        Assert.Equal((Film.Coefficient(60), 0.05, 0.12), (band.BodySide, band.BodySideFromM, band.BodySideToM));
        Assert.Equal((FilmKind.AirUnderFloor, false, false), (band.Floor.Kind, band.FloorFacesBody, band.TopFacesBody));

        KitContacts element = new ImmersionHeater { Thermostat = Warm, From = Mm(50), To = Mm(120), Radius = Mm(8) }.Contacts(OnRack);
        Assert.Equal((0.008, 0.05, 0.12), (element.ElementRadiusM, element.ElementFromM, element.ElementToM));
        Assert.Equal((0, 0, FilmKind.AirOnSide), (element.BodySideFromM, element.BodySideToM, element.RoomSide.Kind));
        Assert.Equal((FilmKind.AirUnderFloor, false, false), (element.Floor.Kind, element.FloorFacesBody, element.TopFacesBody));
    }

    [Theory]
    [InlineData(VesselLid.Closed, 1 / 6.0, true)]
    [InlineData(VesselLid.Open, 0, true)]
    [InlineData(VesselLid.Insulated, 0, false)]
    public void A_lid_has_its_air_gap_or_none_or_lets_nothing_through(VesselLid lid, double resistance, bool passes)
    {
        WarmingSetup setup = ThermostatRunTests.Pail();
        WarmingParameters p = WarmingParameters.Of(setup with { Vessel = setup.Vessel with { Lid = lid } }, RandomWarmings.Small, HeatFactors.None);
        Assert.Equal(passes, p.Contacts.Top.Kind != FilmKind.None);
        if (passes)
            Assert.Equal(resistance, p.TopWallM2KPerW, 1e-15);
    }

    /// <summary>Equation 6: 2π k ℓ/ln(1 + Δr/(2 r_e)) for the length in the honey; 100 W/(m²·K) on its surface when well mixed.</summary>
    [Theory]
    [InlineData(InsideHeat.ConductionOnly)]
    [InlineData(InsideHeat.WellMixed)]
    public void An_element_gives_what_its_length_in_the_honey_does(InsideHeat inside)
    {
        const double From = 0.07, To = 0.4, Radius = 0.012, Hotter = 30;
        bool mixed = inside == InsideHeat.WellMixed;
        WarmingParameters p = PlainStuff.Alone(40) with
        {
            Inside = inside,
            Grid = new CylinderGrid(0.14, 0.3, mixed ? 1 : 4, mixed ? 1 : 6),
            BodyStartK = 293.15 + Hotter,
            HeaterW = 500,
            Contacts = new KitContacts { RoomSide = Film.None, Top = Film.None, ElementRadiusM = Radius, ElementFromM = From, ElementToM = To },
        };
        var system = new WarmingSystem(p) { Mode = HeaterMode.Off };
        double[] y = new double[system.Dimension], derivative = new double[system.Dimension];
        system.Start(y);
        system.Derivative(0, y, derivative);

        double length = 0.3 - From, step = 0.14 / 4;
        double conductance = mixed ? 100 * 2 * Math.PI * Radius * length : 2 * Math.PI * PlainStuff.Conductivity * length / Math.Log(1 + (step / (2 * Radius)));
        Assert.Equal(-conductance * Hotter, derivative[system.Body], 1e-9 * conductance * Hotter);
        Assert.Equal(293.15 + Hotter, system.HottestWallK(system.BodyK(0, y)), 1e-9);
    }

    /// <summary>
    /// Equation 2: ω = 1 − x/0.05, at least 0. Honey with 4 % of crystals stirs by a fifth, melted it stirs as a whole; the mean that the wall convects to is
    /// weighted by it, and so is what conducts at a face.
    /// </summary>
    [Fact]
    public void Crystals_stop_the_stirring_where_they_are()
    {
        const double Share = 0.04;
        WarmingParameters p = PlainStuff.Alone(60, 2, 2) with
        {
            Inside = InsideHeat.BestEstimate,
            Honey = new PlainStuff { Enthalpy = new HoneyEnthalpy(2500, 0, 108_400 * Share, 30, 40), CrystalShare = Share, ViscosityPaSNow = 0.5 },
            Contacts = new KitContacts { RoomSide = Film.None, Top = Film.None, BodySide = Film.Coefficient(100), BodySideToM = double.PositiveInfinity },
            BodyStartK = 340,
            HeaterW = 500,
        };
        var system = new WarmingSystem(p) { Mode = HeaterMode.Off };
        double[] y = new double[system.Dimension];
        system.Start(y);

        // The wall's upper cell is melted, the others are not: cells go from the axis outward, each from the floor up.
        double[] kelvins = [294, 296, 300, 325];
        for (int cell = 0; cell < 4; cell++)
            y[cell] = system.MassKg[cell] * p.Honey.Enthalpy.OnCurve(kelvins[cell]);
        system.Derivative(0, y, new double[system.Dimension]);

        double[] stirs = [0.2, 0.2, 0.2, 1];
        double weight = 0, sum = 0;
        for (int cell = 0; cell < 4; cell++)
        {
            weight += system.MassKg[cell] * stirs[cell];
            sum += system.MassKg[cell] * stirs[cell] * kelvins[cell];
        }

        var films = new FaceFilms(p, 1);
        films.FaceK[FaceFilms.BodySide] = (300.0 + 325) / 2;
        films.FaceConductivity[FaceFilms.BodySide] = PlainStuff.Conductivity;
        films.FaceStirred[FaceFilms.BodySide] = PlainStuff.Conductivity * (0.2 + 1) / 2;
        films.Solve(340, sum / weight);
        Assert.True(films.Enhancement > 1.2, $"{films.Enhancement}: nothing to tell by");
        Assert.Equal(films.Enhancement, system.Enhancement, 1e-6);
    }
}
