using FlowSim.Gates;
using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using UnitsNet.Units;
using static FlowSim.Tests.HostileValues;

namespace FlowSim.Tests.Straining;

/// <summary>
/// Every settable property of a setup, at any depth, set to hostile values alone and in pairs: a run answers with finite
/// figures or with an exception of the <see cref="ArgumentException"/> family, and at once. New properties are found by
/// reflection, so none is forgotten.
/// </summary>
public class HostileSetupTests
{
    private static readonly StrainingOptions Quick = new() { SeriesPoints = 5, RelativeTolerance = 1e-6 };

    /// <summary>An invented pail, well within every range; the schedule and the scrapes are there to be made hostile too.</summary>
    private static StrainingSetup Base(GateControl control) => new()
    {
        Honey = new Honey { Moisture = Ratio.FromPercent(17.8) },
        HoneyTemperature = Temperature.FromDegreesCelsius(35),
        Tank = new Tank
        {
            Shape = new UprightCylinder(Length.FromMillimeters(285), Length.FromMillimeters(360)),
            Level = Length.FromMillimeters(298),
        },
        Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
        Control = control,
        Strainer = new Strainer
        {
            Shape = new FlatDisc(Length.FromMillimeters(240), Length.FromMillimeters(100)),
            Cloths = [Cloth.FromAstmSieve(40), Cloth.FromAstmSieve(60)],
        },
        Scraping = new Scraping { Times = [Duration.FromMinutes(4)], AtPondDepth = Length.FromMillimeters(60) },
        Receiver = new Receiver
        {
            Shape = UprightCylinder.OfCapacity(Volume.FromLiters(25), Length.FromMillimeters(300)),
            StartTemperature = Temperature.FromDegreesCelsius(20),
        },
        Longest = Duration.FromHours(6),
    };

    public static TheoryData<string> Controls => ["left", "followed", "ridden"];

    private static GateControl Control(string name) => name switch
    {
        "followed" => GateControl.Follow(
            new OpeningStep(Duration.Zero, Ratio.FromPercent(10)),
            new OpeningStep(Duration.FromMinutes(3), Ratio.FromPercent(30))),
        "ridden" => GateControl.RideAt(Length.FromMillimeters(50), Ratio.FromPercent(60)),
        _ => GateControl.LeaveAt(Ratio.FromPercent(20)),
    };

    [Theory]
    [MemberData(nameof(Controls))]
    public void One_hostile_value_is_answered_or_refused(string control)
    {
        StrainingSetup setup = Base(Control(control));
        Mutation[] mutations = [.. MutationsOf(setup, Parts)];
        Assert.True(mutations.Length > 400, $"only {mutations.Length} hostile values were found");
        string[] troubles = [.. mutations.Select(m => Trouble<StrainingSetup>(m.Name, m.Apply(setup), Simulate)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles));
    }

    [Theory]
    [MemberData(nameof(Controls))]
    public void Two_hostile_values_are_answered_or_refused(string control)
    {
        // All pairs would take minutes: those that the checks let pass alone, which are the ones that can meet in a run,
        // drawn at random with a fixed seed.
        StrainingSetup setup = Base(Control(control));
        Mutation[] passing = [.. MutationsOf(setup, Parts).Where(m => IsAccepted(m.Apply(setup)))];
        Assert.True(passing.Length > 50, $"only {passing.Length} hostile values pass the checks");
        var random = new Random(20);
        List<string> troubles = [];
        for (int i = 0; i < 600; i++)
        {
            Mutation first = passing[random.Next(passing.Length)];
            Mutation second = passing[random.Next(passing.Length)];
            if (first.Path == second.Path)
                continue;

            object? both = second.Apply(first.Apply(setup));
            if (Trouble<StrainingSetup>(first.Name + ", " + second.Name, both, Simulate) is { } trouble)
                troubles.Add(trouble);
        }

        Assert.True(troubles.Count == 0, string.Join(Environment.NewLine, troubles.Take(20)));
    }

    [Theory]
    [InlineData("opening")]
    [InlineData("spread")]
    public void Decisions_answer_or_refuse_too(string decision)
    {
        StrainingSetup setup = Base(Control("left"));
        Func<StrainingSetup, CancellationToken, string?> decide = decision == "opening" ? FindOpening : Spread;
        string[] troubles = [.. MutationsOf(setup, Parts).Select(m => Trouble(m.Name, m.Apply(setup), decide)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles));
        Assert.Null(Trouble("setup = null", null, decide));
    }

    [Fact]
    public void No_setup_is_refused() => Assert.Null(Trouble<StrainingSetup>("setup = null", null, Simulate));

    [Theory]
    [InlineData(nameof(StrainingOptions.RelativeTolerance), double.NaN)]
    [InlineData(nameof(StrainingOptions.RelativeTolerance), 0.0)]
    [InlineData(nameof(StrainingOptions.RelativeTolerance), -1e-6)]
    [InlineData(nameof(StrainingOptions.RelativeTolerance), double.PositiveInfinity)]
    [InlineData(nameof(StrainingOptions.SeriesPoints), -1)]
    [InlineData(nameof(StrainingOptions.SeriesPoints), int.MaxValue)]
    public void Hostile_options_are_refused_by_name(string property, object value)
    {
        var options = new StrainingOptions();
        typeof(StrainingOptions).GetProperty(property)!.SetValue(options, value);
        Assert.Equal(property, Assert.Throws<ArgumentOutOfRangeException>(() => StrainingRun.Simulate(Base(Control("left")), options)).ParamName);
    }

    private static bool IsAccepted(object? setup)
    {
        try
        {
            StrainingSetupCheck.Require((StrainingSetup)setup!);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    private static string? Simulate(StrainingSetup setup, CancellationToken patience) =>
        NotFinite(StrainingRun.Simulate(setup, Quick, patience), "result", typeof(StrainingSetup));

    private static string? FindOpening(StrainingSetup setup, CancellationToken patience) =>
        WidestOpening.Find(setup, patience).DecimalFractions is >= 0 and <= 1 ? null : "opening";

    private static string? Spread(StrainingSetup setup, CancellationToken patience)
    {
        StrainingSpread s = StrainingSpread.Of(setup, patience);
        return NotFinite(
            new[] { s.Drain95.Low, s.Drain95.High, s.Strain95.Low, s.Strain95.High, s.EarliestOverflow }, "times", typeof(StrainingSetup))
            ?? NotFinite(s.PeakPond.High, "PeakPond", typeof(StrainingSetup));
    }

    /// <summary>Lists, shapes and correlations: what a program may put there in earnest or by mistake.</summary>
    private static readonly (string Text, object Value)[] Parts = HostileParts();

    private static (string Text, object Value)[] HostileParts()
    {
        Length smallest = Length.FromMillimeters(10);
        Length largest = Length.FromMeters(20);
        Length wide = Length.FromMeters(3);
        Duration second = Duration.FromSeconds(1);
        Duration never = new(double.MaxValue, DurationUnit.Year365);
        Ratio nothing = new(double.MaxValue, RatioUnit.DecimalFraction);
        Length nowhere = new(double.MaxValue, LengthUnit.Kilometer);
        Ratio half = Ratio.FromPercent(50);
        return
        [
            ("smallest cylinder", new UprightCylinder(smallest, smallest)),
            ("largest cylinder", new UprightCylinder(largest, largest)),
            ("smallest lying cylinder", new HorizontalCylinder(smallest, smallest)),
            ("flat lying cylinder", new HorizontalCylinder(smallest, largest)),
            ("flattest cone", new ConeBottomedTank(largest, Length.Zero, Length.FromMillimeters(1))),
            ("box", new RectangularTank(largest, smallest, smallest)),
            ("bent table", new LevelVolumeTable([(Length.Zero, Volume.Zero), (Length.FromMillimeters(1), Volume.FromCubicMeters(900)), (largest, Volume.FromCubicMeters(1000))])),
            ("smallest disc", new FlatDisc(smallest, Length.FromMillimeters(1))),
            ("largest disc", new FlatDisc(wide, wide)),
            ("flattest cone screen", new ConeScreen(wide, Length.FromMillimeters(1))),
            ("steepest cone screen", new ConeScreen(smallest, wide)),
            ("smallest bag", new BagScreen(smallest, Length.FromMillimeters(5))),
            ("largest basket", new BasketScreen(wide, wide)),
            ("no cloth", Array.Empty<Cloth>()),
            ("no cloth there", new Cloth[] { null! }),
            ("nine cloths", Enumerable.Repeat(Cloth.FromAstmSieve(30), 9).ToArray()),
            ("finest cloths", Enumerable.Repeat(Cloth.FromAstmSieve(635), 8).ToArray()),
            ("cloth beyond measure", new[] { new Cloth { Opening = nowhere, WireDiameter = smallest } }),
            ("all wire", new[] { new Cloth { Opening = Length.FromMillimeters(0.02), WireDiameter = Length.FromMillimeters(5) } }),
            ("widest cloth", new[] { new Cloth { Opening = smallest, WireDiameter = Length.FromMillimeters(0.5) } }),
            ("no steps", Array.Empty<OpeningStep>()),
            ("no step there", new OpeningStep[] { null! }),
            ("second step missing", new OpeningStep[] { new(Duration.Zero, half), null! }),
            ("late first step", new OpeningStep[] { new(second, half) }),
            ("step beyond time", new OpeningStep[] { new(Duration.Zero, half), new(never, half) }),
            ("step too wide", new OpeningStep[] { new(Duration.Zero, nothing) }),
            ("shut for good", new OpeningStep[] { new(Duration.Zero, half), new(second, Ratio.Zero) }),
            ("backwards", new OpeningStep[] { new(Duration.Zero, half), new(second, half), new(second, half) }),
            ("last step far off", new OpeningStep[] { new(Duration.Zero, Ratio.Zero), new(Duration.FromSeconds(double.MaxValue), half) }),
            ("too many steps", Enumerable.Range(0, 5000).Select(i => new OpeningStep(second * i, half)).ToArray()),
            ("times backwards", new[] { second, Duration.Zero }),
            ("times without end", new[] { never }),
            ("every moment", Enumerable.Range(1, 1000).Select(i => Duration.FromMicroseconds(i)).ToArray()),
            ("a measured figure", new MeasuredViscosity((Temperature.FromDegreesCelsius(0), DynamicViscosity.FromPascalSeconds(1e5)))),
            ("water-thin", new MeasuredViscosity((Temperature.FromDegreesCelsius(30), DynamicViscosity.FromPascalSeconds(0.001)))),
            ("steepest", new MeasuredViscosity(
                (Temperature.FromDegreesCelsius(30), DynamicViscosity.FromPascalSeconds(1e3)),
                (Temperature.FromDegreesCelsius(40), DynamicViscosity.FromPascalSeconds(30)))),
            ("other fit", new ArrheniusViscosity()),
            ("other conductivity", new HelveyConductivity()),
            ("left beyond measure", GateControl.LeaveAt(nothing)),
            ("no schedule", GateControl.Follow((IReadOnlyList<OpeningStep>)null!)),
            ("ridden beyond measure", GateControl.RideAt(nowhere, half)),
        ];
    }
}
