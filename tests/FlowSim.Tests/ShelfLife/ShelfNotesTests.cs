using FlowSim.Properties;
using FlowSim.ShelfLife;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.ShelfLife;

public class ShelfNotesTests
{
    private static ShelfQuestion Question(double moisture) => new() { Moisture = Ratio.FromPercent(moisture) };

    [Fact]
    public void What_nobody_measured_is_not_guessed()
    {
        ShelfNotes notes = ShelfNotes.Of(Question(17.6));
        Assert.Equal(FermentationRisk.DependsOnYeasts, notes.Fermentation);
        Assert.Equal(GranulationTendency.Unknown, notes.Tendency);
        Assert.Null(notes.GlucoseOverWater);
        Assert.Contains(notes.Notices, notice => notice.Code == "shelf.yeasts" && notice.MayMean.Contains("1000", StringComparison.Ordinal));
        Assert.Contains(notes.Cautions, caution => caution.Code == "infants");
    }

    /// <summary>15 % crystals as glucose monohydrate, 9.09 % water: 17.0 % moisture become (17 − 0.15 · 9.09)/0.85 = 18.40 % between them.</summary>
    [Fact]
    public void Crystals_make_the_liquid_wetter()
    {
        ShelfNotes notes = ShelfNotes.Of(Question(17.0));
        Assert.Equal(FermentationRisk.NotExpected, notes.Fermentation);
        Assert.Equal(18.396, notes.LiquorMoisture.Percent, 0.001);
        Assert.Equal(FermentationRisk.DependsOnYeasts, notes.LiquorFermentation);
        Assert.Contains(notes.Notices, notice => notice.Code == "shelf.granulated-ferments");

        ShelfNotes fine = ShelfNotes.Of(Question(17.0) with { Crystals = Ratio.FromPercent(5) });
        Assert.Equal((17 - 0.05 * 9.09) / 0.95, fine.LiquorMoisture.Percent, 1e-9);
    }

    [Fact]
    public void With_counts_and_glucose()
    {
        ShelfNotes notes = ShelfNotes.Of(Question(18.5) with { YeastsPerGram = 50, Glucose = Ratio.FromPercent(40) });
        Assert.Equal(FermentationRisk.Likely, notes.Fermentation);
        Assert.Equal(40 / 18.5, notes.GlucoseOverWater!.Value, 1e-12);
        Assert.Equal(GranulationTendency.Fast, notes.Tendency);
        Assert.Contains(notes.Notices, notice => notice.Code == "shelf.ferments");
        Assert.InRange(notes.WaterActivity.Low, 0, notes.WaterActivity.Value);
        Assert.InRange(notes.WaterActivity.High, notes.WaterActivity.Value, 1);
    }

    [Property(Arbitrary = [typeof(Generators)])]
    public void Wetter_or_more_yeasts_never_keep_better(Share moisture, Share yeasts)
    {
        double water = moisture.Between(12, 22), count = yeasts.LogBetween(0.1, 1e6);
        FermentationRisk risk = ShelfNotes.Of(Question(water) with { YeastsPerGram = count }).Fermentation;
        Assert.True(ShelfNotes.Of(Question(water + 0.5) with { YeastsPerGram = count }).Fermentation >= risk);
        Assert.True(ShelfNotes.Of(Question(water) with { YeastsPerGram = 2 * count }).Fermentation >= risk);
    }

    [Theory]
    [InlineData(11.9, "Moisture")]
    [InlineData(23.1, "Moisture")]
    public void Out_of_range(double moisture, string name) =>
        Assert.Equal(name, Assert.ThrowsAny<ArgumentException>(() => ShelfNotes.Of(new ShelfQuestion { Moisture = Ratio.FromDecimalFractions(moisture / 100) })).ParamName);

    [Fact]
    public void Out_of_range_by_name()
    {
        Assert.Equal("YeastsPerGram", Assert.Throws<ArgumentOutOfRangeException>(() => ShelfNotes.Of(Question(17) with { YeastsPerGram = double.NaN })).ParamName);
        Assert.Equal("Glucose", Assert.Throws<ArgumentOutOfRangeException>(() => ShelfNotes.Of(Question(17) with { Glucose = Ratio.FromPercent(5) })).ParamName);
        Assert.Equal("Crystals", Assert.Throws<ArgumentOutOfRangeException>(() => ShelfNotes.Of(Question(17) with { Crystals = Ratio.FromPercent(50) })).ParamName);
        Assert.Throws<ArgumentNullException>(() => ShelfNotes.Of(null!));
    }
}
