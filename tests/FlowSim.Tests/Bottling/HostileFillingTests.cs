using FlowSim.Bottling;
using FlowSim.Gates;
using FlowSim.Properties;
using FlowSim.Vessels;
using UnitsNet;
using static FlowSim.Tests.HostileValues;

namespace FlowSim.Tests.Bottling;

/// <summary>Every settable property of a filling, at any depth, set to hostile values alone and in pairs: it answers with finite figures or refuses by name.</summary>
public class HostileFillingTests
{
    private static readonly (string Text, object Value)[] Parts =
    [
        ("no bands", Array.Empty<ToleranceBand>()),
        ("a band of nothing", new ToleranceBand[] { null! }),
        ("a band of both", new ToleranceBand[] { new(Mass.Zero, Mass.FromKilograms(1), Ratio.FromPercent(3), Mass.FromGrams(3)) }),
        ("a band upside down", new ToleranceBand[] { new(Mass.FromKilograms(1), Mass.Zero, Ratio.FromPercent(3), null) }),
        ("no limits", Array.Empty<ShortfallLimit>()),
        ("a limit of nothing", new ShortfallLimit[] { new(0, Ratio.Zero) }),
        ("all may be short", new ShortfallLimit[] { new(1, Ratio.FromPercent(200)) }),
        ("no plans", Array.Empty<SamplingPlan>()),
        ("a plan of nothing", new SamplingPlan[] { new(1, int.MaxValue, 0, 0, 0, 0, 0, 0) }),
        ("a plan of much", new SamplingPlan[] { new(1, int.MaxValue, 1000, 999, 1001, 1000, 1500, 1000) }),
        ("another tank", new LevelVolumeTable([(Length.Zero, Volume.Zero), (Length.FromMillimeters(400), Volume.FromLiters(40))])),
        ("lying", new HorizontalCylinder(Length.FromMillimeters(300), Length.FromMillimeters(600))),
        ("another viscosity", ViscosityCorrelations.All[^1]),
        ("the other rule", NetWeightRules.ByName("us")),
    ];

    /// <summary>Enumerated where nothing is null, for a hostile value needs a unit.</summary>
    private static FillingSetup Base()
    {
        FillingSetup plain = Fillings.Plain();
        return plain with
        {
            LabelledMass = Mass.FromGrams(500),
            TolerableShortfall = Mass.FromGrams(15),
            Clearance = Length.FromMillimeters(0.05),
            ScatterFrom = 20,
            Lot = 100,
            MostJars = 100,
            Jar = plain.Jar with { Mouth = Length.FromMillimeters(60) },
            Tank = plain.Tank with { HeldAtTemperature = false, WallFilm = true },
        };
    }

    private static string? Compute(FillingSetup setup, CancellationToken patience) => NotFinite(FillingRun.Simulate(setup, patience), "result", typeof(FillingSetup));

    [Fact]
    public void One_hostile_value_is_answered_or_refused()
    {
        Mutation[] mutations = [.. MutationsOf(Base(), Parts)];
        Assert.True(mutations.Length > 600, $"only {mutations.Length} hostile values were found");
        string[] troubles = [.. mutations.Select(m => Trouble<FillingSetup>(m.Name, m.Apply(Base()), Compute)).OfType<string>()];
        Assert.True(troubles.Length == 0, string.Join(Environment.NewLine, troubles.Take(20)));
    }

    [Fact]
    public void Two_hostile_values_are_answered_or_refused()
    {
        Mutation[] mutations = [.. MutationsOf(Base(), Parts)];
        var random = new Random(21);
        List<string> troubles = [];
        for (int i = 0; i < 2000; i++)
        {
            Mutation first = mutations[random.Next(mutations.Length)], second = mutations[random.Next(mutations.Length)];
            if (first.Path != second.Path && Trouble<FillingSetup>(first.Name + ", " + second.Name, second.Apply(first.Apply(Base())), Compute) is { } trouble)
                troubles.Add(trouble);
        }

        Assert.True(troubles.Count == 0, string.Join(Environment.NewLine, troubles.Take(20)));
    }

    [Fact]
    public void Doors_of_their_own_refuse_by_name()
    {
        Assert.Equal("netWeight", Assert.Throws<ArgumentOutOfRangeException>(() => NetWeightLabel.Of(Mass.Zero)).ParamName);
        Assert.Equal("shortShare", Assert.Throws<ArgumentOutOfRangeException>(() => NetWeightRules.ByName("eu").Plans[0].ChanceThatCountIsAccepted(double.NaN)).ParamName);
        Assert.Equal("aboveLabelInScatters", Assert.Throws<ArgumentOutOfRangeException>(() => NetWeightRules.ByName("eu").Plans[0].ChanceThatAverageIsAccepted(double.NaN)).ParamName);
        Assert.Equal("lotLogDeviation", Assert.Throws<ArgumentOutOfRangeException>(() => FillingBand.Of(Fillings.Plain(), double.NaN)).ParamName);
        Assert.Contains("Known: eu, us", Assert.Throws<ArgumentException>(() => NetWeightRules.ByName("mars")).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentNullException>(() => FillingRun.Simulate(null!));
        Assert.Throws<ArgumentNullException>(() => TargetFill.Of(null!));
    }
}
