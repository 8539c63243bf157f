using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Faxén 1922, Ann. Phys. 68:89: a ball on the axis of a cylinder, against Haberman and Sayre 1958, David Taylor Model Basin Report 1143.
/// Their closed form was read in a public program that checks a boundary-element solution against it to 1 %; the exact factors of the
/// drag, 1.263 at a tenth and 1.680 at a fifth, are from memory.
/// </summary>
public class Faxen1922Tests
{
    [Theory]
    [InlineData(0.02, 5e-4)]
    [InlineData(0.05, 5e-4)]
    [InlineData(0.1, 5e-4)]
    [InlineData(0.15, 5e-4)]
    [InlineData(0.2, 5e-4)]
    [InlineData(0.25, 1.5e-3)]
    [InlineData(0.32, 3.5e-3)]
    public void Agrees_with_Haberman_and_Sayre(double ratio, double relative)
    {
        double theirs = HabermanSayre1958(ratio);
        Assert.Equal(theirs, SphereFall.WallFactorFaxen1922(ratio), relative * theirs);
    }

    [Theory]
    [InlineData(0.1, 1.263)]
    [InlineData(0.2, 1.680)]
    public void Agrees_with_the_exact_drag(double ratio, double drag) =>
        Assert.Equal(drag, 1 / SphereFall.WallFactorFaxen1922(ratio), 1.5e-3);

    /// <summary>Beyond its end the series goes astray, which is why it ends there.</summary>
    [Fact]
    public void Is_no_longer_good_at_a_half() =>
        Assert.True(SphereFall.WallFactorFaxen1922(0.5) > 1.04 * HabermanSayre1958(0.5) && !SphereFall.FaxenRange.Admits(0.5));

    [Fact]
    public void A_wide_vessel_needs_no_correction() => Assert.Equal(1, SphereFall.WallFactorFaxen1922(0));

    /// <summary>Speed in the cylinder over that in a wide vessel.</summary>
    internal static double HabermanSayre1958(double l) =>
        (1 - 2.1050 * l + 2.0865 * Math.Pow(l, 3) - 1.7068 * Math.Pow(l, 5) + 0.72603 * Math.Pow(l, 6)) / (1 - 0.75857 * Math.Pow(l, 5));
}
