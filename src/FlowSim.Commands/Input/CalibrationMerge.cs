using FlowSim.Commands.Output;

namespace FlowSim.Commands.Input;

/// <summary>Puts what was learnt in the place of what the sections say, so that every command reads it as if it stood there.</summary>
internal static class CalibrationMerge
{
    /// <summary>Keys that say the same in another way: set by an option they, too, take the place of what was learnt.</summary>
    private static readonly Dictionary<string, string> s_otherWays = new(StringComparer.Ordinal)
    {
        [Keys.Gate.Bore.ToString()] = Keys.Gate.Use.ToString(),
        [Keys.Gate.TubeLength.ToString()] = Keys.Gate.Use.ToString(),
        [Keys.Screen.Opening.ToString()] = Keys.Screen.Cloths.ToString(),
        [Keys.Screen.Wire.ToString()] = Keys.Screen.Cloths.ToString(),
    };

    /// <summary>Reads the calibration of a document and puts it in place.</summary>
    /// <param name="document">Document, options included.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what is used, and what is not.</param>
    /// <param name="part">What becomes of it.</param>
    public static void Apply(InputDocument document, Problems problems, Journal journal, CalibrationPart part)
    {
        if (CalibrationReader.Read(document, problems, journal) is not { } whole)
            return;
        CalibrationTable used = whole.Use switch
        {
            CalibrationUse.None => whole.Only(_ => false),
            CalibrationUse.Kit => whole.Only(entry => !CalibrationTable.IsOfHoney(entry.Input)),
            _ => whole,
        };
        if (whole.Use != CalibrationUse.All)
            journal.Echo(whole.Use == CalibrationUse.None
                ? $"{Keys.Calibration.Use} = \"{Words.Of(whole.Use)}\": the {whole.Words} is left out"
                : $"{Keys.Calibration.Use} = \"{Words.Of(whole.Use)}\": of the {whole.Words} only what is not of the honey is taken");
        foreach (CalibrationEntry entry in used.Entries.Where(entry => OptionFor(document, entry.Input.Name) is not null).ToArray())
        {
            bool tied = used.Correlations.Any(pair => pair.One == entry.Input.Name || pair.Other == entry.Input.Name);
            journal.Echo($"{entry.Input.Name}: {Printable.Of(OptionFor(document, entry.Input.Name)!.KeySpot.ToString())} takes the place of {entry.Entry.Value.Text.Trim()} of the {whole.Words}{(tied ? "; what went together with it is dropped" : string.Empty)}");
            used = used.Only(other => other != entry);
        }

        journal.Calibration = used;
        if (part == CalibrationPart.InPlace)
            Put(used, document);
    }

    private static void Put(CalibrationTable table, InputDocument document)
    {
        foreach (CalibrationEntry entry in table.Entries)
        {
            string[] name = entry.Input.Name.Split('.');
            if (!document.Sections.TryGetValue(name[0], out Dictionary<string, InputEntry>? keys))
                document.Sections[name[0]] = keys = new(StringComparer.Ordinal);
            string? replaces = keys.TryGetValue(name[1], out InputEntry? before) && before.Value.Kind is ValueKind.Text or ValueKind.Number ? Printable.Of(before.Value.Text) : null;
            keys[name[1]] = entry.Entry with
            {
                Key = name[1],
                Value = entry.Entry.Value with { Calibrated = new CalibrationMark(table.Words, replaces) },
            };
        }
    }

    /// <summary>The option that sets an input, or says it in another way.</summary>
    private static InputEntry? OptionFor(InputDocument document, string name) =>
        Option(document, name) ?? (s_otherWays.TryGetValue(name, out string? other) ? Option(document, other) : null);

    private static InputEntry? Option(InputDocument document, string name)
    {
        string[] parts = name.Split('.');
        return document.Sections.GetValueOrDefault(parts[0])?.GetValueOrDefault(parts[1]) is { FromOption: true } entry ? entry : null;
    }
}
