using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Plots.Tests;

public class ViscosityFigureTests
{
    public static TheoryData<string, double, double> Honeys => new()
    {
        { "vogel", 17.2, 1 },
        { "vogel", 13.6, 1 },
        { "arrhenius", 21.4, 20 },
        { "arrhenius", 16, 0.05 },
    };

    [Theory]
    [MemberData(nameof(Honeys))]
    public void Words_stay_on_the_sheet_and_off_each_other(string correlation, double moisturePercent, double lotFactor)
    {
        HoneyProperties honey = HoneyProperties.Of(new Honey
        {
            Moisture = Ratio.FromPercent(moisturePercent),
            LotFactor = lotFactor,
            Viscosity = ViscosityCorrelations.ByName(correlation),
        });

        AssertNoOverlap(ViscosityFigure.Of(honey).ToSvg());
        AssertNoOverlap(ViscosityFigure.Of(honey, DisplayUnits.UsCustomary, new string('W', 500)).ToSvg());
    }

    [Fact]
    public void Labels_name_axes_honey_spread_and_every_published_series()
    {
        string[] texts = Texts(ViscosityFigure.Of(Ordinary).ToSvg());

        // e^0.30 = 1.35, the spread the library states for the lot factor.
        string[] expected = ["Viscosity, Pa·s (logarithmic)", "Temperature, °C", "this honey, vogel", "its spread, ×/÷ 1.35", "beyond the data", "14 %", "20 %", "this"];
        Assert.All(expected, e => Assert.Contains(e, texts, StringComparer.Ordinal));
        foreach (string floral in PublishedViscosities.All.Select(p => p.Floral).Where(f => f != "not stated").Distinct(StringComparer.Ordinal))
            Assert.Contains(texts, t => t.Contains(floral, StringComparison.Ordinal));
    }

    [Fact]
    public void Us_units_give_fahrenheit() => Assert.Contains("Temperature, °F", Texts(ViscosityFigure.Of(Ordinary, DisplayUnits.UsCustomary).ToSvg()), StringComparer.Ordinal);

    [Fact]
    public void Measured_honey_has_no_borrowed_spread()
    {
        HoneyProperties honey = HoneyProperties.Of(new Honey
        {
            Moisture = Ratio.FromPercent(18),
            Form = HoneyForm.Gelling,
            Viscosity = new MeasuredViscosity((Temperature.FromDegreesCelsius(35), DynamicViscosity.FromPascalSeconds(6))),
        });
        string[] texts = Texts(ViscosityFigure.Of(honey).ToSvg());

        Assert.Contains("this honey, measured", texts, StringComparer.Ordinal);
        Assert.DoesNotContain(texts, t => t.StartsWith("its spread", StringComparison.Ordinal));
        AssertNoOverlap(ViscosityFigure.Of(honey).ToSvg());
    }

    [Fact]
    public void The_same_honey_gives_the_same_bytes() =>
        Assert.Equal(ViscosityFigure.Of(Ordinary).ToPng(), ViscosityFigure.Of(Ordinary).ToPng());

    private static HoneyProperties Ordinary => HoneyProperties.Of(new Honey { Moisture = Ratio.FromPercent(17.2) });

    private static string[] Texts(string svg) => [.. SvgText.In(svg).Select(t => t.Text)];

    private static void AssertNoOverlap(string svg)
    {
        SvgText[] texts = SvgText.In(svg);
        for (int i = 0; i < texts.Length; i++)
        {
            Assert.True(texts[i].Left >= 0 && texts[i].Right <= ViscosityFigure.Width && texts[i].Top >= 0 && texts[i].Bottom <= ViscosityFigure.Height, texts[i].ToString());
            for (int j = 0; j < i; j++)
                Assert.False(texts[i].Overlaps(texts[j]), texts[i] + " on " + texts[j]);
        }
    }
}
