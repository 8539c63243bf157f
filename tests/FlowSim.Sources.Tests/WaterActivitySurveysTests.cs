using FlowSim.Properties;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Water activity against moisture. The straight line is that of Chirife, Zamora &amp; Motto 2006; it is held against the ranges in the abstracts
/// of other surveys, which it was not fitted to.
/// </summary>
[Publication("Chirife, Zamora and Motto 2006", "J. Food Eng. 72:287", Standing.AbstractOnly, Remark = "straight over 15 to 21 %, r = 0.971; the coefficients from memory")]
public class WaterActivitySurveysTests
{
    // Lowest and highest moisture % and water activity.
    [Theory]
    [InlineData("33 Greek honeys", 13.0, 0.528, 18.9, 0.663)]
    [InlineData("706 Turkish flower honeys", 15.0, 0.470, 20.4, 0.563)]
    [InlineData("257 Turkish pine honeys", 15.1, 0.492, 20.4, 0.589)]
    [InlineData("Slovenian flower honeys", 14.0, 0.479, 18.6, 0.557)]
    [InlineData("Slovenian honeydew honeys", 13.4, 0.483, 18.0, 0.591)]
    [Publication("other surveys", "Lazaridou et al. 2004, J. Food Eng. 64:9 (Greek); Food Sci. Technol., doi 10.1590/1678-457X.31716 (Turkish); Abramovič et al. 2008, Food Control 19:1086 (Slovenian)", Standing.AbstractOnly)]
    public void The_line_and_its_spread_cover_the_ends_of_other_surveys(string survey, double lowW, double lowActivity, double highW, double highActivity)
    {
        // The driest honey is taken to have the lowest activity: all of them report a straight rise.
        Within spread = Within.Absolute(0.07, "the stated spread of the line");
        Published.Agrees(lowActivity, HoneyWaterActivity.Chirife2006(lowW), spread, $"{survey}, {lowW} %");
        Published.Agrees(highActivity, HoneyWaterActivity.Chirife2006(highW), spread, $"{survey}, {highW} %");
    }

    [Fact]
    public void The_supported_moisture_is_that_of_the_abstract()
    {
        Published.Agrees((15, 21), (HoneyWaterActivity.MoistureRange.Low, HoneyWaterActivity.MoistureRange.High), "moisture", "%");
    }
}
