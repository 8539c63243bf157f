using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace FlowSim.Commands.Output;

/// <summary>Writes JSON with names in a fixed order and never a value that JSON does not have.</summary>
internal static class JsonText
{
    private static readonly JsonWriterOptions s_options = new()
    {
        Indented = true,
        NewLine = "\n",

        // Units and names stay readable; control characters are escaped all the same, and below what is invisible or turns the direction of writing.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>An object, with a line end behind it.</summary>
    /// <param name="write">Writes what is inside.</param>
    public static string Object(Action<Utf8JsonWriter> write) => Text(json =>
    {
        json.WriteStartObject();
        write(json);
        json.WriteEndObject();
    });

    /// <summary>An array of objects, with a line end behind it.</summary>
    /// <param name="items">Items.</param>
    /// <param name="write">Writes what is inside of one.</param>
    public static string Array<T>(IEnumerable<T> items, Action<Utf8JsonWriter, T> write) => Text(json =>
    {
        json.WriteStartArray();
        foreach (T item in items)
        {
            json.WriteStartObject();
            write(json, item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    });

    private static string Text(Action<Utf8JsonWriter> write)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, s_options))
            write(json);
        return Plain(Encoding.UTF8.GetString(stream.GetBuffer(), 0, (int)stream.Length)) + "\n";
    }

    /// <summary>JSON whose strings, the only place where such characters can stand, hold nothing that a terminal would obey.</summary>
    private static string Plain(string json)
    {
        StringBuilder? plain = null;
        int at = 0;
        foreach (Rune rune in json.EnumerateRunes())
        {
            int next = at + rune.Utf16SequenceLength;
            if (rune.Value != '\n' && !Printable.IsPlain(rune))
            {
                plain ??= new StringBuilder(json, 0, at, json.Length + 64);
                for (int i = at; i < next; i++)
                    plain.Append(CultureInfo.InvariantCulture, $"\\u{(int)json[i]:X4}");
            }
            else
            {
                plain?.Append(json, at, next - at);
            }

            at = next;
        }

        return plain?.ToString() ?? json;
    }

    public static void Number(this Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
            json.WriteNumber(name, number);
        else
            json.WriteNull(name);
    }

    public static void Numbers(this Utf8JsonWriter json, string name, IEnumerable<double> values)
    {
        json.WriteStartArray(name);
        foreach (double value in values)
        {
            if (double.IsFinite(value))
                json.WriteNumberValue(value);
            else
                json.WriteNullValue();
        }

        json.WriteEndArray();
    }

    public static void Objects<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            json.WriteStartObject();
            write(item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static void Notices(this Utf8JsonWriter json, IEnumerable<Notice> notices) => json.Objects("notices", notices, notice =>
    {
        json.WriteString("code", notice.Code);
        json.WriteString("seen", notice.Seen);
        json.WriteString("mayMean", notice.MayMean);
        json.WriteString("helps", notice.Helps);
    });

    public static void Cautions(this Utf8JsonWriter json, IEnumerable<Caution> cautions) => json.Objects("cautions", cautions, caution =>
    {
        json.WriteString("code", caution.Code);
        json.WriteString("text", caution.Text);
    });
}
