using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Table of honey viscosity at 45 °C against moisture in a Ukrainian dictionary of beekeeping (entry "В'ЯЗКІСТЬ МЕДУ"; the
/// page was opened, the measurement behind it is not named). Not among the points the correlations were fitted to. The text
/// speaks of poise; that the column is in poise is inferred, so the level is only loosely held and the slope does the work.
/// </summary>
public class BeekeepingDictionary45CTests
{
    private static readonly (double W, double Poise)[] s_table = [(16.6, 9.436), (18, 6.064), (19, 4.393), (20, 3.313)];

    [Fact]
    public void Vogel_has_the_moisture_slope_of_the_table_in_the_warm_where_it_was_not_fitted()
    {
        // 10 %: the six digits of the table are smooth, its origin is unknown.
        double table = Math.Log(s_table[0].Poise / s_table[^1].Poise);
        double vogel = Math.Log(VogelViscosity.VogelFit(16.6, 318.15) / VogelViscosity.VogelFit(20, 318.15));
        Assert.InRange(vogel / table, 0.9, 1.1);
    }

    [Fact]
    public void Arrhenius_does_not_which_is_its_stated_flaw()
    {
        double table = Math.Log(s_table[0].Poise / s_table[^1].Poise);
        double arrhenius = Math.Log(ArrheniusViscosity.ArrheniusFit(16.6, 318.15) / ArrheniusViscosity.ArrheniusFit(20, 318.15));
        Assert.True(arrhenius / table > 1.3, "if this fails, the Error text of ArrheniusFit is wrong");
    }

    [Fact]
    public void Read_in_poise_the_table_is_a_honey_within_the_lot_factor_of_vogel()
    {
        // One lot, one factor: ± one ln-sd of the lot factor (0.30) about 1.
        foreach ((double w, double poise) in s_table)
        {
            Assert.InRange(
                Math.Log(poise / 10 / VogelViscosity.VogelFit(w, 318.15)),
                -LotFactorSpread.LogStandardDeviation,
                LotFactorSpread.LogStandardDeviation);
        }
    }

    [Fact]
    public void The_published_list_holds_the_table()
    {
        foreach ((double w, double poise) in s_table)
            Assert.Contains(PublishedViscosities.All, p => p.MoisturePercent == w && p.TemperatureC == 45 && Math.Abs(p.ViscosityPaS - poise / 10) < 1e-12);
    }
}
