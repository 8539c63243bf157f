using FlowSim.Properties;
using FlowSim.Warming;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Warming;

public class HoneyEnthalpyTests
{
    // An invented honey: numbers as round as the real ones are near them.
    private const double A = 2200, B = 4, Latent = 16_000, FromC = 27, ToC = 44;

    private static readonly HoneyEnthalpy Melting = new(A, B, Latent, FromC, ToC);

    private static readonly HoneyEnthalpy Liquid = new(A, B);

    [Property(Arbitrary = [typeof(Generators)])]
    public void The_temperature_of_an_enthalpy_on_the_curve_is_the_one_it_was_made_from(Share share)
    {
        double kelvins = share.Between(233.15, 423.15);
        double h = Melting.OnCurve(kelvins);
        (double temperature, _, double melted) = Melting.Of(h, double.NegativeInfinity);
        Assert.Equal(kelvins, temperature, 1e-9);
        Assert.Equal(Math.Clamp((kelvins - 273.15 - FromC) / (ToC - FromC), 0, 1), melted, 1e-9);
        Assert.Equal(kelvins, Liquid.LiquidK(Liquid.OnCurve(kelvins)), 1e-9);
    }

    [Property(Arbitrary = [typeof(Generators)])]
    public void Honey_that_has_been_hotter_keeps_what_has_melted(Share now, Share once)
    {
        double hotK = once.Between(233.15, 423.15);
        double highest = Melting.OnCurve(hotK);
        double melted = Melting.MeltedAt(highest);
        double kelvins = now.Between(233.15, hotK);
        (double temperature, double capacity, double left) = Melting.Of(Melting.At(kelvins, melted), highest);
        Assert.Equal(melted, left, 1e-12);
        Assert.Equal(kelvins, temperature, 1e-9);
        if (kelvins < hotK - 1e-6)
            Assert.Equal(Melting.SensibleCapacity(kelvins), capacity, 1e-9);
    }

    [Fact]
    public void Warmed_cooled_and_warmed_again_it_takes_the_latent_heat_once()
    {
        double cold = Melting.OnCurve(293.15), hot = Melting.OnCurve(273.15 + 60);
        double coldAgain = Melting.At(293.15, Melting.MeltedAt(hot));
        Assert.Equal(Latent, coldAgain - cold, 1e-9);
        Assert.Equal(hot - coldAgain, Liquid.OnCurve(273.15 + 60) - Liquid.OnCurve(293.15), 1e-8);

        // Half melted, cooled, and warmed past where it had been: the curve goes on from there.
        double half = Melting.OnCurve(273.15 + (FromC + ToC) / 2);
        Assert.Equal(0.5, Melting.MeltedAt(half), 1e-12);
        Assert.Equal(0.5, Melting.Of(Melting.At(293.15, 0.5), half).Melted, 1e-12);
        Assert.Equal(Melting.Of(half + 1000, half), Melting.Of(half + 1000, double.NegativeInfinity));
    }

    [Theory]
    [InlineData(FromC)]
    [InlineData(ToC)]
    public void Nothing_jumps_where_the_melting_begins_and_ends(double celsius)
    {
        double h = Melting.OnCurve(celsius + 273.15);
        (double below, _, double meltedBelow) = Melting.Of(h - 1e-6, double.NegativeInfinity);
        (double above, _, double meltedAbove) = Melting.Of(h + 1e-6, double.NegativeInfinity);
        Assert.InRange(above - below, 0, 2e-6 / A * 1.01);
        Assert.Equal(meltedBelow, meltedAbove, 1e-9);
    }

    [Property(Arbitrary = [typeof(Generators)])]
    public void The_capacity_is_the_slope_of_the_curve(Share share)
    {
        double kelvins = share.Between(240, 420), step = 1e-3;
        if (Math.Abs(kelvins - 273.15 - FromC) < 2 * step || Math.Abs(kelvins - 273.15 - ToC) < 2 * step)
            return; // A corner.
        double slope = (Melting.OnCurve(kelvins + step) - Melting.OnCurve(kelvins - step)) / (2 * step);
        Assert.Equal(slope, Melting.Of(Melting.OnCurve(kelvins), double.NegativeInfinity).HeatCapacity, 1e-5 * slope);
    }

    [Property(Arbitrary = [typeof(Generators)])]
    public void More_heat_is_never_colder_nor_less_melted(Share a, Share b, Share once)
    {
        double low = Melting.OnCurve(233.15), high = Melting.OnCurve(423.15), highest = once.Between(low, high);
        double less = Math.Min(a.Between(low, high), b.Between(low, high)), more = Math.Max(a.Between(low, high), b.Between(low, high));
        (double coldK, _, double meltedLess) = Melting.Of(less, highest);
        (double warmK, _, double meltedMore) = Melting.Of(more, highest);
        Assert.True(coldK <= warmK + 1e-10);
        Assert.True(meltedLess <= meltedMore + 1e-12);
    }

    [Theory]
    [InlineData(-1e9)]
    [InlineData(1e12)]
    public void A_trial_state_that_no_honey_has_gives_a_number(double h)
    {
        Assert.False(double.IsNaN(Melting.Of(h, 0).TemperatureK));
        Assert.False(double.IsNaN(Liquid.LiquidK(h)));
    }

    /// <summary>The heat capacity that a run takes is the one that the properties show, and the latent heat that of the crystals' share.</summary>
    [Fact]
    public void The_honey_of_a_run_has_the_capacity_of_its_properties_and_the_latent_heat_of_its_crystals()
    {
        HoneyProperties honey = HoneyProperties.Of(new Honey { Moisture = Ratio.FromPercent(17.8) });
        var heat = new HoneyHeat(honey, Crystals.Coarse(Ratio.FromPercent(12)));
        foreach (double celsius in new[] { 0.0, 20, 44, 66, 80 })
        {
            double published = honey.HeatCapacityAt(Temperature.FromDegreesCelsius(celsius)).JoulesPerKilogramKelvin;
            Assert.Equal(published, heat.Enthalpy.SensibleCapacity(celsius + 273.15), 1e-9 * published);
        }

        // 108.4 kJ per kg of crystals: equation 1 of the model.
        double across = heat.Enthalpy.OnCurve(273.15 + 65) - heat.Enthalpy.OnCurve(273.15 + 45);
        double sensible = 20 * honey.HeatCapacityAt(Temperature.FromDegreesCelsius(55)).JoulesPerKilogramKelvin;
        Assert.Equal(0.12 * 108_400, across - sensible, 0.1);
    }
}
