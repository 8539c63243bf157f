namespace FlowSim.Plots.Drawing;

/// <summary>Where things stand on a sheet, px.</summary>
/// <param name="Width">Width of the sheet.</param>
/// <param name="Height">Height of the sheet.</param>
/// <param name="TextPx">Size of all words but the title.</param>
/// <param name="RightPx">Margin right of the data areas, for the names of their lines.</param>
internal sealed record Frame(int Width, int Height, float TextPx, float RightPx)
{
    public const float MarginPx = 22;
    public const float DataLeftPx = 118;
    private const float TitlePx = 30;
    private const float SmallestTitlePx = 23;
    private const float LinePx = 32;

    public float DataRightPx => Width - RightPx;

    public float Widest => Width - 2 * MarginPx;

    /// <summary>Draws the title and lines under it; what is too wide is cut.</summary>
    /// <returns>Where the rest of the sheet begins.</returns>
    public float DrawHeadings(FigureSheet sheet, string title, IReadOnlyList<string> under)
    {
        float size = TitlePx;
        while (size > SmallestTitlePx && sheet.Measure(title, size, bold: true) > Widest)
            size--;
        sheet.Text(FigureText.Fit(title, sheet.Font(size, bold: true), Widest), MarginPx, 34, size, bold: true);
        for (int i = 0; i < under.Count; i++)
            sheet.Text(FigureText.Fit(under[i], sheet.Font(TextPx), Widest), MarginPx, 70 + i * LinePx, TextPx);
        return 62 + under.Count * LinePx;
    }
}
