using System.Globalization;
using System.Text.Json.Nodes;
using FlowSim.Commands.Input;

namespace FlowSim.Docs;

/// <summary>TOML, as the program reads it, in the shape that a schema sees.</summary>
internal static class TomlJson
{
    /// <summary>A whole file.</summary>
    /// <param name="document">File as read.</param>
    /// <param name="dialect">What may stand in it.</param>
    public static JsonObject Of(InputDocument document, Dialect dialect)
    {
        JsonObject all = [];
        foreach ((string name, Dictionary<string, InputEntry> entries) in document.Sections)
        {
            JsonObject section = [];
            foreach (InputEntry entry in entries.Values)
                section[entry.Key] = Of(entry.Value);
            string list = name.Split(' ')[0];
            if (!dialect.Lists.Contains(list, StringComparer.Ordinal))
                all[name] = section;
            else if (all[list] is JsonArray before)
                before.Add((JsonNode)section);
            else
                all[list] = new JsonArray(section);
        }

        return all;
    }

    /// <summary>One value.</summary>
    /// <param name="value">Value as read.</param>
    public static JsonNode Of(InputValue value) => value.Kind switch
    {
        ValueKind.Number => double.TryParse(value.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? JsonNode.Parse(JsonNumber(value.Text, number))! : 0,
        ValueKind.Flag => value.Text == "true",
        ValueKind.List => new JsonArray([.. value.Items.Select(Of)]),
        ValueKind.Other => new JsonObject(),
        _ => value.Text,
    };

    /// <summary>A value as TOML writes it.</summary>
    /// <param name="toml">The value alone.</param>
    public static JsonNode OfValue(string toml)
    {
        Problems problems = new();
        InputDocument document = TomlReader.Read("[value]\nis = " + toml, "value", problems);
        return problems.Any ? throw new FormatException(problems.All[0].ToString()) : Of(document.Sections["value"]["is"].Value);
    }

    // Whole numbers keep all their digits.
    private static string JsonNumber(string text, double number) =>
        text.TrimStart('-').All(char.IsAsciiDigit) && text.TrimStart('-') is "0" or not ['0', ..] ? text : number.ToString("R", CultureInfo.InvariantCulture);
}
