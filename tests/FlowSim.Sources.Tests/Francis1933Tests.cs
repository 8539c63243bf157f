using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>A ball on the axis of a cylinder, by experiment.</summary>
[Publication("Francis 1933", "Physics 4:403, the formula as given after Chhabra 1992 in Steffe, Rheological Methods in Food Process Engineering, eq. 1.103", Standing.SecondaryCopy, Remark = "that page of Steffe was opened")]
public class Francis1933Tests
{
    /// <summary>An independent experiment confirms the series where the ball is small.</summary>
    [Theory]
    [Publication("Faxén's series as coded here", "Ann. Phys. 68:89", Standing.Derived, Remark = "both formulas are ours; what is compared is an experiment with a theory")]
    [InlineData(0.01, 0.001)]
    [InlineData(0.05, 0.002)]
    [InlineData(0.1, 0.007)]
    [InlineData(0.2, 0.026)]
    public void Agrees_with_Faxen_for_small_balls(double ratio, double relative)
    {
        double faxen = SphereFall.WallFactorFaxen1922(ratio);
        Published.Agrees(faxen, SphereFall.WallFactorFrancis1933(ratio), Within.Relative(relative, "the experiment leaves the series as the ball grows"), $"wall factor at d/D {ratio}");
    }

    [Fact]
    [Publication("Haberman and Sayre 1958", "David Taylor Model Basin Report 1143", Standing.SecondaryCopy, Remark = "read in a public program that checks a boundary-element solution against it to 1 %")]
    public void Is_within_nine_percent_of_Haberman_and_Sayre()
    {
        for (double ratio = 0.01; ratio <= 0.6; ratio += 0.01)
        {
            Published.Agrees(
                Faxen1922Tests.HabermanSayre1958(ratio),
                SphereFall.WallFactorFrancis1933(ratio),
                Within.Ratio(1, 1.09, "the stated error of the formula"),
                $"wall factor at d/D {ratio:F2}");
        }
    }

    /// <summary>A ball as wide as the jar stands still.</summary>
    [Fact]
    public void Ends_at_the_wall() => Assert.Equal(0, SphereFall.WallFactorFrancis1933(1));
}
