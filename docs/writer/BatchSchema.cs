using System.Text.Json.Nodes;
using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Straining;

namespace FlowSim.Docs;

/// <summary>The schema of a batch, made from the lists that the reader works by.</summary>
internal static class BatchSchema
{
    /// <summary>The schema.</summary>
    public static JsonObject Make()
    {
        JsonObject sections = [];
        foreach (string section in Keys.Sections)
            sections[section] = SchemaParts.Section(Properties(section), []);
        return SchemaParts.Whole(
            "A batch for flowsim",
            "Honey and kit, as flowsim reads them from TOML. What it refuses, flowsim refuses; flowsim also judges sizes and what goes together.",
            SchemaParts.Section(sections, []),
            Form.Definitions(spreads: true));
    }

    private static JsonObject Properties(string section)
    {
        JsonObject properties = [];
        foreach (Key key in Keys.All.Where(key => key.Section == section))
            properties[key.Name] = SchemaParts.Property(key.Meaning, KeyForms.Of(key), BatchFacts.Of(key.ToString()));
        foreach (IGrouping<string, ShapeParameter> same in ShapeKeys.Of(section).GroupBy(parameter => parameter.Key, StringComparer.Ordinal))
            properties[same.Key] = SchemaParts.Property(ShapeMeaning(section, same), KeyForms.Of(section, same.First()), BatchFacts.Of(section + "." + same.Key));
        if (section == Keys.Calibration.Date.Section)
            AddLearnt(properties);
        return properties;
    }

    /// <summary>What a value of the shapes means, with its limits and the shapes it goes with.</summary>
    /// <param name="section">Section.</param>
    /// <param name="same">The value in each of these shapes.</param>
    public static string ShapeMeaning(string section, IGrouping<string, ShapeParameter> same) =>
        $"{string.Join("; ", same.Select(parameter => $"{parameter.Description}, {ShapeReader.Limits(parameter)}").Distinct(StringComparer.Ordinal))} (of {string.Join(", ", ShapeKeys.ShapesWith(section, same.Key))})";

    /// <summary>What was learnt stands by the names of the inputs, in quotes or as dotted keys.</summary>
    private static void AddLearnt(JsonObject properties)
    {
        foreach (StrainingInput input in StrainingInputs.All.Where(CalibrationPriors.IsShared))
        {
            string[] name = input.Name.Split('.');
            JsonObject learnt = Form.SpreadOnly(measured: CalibrationReader.DimensionOf(input) is not null);
            learnt["description"] = $"{input.Name} as it was learnt, with its spread.";
            properties[input.Name] = learnt;
            if (properties[name[0]] is not JsonObject dotted)
                properties[name[0]] = dotted = SchemaParts.Section([], []);
            dotted["properties"]![name[1]] = learnt.DeepClone();
        }
    }
}
