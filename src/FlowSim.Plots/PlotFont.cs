using FlowSim.Plots.Drawing;

namespace FlowSim.Plots;

/// <summary>The font of FlowSim's figures, for plots of one's own. It is embedded: a machine without fonts would leave out every word.</summary>
public static class PlotFont
{
    /// <summary>Makes the font known to ScottPlot.</summary>
    /// <returns>The name to give ScottPlot, as in <c>plot.Font.Set(PlotFont.Register())</c>.</returns>
    public static string Register()
    {
        FigureFont.Register();
        return FigureFont.Family;
    }
}
