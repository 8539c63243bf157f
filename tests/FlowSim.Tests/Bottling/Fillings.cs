using FlowSim.Bottling;
using FlowSim.Catalogue;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>Invented bottling tanks.</summary>
internal static class Fillings
{
    /// <summary>A held tank of 50 L into jars of 500 g, without film, so that closed forms hold.</summary>
    public static FillingSetup Plain() => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        Temperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank
        {
            Shape = new UprightCylinder(Length.FromMillimeters(380), Length.FromMillimeters(450)),
            Level = Length.FromMillimeters(440),
            GateHeight = Length.FromMillimeters(30),
            HeldAtTemperature = true,
            WallFilm = false,
        },
        Gate = CommonGates.ByName("gate-38mm").Item,
        Opening = Ratio.FromPercent(40),
        Jar = CommonJars.ByName("jar-500g").Item,
    };

    /// <summary>The same, of honey measured at 35 °C: one jar of 500 g exactly, with no drips and no closing.</summary>
    public static FillingSetup OneJar(double pascalSeconds) => Plain() with
    {
        Honey = new Honey
        {
            Moisture = Ratio.FromPercent(17.8),
            Viscosity = new MeasuredViscosity((Temperature.FromDegreesCelsius(35), DynamicViscosity.FromPascalSeconds(pascalSeconds))),
        },
        FillScatter = Mass.Zero,
        ClosingTime = Duration.Zero,
        ChangeOver = Duration.Zero,
        Lip = Length.Zero,
        LongestFill = Duration.FromDays(1),
        MostJars = 1,
    };

    /// <summary>Another tank, gate, jar and honey for each seed, all within what a setup allows.</summary>
    public static FillingSetup Any(int seed)
    {
        var random = new Random(seed);
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        double diameter = Between(0.2, 0.8), height = Between(0.3, 1);
        VesselShape shape = random.Next(4) switch
        {
            0 => new RectangularTank(Length.FromMeters(diameter), Length.FromMeters(Between(0.2, 0.8)), Length.FromMeters(height)),
            1 => new HorizontalCylinder(Length.FromMeters(diameter), Length.FromMeters(height)),
            2 => new ConeBottomedTank(Length.FromMeters(diameter), Length.FromMeters(height), Length.FromMeters(0.4 * height), Length.FromMillimeters(60)),
            _ => new UprightCylinder(Length.FromMeters(diameter), Length.FromMeters(height)),
        };
        return new FillingSetup
        {
            Honey = new Honey { Moisture = Ratio.FromPercent(Between(15, 20)), LotFactor = Math.Exp(Between(-0.5, 0.5)) },
            Temperature = Temperature.FromDegreesCelsius(Between(25, 50)),
            RoomTemperature = Temperature.FromDegreesCelsius(Between(15, 30)),
            Tank = new Tank
            {
                Shape = shape,
                Level = shape.Height * Between(0.5, 1),
                GateHeight = Length.FromMillimeters(Between(0, 50)),
                HeldAtTemperature = random.Next(2) == 0,
                WallFilm = random.Next(4) > 0,
            },
            Gate = new Gate { Bore = Length.FromMillimeters(Between(25, 55)), TubeLength = Length.FromMillimeters(Between(20, 60)) },
            Opening = Ratio.FromPercent(Between(20, 100)),
            Jar = CommonJars.All[random.Next(3, 12)].Item,
            FallHeight = Length.FromMillimeters(Between(50, 400)),
            ClosingTime = Duration.FromSeconds(Between(0, 2)),
            ChangeOver = Duration.FromSeconds(Between(2, 30)),
            FillScatter = Mass.FromGrams(Between(0, 4)),
            LongestFill = Duration.FromHours(2),
            LeastHeadspace = Ratio.Zero,
        };
    }
}
