using FlowSim.FieldMeasurements;

namespace FlowSim.Sources.Tests;

/// <summary>Francis 1933, Physics 4:403, by experiment; the formula as given after Chhabra 1992 in Steffe, Rheological Methods in Food Process Engineering, eq. 1.103, of which that page was opened.</summary>
public class Francis1933Tests
{
    /// <summary>An independent experiment confirms Faxén's series where the ball is small.</summary>
    [Theory]
    [InlineData(0.01, 0.001)]
    [InlineData(0.05, 0.002)]
    [InlineData(0.1, 0.007)]
    [InlineData(0.2, 0.026)]
    public void Agrees_with_Faxen_for_small_balls(double ratio, double relative)
    {
        double faxen = SphereFall.WallFactorFaxen1922(ratio);
        Assert.Equal(faxen, SphereFall.WallFactorFrancis1933(ratio), relative * faxen);
    }

    /// <summary>The stated error: 9 % at most against Haberman and Sayre.</summary>
    [Fact]
    public void Is_within_nine_percent_of_Haberman_and_Sayre()
    {
        for (double ratio = 0.01; ratio <= 0.6; ratio += 0.01)
            Assert.InRange(SphereFall.WallFactorFrancis1933(ratio) / Faxen1922Tests.HabermanSayre1958(ratio), 1, 1.09);
    }

    /// <summary>A ball as wide as the jar stands still.</summary>
    [Fact]
    public void Ends_at_the_wall() => Assert.Equal(0, SphereFall.WallFactorFrancis1933(1));
}
