namespace FlowSim.RunSheets;

/// <summary>A figure.</summary>
/// <remarks>
/// The drawing becomes part of the page, so it may hold shapes, text and pictures and nothing that runs, styles the page or
/// fetches anything; else rendering throws <see cref="ArgumentException"/>.
/// </remarks>
/// <param name="Svg">The drawing: one SVG document with a view box.</param>
/// <param name="Caption">What stands beneath it.</param>
/// <param name="Alternative">What it shows, for those who do not see it.</param>
public sealed record FigureBlock(string Svg, string Caption, string Alternative) : SheetBlock;
