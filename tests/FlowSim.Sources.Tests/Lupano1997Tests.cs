using FlowSim.Warming;

namespace FlowSim.Sources.Tests;

/// <summary>
/// Lupano 1997, "DSC study of honey granulation stored at various temperatures", Food Res. Int. 30(9):683-688. Standing:
/// abstract only, as printed on the paper's first page. Coarse crystals, grown at 20 °C, melted between 45 and 65 °C; the fine,
/// fondant-like granulation grown at −20 °C between 25 and 45 °C.
/// </summary>
public class Lupano1997Tests
{
    [Fact]
    public void The_two_granulations_melt_where_the_paper_says()
    {
        Assert.Equal((45, 65), (Crystals.Coarse().MeltFrom.DegreesCelsius, Crystals.Coarse().MeltTo.DegreesCelsius));
        Assert.Equal((25, 45), (Crystals.Fine().MeltFrom.DegreesCelsius, Crystals.Fine().MeltTo.DegreesCelsius));
        Assert.Equal(Standing.AbstractOnly, Crystals.MeltingSource.Standing);
    }
}
