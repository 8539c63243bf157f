using FlowSim.Screens;
using FsCheck.Xunit;
using UnitsNet;

namespace FlowSim.Tests.Screens;

public class ClothTests
{
    /// <summary>50 wires per inch of 0.009 in: pitch 0.508 mm, opening 0.508 − 0.2286 = 0.2794 mm (arithmetic with the exact inch).</summary>
    [Fact]
    public void Mesh_count_leaves_the_rest_of_the_inch()
    {
        Cloth cloth = Cloth.FromMeshCount(50, Length.FromInches(0.009));
        Assert.Equal(0.2794, cloth.Opening.Millimeters, 1e-12);
        Assert.Equal(0.2286, cloth.WireDiameter.Millimeters, 1e-12);
    }

    [Theory]
    [InlineData(1, 0.2, "wiresPerInch")]
    [InlineData(501, 0.02, "wiresPerInch")]
    [InlineData(50, 0.51, "wireDiameter")]
    [InlineData(50, 0.495, "wireDiameter")]
    [InlineData(2, 0.5, "wireDiameter")]
    [InlineData(50, 0.001, "wireDiameter")]
    public void Mesh_counts_without_a_usable_opening_are_refused(double wiresPerInch, double wireMm, string argument) =>
        Assert.Equal(argument, Assert.Throws<ArgumentOutOfRangeException>(() => Cloth.FromMeshCount(wiresPerInch, Length.FromMillimeters(wireMm))).ParamName);

    [Fact]
    public void Unknown_sieves_give_the_nearest()
    {
        Assert.Contains("Nearest: No. 30 (600 µm)", Assert.Throws<ArgumentOutOfRangeException>(() => Cloth.FromAstmSieve(31)).Message, StringComparison.Ordinal);
        Assert.Contains("Nearest: 400 µm with 250 µm wire", Assert.Throws<ArgumentOutOfRangeException>(() => Cloth.FromStandardOpening(Length.FromMicrometers(407))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Cloth.FromStandardOpening(Length.FromMicrometers(double.MaxValue)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Cloth.FromAstmSieve(int.MinValue));
    }

    /// <summary>Surface and void of one cell from the wires themselves: two cylinders of length √(p² + d²) in p × p × 2d.</summary>
    [Property(Arbitrary = [typeof(Generators)])]
    public void Surface_and_void_by_counting_wires_in_a_cell(Share opening, Share wire)
    {
        double w = opening.LogBetween(2e-5, 1e-2);
        double d = wire.Between(0.2, 1) * w;
        double p = w + d;
        double length = 2 * Math.Sqrt(p * p + d * d);
        double cell = p * p * SquareCloth.ThicknessM(d);
        Assert.Equal(length * Math.PI * d / cell, SquareCloth.SpecificSurfacePerM(w, d), 1e-12 / d);
        Assert.Equal(1 - length * Math.PI * d * d / 4 / cell, SquareCloth.Porosity(w, d), 1e-12);
    }

    [Property(Arbitrary = [typeof(Generators)])]
    public void Finer_cloth_of_the_same_pattern_resists_in_proportion(Share opening, Share factor)
    {
        double w = opening.LogBetween(1e-4, 1e-3);
        double k = factor.Between(1, 10);
        double r = SquareCloth.ResistancePerMArmourCannon1968(w, 0.6 * w);
        Assert.Equal(r / k, SquareCloth.ResistancePerMArmourCannon1968(k * w, 0.6 * k * w), 1e-12 * r);
    }

    /// <summary>4γ/w: with γ = 0.060 N/m (inside 0.055 ± 0.006, from memory) 400 µm cloth needs 600 Pa, 44 mm of honey of 1400 kg/m³.</summary>
    [Fact]
    public void Air_needs_about_forty_millimetres_of_honey_through_wet_cloth()
    {
        double pa = SquareCloth.AirEntryPressurePa(0.060, 400e-6);
        Assert.Equal(600, pa, 1e-10);
        Assert.Equal(44, pa / (1400 * 9.81) * 1000, 0.5);
    }
}
