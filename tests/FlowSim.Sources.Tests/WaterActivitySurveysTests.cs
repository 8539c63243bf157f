using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Water activity against moisture. The straight line is that of Chirife, Zamora &amp; Motto 2006, J. Food Eng. 72:287 (abstract
/// opened: straight over 15 to 21 %, r = 0.971; coefficients from memory). Held against the ranges in the abstracts of other
/// surveys, which the line was not fitted to.
/// </summary>
public class WaterActivitySurveysTests
{
    // Lowest and highest moisture % and water activity. Standing: abstracts.
    [Theory]
    [InlineData(13.0, 0.528, 18.9, 0.663)] // Lazaridou et al. 2004, J. Food Eng. 64:9, 33 Greek honeys
    [InlineData(15.0, 0.470, 20.4, 0.563)] // 706 Turkish flower honeys, Food Sci. Technol., doi 10.1590/1678-457X.31716
    [InlineData(15.1, 0.492, 20.4, 0.589)] // 257 Turkish pine honeys, same
    [InlineData(14.0, 0.479, 18.6, 0.557)] // Abramovič et al. 2008, Food Control 19:1086, Slovenian flower honeys
    [InlineData(13.4, 0.483, 18.0, 0.591)] // same, honeydew honeys
    public void The_line_and_its_spread_cover_the_ends_of_other_surveys(double lowW, double lowActivity, double highW, double highActivity)
    {
        // The driest honey is taken to have the lowest activity: all of them report a straight rise. 0.07 is the stated spread.
        Assert.Equal(lowActivity, HoneyWaterActivity.Chirife2006(lowW), 0.07);
        Assert.Equal(highActivity, HoneyWaterActivity.Chirife2006(highW), 0.07);
    }

    [Fact]
    public void The_supported_moisture_is_that_of_the_abstract()
    {
        Assert.Equal((15, 21), (HoneyWaterActivity.MoistureRange.Low, HoneyWaterActivity.MoistureRange.High));
    }
}
