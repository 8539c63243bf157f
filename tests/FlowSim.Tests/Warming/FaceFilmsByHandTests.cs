using FlowSim.Heating;
using FlowSim.Warming;

namespace FlowSim.Tests.Warming;

/// <summary>Films and enhancement where one of them at a time has something to say.</summary>
public class FaceFilmsByHandTests
{
    private const double Radius = 0.1, Height = 0.3, Viscosity = 2;

    private static WarmingParameters Parameters(KitContacts contacts, InsideHeat inside = InsideHeat.BestEstimate) => PlainStuff.Alone(40) with
    {
        Honey = new PlainStuff { ViscosityPaSNow = Viscosity, ThinsPerK = 0.05 },
        Grid = new CylinderGrid(Radius, Height, 4, 5),
        Inside = inside,
        Contacts = contacts,
        SideWallM2KPerW = 0.01,
        SideRadiusRatio = 1.2,
        FloorWallM2KPerW = 0.02,
        TopWallM2KPerW = 0.15,
        FilmFactor = 1.1,
        RoomK = 290,
    };

    private static FaceFilms At(WarmingParameters p, double bodyShare, double faceK)
    {
        var films = new FaceFilms(p, bodyShare);
        Array.Fill(films.FaceK, faceK);
        Array.Fill(films.FaceConductivity, 0.4);
        Array.Fill(films.FaceStirred, 0.3);
        return films;
    }

    [Fact]
    public void A_fixed_film_is_as_given_and_wall_and_half_a_cell_come_on_top()
    {
        var contacts = new KitContacts { BodySide = Film.Coefficient(40), RoomSide = Film.Coefficient(8), Floor = Film.Coefficient(20), Top = Film.Coefficient(5) };
        FaceFilms films = At(Parameters(contacts, InsideHeat.ConductionOnly), 0.5, 300);
        films.Solve(320, 300);
        Assert.Equal(1, films.Enhancement);
        double[] given = [40, 8, 20, 5], wall = [0.01, 0.01, 0.02, 0.15], wider = [1.2, 1.2, 1, 1], half = [0.0125, 0.0125, 0.03, 0.03];
        for (int face = 0; face < FaceFilms.Count; face++)
        {
            Assert.Equal(1.1 * given[face], films.Coefficient[face], 1e-9);
            Assert.Equal((1 / (1.1 * given[face] * wider[face])) + wall[face], films.OutsideM2KPerW(face), 1e-12);
            Assert.Equal(half[face], films.HalfCellM(face), 1e-12);
            Assert.Equal(0, At(Parameters(contacts, InsideHeat.WellMixed), 0.5, 300).HalfCellM(face));
        }
    }

    [Theory]
    [InlineData(0, false, true)]
    [InlineData(0.3, true, true)]
    [InlineData(1, true, false)]
    public void A_face_passes_heat_if_it_has_a_film_and_an_area(double bodyShare, bool body, bool room)
    {
        var all = new KitContacts { BodySide = Film.Coefficient(40), Floor = Film.Coefficient(20) };
        FaceFilms films = At(Parameters(all), bodyShare, 300);
        Assert.Equal([body, room, true, true], Enumerable.Range(0, FaceFilms.Count).Select(films.Passes));
        FaceFilms none = At(Parameters(new KitContacts { RoomSide = Film.None, Top = Film.None }), bodyShare, 300);
        Assert.Equal([false, false, false, false], Enumerable.Range(0, FaceFilms.Count).Select(none.Passes));
    }

    /// <summary>Well mixed, the flux is (T∞ − T)/(1/h + wall) and the surface T∞ − flux/h: the root of h − published(h), by halving.</summary>
    [Theory]
    [InlineData(FaceFilms.BodySide, true)]
    [InlineData(FaceFilms.RoomSide, false)]
    [InlineData(FaceFilms.Floor, true)]
    [InlineData(FaceFilms.Floor, false)]
    [InlineData(FaceFilms.Top, true)]
    [InlineData(FaceFilms.Top, false)]
    public void A_film_of_air_is_the_published_one_at_its_surface(int face, bool facesBody)
    {
        foreach (double speed in new[] { 0, 1.5 })
        {
            var contacts = new KitContacts
            {
                BodySide = new Film(FilmKind.AirOnSide, AirSpeedMPerS: speed),
                RoomSide = new Film(FilmKind.AirOnSide, AirSpeedMPerS: speed),
                Floor = new Film(FilmKind.AirUnderFloor, AirSpeedMPerS: speed),
                FloorFacesBody = facesBody,
                Top = new Film(FilmKind.AirOnTop, AirSpeedMPerS: speed),
                TopFacesBody = facesBody,
            };
            WarmingParameters p = Parameters(contacts, InsideHeat.WellMixed);
            FaceFilms films = At(p, 0.4, 305);
            films.Solve(335, 305);
            bool side = face < FaceFilms.Floor;
            double airK = facesBody ? 335 : 290, wall = side ? 0.01 : face == FaceFilms.Floor ? 0.02 : 0.15, wider = side ? 1.2 : 1, diameter = 2 * Radius * 1.2;
            double Published(double h)
            {
                double surfaceK = airK - ((airK - 305) / ((1 / (h * wider)) + wall) / (h * wider));
                return 1.1 * face switch
                {
                    FaceFilms.Floor => OutsideCoefficient.MovingAirDiscWPerM2K(surfaceK, airK, diameter, p.Emissivity, speed, facesUp: false),
                    FaceFilms.Top => OutsideCoefficient.MovingAirDiscWPerM2K(surfaceK, airK, diameter, p.Emissivity, speed, facesUp: true),
                    _ => OutsideCoefficient.MovingAirWallWPerM2K(surfaceK, airK, Height, diameter, p.Emissivity, speed),
                };
            }

            double low = 0.1, high = 200;
            for (int i = 0; i < 100; i++)
                (low, high) = Published((low + high) / 2) > (low + high) / 2 ? ((low + high) / 2, high) : (low, (low + high) / 2);
            Assert.Equal(low, films.Coefficient[face], 1e-6 * low);
        }
    }

    /// <summary>
    /// A film of next to nothing leaves the walls as warm as the honey, so that the element alone stirs: by Churchill and Chu's Nusselt number on its length,
    /// spread over the rings between it and the wall.
    /// </summary>
    [Theory]
    [InlineData(0.05, 0.2, 0.15)]
    [InlineData(0.1, 0.5, 0.2)]
    [InlineData(0, 0.3, 0.3)]
    public void An_element_stirs_by_its_own_published_coefficient(double from, double to, double length)
    {
        const double ElementRadius = 0.012, BodyK = 340, HoneyK = 310, MeanK = 325;
        var contacts = new KitContacts { RoomSide = Film.Coefficient(1e-12), Top = Film.None, ElementRadiusM = ElementRadius, ElementFromM = from, ElementToM = to };
        FaceFilms films = At(Parameters(contacts), 0, HoneyK);
        films.Solve(BodyK, HoneyK);
        double viscosity = Viscosity * Math.Exp(-0.05 * (MeanK - 300)) / PlainStuff.Density, diffusivity = PlainStuff.Conductivity / (PlainStuff.Density * PlainStuff.HeatCapacity);
        double rayleigh = 9.80665 * 4e-4 * (BodyK - HoneyK) * Math.Pow(length, 3) / (viscosity * diffusivity), prandtl = viscosity / diffusivity;
        double nusselt = Math.Pow(0.825 + (0.387 * Math.Pow(rayleigh, 1 / 6.0) / Math.Pow(1 + Math.Pow(0.492 / prandtl, 9 / 16.0), 8 / 27.0)), 2);
        double expected = nusselt * ElementRadius * Math.Log(Radius / ElementRadius) / length;
        Assert.True(expected > 2, $"{expected}: nothing to tell by");
        Assert.Equal(expected, films.Enhancement, 1e-6 * expected);

        // A colder element stirs as well; honey that does not stir, or conducts alone, is not stirred.
        films.Solve(2 * HoneyK - BodyK, HoneyK);
        Assert.True(films.Enhancement > 2);
        films.Solve(BodyK, double.NaN);
        Assert.Equal(1, films.Enhancement);
        FaceFilms still = At(Parameters(contacts, InsideHeat.ConductionOnly), 0, HoneyK);
        still.Solve(BodyK, HoneyK);
        Assert.Equal(1, still.Enhancement);
    }

    [Theory]
    [InlineData(0.012, 0.3, 0.5)]
    [InlineData(0.012, 0.4, 0.5)]
    [InlineData(0, 0, 0.2)]
    public void An_element_above_the_honey_or_of_no_width_stirs_nothing(double elementRadius, double from, double to)
    {
        var contacts = new KitContacts { RoomSide = Film.Coefficient(1e-12), Top = Film.None, ElementRadiusM = elementRadius, ElementFromM = from, ElementToM = to };
        FaceFilms films = At(Parameters(contacts), 0, 310);
        films.Solve(340, 310);
        Assert.Equal(1, films.Enhancement, 1e-7);
    }

    /// <summary>The larger of what walls and element do.</summary>
    [Fact]
    public void An_element_that_is_as_warm_as_the_honey_leaves_it_to_the_walls()
    {
        var room = new KitContacts { RoomSide = Film.Coefficient(50), Top = Film.None };
        FaceFilms walls = At(Parameters(room), 0, 310), both = At(Parameters(room with { ElementRadiusM = 0.012, ElementToM = 0.3 }), 0, 310);
        walls.Solve(310.001, 310);
        both.Solve(310.001, 310);
        Assert.True(walls.Enhancement > 1.5, $"{walls.Enhancement}: nothing to tell by");
        Assert.Equal(walls.Enhancement, both.Enhancement, 1e-9);
    }
}
