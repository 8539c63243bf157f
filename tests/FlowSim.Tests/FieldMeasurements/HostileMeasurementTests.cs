using FlowSim.FieldMeasurements;
using FlowSim.Gates;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.HostileValues;

namespace FlowSim.Tests.FieldMeasurements;

/// <summary>
/// Every settable property of a measurement, at any depth, set to hostile values alone and in pairs: it answers with finite figures
/// or refuses by name.
/// </summary>
public class HostileMeasurementTests
{
    private static readonly UprightCylinder Pail = new(Length.FromMillimeters(285), Length.FromMillimeters(360));

    private static readonly (string Text, object Value)[] Parts =
    [
        ("no times", Array.Empty<Duration>()),
        ("a time of nothing", Samples.Seconds(0)),
        ("a long time", Samples.Seconds(1e5)),
        ("two times", Samples.Seconds(1, 1000)),
        ("no readings", Array.Empty<double>()),
        ("not a number", new[] { double.NaN }),
        ("readings apart", new[] { 14.0, 24.0 }),
        ("no head", JarSupply.Constant(Length.Zero)),
        ("a head", JarSupply.Constant(Length.FromMeters(1))),
        ("empty tank", JarSupply.Falling(Pail, Length.Zero, Length.Zero)),
        ("no tank", JarSupply.Falling(null!, Length.FromMeters(0.1), Length.Zero)),
    ];

    public static TheoryData<string> Kinds => ["ball", "bubble", "jar", "falling jar", "refractometer", "cup"];

    private static object Base(string kind)
    {
        var jar = new TimedJarFill
        {
            Sample = Samples.Honey(),
            Gate = new Gate { Bore = Length.FromMillimeters(38), TubeLength = Length.FromMillimeters(40) },
            Opening = Ratio.FromPercent(20),
            Supply = JarSupply.Constant(Length.FromMillimeters(250)),
            JarVolume = Volume.FromLiters(1),
            Times = Samples.Seconds(30),
        };
        return kind switch
        {
            "ball" => Samples.Ball(10.8, 11) with { FromSurface = Length.FromMillimeters(40), FromBottom = Length.FromMillimeters(40) },
            "bubble" => new BubbleTube { Sample = Samples.Honey(), Times = Samples.Seconds(20) },
            "jar" => jar,
            "falling jar" => jar with { Supply = JarSupply.Falling(Pail, Length.FromMillimeters(300), Length.FromMillimeters(30)) },
            "refractometer" => new RefractometerReading { Scale = RefractometerScale.Moisture, Readings = [17.5, 17.7], Temperature = Temperature.FromDegreesCelsius(22) },
            _ => new CupReading { Sample = Samples.Honey(18.5, 48), Cup = FlowCups.ByName("ford-5"), Times = Samples.Seconds(60) },
        };
    }

    /// <summary>Enumerated where nothing is null, for a hostile value needs a unit.</summary>
    private static Mutation[] MutationsFor(object measurement) =>
        [.. MutationsOf(measurement is TimedJarFill jar ? jar with { NetWeight = Mass.FromKilograms(1) } : measurement, Parts)];

    private static string? Compute(object measurement, CancellationToken patience) => measurement switch
    {
        FallingBall ball => Figures(ball.Measure(), typeof(FallingBall)),
        BubbleTube tube => Figures(tube.Measure(), typeof(BubbleTube)),
        TimedJarFill jar => Figures(jar.Measure(), typeof(TimedJarFill)),
        CupReading cup => Figures(cup.Measure(), typeof(CupReading)),
        _ => NotFinite(((RefractometerReading)measurement).Measure(), "result", typeof(RefractometerReading)),
    };

    private static string? Figures(ViscosityMeasurement measured, Type setup) =>
        NotFinite(measured, "result", setup) ?? NotFinite(measured.LotFactor(new Honey { Moisture = Ratio.FromPercent(18) }), "lot factor", setup);

    [Theory]
    [MemberData(nameof(Kinds))]
    public void One_hostile_value_is_answered_or_refused(string kind)
    {
        object measurement = Base(kind);
        Assert.Null(Trouble<object>(kind, measurement, Compute));
        Mutation[] mutations = MutationsFor(measurement);
        Assert.True(mutations.Length > 60, $"only {mutations.Length} hostile values were found");
        string[] troubles = [.. mutations.Select(m => Trouble<object>(m.Name, m.Apply(measurement), Compute)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles.Take(20)));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Two_hostile_values_are_answered_or_refused(string kind)
    {
        object measurement = Base(kind);
        Mutation[] mutations = MutationsFor(measurement);
        var random = new Random(20);
        List<string> troubles = [];
        for (int i = 0; i < 2000; i++)
        {
            Mutation first = mutations[random.Next(mutations.Length)], second = mutations[random.Next(mutations.Length)];
            if (first.Path != second.Path && Trouble<object>(first.Name + ", " + second.Name, second.Apply(first.Apply(measurement)), Compute) is { } trouble)
                troubles.Add(trouble);
        }

        Assert.True(troubles.Count == 0, string.Join(Environment.NewLine, troubles.Take(20)));
    }
}
