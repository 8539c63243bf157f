using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Tests.Warming;

/// <summary>Small vessels for <see cref="HeatNet"/>, each touched in another way, at temperatures that no two cells share.</summary>
internal static class HeatNets
{
    public static TheoryData<string> Names => ["band", "bath", "jacket on the floor", "air", "element", "tall", "mixed", "mixed element", "nothing"];

    public static WarmingParameters Of(string name)
    {
        WarmingParameters p = PlainStuff.Alone(40) with
        {
            Honey = new PlainStuff { ConductsPerK = 0.004 },
            Grid = new CylinderGrid(0.12, 0.3, 3, 5),
            RoomK = 288,
            HeaterW = 700,
            BodyLossWPerK = 4,
            BodyJPerK = 9000,
            SideWallM2KPerW = 0.012,
            SideRadiusRatio = 1.07,
            FloorWallM2KPerW = 0.02,
            TopWallM2KPerW = 0.15,
            FilmFactor = 1.1,
            LagS = 30,
            Setpoint = new SetpointCurve([Step(0, 40), Step(1000, 50, true), Step(3000, 30, true)]),
        };
        var room = new KitContacts { RoomSide = Film.Coefficient(8), Floor = Film.Coefficient(6), Top = Film.Coefficient(7) };
        KitContacts allRound = room with { BodySide = Film.Coefficient(25), BodySideToM = double.PositiveInfinity, FloorFacesBody = true, TopFacesBody = true };
        KitContacts element = room with { ElementRadiusM = 0.01, ElementFromM = 0.05, ElementToM = 0.2 };
        return name switch
        {
            "band" => p with { Contacts = room with { BodySide = Film.Coefficient(50), BodySideFromM = 0.08, BodySideToM = 0.2 } },
            "bath" => p with { Contacts = room with { BodySide = Film.Coefficient(300), BodySideToM = 0.21, Floor = Film.Coefficient(300), FloorFacesBody = true }, Vessels = 3 },
            "jacket on the floor" => p with { Contacts = room with { RoomSide = Film.None, Floor = Film.Coefficient(200), FloorFacesBody = true, Top = Film.None } },
            "air" => p with { Contacts = allRound, Vessels = 4 },
            "element" => p with { Contacts = element },
            "tall" => p with { Contacts = allRound with { BodySideFromM = 0.03 }, Grid = new CylinderGrid(0.1, 0.4, 2, 7), Honey = new PlainStuff { ConductsPerK = -0.004 } },
            "mixed" => p with { Contacts = allRound with { BodySideToM = 0.2 }, Inside = InsideHeat.WellMixed, Grid = new CylinderGrid(0.12, 0.3, 1, 1), Vessels = 2 },
            "mixed element" => p with { Contacts = element, Inside = InsideHeat.WellMixed, Grid = new CylinderGrid(0.12, 0.3, 1, 1) },
            _ => p with { Contacts = new KitContacts { RoomSide = Film.None, Top = Film.None } },
        };
    }

    /// <summary>A system at temperatures of its own, its body at 325 K and its probe at 310 K.</summary>
    public static (WarmingSystem System, double[] CellK, double[] State) At(WarmingParameters p, int seed = 5)
    {
        var random = new Random(seed);
        var system = new WarmingSystem(p);
        double[] cellK = [.. Enumerable.Range(0, p.Grid.Count).Select(_ => RandomWarmings.Between(random, 285, 320))], y = new double[system.Dimension];
        system.Start(y);
        for (int c = 0; c < cellK.Length; c++)
            y[c] = system.MassKg[c] * p.Honey.Enthalpy.OnCurve(cellK[c]);
        y[system.Body] = p.BodyJPerK * 325;
        y[system.Probe] = 310;
        return (system, cellK, y);
    }

    public static SetpointStep Step(double seconds, double celsius, bool ramp = false) =>
        new(Duration.FromSeconds(seconds), Temperature.FromDegreesCelsius(celsius), ramp);

    public static void AssertAlike(double expected, double actual, double size, string what) =>
        Assert.True(Math.Abs(expected - actual) <= 1e-9 * Math.Max(size, Math.Abs(expected)), $"{what}: {actual:r}, by the net {expected:r}");
}
