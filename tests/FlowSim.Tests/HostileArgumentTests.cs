using FlowSim.OverflowRisk;
using FlowSim.Properties;
using FlowSim.Screens;
using FlowSim.Straining;
using FlowSim.Vessels;
using UnitsNet;

namespace FlowSim.Tests;

/// <summary>Public members outside a setup, asked with what nobody should ask: each answers by name and at once.</summary>
public class HostileArgumentTests
{
    private static readonly Honey Honey = new() { Moisture = Ratio.FromPercent(18) };

    [Fact]
    public void A_sieve_of_no_opening_is_not_found()
    {
        foreach (Length opening in new[] { Length.FromMicrometers(double.MaxValue), Length.FromMicrometers(-double.MaxValue), Length.Zero, Length.FromMeters(-1) })
            Assert.Equal("opening", Assert.Throws<ArgumentOutOfRangeException>(() => StandardSieves.ByOpening(opening)).ParamName);
        foreach (int number in new[] { int.MinValue, -1, 0, int.MaxValue })
            Assert.Equal("number", Assert.Throws<ArgumentOutOfRangeException>(() => StandardSieves.ByAstmNumber(number)).ParamName);
    }

    [Fact]
    public void A_property_that_does_not_exist_is_named()
    {
        HoneyProperties properties = HoneyProperties.Of(Honey);
        PropertySheet sheet = properties.SheetAt(Temperature.FromDegreesCelsius(25));
        var none = (HoneyProperty)99;
        Assert.Equal("property", Assert.Throws<ArgumentOutOfRangeException>(() => sheet[none]).ParamName);
        Assert.Equal("property", Assert.Throws<ArgumentOutOfRangeException>(() => properties.LineAt(none, Temperature.FromDegreesCelsius(25))).ParamName);
        Assert.Equal("property", Assert.Throws<ArgumentOutOfRangeException>(() =>
            PropertyTable.Of(Honey, none, [Ratio.FromPercent(99)], [Temperature.FromDegreesCelsius(25)])).ParamName);
    }

    [Theory]
    [InlineData(SpreadKind.Absolute, 1, double.NaN)]
    [InlineData(SpreadKind.Percent, 1, double.PositiveInfinity)]
    [InlineData(SpreadKind.Factor, 0, 1)]
    [InlineData(SpreadKind.Factor, 2, double.MaxValue)]
    [InlineData(SpreadKind.OfMeasurement, 0, double.NaN)]
    public void A_spread_gives_finite_ends_or_none(SpreadKind kind, double amount, double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new PropertySpread(kind, amount).Around(value));

    [Fact]
    public void A_refusal_can_be_made_of_nothing() => Assert.Equal("why", new HoneyRefusedException("why", null!, null).Message);

    [Fact]
    public void A_shape_read_from_a_function_names_the_key_and_comes_to_an_end()
    {
        foreach (double value in new[] { double.NaN, double.PositiveInfinity, double.NegativeInfinity, -1, 0, 1e300, 0.1 })
        {
            foreach (ShapeEntry<VesselShape> entry in VesselShapes.All)
                AnswersOrRefuses(() => entry.Create(_ => value));
            foreach (ShapeEntry<ScreenShape> entry in ScreenShapes.All)
                AnswersOrRefuses(() => entry.Create(_ => value));
        }

        foreach (ShapeEntry<VesselShape> entry in VesselShapes.All)
        {
            Assert.Throws<ArgumentNullException>(() => entry.Create(null!));
            AnswersOrRefuses(() => entry.Create(_ => null));
        }
    }

    private static void AnswersOrRefuses(Func<object> create)
    {
        try
        {
            Assert.NotNull(create());
        }
        catch (ArgumentException refused)
        {
            Assert.False(string.IsNullOrEmpty(refused.ParamName), refused.Message);
        }
    }

    [Fact]
    public void A_table_of_levels_has_slices_with_an_area()
    {
        // The least double above 0 as a level step would give a slice of infinite area, and NaN for its wall.
        Length least = Length.FromMeters(double.Epsilon);
        ArgumentException refused = Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Length.Zero, Volume.Zero), (least, Volume.FromLiters(1))]));
        Assert.Contains("0.01 mm", refused.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new LevelVolumeTable([(Length.Zero, Volume.Zero), (Length.FromMeters(1), Volume.FromCubicMeters(double.Epsilon))]));
        Assert.Throws<ArgumentNullException>(() => new LevelVolumeTable(null!));

        LevelVolumeTable thinnest = new([(Length.Zero, Volume.Zero), (Length.FromMillimeters(0.0100001), Volume.FromCubicMeters(1000))]);
        Assert.True(double.IsFinite(thinnest.WettedAreaM2(1) + thinnest.SurfaceAreaM2(0) + thinnest.LevelM(500)));
    }

    [Fact]
    public void The_corners_of_a_spread_stay_within_what_a_setup_allows()
    {
        // Every input at its limit: the corners lie beyond and are taken at it.
        StrainingSetup setup = Straining.RandomSetups.Plain(1);
        StrainingSpread spread = StrainingSpread.Of(setup with
        {
            Honey = setup.Honey with { LotFactor = LotFactorSpread.Range.High },
            Strainer = setup.Strainer with { ScreenFactor = ScreenCheck.LeastScreenFactor },
            Debris = setup.Debris with { Load = Ratio.FromPercent(ScreenCheck.MostDebrisPercent) },
            Longest = Duration.FromMinutes(10),
        });
        Assert.Equal(9, spread.Runs);
    }

    [Fact]
    public void A_bore_wider_than_the_tank_is_named_with_the_reason()
    {
        StrainingSetup setup = Straining.RandomSetups.Plain(1) with
        {
            Tank = new Tank { Shape = new UprightCylinder(Length.FromMillimeters(100), Length.FromMillimeters(300)), Level = Length.FromMillimeters(250) },
        };
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(() =>
            StrainingRun.Simulate(setup with { Gate = setup.Gate with { Bore = Length.FromMillimeters(120) } }));
        Assert.Equal("Bore", refused.ParamName);
        Assert.Contains("narrower bore", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_setup_is_no_setup()
    {
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => WidestOpening.Find(null!)).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => StrainingSpread.Of(null!)).ParamName);
        Assert.Equal("setup", Assert.Throws<ArgumentNullException>(() => StrainingRun.Simulate(null!)).ParamName);
    }
}
