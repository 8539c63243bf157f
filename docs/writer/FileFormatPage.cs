using System.Globalization;
using System.Text;
using FlowSim.Commands.Input;
using FlowSim.Commands.Quantities;
using FlowSim.Vessels;

namespace FlowSim.Docs;

/// <summary>The reference of the files as a Markdown page.</summary>
internal static class FileFormatPage
{
    /// <summary>The page.</summary>
    public static string Text()
    {
        StringBuilder text = new();
        text.Append("# File format\n\n").Append(Markdown.Generated).Append(Introduction);
        Quantities(text);
        text.Append("\n## A batch\n\n").Append(Batch);
        foreach (string section in Keys.Sections)
            Section(text, section);
        text.Append("\n## A day\n\n").Append(Day);
        foreach (string section in DayKeys.Sections)
            DaySection(text, section, $"[{section}]");
        foreach (string list in DayKeys.Lists)
            DaySection(text, list, $"[[{list}]]");
        return text.ToString();
    }

    private const string Introduction = """
        FlowSim reads [TOML](https://toml.io) 1.0 in UTF-8. A *batch* says what honey and kit there is; `flowsim new FILE` writes one with every key explained. A *day* says who
        and what is there on a day and what has to be done; `flowsim new --day FILE` writes one. A file has at most 1 MB. A mistake is answered with file, line and column, what is allowed
        and the nearest word, and nothing is written.

        Editors that know JSON Schema in TOML check a file while it is written and show what each key means. Put this in its first line:

        ```toml
        #:schema ./flowsim-batch.schema.json
        ```

        with the path or address of your copy of [flowsim-batch.schema.json](schema/flowsim-batch.schema.json) or [flowsim-day.schema.json](schema/flowsim-day.schema.json).
        What a schema refuses, the program refuses, with two exceptions: a value in whose place `[calibration]` puts what was learnt is not read at all, and a section that a command does not need is
        read by others only. The other way round a schema lets pass what only the program can judge: whether a size or a sign can be, whether two keys go together, and whether one is
        missing for the question that is asked.

        ## Quantities

        A value with a unit is a text: a number, then a unit. The decimal sign is a point and digits are not grouped; `1 1/2 in` and `1e-3 m` are numbers too. Lengths, volumes, masses and times may go on with
        a smaller unit: `1 h 30 min`. Case matters only where a table says so in its first column of spellings; blanks inside a unit, brackets and `^` do not matter, so `W/(m^2 K)` is
        `W/m2K`, and `µ`, `·`, `²`, `°` may be written as other signs that look alike.

        """;

    private const string Batch = """
        Every key is optional unless it says so; a command asks for what it needs. "Without it" is the value that makes no difference, or what is assumed, with how far that can be trusted.
        Keys marked ± take a spread.

        """;

    private const string Day = """
        Read by `flowsim plan`. The sections in double brackets stand as often as there are such things. Times of day are written `"07:30"` or `"7:30 am"`.

        """;

    private static void Quantities(StringBuilder text)
    {
        foreach (Dimension dimension in Enum.GetValues<Dimension>())
        {
            DimensionFacts facts = DimensionFacts.Of(dimension);
            text.Append(CultureInfo.InvariantCulture, $"\n### {char.ToUpperInvariant(facts.Name[0])}{facts.Name[1..]}\n\nAs in `\"{facts.Example}\"`; {facts.LeastText} or more.\n\n| unit | written exactly | in any case | is |\n|---|---|---|---|\n");
            foreach (Unit unit in Units.All.Where(unit => unit.Dimension == dimension))
                text.Append(CultureInfo.InvariantCulture, $"| {Markdown.Code(unit.Symbol)} | {Spellings(unit.Exact)} | {Spellings(unit.AnyCase)} | {Value(unit, facts)} |\n");
        }

        text.Append("""

            ### Spreads

            What is not known exactly may be given with its spread; `flowsim risk` and `fit` use it, the others take its middle. A unit may stand once, at the end; a deviation from a temperature is a
            difference of temperatures.

            | written | means |
            |---|---|
            | `17.8 ± 0.2 %`, also `+-`, `+/-` | normal, one standard deviation |
            | `17.6 to 18.0 %` | uniform |
            | `0.3 g/kg x/ 3`, also `×/÷`, `*/` | log-normal about its median, factor 1 to 1000; two in three lie between a third and three times |
            | `normal(17.8, 0.2 %)`, `log-normal(0.3, 3) g/kg`, `uniform(17.6, 18 %)` | the same, spelt out |
            | `triangular(20, 30, 35 %)` | low, most likely, high |
            | `empirical(17.6, 17.9, 17.7 %)` | 2 to 200 measured values |

            """);
    }

    private static string Spellings(IReadOnlyList<string> all) => string.Join(' ', all.Select(Markdown.Code));

    private static string Value(Unit unit, DimensionFacts facts)
    {
        if (unit.Offset != 0)
            return FormattableString.Invariant($"0 is {unit.Offset:0.####} K, a degree {unit.Factor:0.####} K");
        string si = facts.ColumnUnit switch { "share" => string.Empty, "Pa_s" => " Pa·s", "m3" => " m³", "m2" => " m²", "kg_per_m3" => " kg/m³", "W_per_m2K" => " W/(m²·K)", "J_per_K" => " J/K", "m_per_s" => " m/s", var plain => " " + plain };
        return FormattableString.Invariant($"{unit.Factor:G9}{si}");
    }

    private static void Section(StringBuilder text, string section)
    {
        text.Append(CultureInfo.InvariantCulture, $"\n### [{section}]\n\n");
        if (ShapeKeys.Of(section).Any())
            text.Append("The shape decides which of the keys below the list of shapes it takes; `flowsim kit` lists shapes and catalogue.\n\n");
        text.Append("| key | takes | meaning | example | without it |\n|---|---|---|---|---|\n");
        foreach (Key key in Keys.All.Where(key => key.Section == section))
            Row(text, key.Name, KeyForms.Of(key), key.Meaning, BatchFacts.Of(key.ToString()), SpreadKeys.Take(key.ToString()));
        foreach (IGrouping<string, ShapeParameter> same in ShapeKeys.Of(section).GroupBy(parameter => parameter.Key, StringComparer.Ordinal))
            Row(text, same.Key, KeyForms.Of(section, same.First()), BatchSchema.ShapeMeaning(section, same), BatchFacts.Of(section + "." + same.Key), SpreadKeys.Take(section + "." + same.Key));
        if (section == Keys.Calibration.Date.Section)
            text.Append("\nBeside these stands what was learnt, by the name of the input in quotes: `\"honey.lot_factor\" = \"1.12 x/ 1.05\"`. `flowsim fit --save` writes the section.\n");
    }

    private static void DaySection(StringBuilder text, string section, string heading)
    {
        text.Append(CultureInfo.InvariantCulture, $"\n### {heading}\n\n| key | takes | meaning | example | without it |\n|---|---|---|---|---|\n");
        foreach (Key key in DayKeys.All.Where(key => key.Section == section))
            Row(text, key.Name, DayForms.Of(key), key.Meaning, DayFacts.Of(key), spread: false);
    }

    private static void Row(StringBuilder text, string name, Form form, string meaning, KeyFacts facts, bool spread)
    {
        string takes = form.Text.Replace(", or one with its spread", string.Empty, StringComparison.Ordinal);
        text.Append(CultureInfo.InvariantCulture, $"| `{name}`{(spread ? " ±" : string.Empty)} | {Markdown.Cell(takes)} | {Markdown.Cell(meaning)} | {string.Join(' ', facts.Examples.Take(1).Select(Markdown.Code))} | {facts.Without} |\n");
    }
}
