using FlowSim.Warming;

namespace FlowSim.Sources.Tests;

/// <summary>Coarse crystals, grown at 20 °C, melted between 45 and 65 °C; the fine, fondant-like granulation grown at −20 °C between 25 and 45 °C.</summary>
[Publication("Lupano 1997", "DSC study of honey granulation stored at various temperatures, Food Res. Int. 30(9):683-688", Standing.AbstractOnly, Remark = "as printed on the paper's first page")]
public class Lupano1997Tests
{
    [Fact]
    public void The_two_granulations_melt_where_the_paper_says()
    {
        Published.Agrees((45, 65), (Crystals.Coarse().MeltFrom.DegreesCelsius, Crystals.Coarse().MeltTo.DegreesCelsius), "coarse crystals melt", "°C");
        Published.Agrees((25, 45), (Crystals.Fine().MeltFrom.DegreesCelsius, Crystals.Fine().MeltTo.DegreesCelsius), "fine crystals melt", "°C");
        Assert.Equal(Standing.AbstractOnly, Crystals.MeltingSource.Standing);
    }
}
