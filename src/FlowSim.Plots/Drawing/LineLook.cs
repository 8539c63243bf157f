using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>How a curve looks. No two curves of a panel share colour, pattern and width, so that any one of them may fail the reader.</summary>
/// <param name="Hex">Colour.</param>
/// <param name="WidthPx">Width, px.</param>
/// <param name="Dash">Lengths drawn and left, px; empty for a solid line.</param>
internal sealed record LineLook(string Hex, float WidthPx, params float[] Dash)
{
    public Color Color => Color.FromHex(Hex);

    public LinePattern Pattern => Dash.Length == 0 ? LinePattern.Solid : new LinePattern(Dash, 0, "custom");
}

/// <summary>The colours of Okabe and Ito (2008), "Color Universal Design", hexadecimal values from memory; yellow is left out, too pale on white.</summary>
internal static class OkabeIto
{
    public const string Black = "#000000";
    public const string Orange = "#E69F00";
    public const string SkyBlue = "#56B4E9";
    public const string BluishGreen = "#009E73";
    public const string Blue = "#0072B2";
    public const string Vermillion = "#D55E00";
    public const string ReddishPurple = "#CC79A7";
}
