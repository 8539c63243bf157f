using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using FlowSim.Commands.Input;
using FlowSim.Commands.Quantities;

namespace FlowSim.Docs.Tests;

/// <summary>Batches that nobody would write: the example with some keys changed, taken out or added, well and badly.</summary>
/// <param name="random">Where chance comes from.</param>
internal sealed class RandomBatch(Random random)
{
    private static readonly JsonSerializerOptions s_plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static readonly string[] s_keys =
        [.. Keys.All.Select(key => key.ToString()).Concat(Keys.Sections.SelectMany(section => ShapeKeys.Of(section).Select(parameter => section + "." + parameter.Key))).Where(key => !key.StartsWith("calibration.", StringComparison.Ordinal)).Distinct(StringComparer.Ordinal)];

    private static readonly string[] s_words =
        ["liquid", "eu", "us", "straight", "round-holed", "vented", "sealed", "bypass", "spill", "closed", "open", "rack", "warm-air", "bath", "body", "honey", "fine", "complete", "cone", "bag", "flat-disc", "upright-cylinder", "pail-19l", "gate-38mm", "jar-1lb", "auto", "nothing", "everything"];

    private static readonly string[] s_grammars =
        ["0 min 40%", "5 min, 25 %", "12 h ramp 40 °C", "0 h 35 °C", "35 °C, 3 Pa.s", "30 °C, 5.1 Pa.s", "600 um / 400 um", "600/400 um", "astm 40", "ASTM No. 40", "mesh 60 / 160 um", "cloth-200um", "polyethylene 2 mm", "foam, 30 mm", "honey.moisture, debris.load, 0.5", "honey.moisture, debris.load", "2026-11-27"];

    private static readonly string[] s_nonsense = ["", " ", "a lot", "12", "12,5 mm", "1 000 mm", "mm", "5 furlong", "17.8 ±", "± 3 %", "x/ 3", "normal(1)", "-", "1..2 mm", "1/0 in", "NaN", "∞ mm"];

    /// <summary>The example, changed.</summary>
    public JsonObject Next()
    {
        Problems problems = new();
        JsonObject batch = TomlJson.Of(TomlReader.Read(Demo.Text, "demo.toml", problems), Dialect.Batch);
        for (int changes = random.Next(1, 4); changes > 0; changes--)
        {
            string[] key = s_keys[random.Next(s_keys.Length)].Split('.');
            if (batch[key[0]] is not JsonObject section)
                batch[key[0]] = section = [];
            if (random.Next(8) == 0)
                section.Remove(key[1]);
            else
                section[key[1]] = Fitting(key[0], key[1]);
        }

        if (random.Next(20) == 0)
            batch[random.Next(2) == 0 ? "honye" : "tank"] = new JsonObject { ["levell"] = "3 mm" };
        return batch;
    }

    /// <summary>As TOML.</summary>
    /// <param name="batch">Batch.</param>
    public static string Toml(JsonObject batch)
    {
        StringBuilder text = new();
        foreach ((string name, JsonNode? section) in batch)
        {
            text.Append(CultureInfo.InvariantCulture, $"[{name}]\n");
            foreach ((string key, JsonNode? value) in (JsonObject)section!)
                text.Append(CultureInfo.InvariantCulture, $"\"{key}\" = {value!.ToJsonString(s_plain)}\n");
        }

        return text.ToString();
    }

    /// <summary>A quantity, spelt in one of the many ways there are.</summary>
    /// <param name="dimension">What is measured.</param>
    public string Quantity(Dimension dimension)
    {
        Unit[] units = [.. Units.All.Where(unit => unit.Dimension == dimension)];
        Unit unit = units[random.Next(units.Length)];
        string[] spellings = [.. unit.Exact, .. unit.AnyCase.Select(text => random.Next(2) == 0 ? text.ToUpperInvariant() : text)];
        string spelling = Alike(spellings[random.Next(spellings.Length)]);
        return Number() + Blank() + spelling + (random.Next(9) == 0 ? Blank() : string.Empty);
    }

    private JsonNode Fitting(string section, string name)
    {
        Key? key = Keys.All.FirstOrDefault(key => key.Section == section && key.Name == name);
        return random.Next(10) switch
        {
            0 => Any(),
            1 => s_nonsense[random.Next(s_nonsense.Length)],
            2 or 3 => Spread(key?.Dimension ?? Dimension.Length),
            4 => new JsonArray(s_grammars[random.Next(s_grammars.Length)], s_grammars[random.Next(s_grammars.Length)]),
            _ => key?.Kind switch
            {
                KeyKind.Number => random.Next(3) == 0 ? random.Next(1, 100) : random.NextDouble() * 3,
                KeyKind.Flag => random.Next(2) == 0,
                KeyKind.Word => Cased(s_words[random.Next(s_words.Length)]),
                KeyKind.List => new JsonArray(s_grammars[random.Next(s_grammars.Length)]),
                KeyKind.Text => random.Next(2) == 0 ? s_grammars[random.Next(s_grammars.Length)] : random.Next(100),
                _ => Quantity(key?.Dimension ?? Dimension.Length),
            },
        };
    }

    private JsonNode Any() => random.Next(6) switch
    {
        0 => random.Next(2) == 0,
        1 => random.Next(-5, 100),
        2 => random.NextDouble(),
        3 => new JsonArray(),
        4 => new JsonArray(Quantity(AnyDimension()), random.Next(3)),
        _ => Quantity(AnyDimension()),
    };

    private Dimension AnyDimension() => Enum.GetValues<Dimension>()[random.Next(Enum.GetValues<Dimension>().Length)];

    private string Spread(Dimension dimension) => random.Next(5) switch
    {
        0 => $"{Quantity(dimension)} ± {Quantity(dimension == Dimension.Temperature ? Dimension.TemperatureDifference : dimension)}",
        1 => $"{Number()} +- {Quantity(dimension)}",
        2 => $"{Quantity(dimension)} x/ 1.5",
        3 => $"{Number()} TO {Quantity(dimension)}",
        _ => $"Triangular( 1, 2, {Quantity(dimension)})",
    };

    private string Number() => random.Next(7) switch
    {
        0 => "1 1/2",
        1 => "3/4",
        2 => ".5",
        3 => "2.5e1",
        4 => "+30",
        5 => "\u22122",
        _ => random.Next(1, 100).ToString(CultureInfo.InvariantCulture),
    };

    private string Blank() => random.Next(4) switch { 0 => string.Empty, 1 => "\u00A0", 2 => "  ", _ => " " };

    private string Cased(string word) => random.Next(3) == 0 ? " " + word.ToUpperInvariant() : word;

    /// <summary>A unit with other signs that look alike, and with blanks, brackets or a power sign in it.</summary>
    private string Alike(string unit)
    {
        string text = random.Next(3) switch
        {
            0 => unit.Replace('u', '\u00B5').Replace('.', '\u00B7').Replace('2', '\u00B2').Replace("°C", "\u2103", StringComparison.Ordinal),
            1 => unit.Replace("m2", "m^2", StringComparison.Ordinal).Replace("/K", "/(K)", StringComparison.Ordinal),
            _ => unit,
        };
        int at = random.Next(1, Math.Max(2, text.Length));
        return random.Next(6) == 0 && at < text.Length && char.IsAsciiLetter(text[at]) ? text.Insert(at, " ") : text;
    }
}
