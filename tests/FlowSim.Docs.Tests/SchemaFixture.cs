using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace FlowSim.Docs.Tests;

/// <summary>A schema with another's validator.</summary>
internal sealed class SchemaFixture
{
    private static readonly EvaluationOptions s_options = new() { OutputFormat = OutputFormat.Flag };

    private readonly JsonSchema _schema;

    private SchemaFixture(JsonObject schema) => _schema = JsonSchema.FromText(schema.ToJsonString());

    /// <summary>The schema of a batch.</summary>
    public static SchemaFixture Batch { get; } = new(BatchSchema.Make());

    /// <summary>The schema of a day.</summary>
    public static SchemaFixture Day { get; } = new(DaySchema.Make());

    /// <summary>Whether it lets a file pass.</summary>
    /// <param name="file">File.</param>
    public bool Takes(JsonNode file) => _schema.Evaluate(JsonSerializer.SerializeToElement(file), s_options).IsValid;
}
