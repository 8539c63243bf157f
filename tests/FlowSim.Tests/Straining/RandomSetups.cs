using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Straining;

/// <summary>Invented setups over the whole allowed range, one for each seed: the same seed gives the same setup.</summary>
internal static class RandomSetups
{
    /// <summary>A setup that may use anything: every shape, law, control and mishap.</summary>
    public static StrainingSetup Any(int seed)
    {
        var random = new Random(seed);
        return new StrainingSetup
        {
            Honey = new Honey { Moisture = Percent(Between(random, 14, 21)), LotFactor = LogBetween(random, 0.5, 2) },
            HoneyTemperature = Celsius(Between(random, 12, 60)),
            RoomTemperature = Celsius(Between(random, 5, 45)),
            Tank = AnyTank(random, out double sizeM),
            Gate = AnyGate(random, sizeM) with { Factor = LogBetween(new Random(-seed), 0.7, 1.5) }, // The other draws stay what they are.
            Control = LeaveSometimes(random),
            Strainer = AnyStrainer(random),
            Debris = AnyDebris(random),
            Scraping = AnyScraping(random),
            Receiver = AnyReceiver(random),
            Longest = Duration.FromHours(LogBetween(random, 0.05, 72)),
        } is var setup && random.Next(4) == 0
            ? setup with { Control = GateControl.RideAt(RideDepth(setup, random), Percent(Between(random, 10, 100))) }
            : setup;
    }

    /// <summary>An unattended run into a large, vented receiver under a strainer that hangs free: the case in which the monotonic rules hold.</summary>
    public static StrainingSetup Plain(int seed)
    {
        var random = new Random(seed);
        return new StrainingSetup
        {
            Honey = new Honey { Moisture = Percent(Between(random, 15, 20)) },
            HoneyTemperature = Celsius(Between(random, 20, 50)),
            Tank = AnyTank(random, out double sizeM) with { HeldAtTemperature = true },
            Gate = AnyGate(random, sizeM) with { Outlet = GateOutlet.Free },
            Control = GateControl.LeaveAt(Percent(Between(random, 5, 100))),
            Strainer = AnyStrainer(random) with { Venting = Venting.Vented },
            Debris = AnyDebris(random),
            Receiver = new Receiver
            {
                Shape = new UprightCylinder(Length.FromMeters(2), Length.FromMeters(2)),
                Spacer = Length.FromCentimeters(1),
            },
            Longest = Duration.FromDays(10),
        };
    }

    public static Ratio Percent(double percent) => Ratio.FromPercent(percent);

    public static Temperature Celsius(double degrees) => Temperature.FromDegreesCelsius(degrees);

    private static Length RideDepth(StrainingSetup setup, Random random)
    {
        double floor = setup.Strainer.MinimumHead.Meters;
        double rim = setup.Strainer.Shape.RimHeightM;

        // A pond within 1 mm of the minimum head or of the rim cannot be ridden and is refused.
        return Length.FromMeters(Math.Clamp(floor + (Between(random, 0.1, 0.95) * (rim - floor)), floor + 0.00101, rim - 0.00101));
    }

    private static Tank AnyTank(Random random, out double sizeM)
    {
        sizeM = LogBetween(random, 0.15, 1.2);
        VesselShape shape = AnyVessel(random, sizeM);
        double gate = random.Next(2) == 0 ? 0 : Between(random, 0, 0.1) * shape.HeightM;
        return new Tank
        {
            Shape = shape,
            GateHeight = Length.FromMeters(gate),
            Level = Length.FromMeters(gate + (Between(random, 0.3, 0.99) * (shape.HeightM - gate))),
            WallFilm = random.Next(4) > 0,
            HeldAtTemperature = random.Next(2) == 0,
        };
    }

    private static VesselShape AnyVessel(Random random, double sizeM)
    {
        Length size = Length.FromMeters(sizeM);
        return random.Next(5) switch
        {
            0 => new UprightCylinder(size, size * Between(random, 0.7, 1.6)),
            1 => new RectangularTank(size, size * Between(random, 0.4, 1), size * Between(random, 0.5, 1.5)),
            2 => new ConeBottomedTank(size, size * Between(random, 0.3, 1.2), size * Between(random, 0.2, 0.8)),
            3 => new HorizontalCylinder(size, size * Between(random, 1, 2)),
            _ => new LevelVolumeTable(
            [
                (Length.Zero, Volume.Zero),
                (size * 0.3, Volume.FromCubicMeters(Math.Pow(sizeM, 3) * 0.15)),
                (size * 0.7, Volume.FromCubicMeters(Math.Pow(sizeM, 3) * 0.5)),
                (size, Volume.FromCubicMeters(Math.Pow(sizeM, 3) * 0.8)),
            ]),
        };
    }

    private static Gate AnyGate(Random random, double tankSizeM) => new()
    {
        Bore = Length.FromMillimeters(LogBetween(random, 12, Math.Min(100, 200 * tankSizeM))),
        TubeLength = Length.FromMillimeters(Between(random, 0, 150)),
        Blade = random.Next(2) == 0 ? BladeShape.Straight : BladeShape.RoundHoled,
        Outlet = random.Next(4) == 0 ? GateOutlet.Submerged : GateOutlet.Free,
        OutletAboveScreen = Length.FromMillimeters(Between(random, 0, 60)),
    };

    private static GateControl LeaveSometimes(Random random)
    {
        if (random.Next(2) == 0)
            return GateControl.LeaveAt(Percent(Between(random, 2, 100)));

        var steps = new List<OpeningStep>();
        double at = 0;
        for (int i = random.Next(1, 6); i > 0; i--)
        {
            steps.Add(new OpeningStep(Duration.FromSeconds(at), Percent(random.Next(4) == 0 ? 0 : Between(random, 1, 100))));
            at += LogBetween(random, 1, 2000);
        }

        return GateControl.Follow(steps);
    }

    private static Strainer AnyStrainer(Random random)
    {
        Length diameter = Length.FromMeters(LogBetween(random, 0.1, 0.8));
        Length rim = Length.FromMeters(LogBetween(random, 0.02, 0.4));
        bool sealedOn = random.Next(6) == 0;
        return new Strainer
        {
            Shape = random.Next(4) switch
            {
                0 => new FlatDisc(diameter, rim),
                1 => new ConeScreen(diameter, rim),
                2 => new BasketScreen(diameter, rim),
                _ => new BagScreen(diameter, (diameter / 2) + rim),
            },
            Cloths = Enumerable.Range(0, random.Next(1, 4)).Select(_ => AnyCloth(random)).ToArray(),
            ScreenFactor = LogBetween(random, 0.3, 2),
            Venting = sealedOn ? Venting.Sealed : Venting.Vented,
            Overflow = sealedOn || random.Next(2) == 0 ? OverflowPath.Spill : OverflowPath.Bypass,
        };
    }

    private static Cloth AnyCloth(Random random)
    {
        double opening = LogBetween(random, 0.1, 2);
        return new Cloth
        {
            Opening = Length.FromMillimeters(opening),
            WireDiameter = Length.FromMillimeters(opening * Between(random, 0.4, 0.7)),
        };
    }

    private static Debris AnyDebris(Random random) => new()
    {
        Load = Ratio.FromDecimalFractions(LogBetween(random, 1e-6, 5e-3)),
        MedianSize = Length.FromMillimeters(LogBetween(random, 0.1, 2)),
        SizeSpread = Between(random, 0.2, 1),
        CaptureEfficiency = Between(random, 0.1, 1),
        Law = (BlockingLaw)random.Next(4),
    };

    private static Scraping AnyScraping(Random random) => random.Next(3) switch
    {
        0 => Scraping.Never,
        1 => new Scraping
        {
            Times = Enumerable.Range(1, 5).Select(i => Duration.FromSeconds(i * 97.3)).ToArray(),
            Recovery = Between(random, 0, 1),
        },
        _ => new Scraping
        {
            AtPondDepth = Length.FromMillimeters(Between(random, 10, 150)),
            Recovery = Between(random, 0.2, 1),
            Pause = Duration.FromSeconds(LogBetween(random, 5, 600)),
        },
    };

    private static Receiver AnyReceiver(Random random)
    {
        VesselShape shape = AnyVessel(random, LogBetween(random, 0.15, 1.5));
        return new Receiver
        {
            Shape = shape,
            AlreadyIn = random.Next(2) == 0 ? Volume.Zero : shape.Capacity * Between(random, 0, 0.5),
            Spacer = Length.FromMeters(Between(random, -Math.Min(0.1, shape.HeightM), 0.1)),
            ShutWhenFull = random.Next(2) == 0,
        };
    }

    private static double Between(Random random, double low, double high) => low + ((high - low) * random.NextDouble());

    private static double LogBetween(Random random, double low, double high) => low * Math.Pow(high / low, random.NextDouble());
}
