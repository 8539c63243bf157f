using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace FlowSim.Docs;

/// <summary>JSON as text.</summary>
internal static class Json
{
    private static readonly JsonSerializerOptions s_options = new() { WriteIndented = true, IndentSize = 1, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The text of a document, with an end of line.</summary>
    /// <param name="node">Document.</param>
    public static string Text(JsonNode node) => node.ToJsonString(s_options).ReplaceLineEndings("\n") + "\n";

    /// <summary>A list of texts.</summary>
    /// <param name="texts">Texts.</param>
    public static JsonArray Array(IEnumerable<string> texts) => [.. texts.Select(text => (JsonNode)text)];
}
