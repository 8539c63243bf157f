using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Viscosity at 45 °C against moisture, not among the points the correlations were fitted to. The text speaks of poise; that the column
/// is in poise is inferred, so the level is only loosely held and the slope does the work.
/// </summary>
[Publication("Dictionary of beekeeping, honey at 45 °C", "A Ukrainian dictionary of beekeeping, entry \"В'ЯЗКІСТЬ МЕДУ\", viscosity against moisture", Standing.Opened, Remark = "the measurement behind it is not named")]
public class BeekeepingDictionary45CTests
{
    private static readonly (double W, double Poise)[] s_table = [(16.6, 9.436), (18, 6.064), (19, 4.393), (20, 3.313)];

    [Fact]
    public void Vogel_has_the_moisture_slope_of_the_table_in_the_warm_where_it_was_not_fitted()
    {
        double table = Math.Log(s_table[0].Poise / s_table[^1].Poise);
        double vogel = Math.Log(VogelViscosity.VogelFit(16.6, 318.15) / VogelViscosity.VogelFit(20, 318.15));
        Published.Agrees(
            table,
            vogel,
            Within.Ratio(0.9, 1.1, "the digits of the table are smooth, its origin is unknown"),
            "ln of the viscosity at 16.6 % over that at 20 %, vogel");
    }

    [Fact]
    public void Arrhenius_does_not_which_is_its_stated_flaw()
    {
        double table = Math.Log(s_table[0].Poise / s_table[^1].Poise);
        double arrhenius = Math.Log(ArrheniusViscosity.ArrheniusFit(16.6, 318.15) / ArrheniusViscosity.ArrheniusFit(20, 318.15));
        Published.Deviates(
            table,
            arrhenius,
            Within.Ratio(1.3, 2, "the arrhenius correlation gives moisture the same effect at every temperature, too much in the warm; its documentation says so and vogel is the default"),
            "ln of the viscosity at 16.6 % over that at 20 %, arrhenius");
    }

    [Fact]
    public void Read_in_poise_the_table_is_a_honey_within_the_lot_factor_of_vogel()
    {
        foreach ((double w, double poise) in s_table)
        {
            Published.Agrees(
                poise / 10,
                VogelViscosity.VogelFit(w, 318.15),
                Within.Logarithm(LotFactorSpread.LogStandardDeviation, "one lot: a standard deviation of the lot factor"),
                $"viscosity at {w} %, 45 °C",
                "Pa·s");
        }
    }

    [Fact]
    public void The_published_list_holds_the_table()
    {
        foreach ((double w, double poise) in s_table)
            Assert.Contains(PublishedViscosities.All, p => p.MoisturePercent == w && p.TemperatureC == 45 && Math.Abs(p.ViscosityPaS - poise / 10) < 1e-12);
    }
}
