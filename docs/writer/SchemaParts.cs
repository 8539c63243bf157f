using System.Text.Json.Nodes;

namespace FlowSim.Docs;

/// <summary>What both schemas are put together from.</summary>
internal static class SchemaParts
{
    /// <summary>A property of a section.</summary>
    /// <param name="meaning">What it means.</param>
    /// <param name="form">What it takes.</param>
    /// <param name="facts">What becomes of a run without it.</param>
    public static JsonObject Property(string meaning, Form form, KeyFacts facts)
    {
        JsonObject property = (JsonObject)form.Schema.DeepClone();
        string without = facts.IsRequired || facts.Default is not null || facts.Assumed is null ? string.Empty : $" Without it: {facts.Assumed}.";
        property["description"] = $"{char.ToUpperInvariant(meaning[0])}{meaning[1..]}.{without}";
        if (facts.Default is { } value)
            property["default"] = TomlJson.OfValue(value);
        if (facts.Examples.Count > 0)
            property["examples"] = new JsonArray([.. facts.Examples.Select(TomlJson.OfValue)]);
        return property;
    }

    /// <summary>A section with the keys it knows and no other.</summary>
    /// <param name="properties">Its keys.</param>
    /// <param name="required">Keys that must be there.</param>
    public static JsonObject Section(JsonObject properties, IReadOnlyList<string> required)
    {
        JsonObject section = new() { ["type"] = "object", ["additionalProperties"] = false, ["properties"] = properties };
        if (required.Count > 0)
            section["required"] = Json.Array(required);
        return section;
    }

    /// <summary>A whole schema.</summary>
    /// <param name="title">Title.</param>
    /// <param name="description">What it describes.</param>
    /// <param name="root">The file.</param>
    /// <param name="definitions">What it refers to.</param>
    public static JsonObject Whole(string title, string description, JsonObject root, JsonObject definitions)
    {
        JsonObject schema = new() { ["$schema"] = "https://json-schema.org/draft/2020-12/schema", ["title"] = title, ["description"] = description };
        foreach ((string name, JsonNode? value) in root)
            schema[name] = value?.DeepClone();
        schema["$defs"] = definitions;
        return schema;
    }
}
