using FlowSim.Bottling;
using FsCheck;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Bottling;

/// <summary>Rules that every filling keeps, on invented tanks.</summary>
public class FillingPropertyTests
{
    [Property(MaxTest = 300)]
    public void Mass_closes_to_rounding(DoNotSize<int> any)
    {
        FillingResult result = FillingRun.Simulate(Fillings.Any(any.Item));
        Assert.InRange(result.Masses.BalanceRelative, -1e-12, 1e-12);
        FillingMasses m = result.Masses;
        Assert.All(new[] { m.InJars, m.Drips, m.Film, m.Rest, m.Heel }, part => Assert.True(part.Kilograms >= 0));
        Assert.True(result.Target.Target.Grams >= result.Target.Question.Label.Grams);
    }

    [Property(MaxTest = 150)]
    public void Warmer_wetter_or_wider_never_fills_the_first_jar_slower(DoNotSize<int> any)
    {
        FillingSetup setup = Fillings.Any(any.Item);
        Duration first = First(setup);
        Assert.True(First(setup with { Temperature = setup.Temperature + TemperatureDelta.FromKelvins(4) }) < first, $"warmer, seed {any.Item}");
        Assert.True(First(setup with { Honey = setup.Honey with { Moisture = setup.Honey.Moisture + Ratio.FromPercent(0.5) } }) < first, $"wetter, seed {any.Item}");
        Assert.True(First(setup with { Opening = setup.Opening * 0.9 }) > first, $"wider, seed {any.Item}");
    }

    /// <summary>One jar of twice the weight takes what two jars take, closing and what drips between them apart.</summary>
    [Property(MaxTest = 100)]
    public void Two_jars_are_one_of_twice_the_weight(DoNotSize<int> any)
    {
        FillingSetup setup = Fillings.Any(any.Item);
        setup = setup with
        {
            Tank = setup.Tank with { HeldAtTemperature = true, WallFilm = false },
            ClosingTime = Duration.Zero,
            ChangeOver = Duration.Zero,
            Lip = Length.Zero,
            FillScatter = Mass.Zero,
            MostJars = 2,
        };
        FillingResult two = FillingRun.Simulate(setup);
        if (two.Jars < 2)
            return;
        FillingResult one = FillingRun.Simulate(setup with
        {
            LabelledMass = 2 * two.Target.Target,
            Jar = setup.Jar with { Brimful = setup.Jar.Brimful * 2 },
            MostJars = 1,
            LongestFill = Duration.FromHours(20),
        });
        Assert.Equal(two.Elapsed.Seconds, one.Elapsed.Seconds, 1e-8 * two.Elapsed.Seconds);
    }

    private static Duration First(FillingSetup setup) => FillingRun.Simulate(setup with { MostJars = 1, LongestFill = Duration.FromDays(1) }).FillTimes!.First;
}
