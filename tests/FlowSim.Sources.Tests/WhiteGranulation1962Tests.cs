using FlowSim.ShelfLife;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Glucose over water: "&lt; 1.7 tends to remain liquid for a long time, while one with a ratio &gt; 2.1 usually crystallizes quickly". The averages of
/// White 1962: honeys that stayed liquid for half a year 1.58, those that set hard 2.24.
/// </summary>
[Publication("White 1962", "USDA TB 1261, glucose over water", Standing.SecondaryCopy, Remark = "the classes as a public page gives them; the two averages, 1.58 and 2.24, from memory")]
public class WhiteGranulation1962Tests
{
    [Theory]
    [InlineData(1.58, GranulationTendency.Slow)]
    [InlineData(1.69, GranulationTendency.Slow)]
    [InlineData(1.7, GranulationTendency.Between)]
    [InlineData(2.1, GranulationTendency.Between)]
    [InlineData(2.11, GranulationTendency.Fast)]
    [InlineData(2.24, GranulationTendency.Fast)]
    public void Classes(double ratio, GranulationTendency tendency) =>
        Published.Agrees(tendency, Granulation.OfRatioWhite1962(ratio), $"granulation at glucose over water {ratio}");
}
