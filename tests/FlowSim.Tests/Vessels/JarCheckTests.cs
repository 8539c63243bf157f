using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Vessels;

/// <summary>The ranges that the documentation of <see cref="Jar"/> gives: the value at a limit passes, one just beyond is named.</summary>
public class JarCheckTests
{
    private static Jar Of(double millilitres = 350) => new() { Brimful = Volume.FromMilliliters(millilitres) };

    [Fact]
    public void A_jar_at_its_limits_passes()
    {
        foreach (Jar jar in new[]
                 {
                     Of(5), Of(30_000), Of() with { SoldAs = Mass.FromGrams(1) }, Of() with { SoldAs = Mass.FromKilograms(45) },
                     Of() with { Mouth = Length.FromMillimeters(5) }, Of() with { Mouth = Length.FromMillimeters(500) },
                 })
        {
            jar.Validate();
        }
    }

    public static TheoryData<string, Jar> Beyond => new()
    {
        { nameof(Jar.Brimful), Of(4.999) },
        { nameof(Jar.Brimful), Of(30_001) },
        { nameof(Jar.SoldAs), Of() with { SoldAs = Mass.FromGrams(0.999) } },
        { nameof(Jar.SoldAs), Of() with { SoldAs = Mass.FromKilograms(45.01) } },
        { nameof(Jar.Mouth), Of() with { Mouth = Length.FromMillimeters(4.99) } },
        { nameof(Jar.Mouth), Of() with { Mouth = Length.FromMillimeters(500.1) } },
    };

    [Theory]
    [MemberData(nameof(Beyond))]
    public void A_jar_just_beyond_is_named(string name, Jar jar) => Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(jar.Validate).ParamName);

    [Fact]
    public void A_missing_jar_is_named() => Assert.Equal("jar", Assert.Throws<ArgumentNullException>(() => JarCheck.Validate(null!)).ParamName);
}
