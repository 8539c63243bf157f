using System.Globalization;
using FlowSim.Calibration;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.Numerics.Sampling;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Input;

/// <summary>Reads <c>[calibration]</c>.</summary>
internal static class CalibrationReader
{
    /// <summary>What stands for a day that is not known.</summary>
    public const string NoDate = "undated";

    private const string DateForm = "yyyy-MM-dd";
    private const int FingerprintDigits = 16;

    private static readonly StrainingInput[] s_inputs = [.. StrainingInputs.All.Where(CalibrationPriors.IsShared)];

    /// <summary>Reads the section.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Journal.</param>
    /// <returns>The calibration; null when there is none or something is wrong.</returns>
    public static CalibrationTable? Read(InputDocument document, Problems problems, Journal journal)
    {
        if (document.Sections.GetValueOrDefault(Keys.Calibration.Date.Section) is not { Count: > 0 })
            return null;
        int before = problems.Count;
        Section section = new(Keys.Calibration.Date.Section, document, problems, journal);
        DateOnly? date = ReadDate(section);
        CalibrationUse use = section.Word(Keys.Calibration.Use, Words.All<CalibrationUse>(), "way of using it") is { } word ? Words.Value<CalibrationUse>(word) : CalibrationUse.All;
        RunOnRecord?[] runs = [.. (section.List(Keys.Calibration.Runs, "[\"pail.csv, 2026-11-20, 0123456789abcdef\"]") ?? []).Select(item => ReadRun(section, item))];
        bool missesRuns = !section.Has(Keys.Calibration.Runs);
        (InputValue Spot, InputCorrelation Pair)?[] pairs = [.. (section.List(Keys.Calibration.Correlated, "[\"honey.lot_factor, screen.factor, -0.92\"]") ?? []).Select(item => ReadPair(section, item))];
        CalibrationEntry?[] entries = [.. s_inputs.Where(input => section.Has(input.Name)).Select(input => ReadEntry(section, input))];
        RefuseOfOneRun(section);
        section.RefuseStrangers();
        if (missesRuns)
            section.Missing(Keys.Calibration.Runs, "[\"pail.csv, 2026-11-20, 0123456789abcdef\"]; \"flowsim fit\" writes them");
        if (problems.Count > before || date is null)
            return null;

        CalibrationEntry[] read = [.. entries.OfType<CalibrationEntry>()];
        RequirePairs(section, [.. pairs.Select(pair => pair!.Value)], read);
        RequireRuns(section, runs);
        return problems.Count > before ? null : new CalibrationTable(date.Value, use, [.. runs.OfType<RunOnRecord>()], read, [.. pairs.Select(pair => pair!.Value.Pair)]);
    }

    private static DateOnly? ReadDate(Section section)
    {
        if (section.Entry(Keys.Calibration.Date.Name) is not { } entry)
        {
            section.Missing(Keys.Calibration.Date, "\"2026-11-27\"");
            return null;
        }

        // TOML has dates of its own; the text of one is not kept, and quotes are asked for.
        if (section.Text(Keys.Calibration.Date.Name, entry.Value) is not { } text)
            return null;
        if (DateOnly.TryParseExact(text.Trim(), DateForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
            return date;
        section.Wrong(Keys.Calibration.Date.Name, entry.Value.Spot, $"\"{Printable.Of(text)}\" is not a date; write year, month and day as \"2026-11-27\"");
        return null;
    }

    private static RunOnRecord? ReadRun(Section section, InputValue item)
    {
        string key = Keys.Calibration.Runs.Name;
        if (section.Text(key, item) is not { } text)
            return null;

        // From the right: the name of a file may hold commas.
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        string name = parts.Length < 3 ? string.Empty : string.Join(", ", parts[..^2]);
        bool dated = DateOnly.TryParseExact(parts.Length < 3 ? string.Empty : parts[^2], DateForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date);
        if (name.Length == 0 || (!dated && parts[^2] != NoDate) || parts[^1].Length != FingerprintDigits || !parts[^1].All(char.IsAsciiHexDigitLower))
        {
            section.Wrong(key, item.Spot, $"\"{Printable.Of(text)}\" is not a run with its day and the {FingerprintDigits.ToString(CultureInfo.InvariantCulture)} digits that tell it from others, as \"pail.csv, 2026-11-20, 0123456789abcdef\"; \"flowsim fit\" writes them, and a day that is not known is \"{NoDate}\"");
            return null;
        }

        return new RunOnRecord(name, dated ? date : null, parts[^1]);
    }

    private static CalibrationEntry? ReadEntry(Section section, StrainingInput input)
    {
        InputEntry entry = section.Entry(input.Name)!;
        if (entry.Value.Kind == ValueKind.Number || (entry.Value.Kind is ValueKind.Text or ValueKind.Bare && !SpreadGrammar.IsSpread(entry.Value.Text)))
        {
            section.Wrong(input.Name, entry.Value.Spot, $"{Printable.Of(entry.Value.Text)} has no spread; a calibration keeps how sure a value is, as in \"1.12 x/ 1.05\" or \"17.8 ± 0.2 %\"");
            return null;
        }

        if (section.Text(input.Name, entry.Value) is not { } text)
            return null;
        if (SpreadGrammar.Read(text, DimensionOf(input), MayBeNegative(input), out Spread? spread) is { } fault)
        {
            section.Wrong(input.Name, entry.Value.At(fault.Offset), $"\"{Printable.Of(text.Trim())}\" {fault.What}");
            return null;
        }

        if (!spread!.IsExact)
            return new CalibrationEntry(input, spread, entry);
        section.Wrong(input.Name, entry.Value.Spot, $"\"{Printable.Of(text.Trim())}\" says that the value is known exactly, which no calibration does; write it in [{input.Name.Split('.')[0]}] and take it out here");
        return null;
    }

    private static (InputValue Spot, InputCorrelation Pair)? ReadPair(Section section, InputValue item)
    {
        string key = Keys.Calibration.Correlated.Name;
        return CorrelationGrammar.Read(section, key, item, s_inputs) is { } pair ? (item, pair) : null;
    }

    private static void RequirePairs(Section section, IReadOnlyList<(InputValue Spot, InputCorrelation Pair)> pairs, CalibrationEntry[] entries)
    {
        string key = Keys.Calibration.Correlated.Name;
        Dictionary<string, int> at = entries.Select((entry, i) => (entry.Input.Name, i)).ToDictionary(pair => pair.Name, pair => pair.i, StringComparer.Ordinal);
        double[,] matrix = new double[entries.Length, entries.Length];
        for (int i = 0; i < entries.Length; i++)
            matrix[i, i] = 1;
        HashSet<(int, int)> seen = [];
        bool sound = true;
        foreach ((InputValue value, InputCorrelation pair) in pairs)
        {
            string? wrong = null;
            if (pair.One == pair.Other)
                wrong = "ties an input to itself";
            else if (!at.TryGetValue(pair.One, out int one) | !at.TryGetValue(pair.Other, out int other))
                wrong = $"names {(at.ContainsKey(pair.One) ? pair.Other : pair.One)}, which has no value in [{section.Name}]";
            else if (!(Math.Abs(pair.Strength) < 1))
                wrong = "has a correlation that is not between -1 and 1, both excluded";
            else if (!seen.Add((Math.Min(one, other), Math.Max(one, other))))
                wrong = "ties two inputs that are tied already; keep one of the two lines";
            else
                matrix[one, other] = matrix[other, one] = pair.Strength;
            if (wrong is not null)
                section.Wrong(key, value.Spot, $"\"{Printable.Of(value.Text)}\" {wrong}");
            sound &= wrong is null;
        }

        if (!sound || entries.Length == 0)
            return;
        double strength = GaussianCopula.HighestStrength(matrix);
        if (strength <= 1 + 1e-9)
            section.Wrong(key, section.Entry(key)!.Value.Spot, string.Create(CultureInfo.InvariantCulture, $"these correlations contradict each other; multiplied by anything below {Math.Floor(1000 * strength) / 1000:0.###} they would not. Fit again, or leave the list out"));
    }

    private static void RequireRuns(Section section, IReadOnlyList<RunOnRecord?> runs)
    {
        foreach (IGrouping<string, RunOnRecord> same in runs.OfType<RunOnRecord>().GroupBy(run => run.Fingerprint, StringComparer.Ordinal).Where(same => same.Count() > 1))
            section.Wrong(Keys.Calibration.Runs.Name, section.Entry(Keys.Calibration.Runs.Name)!.Value.Spot, $"counts one run twice: {same.Key} is \"{Printable.Of(same.First().Name)}\" and \"{Printable.Of(same.Last().Name)}\"");
    }

    /// <summary>Names of inputs that no calibration keeps are known, so that more can be said of them.</summary>
    private static void RefuseOfOneRun(Section section)
    {
        foreach (StrainingInput input in StrainingInputs.All.Where(input => !CalibrationPriors.IsShared(input)))
        {
            if (section.Entry(input.Name) is { } entry)
                section.Wrong(input.Name, entry.KeySpot, $"is of one run and neither of honey nor kit; write it in [{input.Name.Split('.')[0]}]");
        }
    }

    /// <summary>What an input measures; null for a plain number.</summary>
    /// <param name="input">Input.</param>
    public static Dimension? DimensionOf(StrainingInput input) =>
        Keys.All.FirstOrDefault(key => key.ToString() == input.Name) is { } key ? key.Dimension : Dimension.Length;

    private static bool MayBeNegative(StrainingInput input) => Keys.All.FirstOrDefault(key => key.ToString() == input.Name)?.MayBeNegative ?? false;
}
