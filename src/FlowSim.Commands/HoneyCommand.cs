using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Properties;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim honey</c> was asked for.</summary>
internal sealed record HoneyRequest : FilesRequest
{
    public bool Table { get; init; }

    public HoneyProperty Property { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static HoneyRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Json = options.Json(),
        Table = options.Flag("--table", "Print one property over moisture and temperature."),
        Property = options.Word("--property", "NAME", "Property of the table.", HoneyProperty.Viscosity),
        Plot = options.Output("--plot", "Write the viscosity curves to FILE, .png or .svg."),
        Units = options.Units(),
        Force = options.Force(),
    };
}

/// <summary>Prints the properties of one honey, or one property over a grid.</summary>
internal static class HoneyCommand
{
    private static readonly double[] s_gridMoisturePercent = [14, 15, 16, 17, 18, 19, 20, 21];
    private static readonly double[] s_gridCelsius = [15, 20, 25, 30, 35, 40, 45, 50, 55, 60];
    private static readonly double[] s_gridFahrenheit = [60, 70, 80, 90, 95, 100, 110, 120, 130, 140];

    public static int Run(HoneyRequest request, Surroundings around)
    {
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings);
        AskedFiles files = new(request, around, loaded, seriesPoints: null, Asked.Drawing("--plot", request.Plot));
        (Honey honey, Temperature temperature) = Loader.ReadHoney(loaded);
        PropertySheet sheet = Loader.Guard(loaded, () => HoneyProperties.Of(honey).SheetAt(temperature));
        PropertyTable? table = request.Table ? Loader.Guard(loaded, () => Grid(honey, request)) : null;
        files.Draw(request.Plot, () => new Figure.Viscosity(honey));
        if (request.Json)
        {
            around.Json.Write(HoneyJson.Of(sheet, table, loaded.Journal));
            return ExitCode.Done;
        }

        WriteText(sheet, table, loaded, request, around);
        Outputs.Tell(around, files.All);
        return ExitCode.Done;
    }

    private static PropertyTable Grid(Honey honey, HoneyRequest request) => PropertyTable.Of(
        honey,
        request.Property,
        s_gridMoisturePercent.Select(percent => Ratio.FromPercent(percent)),
        request.Units == UnitChoice.Us
            ? s_gridFahrenheit.Select(t => Temperature.FromKelvins((t - 32) / 1.8 + 273.15))
            : s_gridCelsius.Select(t => Temperature.FromKelvins(t + 273.15)));

    private static void WriteText(PropertySheet sheet, PropertyTable? table, Loaded loaded, HoneyRequest request, Surroundings around)
    {
        Display display = new(request.Units);
        Page page = new(around.Output, around.Width, around.Colour);
        page.Heading($"{Printable.Of(loaded.Name, 70)}");
        page.Line($"{Display.Share(sheet.Honey.Moisture.DecimalFractions)} moisture at {display.Temperature(sheet.Temperature.Kelvins)}");
        page.Blank();
        if (table is null)
            WriteSheet(page, sheet, display);
        else
            WriteTable(page, table, display);
        foreach (string echo in loaded.Journal.Echoes)
            page.Item("- ", echo);
        foreach (Assumption assumption in loaded.Journal.Assumptions)
            page.Item("- ", $"{display.Words(assumption.Text)} [{StandingText.Of(assumption.Standing)}; {assumption.Key}]");
        if (table is not null)
            return;
        page.Blank();
        ResultText.WriteNotices(page, display, [.. sheet.Lines.SelectMany(line => line.Notices).DistinctBy(notice => notice.Code, StringComparer.Ordinal)]);
    }

    private static void WriteSheet(Page page, PropertySheet sheet, Display display)
    {
        foreach (PropertyLine line in sheet.Lines)
        {
            string value = line.Value is { } number ? Display.Figures(number, FiguresOf(line, number)) + (line.Unit.Length == 0 ? string.Empty : " " + line.Unit) : "no value here";
            string mark = line.Notices.Count > 0 ? "~ " : string.Empty;
            page.Line((line.Name.PadRight(22) + value.PadRight(20) + mark + SpreadText(line.Spread)).TrimEnd());
        }

        if (sheet.Lines.Any(line => line.Notices.Count > 0))
            page.Item("", "~ extrapolated, see the notices.");
        if (display.System == UnitChoice.Us)
            page.Item("", "The properties are given in SI units.");
        page.Blank();
        page.Heading("Where they come from");
        foreach (IGrouping<string, PropertyLine> lines in sheet.Lines.GroupBy(line => line.Source.Citation, StringComparer.Ordinal))
        {
            PropertyLine line = lines.First();
            page.Item("- ", $"{string.Join(", ", lines.Select(l => l.Name))} ({line.Correlation}): {Range(line.MoistureRange)}, {display.Words(Range(line.TemperatureRange))}. {line.Source.Citation} [{StandingText.Of(line.Source.Standing)}]");
        }

        page.Blank();
    }

    /// <summary>As many figures as the spread leaves: four when it is below a percent.</summary>
    private static int FiguresOf(PropertyLine line, double value)
    {
        (double low, double high) = line.Spread.Around(value);
        return high - low < 0.02 * Math.Abs(value) ? 4 : 3;
    }

    private static string SpreadText(PropertySpread spread) =>
        spread.Kind == SpreadKind.Absolute ? "± " + double.Parse(Display.Figures(spread.Amount, 2), CultureInfo.InvariantCulture).ToString("0.######", CultureInfo.InvariantCulture) : spread.ToString();

    private static void WriteTable(Page page, PropertyTable table, Display display)
    {
        const int Width = 7;
        string degrees = display.System == UnitChoice.Us ? "°F" : "°C";
        (double scale, string times) = ScaleOf(table);
        page.Heading($"{Words.Of(table.Property)}{(table.Unit.Length + times.Length == 0 ? string.Empty : ", " + (times + table.Unit).Trim())}");
        page.Line(("% \\ " + degrees).PadRight(9) + string.Concat(table.Temperatures.Select(t => display.TemperatureNumber(t.Kelvins).PadLeft(Width))));
        for (int row = 0; row < table.Moistures.Count; row++)
        {
            string line = table.Moistures[row].Percent.ToString("0.#", CultureInfo.InvariantCulture).PadRight(9);
            foreach (PropertyTable.Cell cell in table.Cells[row])
                line += (cell.Value is { } value ? (cell.Supported ? string.Empty : "~") + Display.Figures(value / scale, 3) : "-").PadLeft(Width);
            page.Line(line);
        }

        page.Item("", "~ extrapolated: no data there.  - outside the range of the correlation.");
        page.Blank();
    }

    /// <summary>A power of ten that leaves small values wide enough apart for their columns.</summary>
    private static (double Scale, string Text) ScaleOf(PropertyTable table)
    {
        double largest = table.Cells.SelectMany(row => row).Max(cell => Math.Abs(cell.Value ?? 0));
        if (largest is 0 or >= 0.01)
            return (1, string.Empty);
        int power = (int)Math.Floor(Math.Log10(largest));
        return (Math.Pow(10, power), FormattableString.Invariant($"1e{power} "));
    }

    private static string Range(ValidityRange range) => FormattableString.Invariant($"{range.Low:0.##} to {range.High:0.##} {range.Unit}");
}
