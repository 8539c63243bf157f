using FlowSim.Properties;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Properties;

public class HoneyPropertiesTests
{
    [Theory]
    [InlineData(13.5)]
    [InlineData(21.5)]
    public void Moisture_at_the_outer_edge_is_taken(double moisturePercent) =>
        Assert.True(HoneyProperties.Of(Given.Honey(moisturePercent)).ViscosityAt(Given.Celsius(30)).PascalSeconds > 0);

    [Theory]
    [InlineData(13.49)]
    [InlineData(21.51)]
    [InlineData(-17)]
    [InlineData(1700)]
    public void Moisture_beyond_the_outer_edge_is_refused(double moisturePercent)
    {
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => HoneyProperties.Of(Given.Honey(moisturePercent)));
        Assert.Contains("13.5 to 21.5 %", e.Message, StringComparison.Ordinal);
        Assert.Equal("Moisture", e.ParamName);
    }

    [Fact]
    public void What_is_at_fault_in_a_honey_is_named()
    {
        Honey honey = Given.Honey(17);
        Assert.Equal("LotFactor", Assert.Throws<ArgumentOutOfRangeException>(() => HoneyProperties.Of(honey with { LotFactor = double.NaN })).ParamName);
        Assert.Equal("Form", Assert.Throws<ArgumentOutOfRangeException>(() => HoneyProperties.Of(honey with { Form = (HoneyForm)99 })).ParamName);
        Assert.Equal("honey", Assert.Throws<ArgumentNullException>(() => HoneyProperties.Of(null!)).ParamName);
    }

    [Theory]
    [InlineData(12)]
    [InlineData(23)]
    public void Measured_figures_take_honeys_as_dry_or_wet_as_the_density_goes(double moisturePercent)
    {
        Honey honey = Given.Honey(moisturePercent) with { Viscosity = new MeasuredViscosity(Given.Figure(30, 5)) };
        Assert.Equal(5, HoneyProperties.Of(honey).ViscosityAt(Given.Celsius(30)).PascalSeconds, 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(
            () => HoneyProperties.Of(honey with { Moisture = Ratio.FromPercent(moisturePercent + (moisturePercent > 17 ? 0.01 : -0.01)) }));
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(20)]
    public void A_lot_factor_at_the_edge_is_taken(double factor) =>
        Assert.Equal(factor, HoneyProperties.Of(Given.Honey(17) with { LotFactor = factor }).Honey.LotFactor);

    [Theory]
    [InlineData(0.0499)]
    [InlineData(20.01)]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_lot_factor_beyond_the_edge_is_refused(double factor)
    {
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(
            () => HoneyProperties.Of(Given.Honey(17) with { LotFactor = factor }));
        Assert.Contains("lot factor must be within 0.05 to 20", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(HoneyForm.Granulated)]
    [InlineData(HoneyForm.Gelling)]
    public void Honey_that_is_not_a_simple_liquid_is_refused_and_told_what_to_measure(HoneyForm form)
    {
        HoneyRefusedException e = Assert.Throws<HoneyRefusedException>(() => HoneyProperties.Of(Given.Honey(17) with { Form = form }));
        Assert.Contains("no published constants", e.Reason, StringComparison.Ordinal);
        Assert.Contains("Measure its viscosity", e.WhatToMeasure, StringComparison.Ordinal);
        Assert.StartsWith(e.Reason + " " + e.WhatToMeasure, e.Message, StringComparison.Ordinal);

        Honey measured = Given.Honey(17) with { Form = form, Viscosity = new MeasuredViscosity(Given.Figure(30, 40)) };
        Assert.Equal(40, HoneyProperties.Of(measured).ViscosityAt(Given.Celsius(30)).PascalSeconds, 1e-12);
    }

    [Fact]
    public void A_form_that_does_not_exist_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => HoneyProperties.Of(Given.Honey(17) with { Form = (HoneyForm)99 }));

    // Definition of the lot factor: it multiplies the viscosity, of measured figures too, and nothing else.
    [Property(Arbitrary = [typeof(Fractions)])]
    public void The_lot_factor_scales_viscosity_exactly_and_nothing_else(Fraction factor, Fraction moisture, Fraction temperature)
    {
        double f = factor.Within(LotFactorSpread.Range);
        double k = temperature.Between(283.15, 343.15);
        foreach (ViscosityCorrelation? c in new ViscosityCorrelation?[] { null, new ArrheniusViscosity(), new MeasuredViscosity(Given.Figure(40, 3)) })
        {
            Honey honey = Given.Honey(moisture.Between(13.5, 21.5)) with { Viscosity = c };
            HoneyProperties plain = HoneyProperties.Of(honey);
            HoneyProperties scaled = HoneyProperties.Of(honey with { LotFactor = f });
            Assert.Equal(f * plain.ViscosityPaS(k), scaled.ViscosityPaS(k));
            Assert.Equal(plain.DensityKgPerM3(k), scaled.DensityKgPerM3(k));
            Assert.Equal(plain.HeatCapacityJPerKgK(k), scaled.HeatCapacityJPerKgK(k));
            Assert.Equal(plain.ConductivityWPerMK(k), scaled.ConductivityWPerMK(k));
        }
    }

    [Property(Arbitrary = [typeof(Fractions)])]
    public void Density_falls_with_temperature_and_with_moisture(Fraction moisture, Fraction temperature)
    {
        double w = moisture.Between(13.5, 21.4);
        double k = temperature.Between(273.15, 352);
        HoneyProperties here = HoneyProperties.Of(Given.Honey(w));
        Assert.True(here.DensityKgPerM3(k + 1) < here.DensityKgPerM3(k));
        Assert.True(HoneyProperties.Of(Given.Honey(w + 0.1)).DensityKgPerM3(k) < here.DensityKgPerM3(k));
    }

    [Property(Arbitrary = [typeof(Fractions)])]
    public void The_density_slope_is_the_slope_of_the_density(Fraction moisture, Fraction temperature)
    {
        HoneyProperties p = HoneyProperties.Of(Given.Honey(moisture.Between(13.5, 21.5)));
        double k = temperature.Between(280, 340);
        double difference = p.DensityKgPerM3(k + 0.5) - p.DensityKgPerM3(k - 0.5); // exact for a parabola
        Assert.Equal(difference, p.DensitySlopeKgPerM3K(k), 1e-9); // rounding of two numbers near 1400
    }

    [Fact]
    public void Public_methods_give_what_the_kernels_give()
    {
        HoneyProperties p = HoneyProperties.Of(Given.Honey(17.4) with { LotFactor = 1.3 });
        Temperature t = Given.Celsius(34);
        double k = t.Kelvins;
        Assert.Equal(p.ViscosityPaS(k), p.ViscosityAt(t).PascalSeconds);
        Assert.Equal(p.DensityKgPerM3(k), p.DensityAt(t).KilogramsPerCubicMeter);
        Assert.Equal(p.HeatCapacityJPerKgK(k), p.HeatCapacityAt(t).JoulesPerKilogramKelvin);
        Assert.Equal(p.ConductivityWPerMK(k), p.ThermalConductivityAt(t).WattsPerMeterKelvin);
        Assert.Equal(-p.DensitySlopeKgPerM3K(k) / p.DensityKgPerM3(k), p.ThermalExpansionAt(t).PerKelvin, 1e-15); // its definition
    }

    // No NaN leaves a public method, whatever double goes in: FsCheck's doubles include NaN and the infinities.
    [Property(MaxTest = 500)]
    public void Any_temperature_gives_a_finite_positive_value_or_throws(double temperatureC)
    {
        HoneyProperties p = HoneyProperties.Of(Given.Honey(17));
        foreach (double t in new[] { temperatureC, temperatureC % 100 })
        {
            FinitePositiveOrThrows(() => p.ViscosityAt(Given.Celsius(t)).PascalSeconds);
            FinitePositiveOrThrows(() => p.DensityAt(Given.Celsius(t)).KilogramsPerCubicMeter);
            FinitePositiveOrThrows(() => p.ThermalExpansionAt(Given.Celsius(t)).PerKelvin);
            FinitePositiveOrThrows(() => p.HeatCapacityAt(Given.Celsius(t)).JoulesPerKilogramKelvin);
            FinitePositiveOrThrows(() => p.ThermalConductivityAt(Given.Celsius(t)).WattsPerMeterKelvin);
        }
    }

    [Property(MaxTest = 500)]
    public void Any_moisture_gives_finite_values_or_throws(double moisturePercent)
    {
        foreach (double w in new[] { moisturePercent, moisturePercent % 25 })
        {
            FinitePositiveOrThrows(() => HoneyProperties.Of(Given.Honey(w)).ViscosityAt(Given.Celsius(30)).PascalSeconds);
            FinitePositiveOrThrows(() => HoneyProperties.Of(Given.Honey(w)).WaterActivity.DecimalFractions);
            FinitePositiveOrThrows(() => HoneyProperties.Of(Given.Honey(w)).SurfaceTension.NewtonsPerMeter);
        }
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void A_temperature_that_is_not_a_number_always_throws(double temperatureC)
    {
        HoneyProperties p = HoneyProperties.Of(Given.Honey(17));
        Assert.ThrowsAny<ArgumentException>(() => p.ViscosityAt(Given.Celsius(temperatureC)));
        Assert.ThrowsAny<ArgumentException>(() => p.DensityAt(Given.Celsius(temperatureC)));
        Assert.ThrowsAny<ArgumentException>(() => p.ThermalExpansionAt(Given.Celsius(temperatureC)));
        Assert.ThrowsAny<ArgumentException>(() => p.HeatCapacityAt(Given.Celsius(temperatureC)));
        Assert.ThrowsAny<ArgumentException>(() => p.ThermalConductivityAt(Given.Celsius(temperatureC)));
        Assert.ThrowsAny<ArgumentException>(() => p.NoticesAt(Given.Celsius(temperatureC)));
        Assert.ThrowsAny<ArgumentException>(() => p.SheetAt(Given.Celsius(temperatureC)));
    }

    [Theory]
    [InlineData(10)]
    [InlineData(70)]
    public void Viscosity_is_given_to_the_outer_edge_of_temperature_and_not_beyond(double edgeC)
    {
        HoneyProperties p = HoneyProperties.Of(Given.Honey(17));
        Assert.True(p.ViscosityAt(Given.Celsius(edgeC)).PascalSeconds > 0);
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(
            () => p.ViscosityAt(Given.Celsius(edgeC + (edgeC > 40 ? 0.01 : -0.01))));
        Assert.Contains("10 to 70 °C", e.Message, StringComparison.Ordinal);
        Assert.Equal("temperature", e.ParamName);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(80)]
    public void The_other_properties_are_given_from_0_to_80_C_and_not_beyond(double edgeC)
    {
        Temperature at = Given.Celsius(edgeC);
        Temperature beyond = Given.Celsius(edgeC + (edgeC > 40 ? 0.01 : -0.01));
        foreach (ConductivityCorrelation c in ConductivityCorrelations.All)
        {
            HoneyProperties p = HoneyProperties.Of(Given.Honey(17) with { Conductivity = c });
            Assert.True(p.DensityAt(at).KilogramsPerCubicMeter > 0);
            Assert.True(p.ThermalExpansionAt(at).PerKelvin > 0);
            Assert.True(p.HeatCapacityAt(at).JoulesPerKilogramKelvin > 0);
            Assert.True(p.ThermalConductivityAt(at).WattsPerMeterKelvin > 0);
            Assert.Throws<ArgumentOutOfRangeException>(() => p.DensityAt(beyond));
            Assert.Throws<ArgumentOutOfRangeException>(() => p.ThermalExpansionAt(beyond));
            Assert.Throws<ArgumentOutOfRangeException>(() => p.HeatCapacityAt(beyond));
            Assert.Throws<ArgumentOutOfRangeException>(() => p.ThermalConductivityAt(beyond));
        }
    }

    [Theory]
    [InlineData(17, 20, new string[0])]
    [InlineData(14, 12, new string[0])]
    [InlineData(21, 60, new string[0])]
    [InlineData(13.9, 20, new[] { "range.vogel viscosity.moisture" })]
    [InlineData(17, 11.9, new[] { "range.vogel viscosity.temperature" })]
    [InlineData(17, 60.1, new[] { "range.vogel viscosity.temperature", "range.density.temperature" })]
    [InlineData(21.2, 61, new[] { "range.vogel viscosity.moisture", "range.vogel viscosity.temperature", "range.density.moisture", "range.density.temperature" })]
    public void Between_supported_and_outer_range_a_notice_says_so(double moisturePercent, double temperatureC, string[] codes)
    {
        IReadOnlyList<Notice> notices = HoneyProperties.Of(Given.Honey(moisturePercent)).NoticesAt(Given.Celsius(temperatureC));
        Assert.Equal(codes, notices.Select(n => n.Code), StringComparer.Ordinal);
    }

    [Fact]
    public void A_run_that_leaves_the_outer_range_gets_notices_and_no_exception() =>
        Assert.Contains(HoneyProperties.Of(Given.Honey(17)).NoticesAt(Given.Celsius(95)), n => n.Code == "range.vogel viscosity.temperature");

    [Fact]
    public void The_kernels_allocate_nothing()
    {
        // A run calls them at every stage of every step.
        HoneyProperties[] all =
        [
            HoneyProperties.Of(Given.Honey(17)),
            HoneyProperties.Of(Given.Honey(17) with { Viscosity = new MeasuredViscosity(Given.Figure(20, 12), Given.Figure(40, 1.8)) }),
        ];
        double sum = 0;
        Assert.Equal(0, Allocated.By(() => sum += Sum(all)));
        Assert.True(sum > 0);

        static double Sum(HoneyProperties[] all)
        {
            double sum = 0;
            foreach (HoneyProperties p in all)
            {
                for (double k = 290; k < 320; k++)
                    sum += p.ViscosityPaS(k) + p.DensityKgPerM3(k) + p.HeatCapacityJPerKgK(k) + p.ConductivityWPerMK(k);
            }

            return sum;
        }
    }

    private static void FinitePositiveOrThrows(Func<double> ask)
    {
        double value;
        try
        {
            value = ask();
        }
        catch (ArgumentException)
        {
            return;
        }

        Assert.True(double.IsFinite(value) && value > 0);
    }

    [Fact]
    public void What_a_honey_is_refused_for_is_told_by_its_form()
    {
        string Reason(HoneyForm form) => Assert.Throws<HoneyRefusedException>(() => HoneyProperties.Of(Given.Honey(17) with { Form = form })).Reason;
        Assert.StartsWith("Granulated honey is thicker than its liquid", Reason(HoneyForm.Granulated), StringComparison.Ordinal);
        Assert.StartsWith("Honey that sets to a gel at rest has no single viscosity", Reason(HoneyForm.Gelling), StringComparison.Ordinal);
    }

    /// <summary>A conductivity of one's own, known from 15 to 19 % only.</summary>
    private sealed class NarrowConductivity : ConductivityCorrelation
    {
        public override string Name => "own";

        public override Source Source { get; } = new("invented", Standing.GivenByUser);

        public override ValidityRange MoistureRange { get; } = new("own conductivity", "moisture", "%", 15, 19);

        public override ValidityRange TemperatureRange { get; } = new("own conductivity", "temperature", "°C", 0, 80);

        protected internal override double ConductivityWPerMK(double moisturePercent, double temperatureK) => 0.5;
    }

    /// <summary>
    /// Vogel's law reaches from 13.5 to 21.5 %, figures of one's own from 10 to 30, the density and others from 12 to 23: the narrowest counts,
    /// whichever it is, and the same is asked beforehand and when a honey is taken.
    /// </summary>
    [Fact]
    public void The_moistures_admitted_are_those_that_every_correlation_reaches()
    {
        var measured = new MeasuredViscosity(Given.Figure(30, 5));
        foreach ((ViscosityCorrelation? viscosity, ConductivityCorrelation? conductivity, double low, double high) in new (ViscosityCorrelation?, ConductivityCorrelation?, double, double)[]
        {
            (null, null, 13.5, 21.5),
            (measured, null, 12, 23),
            (measured, new NarrowConductivity(), 15, 19),
            (null, new NarrowConductivity(), 15, 19),
        })
        {
            Honey honey = Given.Honey(17) with { Viscosity = viscosity, Conductivity = conductivity };
            Assert.Equal((low, high), HoneyProperties.MoistureLimits(honey));
            foreach ((double percent, bool admitted) in new[] { (low - 0.01, false), (low, true), (high, true), (high + 0.01, false) })
            {
                Honey at = honey with { Moisture = Ratio.FromPercent(percent) };
                Assert.Equal(admitted, HoneyProperties.AdmitsMoisture(at));
                if (admitted)
                    Assert.Same(at, HoneyProperties.Of(at).Honey);
                else
                    Assert.Equal("Moisture", Assert.Throws<ArgumentOutOfRangeException>(() => HoneyProperties.Of(at)).ParamName);
            }
        }
    }

    /// <summary>The unchecked door leads to the same correlations as the checked one: a honey's own, or the defaults.</summary>
    [Fact]
    public void Numbers_in_place_of_a_honey_keep_its_correlations()
    {
        foreach (ViscosityCorrelation? viscosity in new ViscosityCorrelation?[] { null, new ArrheniusViscosity() })
        {
            foreach (ConductivityCorrelation? conductivity in new ConductivityCorrelation?[] { null, new HelveyConductivity() })
            {
                Honey honey = Given.Honey(17) with { Viscosity = viscosity, Conductivity = conductivity };
                HoneyProperties numbers = HoneyProperties.OfNumbers(honey, 18, 1.5);
                HoneyProperties asked = HoneyProperties.Of(honey with { Moisture = Ratio.FromPercent(18), LotFactor = 1.5 });
                Assert.Equal(viscosity?.Name ?? "vogel", numbers.Viscosity.Name);
                Assert.Equal(conductivity?.Name ?? "riedel", numbers.Conductivity.Name);
                Assert.Equal(asked.ViscosityPaS(310), numbers.ViscosityPaS(310), 1e-12);
                Assert.Equal(asked.ConductivityWPerMK(310), numbers.ConductivityWPerMK(310), 1e-12);
                Assert.Equal(conductivity?.Name ?? "riedel", asked.Conductivity.Name);
            }
        }
    }
}
