using System.Text.Json;
using FlowSim.Commands.Input;
using FlowSim.Properties;

namespace FlowSim.Commands.Output;

/// <summary>The properties of a honey as JSON.</summary>
internal static class HoneyJson
{
    public static string Of(PropertySheet sheet, PropertyTable? table, Journal journal) => JsonText.Object(json =>
    {
        json.Number("moistureShare", sheet.Honey.Moisture.DecimalFractions);
        json.Number("temperatureK", sheet.Temperature.Kelvins);
        json.Number("lotFactor", sheet.Honey.LotFactor);
        json.Objects("properties", sheet.Lines, line =>
        {
            json.WriteString("property", Words.Of(line.Property));
            json.Number("value", line.Value);
            json.WriteString("unit", line.Unit);
            (double Low, double High)? around = line.Value is { } value ? line.Spread.Around(value) : null;
            json.Number("low", around?.Low);
            json.Number("high", around?.High);
            json.WriteString("correlation", line.Correlation);
            json.WriteString("source", line.Source.Citation);
            json.WriteString("standing", Words.Of(line.Source.Standing));
        });
        json.Notices(sheet.Lines.SelectMany(line => line.Notices).DistinctBy(notice => notice.Code, StringComparer.Ordinal));
        if (table is not null)
            Table(json, table);
        ResultJson.Input(json, journal);
    });

    private static void Table(Utf8JsonWriter json, PropertyTable table)
    {
        json.WriteStartObject("table");
        json.WriteString("property", Words.Of(table.Property));
        json.WriteString("unit", table.Unit);
        json.Numbers("moistureShare", table.Moistures.Select(m => m.DecimalFractions));
        json.Numbers("temperatureK", table.Temperatures.Select(t => t.Kelvins));
        json.Objects("rows", table.Cells, row =>
        {
            json.Numbers("values", row.Select(cell => cell.Value ?? double.NaN));
            json.WriteStartArray("supported");
            foreach (PropertyTable.Cell cell in row)
                json.WriteBooleanValue(cell.Supported);
            json.WriteEndArray();
        });
        json.WriteEndObject();
    }
}
