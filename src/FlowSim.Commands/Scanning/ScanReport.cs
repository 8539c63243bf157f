using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands.Scanning;

/// <summary>A scan as text, CSV, JSON and what is drawn of it.</summary>
/// <typeparam name="T">Result of a run.</typeparam>
/// <param name="run">The scan.</param>
/// <param name="columns">What is told of each run.</param>
internal sealed class ScanReport<T>(ScanRun<T> run, IReadOnlyList<ScanColumn<T>> columns)
{
    /// <summary>Most rows that a screen has room for.</summary>
    private const int MostRows = 25;

    /// <summary>Most values of a second key that curves can be told apart of.</summary>
    public const int MostCurves = 5;

    private const int FirstColumn = 16;
    private const int Column = 14;

    /// <summary>One row for each run, SI.</summary>
    public string Csv() => CsvText.OfRows(
        [.. run.Scans.Select(scan => scan.Column), .. columns.Select(column => column.Csv)],
        run.Rows.Select(row => (IReadOnlyList<object?>)[.. row.Values.Cast<object?>(), .. columns.Select(column => column.Value(row.Result))]));

    /// <summary>An array with an object for each run: the keys that are scanned under <c>scan</c>, SI, and what came out.</summary>
    public string Json() => JsonText.Array(run.Rows, (json, row) =>
    {
        json.WriteStartObject("scan");
        for (int i = 0; i < run.Scans.Count; i++)
            json.Number(run.Scans[i].Key, row.Values[i]);
        json.WriteEndObject();
        foreach (ScanColumn<T> column in columns)
        {
            if (column.Value(row.Result) is string word)
                json.WriteString(column.Json, word);
            else
                json.Number(column.Json, (double?)column.Value(row.Result));
        }
    });

    /// <summary>Writes the table.</summary>
    /// <param name="page">Takes the text.</param>
    public void WriteRows(Page page)
    {
        page.Heading(Printable.Of(run.Name, 70));
        ScanColumn<T>[] shown = [.. columns.Where(column => column.Head is not null)];
        string keys = string.Join(", ", run.Scans.Select(scan => scan.Key));
        page.Line($"{keys}, {Count(run.Rows.Count)}");
        page.Line((string.Empty.PadRight(FirstColumn) + string.Concat(shown.Select(column => column.Head!.PadRight(Column)))).TrimEnd());
        int rows = Math.Min(MostRows, run.Rows.Count);
        for (int i = 0; i < rows; i++)
        {
            ScanRow<T> row = run.Rows[rows == 1 ? 0 : (int)Math.Round(i * (run.Rows.Count - 1) / (double)(rows - 1))];
            page.Line(("  " + Values(row)).PadRight(FirstColumn) + string.Concat(shown.Select(column => (column.Text!(row.Result) + " ").PadRight(Column))).TrimEnd());
        }

        if (rows < run.Rows.Count)
            page.Item("", $"{rows.ToString(CultureInfo.InvariantCulture)} of them are shown; --csv FILE writes all.");
        page.Blank();
    }

    /// <summary>Writes what there is to say of all runs.</summary>
    /// <param name="page">Takes the text.</param>
    /// <param name="bad">Whether a run ended badly.</param>
    /// <param name="verdict">What such a run does, the begin of a sentence, as in "The strainer runs over".</param>
    public void WriteOutcome(Page page, Func<T, bool> bad, string verdict)
    {
        page.Heading("Result");
        ScanRow<T>[] ended = [.. run.Rows.Where(row => bad(row.Result))];
        string all = Count(run.Rows.Count);
        string verdictText = ended.Length == 0 ? $"{verdict} in none of the {all}."
            : ended.Length == run.Rows.Count ? $"{verdict} in all {all}."
            : $"{verdict} in {ended.Length.ToString(CultureInfo.InvariantCulture)} of the {all}{Where(ended)}.";
        page.Outcome(verdictText, ended.Length > 0);
    }

    /// <summary>What is drawn of it.</summary>
    /// <param name="display">Units.</param>
    public Figure.Scan Figure(Display display)
    {
        Scan first = run.Scans[0];
        int step = run.Scans.Count == 1 ? 1 : run.Scans[1].Values.Count;
        List<Figure.ScanCurve> curves = [];
        foreach (ScanColumn<T> column in columns.Where(column => column.Curve is { } curve && (step == 1 || curve.InGrid)))
        {
            for (int second = 0; second < step; second++)
            {
                int at = second;
                T[] results = [.. first.Values.Select((_, i) => run.Rows[i * step + at].Result)];
                string suffix = step == 1 ? string.Empty : ", " + run.Scans[1].InShort(run.Scans[1].Values[second]);
                curves.Add(CurveOf(column, results, suffix, display) is var drawn && second > 0 ? drawn with { Limit = null } : drawn);
            }
        }

        return new Figure.Scan(
            [.. run.Scans.Select(scan => scan.Key)],
            first.Unit?.Symbol ?? string.Empty,
            [.. first.Values.Select(first.Shown)],
            run.Nominal is { } nominal ? first.Shown(nominal) : null,
            curves);
    }

    private Figure.ScanCurve CurveOf(ScanColumn<T> column, T[] results, string suffix, Display display)
    {
        ScanCurve<T> curve = column.Curve!;
        (string unit, Func<double, double> shown) = CurveUnit.Of(curve.Measure, display, LargestOf(curve.Measure));
        double[]? Curve(Func<T, double?>? of) => of is null ? null : [.. results.Select(result => of(result) is { } si ? shown(si) : double.NaN)];
        return new Figure.ScanCurve(curve.Name + suffix, unit, Curve(result => (double?)column.Value(result))!)
        {
            Low = Curve(curve.Low),
            High = Curve(curve.High),
            BandName = curve.BandName,
            Limit = curve.Limit?.Invoke(results[0]) is { } limit ? shown(limit) : null,
            LimitName = curve.LimitName,
        };
    }

    /// <summary>Largest value of all curves that share a unit, so that they get the same one.</summary>
    private double LargestOf(CurveMeasure measure) => columns
        .Where(column => column.Curve?.Measure == measure)
        .SelectMany(column => run.Rows.Select(row => (double?)column.Value(row.Result) ?? 0))
        .DefaultIfEmpty(0).Max();

    private string Values(ScanRow<T> row) => string.Join(", ", run.Scans.Select((scan, i) => scan.InShort(row.Values[i])));

    private string Where(ScanRow<T>[] ended) => ended.Length == 1
        ? ": at " + Values(ended[0])
        : $": first at {Values(ended[0])}, last at {Values(ended[^1])}";

    private static string Count(int runs) => runs.ToString(CultureInfo.InvariantCulture) + " runs";
}
