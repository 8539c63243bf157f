using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>A ball on the axis of a cylinder: a series, against a closed form.</summary>
[Publication("Faxén 1922", "Ann. Phys. 68:89, held against Haberman and Sayre 1958, David Taylor Model Basin Report 1143", Standing.SecondaryCopy, Remark = "Haberman and Sayre's closed form was read in a public program that checks a boundary-element solution against it to 1 %")]
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
        Published.Agrees(
            theirs, SphereFall.WallFactorFaxen1922(ratio), Within.Relative(relative, "the stated error of the series, which grows with the ball"), $"wall factor at d/D {ratio}");
    }

    [Theory]
    [InlineData(0.1, 1.263)]
    [InlineData(0.2, 1.680)]
    [Publication("Haberman and Sayre 1958, exact drag", "David Taylor Model Basin Report 1143", Standing.FromMemory)]
    public void Agrees_with_the_exact_drag(double ratio, double drag) =>
        Published.Agrees(drag, 1 / SphereFall.WallFactorFaxen1922(ratio), Within.Absolute(1.5e-3, "a unit of the last digit and the error of the series"), $"factor of the drag at d/D {ratio}");

    [Fact]
    public void Is_no_longer_good_at_a_half()
    {
        Published.Deviates(
            HabermanSayre1958(0.5),
            SphereFall.WallFactorFaxen1922(0.5),
            Within.Ratio(1.04, 1.1, "so near the wall the series goes astray, which is why it ends at 0.32 and wider balls are refused"),
            "wall factor at d/D 0.5");
        Assert.False(SphereFall.FaxenRange.Admits(0.5));
    }

    [Fact]
    public void A_wide_vessel_needs_no_correction() => Assert.Equal(1, SphereFall.WallFactorFaxen1922(0));

    /// <summary>Speed in the cylinder over that in a wide vessel.</summary>
    internal static double HabermanSayre1958(double l) =>
        (1 - 2.1050 * l + 2.0865 * Math.Pow(l, 3) - 1.7068 * Math.Pow(l, 5) + 0.72603 * Math.Pow(l, 6)) / (1 - 0.75857 * Math.Pow(l, 5));
}
