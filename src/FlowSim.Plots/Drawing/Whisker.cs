using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>A figure with its band at one place: a bar with ends, and a marker on it.</summary>
/// <param name="X">Where.</param>
/// <param name="Low">Low end of the band.</param>
/// <param name="Best">The figure.</param>
/// <param name="High">High end of the band.</param>
/// <param name="Marker">Marker; <see cref="MarkerShape.None"/> for none.</param>
/// <param name="Hex">Colour.</param>
internal sealed record Whisker(double X, double Low, double Best, double High, MarkerShape Marker, string Hex)
{
    private const float HalfEndPx = 8;

    public void Draw(FigureSheet sheet, float x, Func<double, float> yOf)
    {
        if (!double.IsFinite(Low) || !double.IsFinite(Best) || !double.IsFinite(High))
            return;

        LineLook look = new(Hex, 2.5f);
        sheet.Line(x, yOf(Low), x, yOf(High), look);
        foreach (double end in (ReadOnlySpan<double>)[Low, High])
            sheet.Line(x - HalfEndPx, yOf(end), x + HalfEndPx, yOf(end), look);
        if (Marker != MarkerShape.None)
            sheet.Marker(x, yOf(Best), Marker, 15, Hex);
    }
}
