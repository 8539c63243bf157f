using System.Globalization;
using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>One scale of colours for all maps of a sheet, with round levels on it.</summary>
/// <remarks>Inferno: evenly spaced to the eye, rising in lightness, so that it keeps its order in grey and without colour vision.</remarks>
internal sealed class ColourScale
{
    private const int MostLevels = 8;

    // The black end would swallow outlines, the palest one the paper.
    private const double DarkestShare = 0.1;
    private const double PalestShare = 0.97;

    private static readonly ScottPlot.Colormaps.Inferno s_colours = new();

    /// <summary>A scale from the lowest to the highest value, at least one unit wide.</summary>
    public ColourScale(double lowest, double highest)
    {
        double middle = (lowest + highest) / 2;
        double half = Math.Max(highest - lowest, 1) / 2;
        Low = middle - half;
        High = middle + half;
        Step = NiceStep((High - Low) / MostLevels);
        int first = (int)Math.Ceiling(Low / Step);
        int last = (int)Math.Floor(High / Step);
        Levels = [.. Enumerable.Range(first, Math.Max(0, last - first + 1)).Select(i => Math.Round(i * Step, 9))];
    }

    public double Low { get; }

    public double High { get; }

    public double Step { get; }

    public IReadOnlyList<double> Levels { get; }

    public Color Of(double value) =>
        s_colours.GetColor(DarkestShare + (PalestShare - DarkestShare) * Math.Clamp((value - Low) / (High - Low), 0, 1));

    /// <summary>Black or white, whichever shows on the colour of a value.</summary>
    public string InkOn(double value) => InkOn(Of(value));

    /// <summary>Black or white, whichever shows on a colour.</summary>
    public static string InkOn(Color colour)
    {
        // Weights of Rec. 601, from memory: near enough to tell dark from light.
        return 0.299 * colour.R + 0.587 * colour.G + 0.114 * colour.B < 140 ? "#FFFFFF" : OkabeIto.Black;
    }

    /// <summary>Draws the scale as a bar with its levels under it.</summary>
    public void DrawBar(FigureSheet sheet, float left, float top, float right, string label, float textPx)
    {
        const float HeightPx = 26;
        const int Columns = 256;
        PixelRect bar = new(left, right, top + HeightPx, top);
        sheet.Picture(bar, Columns, 1, (column, _) => Of(Low + (High - Low) * column / (Columns - 1.0)));
        LineLook frame = new(OkabeIto.Black, 1.5f);
        sheet.Pieces([(left, top, right, top), (right, top, right, bar.Bottom), (right, bar.Bottom, left, bar.Bottom), (left, bar.Bottom, left, top)], frame);
        foreach (double level in Levels)
        {
            float x = left + (float)((level - Low) / (High - Low)) * (right - left);
            sheet.Line(x, top, x, bar.Bottom, new(InkOn(level), 1.8f));
            sheet.Line(x, bar.Bottom, x, bar.Bottom + 7, frame);
            string words = level.ToString("0.#####", CultureInfo.InvariantCulture);
            sheet.Text(words, x - sheet.Measure(words, textPx) / 2, bar.Bottom + 22, textPx);
        }

        sheet.Text(label, (left + right - sheet.Measure(label, textPx)) / 2, bar.Bottom + 54, textPx);
    }

    /// <summary>The smallest of 1, 2 and 5 times a power of ten that is not below a given step.</summary>
    public static double NiceStep(double least)
    {
        double decade = Math.Pow(10, Math.Floor(Math.Log10(least)));
        foreach (double digit in (ReadOnlySpan<double>)[1, 2, 5])
        {
            if (digit * decade >= least * (1 - 1e-9))
                return digit * decade;
        }

        return 10 * decade;
    }
}
