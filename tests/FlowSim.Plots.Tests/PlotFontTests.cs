using FlowSim.Plots.Drawing;
using ScottPlot;

namespace FlowSim.Plots.Tests;

public class PlotFontTests
{
    [Fact]
    public void ScottPlot_gets_the_embedded_font_whatever_is_installed()
    {
        string family = PlotFont.Register();
        Assert.Same(FigureFont.Regular, Fonts.GetTypeface(family, bold: false, italic: false));
        Assert.Same(FigureFont.Bold, Fonts.GetTypeface(family, bold: true, italic: false));
    }
}
