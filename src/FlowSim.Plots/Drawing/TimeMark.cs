namespace FlowSim.Plots.Drawing;

/// <summary>Something that happened at a moment, or over a stretch, with its words.</summary>
/// <param name="X">Where its line stands, in units of the axis.</param>
/// <param name="Text">Words.</param>
/// <param name="Look">Look of its line.</param>
internal sealed record TimeMark(double X, string Text, LineLook Look);

/// <summary>A shaded stretch of the time axis.</summary>
/// <param name="From">Begin, in units of the axis.</param>
/// <param name="To">End.</param>
/// <param name="Hex">Colour.</param>
internal sealed record TimeSpell(double From, double To, string Hex = TimeSpell.PaleVermillion)
{
    /// <summary>Light grey in print.</summary>
    public const string PaleVermillion = "#FAE0D2";

    /// <summary>Light grey in print.</summary>
    public const string PaleBlue = "#DCEBF7";
}
