using System.Collections;
using System.Reflection;
using FlowSim.Gates;
using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;
using UnitsNet.Units;

namespace FlowSim.Tests.Straining;

/// <summary>
/// Every settable property of a setup, at any depth, set to hostile values alone and in pairs: a run answers with finite
/// figures or with an exception of the <see cref="ArgumentException"/> family, and at once. New properties are found by
/// reflection, so none is forgotten.
/// </summary>
public class HostileSetupTests
{
    private static readonly StrainingOptions Quick = new() { SeriesPoints = 5, RelativeTolerance = 1e-6 };

    /// <summary>A hang shows as a cancelled run; a good one takes milliseconds.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private static readonly double[] HostileNumbers =
    [
        double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.MaxValue, -double.MaxValue, double.Epsilon,
        0, -0.0, -1, 1e-12, 1e-3, 0.01, 0.05, 0.3, 1, 2, 50, 1e3, 1e12,
    ];

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
        Mutation[] mutations = [.. MutationsOf(setup)];
        Assert.True(mutations.Length > 400, $"only {mutations.Length} hostile values were found");
        string[] troubles = [.. mutations.Select(m => Trouble(m.Name, m.Apply(setup), Simulate)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles));
    }

    [Theory]
    [MemberData(nameof(Controls))]
    public void Two_hostile_values_are_answered_or_refused(string control)
    {
        // All pairs would take minutes: those that the checks let pass alone, which are the ones that can meet in a run,
        // drawn at random with a fixed seed.
        StrainingSetup setup = Base(Control(control));
        Mutation[] passing = [.. MutationsOf(setup).Where(m => IsAccepted(m.Apply(setup)))];
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
            if (Trouble(first.Name + ", " + second.Name, both, Simulate) is { } trouble)
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
        string[] troubles = [.. MutationsOf(setup).Select(m => Trouble(m.Name, m.Apply(setup), decide)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles));
        Assert.Null(Trouble("setup = null", null, decide));
    }

    [Fact]
    public void No_setup_is_refused() => Assert.Null(Trouble("setup = null", null, Simulate));

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

    /// <summary>Null when all is well, else what went wrong.</summary>
    private static string? Trouble(string name, object? setup, Func<StrainingSetup, CancellationToken, string?> compute)
    {
        using var patience = new CancellationTokenSource(Patience);
        try
        {
            return compute((StrainingSetup)setup!, patience.Token) is { } notFinite ? $"{name}: {notFinite} is not finite" : null;
        }
        catch (ArgumentException refused)
        {
            return string.IsNullOrEmpty(refused.ParamName) ? $"{name}: the refusal names nothing: {refused.Message}" : null;
        }
#pragma warning disable CA1031 // Whatever else comes out is what the test looks for.
        catch (Exception other)
#pragma warning restore CA1031
        {
            return $"{name}: {other.GetType().Name}: {other.Message}";
        }
    }

    private static string? Simulate(StrainingSetup setup, CancellationToken patience) =>
        NotFinite(StrainingRun.Simulate(setup, Quick, patience), "result", 0);

    private static string? FindOpening(StrainingSetup setup, CancellationToken patience) =>
        WidestOpening.Find(setup, patience).DecimalFractions is >= 0 and <= 1 ? null : "opening";

    private static string? Spread(StrainingSetup setup, CancellationToken patience)
    {
        StrainingSpread s = StrainingSpread.Of(setup, patience);
        return NotFinite(
            new[] { s.Drain95.Low, s.Drain95.High, s.Strain95.Low, s.Strain95.High, s.EarliestOverflow }, "times", 0)
            ?? NotFinite(s.PeakPond.High, "PeakPond", 0);
    }

    /// <summary>The first figure of a result that is not finite, or null; the setup in it is what was given.</summary>
    private static string? NotFinite(object? value, string path, int depth)
    {
        switch (value)
        {
            case null or string or Enum or int or bool or StrainingSetup:
                return null;
            case double number:
                return double.IsFinite(number) ? null : path;
            case IQuantity quantity:
                return double.IsFinite((double)quantity.Value) ? null : path;
            case IEnumerable items:
                int i = 0;
                foreach (object? item in items)
                {
                    if (NotFinite(item, $"{path}[{i++}]", depth + 1) is { } found)
                        return found;
                }

                return null;
            default:
                Assert.True(depth < 10, path);
                return value.GetType().GetProperties()
                    .Where(p => p.GetIndexParameters().Length == 0)
                    .Select(p => NotFinite(p.GetValue(value), path + "." + p.Name, depth + 1))
                    .FirstOrDefault(found => found is not null);
        }
    }

    /// <summary>A property somewhere in a setup and a value for it.</summary>
    private sealed record Mutation(string Path, string Name, Func<object?, object?> Apply);

    private static IEnumerable<Mutation> MutationsOf(object record)
    {
        foreach (PropertyInfo property in record.GetType().GetProperties().Where(p => p.SetMethod is not null))
        {
            object? present = property.GetValue(record);
            foreach ((string text, object? value) in HostileValuesFor(property, present))
                yield return new Mutation(property.Name, $"{property.Name} = {text}", target => With(target!, property, value));
            if (present is not null && IsPart(present.GetType()))
            {
                foreach (Mutation inner in MutationsOf(present))
                {
                    yield return new Mutation(
                        property.Name + "." + inner.Path,
                        property.Name + "." + inner.Name,
                        target => property.GetValue(target) is { } part && part.GetType() == present.GetType()
                            ? With(target!, property, inner.Apply(part))
                            : target);
                }
            }
        }
    }

    private static bool IsPart(Type type) =>
        type.Namespace?.StartsWith("FlowSim", StringComparison.Ordinal) == true && type.GetMethod("<Clone>$") is not null;

    private static object With(object record, PropertyInfo property, object? value)
    {
        object copy = record.GetType().GetMethod("<Clone>$")!.Invoke(record, null)!;
        property.SetValue(copy, value);
        return copy;
    }

    private static IEnumerable<(string Text, object? Value)> HostileValuesFor(PropertyInfo property, object? present)
    {
        Type type = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
        if (!property.PropertyType.IsValueType || type != property.PropertyType)
            yield return ("null", null);
        if (type == typeof(double))
        {
            foreach (double number in HostileNumbers)
                yield return ($"{number:r}", number);
        }
        else if (typeof(IQuantity).IsAssignableFrom(type))
        {
            // Zero first: a temperature of 0 K, for one. A quantity refuses NaN and infinity itself, also when the largest
            // number in a large unit is converted; that refusal names no argument of ours.
            yield return ("default", Activator.CreateInstance(type));
            Enum unit = present is IQuantity quantity ? quantity.Unit : LengthUnit.Millimeter;
            foreach (double number in HostileNumbers.Where(double.IsFinite))
                yield return ($"{number:r} {unit}", Activator.CreateInstance(type, number, unit));
            foreach (object anyUnit in Enum.GetValues(unit.GetType()))
                yield return ($"huge {anyUnit}", Activator.CreateInstance(type, double.MaxValue, anyUnit));
        }
        else if (type == typeof(bool))
        {
            yield return ("true", true);
            yield return ("false", false);
        }
        else if (type.IsEnum)
        {
            foreach (object member in Enum.GetValues(type))
                yield return ($"{member}", member);
            yield return ("99", Enum.ToObject(type, 99));
        }
        else
        {
            foreach ((string text, object value) in HostilePartsFor(type))
                yield return (text, value);
        }
    }

    /// <summary>Lists, shapes and correlations: what a program may put there in earnest or by mistake.</summary>
    private static IEnumerable<(string Text, object Value)> HostilePartsFor(Type type)
    {
        Length smallest = Length.FromMillimeters(10);
        Length largest = Length.FromMeters(20);
        Length wide = Length.FromMeters(3);
        Duration second = Duration.FromSeconds(1);
        Duration never = new(double.MaxValue, DurationUnit.Year365);
        Ratio nothing = new(double.MaxValue, RatioUnit.DecimalFraction);
        Length nowhere = new(double.MaxValue, LengthUnit.Kilometer);
        Ratio half = Ratio.FromPercent(50);
        (string Text, object Value)[] parts =
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
        return parts.Where(part => type.IsInstanceOfType(part.Value));
    }
}
