using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Tests.Properties;

public class PropertySheetTests
{
    [Fact]
    public void The_sheet_holds_every_property_once_with_source_spread_and_unit()
    {
        PropertySheet sheet = HoneyProperties.Of(Given.Honey(17)).SheetAt(Given.Celsius(25));
        Assert.Equal(Enum.GetValues<HoneyProperty>(), sheet.Lines.Select(l => l.Property));
        foreach (PropertyLine line in sheet.Lines)
        {
            Assert.NotNull(line.Value);
            Assert.NotEmpty(line.Source.Citation);
            Assert.NotEmpty(line.Spread.ToString());
            Assert.Empty(line.Notices);
            Assert.True(line.Spread.Around(line.Value.Value).Low < line.Value);
            Assert.Equal(line.Property == HoneyProperty.WaterActivity, line.Unit.Length == 0);
        }
    }

    [Fact]
    public void A_line_gives_the_value_of_the_property_asked_for_directly()
    {
        HoneyProperties p = HoneyProperties.Of(Given.Honey(17.4) with { LotFactor = 0.8 });
        Temperature t = Given.Celsius(34);
        PropertySheet sheet = p.SheetAt(t);
        Assert.Equal(p.ViscosityAt(t).PascalSeconds, sheet[HoneyProperty.Viscosity].Value!.Value, 1e-12);
        Assert.Equal(p.DensityAt(t).KilogramsPerCubicMeter, sheet[HoneyProperty.Density].Value!.Value, 1e-9);
        Assert.Equal(p.ThermalExpansionAt(t).PerKelvin, sheet[HoneyProperty.ThermalExpansion].Value!.Value, 1e-15);
        Assert.Equal(p.HeatCapacityAt(t).JoulesPerKilogramKelvin, sheet[HoneyProperty.HeatCapacity].Value!.Value, 1e-9);
        Assert.Equal(p.ThermalConductivityAt(t).WattsPerMeterKelvin, sheet[HoneyProperty.ThermalConductivity].Value!.Value, 1e-12);
        Assert.Equal(p.SurfaceTension.NewtonsPerMeter, sheet[HoneyProperty.SurfaceTension].Value);
        Assert.Equal(p.WaterActivity.DecimalFractions, sheet[HoneyProperty.WaterActivity].Value!.Value, 1e-12);
    }

    [Fact]
    public void Beyond_the_outer_range_a_line_has_a_notice_and_no_value()
    {
        PropertySheet sheet = HoneyProperties.Of(Given.Honey(17)).SheetAt(Given.Celsius(75));
        Assert.Null(sheet[HoneyProperty.Viscosity].Value);
        Assert.NotEmpty(sheet[HoneyProperty.Viscosity].Notices);
        Assert.NotNull(sheet[HoneyProperty.Density].Value);
        Assert.NotEmpty(sheet[HoneyProperty.Density].Notices);
    }

    [Fact]
    public void The_spread_of_viscosity_is_the_lot_factor_unless_it_was_measured()
    {
        // exp(0.30) = 1.3499 (table value of the exponential).
        PropertyLine assumed = HoneyProperties.Of(Given.Honey(17)).LineAt(HoneyProperty.Viscosity, Given.Celsius(30));
        Assert.Equal(SpreadKind.Factor, assumed.Spread.Kind);
        Assert.Equal(1.3499, assumed.Spread.Amount, 0.00005);
        Assert.Equal("×/÷ 1.35", assumed.Spread.ToString());

        Honey measured = Given.Honey(17) with { Viscosity = new MeasuredViscosity(Given.Figure(30, 5)) };
        Assert.Equal(SpreadKind.OfMeasurement, HoneyProperties.Of(measured).LineAt(HoneyProperty.Viscosity, Given.Celsius(30)).Spread.Kind);
    }

    [Fact]
    public void Spreads_reach_as_far_as_they_say()
    {
        Assert.Equal((8, 12), new PropertySpread(SpreadKind.Absolute, 2).Around(10));
        Assert.Equal((5, 20), new PropertySpread(SpreadKind.Factor, 2).Around(10));
        Assert.Equal((9, 11), new PropertySpread(SpreadKind.Percent, 10).Around(10));
        Assert.Equal((10, 10), new PropertySpread(SpreadKind.OfMeasurement, 0).Around(10));
    }

    [Fact]
    public void A_table_has_a_row_per_moisture_and_says_where_it_is_extrapolated()
    {
        double[] moistures = [13, 13.5, 17, 21.5, 22];
        double[] temperatures = [9, 10, 20, 70, 71];
        PropertyTable table = PropertyTable.Of(
            Given.Honey(17) with { LotFactor = 2 },
            HoneyProperty.Viscosity,
            moistures.Select(w => Ratio.FromPercent(w)),
            temperatures.Select(Given.Celsius));

        Assert.Equal("Pa·s", table.Unit);
        Assert.Equal(5, table.Cells.Count);
        Assert.All(table.Cells, row => Assert.Equal(5, row.Count));
        Assert.All(table.Cells[0].Concat(table.Cells[4]), cell => Assert.Null(cell.Value));
        Assert.Null(table.Cells[2][0].Value);
        Assert.Null(table.Cells[2][4].Value);
        Assert.False(table.Cells[2][1].Supported);
        Assert.True(table.Cells[2][2].Supported);
        double expected = HoneyProperties.Of(Given.Honey(17) with { LotFactor = 2 }).ViscosityAt(Given.Celsius(20)).PascalSeconds;
        Assert.Equal(expected, table.Cells[2][2].Value!.Value, 1e-12);
        Assert.NotNull(table.Cells[1][1].Value);
        Assert.False(table.Cells[1][1].Supported);
    }

    [Fact]
    public void An_empty_table_and_a_refused_honey_are_errors()
    {
        Temperature[] t = [Given.Celsius(20)];
        Ratio[] w = [Ratio.FromPercent(17)];
        Assert.Throws<ArgumentException>(() => PropertyTable.Of(Given.Honey(17), HoneyProperty.Density, [], t));
        Assert.Throws<ArgumentException>(() => PropertyTable.Of(Given.Honey(17), HoneyProperty.Density, w, []));
        Assert.Throws<HoneyRefusedException>(() => PropertyTable.Of(Given.Honey(17) with { Form = HoneyForm.Gelling }, HoneyProperty.Density, w, t));
    }

    [Fact]
    public void A_property_that_does_not_exist_is_refused()
    {
        HoneyProperties p = HoneyProperties.Of(Given.Honey(17));
        Assert.Throws<ArgumentOutOfRangeException>(() => p.LineAt((HoneyProperty)99, Given.Celsius(20)));
        Assert.Throws<ArgumentOutOfRangeException>(() => HoneyProperties.UnitOf((HoneyProperty)99));
    }

    [Fact]
    public void A_sheet_has_no_line_of_a_property_that_does_not_exist()
    {
        PropertySheet sheet = HoneyProperties.Of(Given.Honey(17)).SheetAt(Given.Celsius(25));
        Assert.Equal("property", Assert.Throws<ArgumentOutOfRangeException>(() => sheet[(HoneyProperty)99]).ParamName);
    }

    /// <summary>Twice 1e308 is beyond all numbers, half of it is not.</summary>
    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(1e308)]
    public void A_spread_reaches_only_to_numbers(double value)
    {
        Assert.Equal("value", Assert.Throws<ArgumentOutOfRangeException>(() => new PropertySpread(SpreadKind.Factor, 2).Around(value)).ParamName);
        Assert.Equal((4e307, 1.6e308), new PropertySpread(SpreadKind.Factor, 2).Around(8e307));
    }

    [Fact]
    public void What_a_table_needs_is_named()
    {
        Temperature[] t = [Given.Celsius(20)];
        Ratio[] w = [Ratio.FromPercent(17)];
        Assert.Equal("honey", Assert.Throws<ArgumentNullException>(() => PropertyTable.Of(null!, HoneyProperty.Density, w, t)).ParamName);
        Assert.Equal("moistures", Assert.Throws<ArgumentNullException>(() => PropertyTable.Of(Given.Honey(17), HoneyProperty.Density, null!, t)).ParamName);
        Assert.Equal("temperatures", Assert.Throws<ArgumentNullException>(() => PropertyTable.Of(Given.Honey(17), HoneyProperty.Density, w, null!)).ParamName);
    }

    /// <summary>At 22 % Vogel's law has ended: the cell is empty and no data support it.</summary>
    [Fact]
    public void An_empty_cell_is_not_supported()
    {
        PropertyTable table = PropertyTable.Of(Given.Honey(17), HoneyProperty.Viscosity, [Ratio.FromPercent(22), Ratio.FromPercent(17)], [Given.Celsius(20), Given.Celsius(90)]);
        Assert.All([table.Cells[0][0], table.Cells[0][1], table.Cells[1][1]], cell => Assert.Equal(new PropertyTable.Cell(null, Supported: false), cell));
        Assert.True(table.Cells[1][0] is { Value: > 0, Supported: true });
    }
}
