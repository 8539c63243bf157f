using FlowSim.Catalogue;
using FlowSim.Vessels;

namespace FlowSim.Tests.Catalogue;

public class JarTests
{
    [Fact]
    public void Jars_pass_the_check_say_where_they_come_from_and_names_are_unique()
    {
        Assert.All(CommonJars.All, jar => jar.Item.Validate());
        Assert.All(CommonJars.All, jar => Assert.NotEmpty(jar.Source.Citation));
        Assert.Equal(CommonJars.All.Count, CommonJars.All.Select(jar => jar.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.Contains("Nearest: 'jar-500g'", Assert.Throws<ArgumentException>(() => CommonJars.ByName("jar500g")).Message, StringComparison.Ordinal);
    }

    /// <summary>A name that gives a weight is what it is sold as, one that gives a volume has no weight of its own: the two are different things.</summary>
    [Theory]
    [InlineData("jar-250g", 250)]
    [InlineData("jar-1kg", 1000)]
    [InlineData("jar-12oz", 12 * 28.349523125)]
    [InlineData("jar-1lb", 453.59237)]
    [InlineData("jug-5lb", 5 * 453.59237)]
    public void Named_by_weight(string name, double grams) => Assert.Equal(grams, CommonJars.ByName(name).Item.SoldAs!.Value.Grams, 1e-6);

    /// <summary>US pint 473.176473 mL, quart 946.352946 mL by definition.</summary>
    [Theory]
    [InlineData("volume-pint", 473.176473)]
    [InlineData("volume-quart", 946.352946)]
    public void Named_by_volume(string name, double millilitres)
    {
        Jar jar = CommonJars.ByName(name).Item;
        Assert.Null(jar.SoldAs);
        Assert.Equal(millilitres, jar.Brimful.Milliliters, 1e-5);
    }
}
