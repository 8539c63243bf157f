using FlowSim.Heating;
using FlowSim.Warming;
using FsCheck;
using FsCheck.Xunit;

namespace FlowSim.Tests.Warming;

/// <summary>The films against their own equations (3 to 5 of the model), written down a second time from the published kernels.</summary>
public class FaceFilmsTests
{
    /// <summary>10 times the accuracy that the fixed point is stopped at.</summary>
    private const double Residual = 1e-7;

    private const double BodyShare = 0.6;

    [Property(MaxTest = 2000)]
    public void Films_and_enhancement_solve_their_equations_together(DoNotSize<int> any) => AssertSolved(any.Item);

    /// <summary>The same for a few, in milliseconds.</summary>
    [Fact]
    public void The_first_of_them_do()
    {
        for (int seed = 0; seed < 40; seed++)
            AssertSolved(seed);
    }

    private static void AssertSolved(int seed)
    {
        var random = new Random(seed);
        WarmingParameters p = Parameters(random);
        var films = new FaceFilms(p, BodyShare);
        double bodyK = 273.15 + RandomWarmings.Between(random, -20, 110), stirredK = 273.15 + RandomWarmings.Between(random, -10, 80), apartK = 20;
        if (random.Next(2) == 0)
        {
            // Next to equilibrium, where the coefficients of free convection go to nothing.
            apartK = RandomWarmings.LogBetween(random, 1e-9, 1);
            stirredK = bodyK + RandomWarmings.Between(random, -apartK, apartK);
        }

        for (int face = 0; face < FaceFilms.Count; face++)
        {
            films.FaceK[face] = stirredK + RandomWarmings.Between(random, -apartK, apartK);
            films.FaceConductivity[face] = RandomWarmings.Between(random, 0.3, 0.4);
            films.FaceStirred[face] = films.FaceConductivity[face] * random.NextDouble();
        }

        films.Solve(bodyK, stirredK);
        double area = 0, difference = 0, walls = 0;
        for (int face = 0; face < FaceFilms.Count; face++)
        {
            if (!films.Passes(face))
                continue;
            bool byBody = face == FaceFilms.BodySide || (face == FaceFilms.Floor && p.Contacts.FloorFacesBody) || (face == FaceFilms.Top && p.Contacts.TopFacesBody);
            double envK = byBody ? bodyK : p.RoomK;
            bool side = face is FaceFilms.BodySide or FaceFilms.RoomSide;
            double h = films.Coefficient[face];
            double film = 1 / (h * (side ? p.SideRadiusRatio : 1));
            double wall = side ? p.SideWallM2KPerW : face == FaceFilms.Floor ? p.FloorWallM2KPerW : p.TopWallM2KPerW;
            double k = films.FaceConductivity[face] + ((films.Enhancement - 1) * films.FaceStirred[face]);
            double half = p.Inside == InsideHeat.WellMixed ? 0 : 0.5 * (side ? p.Grid.RadialStepM : p.Grid.AxialStepM) / k;
            double flux = (envK - films.FaceK[face]) / (film + wall + half);
            double surfaceK = envK - (flux * film), insideK = films.FaceK[face] + (flux * half);
            Assert.Equal(film + wall, films.OutsideM2KPerW(face), 1e-9 * (film + wall));
            Film kind = face switch { FaceFilms.BodySide => p.Contacts.BodySide, FaceFilms.RoomSide => p.Contacts.RoomSide, FaceFilms.Floor => p.Contacts.Floor, _ => p.Contacts.Top };
            double diameter = 2 * p.Grid.RadiusM * p.SideRadiusRatio;
            double expected = kind.Kind switch
            {
                FilmKind.Fixed => kind.FixedWPerM2K,
                FilmKind.AirOnSide => OutsideCoefficient.MovingAirWallWPerM2K(surfaceK, envK, p.Grid.HeightM, diameter, p.Emissivity, kind.AirSpeedMPerS),
                _ => OutsideCoefficient.MovingAirDiscWPerM2K(surfaceK, envK, diameter, p.Emissivity, kind.AirSpeedMPerS, kind.Kind == FilmKind.AirOnTop),
            };
            Assert.True(Math.Abs(h - expected) <= Residual * expected, $"seed {seed}, face {face}: {h:r} against {expected:r}");
            double a = face switch
            {
                FaceFilms.BodySide => BodyShare * 2 * Math.PI * p.Grid.RadiusM * p.Grid.HeightM,
                FaceFilms.RoomSide => (1 - BodyShare) * 2 * Math.PI * p.Grid.RadiusM * p.Grid.HeightM,
                _ => p.Grid.EndAreaM2,
            };
            area += a;
            difference += a * Math.Abs(insideK - stirredK);
            walls += a * insideK;
        }

        double enhancement = 1;
        if (p.Inside == InsideHeat.BestEstimate)
        {
            IHeatProperties honey = p.Honey;
            double meanK = (walls / area + stirredK) / 2, rho = honey.DensityKgPerM3(meanK), lambda = honey.ConductivityWPerMK(meanK);
            double ra = 9.80665 * honey.ExpansionPerK(meanK) * difference / area * Math.Pow(p.Grid.HeightM, 3)
                / (honey.ViscosityPaS(meanK) / rho * (lambda / (rho * honey.Enthalpy.SensibleCapacity(meanK))));
            double hc = 0.55 * Math.Pow(ra, 0.25) * lambda / p.Grid.HeightM;
            double r = p.Grid.RadiusM, z = p.Grid.HeightM;
            double hk = lambda * (Math.PI * r * r * z / (2 * Math.PI * r * (r + z))) * (Math.Pow(2.404825557695773 / r, 2) + Math.Pow(Math.PI / z, 2));
            enhancement = Math.Max(1, hc / hk);
        }

        Assert.Equal(enhancement, films.Enhancement, Residual * enhancement);
    }

    [Fact]
    public void Without_honey_that_stirs_there_is_no_enhancement()
    {
        var films = new FaceFilms(PlainStuff.Alone(40) with { Inside = InsideHeat.BestEstimate, Contacts = new KitContacts() }, 0.5);
        Array.Fill(films.FaceK, 300);
        Array.Fill(films.FaceConductivity, 0.4);
        Array.Fill(films.FaceStirred, 0.4);
        films.Solve(330, 300);
        double stirred = films.Enhancement;
        films.Solve(330, double.NaN);
        Assert.True(stirred > 1, $"{stirred}");
        Assert.Equal(1, films.Enhancement);
    }

    /// <summary>A step that was tried too long may look at what no honey is; the steps after it must not remember.</summary>
    [Fact]
    public void What_is_not_a_number_is_forgotten()
    {
        var films = new FaceFilms(PlainStuff.Alone(40) with { Inside = InsideHeat.BestEstimate, Contacts = new KitContacts() }, 0.5);
        Array.Fill(films.FaceK, 300);
        Array.Fill(films.FaceConductivity, 0.4);
        Array.Fill(films.FaceStirred, 0.4);
        films.Solve(330, 300);
        double[] before = [.. films.Coefficient];
        double enhancement = films.Enhancement;
        foreach (double odd in new[] { double.NaN, -1e9, double.PositiveInfinity })
        {
            Array.Fill(films.FaceK, odd);
            films.Solve(odd, odd);
            Array.Fill(films.FaceK, 300);
            films.Solve(330, 300);
            for (int face = 1; face < FaceFilms.Count; face++)
                Assert.Equal(before[face], films.Coefficient[face], 1e-6 * before[face]);
            Assert.Equal(enhancement, films.Enhancement, 1e-6 * enhancement);
        }
    }

    private static WarmingParameters Parameters(Random random)
    {
        double speed = random.Next(2) * RandomWarmings.LogBetween(random, 0.05, 10);
        Film Of(FilmKind air) => random.Next(3) == 0 ? Film.Coefficient(RandomWarmings.LogBetween(random, 5, 1000)) : new Film(air, AirSpeedMPerS: speed);
        return PlainStuff.Alone(40) with
        {
            Honey = new PlainStuff { ViscosityPaSNow = RandomWarmings.LogBetween(random, 0.05, 1e5), ThinsPerK = 0.08 },
            Grid = new CylinderGrid(RandomWarmings.LogBetween(random, 0.02, 1), RandomWarmings.LogBetween(random, 0.02, 2), 5, 7),
            Inside = (InsideHeat)random.Next(3),
            Contacts = new KitContacts
            {
                BodySide = Of(FilmKind.AirOnSide),
                RoomSide = Of(FilmKind.AirOnSide),
                Floor = Of(FilmKind.AirUnderFloor),
                FloorFacesBody = random.Next(2) == 0,
                Top = Of(FilmKind.AirOnTop),
                TopFacesBody = random.Next(2) == 0,
            },
            RoomK = 273.15 + RandomWarmings.Between(random, -20, 45),
            SideWallM2KPerW = random.Next(2) * RandomWarmings.LogBetween(random, 1e-4, 1),
            FloorWallM2KPerW = random.Next(2) * RandomWarmings.LogBetween(random, 1e-4, 1),
            TopWallM2KPerW = random.Next(2) * 0.17,
            SideRadiusRatio = 1 + (random.Next(2) * RandomWarmings.LogBetween(random, 1e-3, 1)),
            Emissivity = random.NextDouble(),
        };
    }
}
