using System.Text.Json.Nodes;
using FlowSim.Commands.Input;

namespace FlowSim.Docs;

/// <summary>The schema of a day, made from the lists that the reader works by.</summary>
internal static class DaySchema
{
    private static readonly string[] s_mayBeMissing = ["changeover", "warming_place"];

    /// <summary>The schema.</summary>
    public static JsonObject Make()
    {
        JsonObject sections = [];
        foreach (string section in DayKeys.Sections)
            sections[section] = Section(section);
        foreach (string list in DayKeys.Lists)
            sections[list] = new JsonObject { ["type"] = "array", ["items"] = Section(list) };
        return SchemaParts.Whole(
            "A day for flowsim plan",
            "Who and what is there on a day, and what is to be done, as flowsim reads it from TOML.",
            SchemaParts.Section(sections, [.. DayKeys.Sections.Concat(DayKeys.Lists).Except(s_mayBeMissing, StringComparer.Ordinal)]),
            Form.Definitions(spreads: false));
    }

    private static JsonObject Section(string section)
    {
        JsonObject properties = [];
        List<string> required = [];
        foreach (Key key in DayKeys.All.Where(key => key.Section == section))
        {
            KeyFacts facts = DayFacts.Of(key);
            properties[key.Name] = SchemaParts.Property(key.Meaning, DayForms.Of(key), facts);
            if (facts.IsRequired)
                required.Add(key.Name);
        }

        return SchemaParts.Section(properties, required);
    }
}
