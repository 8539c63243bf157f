using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.Straining.RandomSetups;

namespace FlowSim.Tests.Straining;

/// <summary>What a setup may hold: the value at the limit is taken, the next is refused by name.</summary>
public class StrainingSetupCheckTests
{
    private static StrainingSetup Setup() => new()
    {
        Honey = new Honey { Moisture = Percent(17) },
        HoneyTemperature = Celsius(35),
        Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(300), Length.FromMillimeters(400)), Level = Length.FromMillimeters(350), GateHeight = Length.FromMillimeters(30) },
        Gate = new Gate { Bore = Length.FromMillimeters(40), TubeLength = Length.FromMillimeters(50) },
        Strainer = new Strainer { Shape = new FlatDisc(Length.FromMillimeters(250), Length.FromMillimeters(100)), Cloths = [Cloth.FromAstmSieve(60)], MinimumHead = Length.FromMillimeters(3) },
        Receiver = new Receiver { Shape = new UprightCylinder(Length.FromMillimeters(400), Length.FromMillimeters(400)) },
    };

    private static StrainingSetup Steps(params (double Seconds, double Percents)[] steps) =>
        Setup() with { Control = GateControl.Follow([.. steps.Select(step => new OpeningStep(Duration.FromSeconds(step.Seconds), Percent(step.Percents)))]) };

    private static StrainingSetup Many(int steps) => Steps([.. Enumerable.Range(0, steps).Select(i => ((double)i, 50.0))]);

    private static StrainingSetup Scraped(Scraping scraping) => Setup() with { Scraping = scraping };

    private static StrainingSetup ScrapedAt(params double[] seconds) => Scraped(new Scraping { Times = [.. seconds.Select(s => Duration.FromSeconds(s))] });

    private static StrainingSetup Ridden(double millimetres, double percents = 50) => Setup() with { Control = GateControl.RideAt(Length.FromMillimeters(millimetres), Percent(percents)) };

    private static StrainingSetup Level(double millimetres) => Setup() with { Tank = Setup().Tank with { Level = Length.FromMillimeters(millimetres) } };

    private static StrainingSetup Left(double percents) => Setup() with { Control = GateControl.LeaveAt(Percent(percents)) };

    private static StrainingSetup Depth(double millimetres) => Scraped(new Scraping { AtPondDepth = Length.FromMillimeters(millimetres) });

    private static StrainingSetup Room(double celsius) => Setup() with { RoomTemperature = Celsius(celsius) };

    private static StrainingSetup Longest(Duration longest) => Setup() with { Longest = longest };

    /// <summary>A value at the limit, a value beyond, and the name that is blamed.</summary>
    private static readonly (string What, StrainingSetup At, StrainingSetup Beyond, string Name)[] s_limits =
    [
        ("coldest room", Room(-10), Room(-10.01), "RoomTemperature"),
        ("hottest room", Room(60), Room(60.01), "RoomTemperature"),
        ("shortest run", Longest(Duration.FromSeconds(1)), Longest(Duration.FromSeconds(0.999)), "Longest"),
        ("longest run", Longest(Duration.FromDays(30)), Longest(Duration.FromDays(30.001)), "Longest"),
        ("lowest level", Level(34), Level(33.99), "Level"), // 2 mm above the gate at 30 mm is the heel, and 2 mm above that drain
        ("highest level", Level(400), Level(400.01), "Level"),
        ("shut", Left(0), Left(-0.01), "Opening"),
        ("open", Left(100), Left(100.01), "Opening"),
        ("lowest ridden pond", Ridden(4), Ridden(3.999), "PondDepth"), // minimum head 3 mm and 1 mm
        ("highest ridden pond", Ridden(99), Ridden(99.001), "PondDepth"), // rim 100 mm less 1 mm
        ("ridden wide open", Ridden(50, 100), Ridden(50, 100.1), "Widest"),
        ("ridden shut", Ridden(50, 0), Ridden(50, -0.1), "Widest"),
        ("one step", Steps((0, 10)), Steps(), "Steps"),
        ("most steps", Many(1000), Many(1001), "Steps"),
        ("first step", Steps((0, 10), (1, 20)), Steps((0.5, 10), (1, 20)), "At"),
        ("steps in order", Steps((0, 10), (5, 20), (5.001, 30)), Steps((0, 10), (5, 20), (5, 30)), "At"),
        ("a step's opening", Steps((0, 10), (5, 100)), Steps((0, 10), (5, 101)), "Opening"),
        ("no recovery", Scraped(new Scraping { Recovery = 0 }), Scraped(new Scraping { Recovery = -0.001 }), "Recovery"),
        ("all recovered", Scraped(new Scraping { Recovery = 1 }), Scraped(new Scraping { Recovery = 1.001 }), "Recovery"),
        ("shortest pause", Scraped(new Scraping { Pause = Duration.FromSeconds(1) }), Scraped(new Scraping { Pause = Duration.FromSeconds(0.99) }), "Pause"),
        ("longest pause", Scraped(new Scraping { Pause = Duration.FromDays(30) }), Scraped(new Scraping { Pause = Duration.FromDays(30.001) }), "Pause"),
        ("least depth", Depth(1), Depth(0.99), "AtPondDepth"),
        ("most depth", Depth(10_000), Depth(10_001), "AtPondDepth"),
        ("a scrape after the start", ScrapedAt(0.001), ScrapedAt(0), "Times"),
        ("scrapes in order", ScrapedAt(1, 2), ScrapedAt(2, 2), "Times"),
        ("most scrapes", ScrapedAt([.. Enumerable.Range(1, 1000).Select(i => (double)i)]), ScrapedAt([.. Enumerable.Range(1, 1001).Select(i => (double)i)]), "Times"),
    ];

    public static TheoryData<string> Limits => [.. s_limits.Select(limit => limit.What)];

    [Theory]
    [MemberData(nameof(Limits))]
    public void A_value_at_its_limit_is_taken_and_the_next_is_refused_by_name(string what)
    {
        (_, StrainingSetup at, StrainingSetup beyond, string name) = s_limits.Single(limit => limit.What == what);
        StrainingSetupCheck.Require(at);
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => StrainingSetupCheck.Require(beyond));
        Assert.Equal(name, refused.ParamName);
        Assert.True(refused.Message.Length > name.Length + 40, refused.Message);
    }

    [Fact]
    public void Units_and_times_are_named()
    {
        string Message(StrainingSetup setup) => Assert.Throws<ArgumentOutOfRangeException>(() => StrainingSetupCheck.Require(setup)).Message;
        Assert.StartsWith("RoomTemperature is 61 °C; it must be within -10 to 60 °C.", Message(Room(61)), StringComparison.Ordinal);
        Assert.StartsWith("Longest is 0.5 s; it must be within 1 to 2592000 s.", Message(Longest(Duration.FromSeconds(0.5))), StringComparison.Ordinal);
        Assert.StartsWith("Level is 0.033 m; it must be within 0.034 to 0.4 m.", Message(Level(33)), StringComparison.Ordinal);
        Assert.StartsWith("Opening is 120 %; it must be within 0 to 100 %.", Message(Left(120)), StringComparison.Ordinal);
        Assert.StartsWith("PondDepth is 2 mm; it must be within 4 to 99 mm.", Message(Ridden(2)), StringComparison.Ordinal);
        Assert.StartsWith("At is 3 s; it must be within 0 to 0 s.", Message(Steps((3, 10))), StringComparison.Ordinal);
        Assert.StartsWith("Pause is 0.5 s; it must be within 1 to 2592000 s.", Message(Scraped(new Scraping { Pause = Duration.FromSeconds(0.5) })), StringComparison.Ordinal);
        Assert.StartsWith("AtPondDepth is 0.5 mm; it must be within 1 to 10000 mm.", Message(Depth(0.5)), StringComparison.Ordinal);
        Assert.StartsWith("Steps is 0; it must be within 1 to 1000.", Message(Steps()), StringComparison.Ordinal);
        Assert.StartsWith("Recovery is 2; it must be within 0 to 1.", Message(Scraped(new Scraping { Recovery = 2 })), StringComparison.Ordinal);
        Assert.StartsWith("The times must increase and be finite: 5 s follows 7 s.", Message(ScrapedAt(7, 5)), StringComparison.Ordinal);
    }

    /// <summary>A bottom that runs out in a point is as wide as the bore only some way up: a bore as wide as the tank drains nothing.</summary>
    [Fact]
    public void A_bore_too_wide_for_the_tank_is_refused_with_what_helps()
    {
        StrainingSetup setup = Setup();
        setup = setup with
        {
            Tank = new Tank { Shape = new ConeBottomedTank(Length.FromMillimeters(190), Length.FromMillimeters(1), Length.FromMillimeters(150)), Level = Length.FromMillimeters(150) },
            Gate = setup.Gate with { Bore = Length.FromMillimeters(195) },
        };
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() => StrainingSetupCheck.Require(setup));
        Assert.Equal("Bore", refused.ParamName);
        Assert.StartsWith(
            $"A bore of 195 mm is too wide for this tank, and drains nothing: its surface is nowhere above the gate as wide as the bore, or the brim, {setup.Tank.Shape.Height.Meters:0.####} m, is less than 4 mm above the gate. Take a narrower bore or a lower gate.",
            refused.Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_parts_are_named()
    {
        string? Name(Func<StrainingSetup> setup) => Assert.ThrowsAny<ArgumentException>(() => StrainingSetupCheck.Require(setup())).ParamName;
        Assert.Equal("setup", Name(() => null!));
        Assert.Contains("Honey", Name(() => Setup() with { Honey = null! }), StringComparison.Ordinal);
        Assert.Contains("Control", Name(() => Setup() with { Control = null! }), StringComparison.Ordinal);
        Assert.Contains("Scraping", Name(() => Setup() with { Scraping = null! }), StringComparison.Ordinal);
        Assert.Contains("Steps", Name(() => Setup() with { Control = GateControl.Follow(null!) }), StringComparison.Ordinal);
        Assert.Equal("Steps", Name(() => Setup() with { Control = GateControl.Follow([new OpeningStep(Duration.Zero, Percent(1)), null!]) }));
        Assert.Contains("Times", Name(() => Scraped(new Scraping { Times = null! })), StringComparison.Ordinal);
    }

    /// <summary>Each part is asked for its own limits.</summary>
    [Fact]
    public void Each_part_is_checked()
    {
        StrainingSetup setup = Setup();
        string? Name(StrainingSetup of) => Assert.ThrowsAny<ArgumentException>(() => StrainingSetupCheck.Require(of)).ParamName;
        Assert.Equal("GateHeight", Name(setup with { Tank = setup.Tank with { GateHeight = Length.FromMillimeters(-1) } }));
        Assert.Equal("Bore", Name(setup with { Gate = setup.Gate with { Bore = Length.FromMillimeters(2) } }));
        Assert.Equal("ScreenFactor", Name(setup with { Strainer = setup.Strainer with { ScreenFactor = 21 } }));
        Assert.Equal("AlreadyIn", Name(setup with { Receiver = setup.Receiver with { AlreadyIn = Volume.FromCubicMeters(1) } }));
        Assert.Equal("Load", Name(setup with { Debris = new Debris { Load = Percent(2.1) } }));
        Assert.Equal("HoneyTemperature", Name(setup with { HoneyTemperature = Celsius(150) }));
    }
}
