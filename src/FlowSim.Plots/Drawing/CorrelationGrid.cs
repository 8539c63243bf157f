using System.Globalization;
using ScottPlot;

namespace FlowSim.Plots.Drawing;

/// <summary>Correlations below the diagonal as squares with their figures: blue for those that rise together, orange for those that go against each other.</summary>
/// <remarks>The figure in each cell carries the sign, so that the colours may fail the reader.</remarks>
internal sealed class CorrelationGrid
{
    private const float RowPx = 44;
    private const float NumberPx = 30;
    private const float NamesShare = 0.46f;
    private const float MostCellPx = 120;
    private const float TextOfCellsPx = 21;

    // Blue and orange of equal lightness towards white; words on them stay black.
    private static readonly Color s_together = Color.FromHex("#5AA9DC");
    private static readonly Color s_against = Color.FromHex("#EFA44A");

    private readonly string[] _names;
    private readonly IReadOnlyList<IReadOnlyList<double>> _values;
    private readonly Frame _frame;

    /// <summary>Lays out the grid.</summary>
    /// <param name="frame">Where things stand.</param>
    /// <param name="names">Names, one for each row.</param>
    /// <param name="values">Correlations [i][j], −1 to 1; only j below i is read.</param>
    public CorrelationGrid(Frame frame, string[] names, IReadOnlyList<IReadOnlyList<double>> values)
    {
        (_frame, _names, _values) = (frame, names, values);
    }

    /// <summary>Height, px.</summary>
    public float HeightPx => _names.Length * RowPx;

    public void Draw(FigureSheet sheet, float top)
    {
        float text = _frame.TextPx;
        float cells = Frame.MarginPx + NamesShare * _frame.Widest;
        float cell = Math.Min(MostCellPx, (_frame.Width - Frame.MarginPx - cells) / Math.Max(1, _names.Length - 1));
        for (int i = 0; i < _names.Length; i++)
        {
            float middle = top + (i + 0.5f) * RowPx;
            string number = (i + 1).ToString(CultureInfo.InvariantCulture);
            sheet.Text(number, Frame.MarginPx, middle, text, bold: true);
            sheet.Text(FigureText.Fit(_names[i], sheet.Font(text), cells - Frame.MarginPx - NumberPx - 10), Frame.MarginPx + NumberPx, middle, text);
            for (int j = 0; j < i; j++)
            {
                double value = double.IsFinite(_values[i][j]) ? Math.Clamp(_values[i][j], -1, 1) : 0;
                float left = cells + j * cell;
                sheet.Fill(left + 1, middle - RowPx / 2 + 1, left + cell - 1, middle + RowPx / 2 - 1, Mixed(value > 0 ? s_together : s_against, Math.Abs(value)));
                string words = (Math.Round(value, 2) + 0.0).ToString("0.00", CultureInfo.InvariantCulture).Replace('-', '−');
                sheet.Text(words, left + (cell - sheet.Measure(words, TextOfCellsPx)) / 2, middle, TextOfCellsPx);
            }

            // Each column begins on the diagonal with the number of its row.
            if (i < _names.Length - 1)
                sheet.Text(number, cells + (i + 0.5f) * cell - sheet.Measure(number, text, bold: true) / 2, middle, text, bold: true);
        }
    }

    private static string Mixed(Color full, double share)
    {
        byte Channel(byte channel) => (byte)Math.Round(255 + share * (channel - 255));
        return new Color(Channel(full.R), Channel(full.G), Channel(full.B)).ToHex();
    }
}
