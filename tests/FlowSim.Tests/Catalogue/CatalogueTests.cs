using System.Globalization;
using FlowSim.Catalogue;
using FlowSim.Gates;
using FlowSim.Screens;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests.Catalogue;

public class CatalogueTests
{
    /// <summary>A vessel's brim holds what its name says and at most a sixth more: names are contents, not brim volumes.</summary>
    [Fact]
    public void Vessels_hold_what_their_names_say() => Assert.All(CommonVessels.All, entry =>
    {
        double litres = NumberIn(entry.Name);
        Assert.InRange(entry.Item.Capacity.Liters / litres, 1, 7.0 / 6);
    });

    /// <summary>19 L in the pail stand 298 mm high, as in the drain-time case; 55 US gal fit the drum (exact gallon 3.785411784 L).</summary>
    [Fact]
    public void Pail_and_drum_match_their_nominal_contents()
    {
        Assert.Equal(298, CommonVessels.ByName("pail-19l").Item.LevelOf(Volume.FromLiters(19)).Millimeters, 0.5);
        Assert.InRange(CommonVessels.ByName("drum-208l").Item.Capacity.Liters, 55 * 3.785411784, 1.05 * 55 * 3.785411784);
        Assert.Equal(CommonVessels.ByName("drum-208l").Item.Capacity.Liters, CommonVessels.ByName("drum-208l-lying").Item.Capacity.Liters, 1e-9);
    }

    [Fact]
    public void Gates_have_the_bore_of_their_name_and_pass_the_check() => Assert.All(CommonGates.All, entry =>
    {
        Assert.Equal(NumberIn(entry.Name), entry.Item.Bore.Millimeters, 1e-9);
        entry.Item.Validate();
    });

    [Fact]
    public void Cloths_have_the_opening_of_their_name_and_pass_the_check() => Assert.All(CommonCloths.All, entry =>
    {
        Assert.Equal(NumberIn(entry.Name), entry.Item.Opening.Micrometers, 1e-9);
        entry.Item.Validate();
    });

    [Fact]
    public void Every_size_says_where_it_comes_from_and_names_are_unique()
    {
        (string Name, Source Source)[] all =
        [
            .. CommonVessels.All.Select(entry => (entry.Name, entry.Source)),
            .. CommonGates.All.Select(entry => (entry.Name, entry.Source)),
            .. CommonCloths.All.Select(entry => (entry.Name, entry.Source)),
        ];
        Assert.All(all, entry => Assert.NotEmpty(entry.Source.Citation));
        Assert.Equal(all.Length, all.Select(entry => entry.Name).Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public void Unknown_names_give_the_nearest()
    {
        Assert.Contains("Nearest: 'pail-19l'", Assert.Throws<ArgumentException>(() => CommonVessels.ByName("pale-19l")).Message, StringComparison.Ordinal);
        Assert.Contains("Nearest: 'gate-38mm'", Assert.Throws<ArgumentException>(() => CommonGates.ByName("gate38mm")).Message, StringComparison.Ordinal);
        Assert.Contains("Nearest: 'cloth-400um'", Assert.Throws<ArgumentException>(() => CommonCloths.ByName("cloth-400")).Message, StringComparison.Ordinal);
    }

    private static double NumberIn(string name) =>
        double.Parse(string.Concat(name.SkipWhile(c => !char.IsAsciiDigit(c)).TakeWhile(char.IsAsciiDigit)), CultureInfo.InvariantCulture);
}
