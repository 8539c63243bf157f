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

    /// <summary>The classes as printed: below 17.1, to 18.0, to 19.0, to 20.0, above; what lies between two printed figures is of the wetter one.</summary>
    [Theory]
    [InlineData(12, 17.1, double.PositiveInfinity)]
    [InlineData(17.0999, 17.1, double.PositiveInfinity)]
    [InlineData(17.1, 18, 1000)]
    [InlineData(18, 18, 1000)]
    [InlineData(18.0000000001, 18, 1000)]
    [InlineData(18.0001, 19, 10)]
    [InlineData(19, 19, 10)]
    [InlineData(19.05, 20, 1)]
    [InlineData(20, 20, 1)]
    [InlineData(20.0001, double.PositiveInfinity, 0)]
    [InlineData(23, double.PositiveInfinity, 0)]
    public void Class_of_a_moisture(double moisture, double upTo, double yeastsBelow)
    {
        ShelfNotes notes = ShelfNotes.Of(Question(moisture));
        Assert.Equal((upTo, yeastsBelow), (notes.Class.UpToPercent, notes.Class.YeastsBelowPerGram));
    }

    /// <summary>Fewer yeasts than the figure of the class keep, as many do not; dry honey keeps whatever the count, the wettest never does.</summary>
    [Theory]
    [InlineData(16, 1e9, FermentationRisk.NotExpected)]
    [InlineData(16, null, FermentationRisk.NotExpected)]
    [InlineData(17.5, 999.9, FermentationRisk.NotExpected)]
    [InlineData(17.5, 1000.0, FermentationRisk.Likely)]
    [InlineData(18.5, 9.9, FermentationRisk.NotExpected)]
    [InlineData(18.5, 10.0, FermentationRisk.Likely)]
    [InlineData(18.5, null, FermentationRisk.DependsOnYeasts)]
    [InlineData(19.5, 0.9, FermentationRisk.NotExpected)]
    [InlineData(19.5, 1.0, FermentationRisk.Likely)]
    [InlineData(20.5, 0.0, FermentationRisk.Likely)]
    [InlineData(20.5, null, FermentationRisk.Likely)]
    public void Yeasts_of_a_class(double moisture, double? yeasts, FermentationRisk risk) =>
        Assert.Equal(risk, ShelfNotes.Of(Question(moisture) with { YeastsPerGram = yeasts }).Fermentation);

    /// <summary>Below 1.7 slow, above 2.1 fast, and right at either between.</summary>
    [Theory]
    [InlineData(1.6999, GranulationTendency.Slow)]
    [InlineData(1.7, GranulationTendency.Between)]
    [InlineData(2.1, GranulationTendency.Between)]
    [InlineData(2.1001, GranulationTendency.Fast)]
    public void Tendency_of_a_ratio(double ratio, GranulationTendency tendency)
    {
        Assert.Equal(tendency, Granulation.OfRatioWhite1962(ratio));
        if (tendency != GranulationTendency.Between)
            Assert.Equal(tendency, ShelfNotes.Of(Question(17) with { Glucose = Ratio.FromPercent(17 * ratio) }).Tendency);
    }

    /// <summary>a = 0.262 + 0.0179 · 17.6 = 0.57704, give or take 0.07.</summary>
    [Fact]
    public void Water_activity_with_its_spread()
    {
        (double low, double value, double high) = ShelfNotes.Of(Question(17.6)).WaterActivity;
        Assert.Equal(0.50704, low, 1e-12);
        Assert.Equal(0.57704, value, 1e-12);
        Assert.Equal(0.64704, high, 1e-12);
    }

    private static string[] Seen(ShelfQuestion question, string code) =>
        [.. ShelfNotes.Of(question).Notices.Where(notice => notice.Code == code).Select(notice => notice.Seen)];

    /// <summary>The numbers in what is said: of moisture and yeasts when it ferments, of the class's figure when nobody counted.</summary>
    [Fact]
    public void What_is_said_of_fermentation()
    {
        ShelfQuestion likely = Question(18.46) with { YeastsPerGram = 50.25 };
        Assert.Equal(["18.5 % moisture, 50.3 yeasts in a gram"], Seen(likely, "shelf.ferments"));
        Assert.Empty(Seen(likely, "shelf.yeasts"));
        Assert.Equal(["21.0 % moisture"], Seen(Question(21), "shelf.ferments"));

        Notice unknown = Assert.Single(ShelfNotes.Of(Question(18.46)).Notices, notice => notice.Code == "shelf.yeasts");
        Assert.Equal("18.5 % moisture, and nobody counted the yeasts", unknown.Seen);
        Assert.StartsWith("it keeps if they are fewer than 10 in a gram;", unknown.MayMean, StringComparison.Ordinal);
        Assert.Empty(Seen(Question(18.46), "shelf.ferments"));
        foreach (string code in new[] { "shelf.ferments", "shelf.yeasts" })
            Assert.Empty(Seen(Question(18.46) with { YeastsPerGram = 5 }, code));
    }

    /// <summary>
    /// Between 15 % crystals 17.0 % become 18.4 %; between 30 % of them (17 − 0.3 · 9.09)/0.7 = 20.39 %. It is said when that ferments sooner than the whole, and left out when the whole
    /// ferments as readily.
    /// </summary>
    [Fact]
    public void What_is_said_of_the_liquid_between_crystals()
    {
        const string Code = "shelf.granulated-ferments";
        Assert.Equal(["between 15 % crystals the liquid has 18.4 % moisture"], Seen(Question(17), Code));
        Assert.Equal(["between 30 % crystals the liquid has 20.4 % moisture"], Seen(Question(17) with { Crystals = Ratio.FromPercent(30) }, Code));
        Assert.Equal(15, ShelfNotes.Of(Question(17)).LiquorCrystals.Percent, 1e-12);
        Assert.Equal(30, ShelfNotes.Of(Question(17) with { Crystals = Ratio.FromPercent(30) }).LiquorCrystals.Percent, 1e-12);

        // 14 % become (14 − 1.3635)/0.85 = 14.9 %: both keep. 17.5 % and its liquor both depend on the yeasts. 21 % ferments anyhow.
        foreach (double moisture in new[] { 14, 17.5, 21 })
            Assert.Empty(Seen(Question(moisture), Code));

        // 500 yeasts: 17.5 % keeps below 1000, its liquor of 18.98 % only below 10.
        Assert.Single(Seen(Question(17.5) with { YeastsPerGram = 500 }, Code));
        Assert.Empty(Seen(Question(17.5) with { YeastsPerGram = 5 }, Code));
    }

    /// <summary>Water activity has data from 15 to 21 % moisture, glucose from 20 to 45 %.</summary>
    [Theory]
    [InlineData(14.99, null, 1, 0)]
    [InlineData(15.01, 20.01, 0, 0)]
    [InlineData(20.99, 44.99, 0, 0)]
    [InlineData(21.01, 45.01, 1, 1)]
    [InlineData(17, 19.99, 0, 1)]
    public void Ranges_that_are_left(double moisture, double? glucose, int activity, int sugar)
    {
        ShelfQuestion question = Question(moisture) with { Glucose = glucose is { } percent ? Ratio.FromPercent(percent) : null };
        Assert.Equal(activity, Seen(question, "range.water activity.moisture").Length);
        Assert.Equal(sugar, Seen(question, "range.granulation.glucose").Length);
    }

    public static TheoryData<string, ShelfQuestion> Beyond => new()
    {
        { "Moisture", Question(11.999) },
        { "Moisture", Question(23.001) },
        { "YeastsPerGram", Question(17) with { YeastsPerGram = -0.001 } },
        { "YeastsPerGram", Question(17) with { YeastsPerGram = 1.0001e9 } },
        { "Glucose", Question(17) with { Glucose = Ratio.FromPercent(9.999) } },
        { "Glucose", Question(17) with { Glucose = Ratio.FromPercent(60.001) } },
        { "Crystals", Question(17) with { Crystals = Ratio.FromPercent(-0.001) } },
        { "Crystals", Question(17) with { Crystals = Ratio.FromPercent(40.001) } },
    };

    [Theory]
    [MemberData(nameof(Beyond))]
    public void Just_out_of_range(string name, ShelfQuestion question) => Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(() => ShelfNotes.Of(question)).ParamName);

    [Fact]
    public void At_the_limits()
    {
        foreach (ShelfQuestion question in new[]
                 {
                     Question(12), Question(23), Question(17) with { YeastsPerGram = 0 }, Question(17) with { YeastsPerGram = 1e9 }, Question(17) with { Glucose = Ratio.FromPercent(10) },
                     Question(17) with { Glucose = Ratio.FromPercent(60) }, Question(17) with { Crystals = Ratio.FromPercent(40) },
                 })
        {
            ShelfNotes notes = ShelfNotes.Of(question);
            Assert.Same(question, notes.Question);
            Assert.Equal(["infants", "local-rules"], notes.Cautions.Select(caution => caution.Code));
        }
    }
}
