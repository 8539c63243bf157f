using System.Globalization;
using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands.Input;

/// <summary>A question about an overflow as it was read.</summary>
/// <param name="Question">The question.</param>
/// <param name="Inputs">What is varied, with its words; the same inputs as the question's, the common ones included.</param>
/// <param name="Middle">The run of the setup as it stands, every input at its median.</param>
/// <param name="ToleranceIsGiven">Whether somebody set the tolerance.</param>
internal sealed record RiskInput(RiskQuestion Question, IReadOnlyList<VariedInput> Inputs, StrainingResult Middle, bool ToleranceIsGiven);

/// <summary>What is known of the inputs before a fit.</summary>
/// <param name="Inputs">Inputs with their spreads; null for the common ones.</param>
/// <param name="Correlations">What of them goes together.</param>
/// <param name="Seed">Number that the draws come from; null for the usual one.</param>
/// <param name="Tolerance">Chance of an overflow that is put up with; null for the usual one.</param>
internal sealed record Priors(IReadOnlyList<UncertainInput>? Inputs, IReadOnlyList<InputCorrelation> Correlations, ulong? Seed, double? Tolerance);

/// <summary>An input that is varied.</summary>
/// <param name="Uncertain">Input and spread.</param>
/// <param name="Written">The spread as the user wrote it; null for a common one.</param>
internal sealed record VariedInput(UncertainInput Uncertain, string? Written);

/// <summary>Turns a document into a question about an overflow.</summary>
internal static class RiskReader
{
    /// <summary>Reads a question.</summary>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Takes what was assumed.</param>
    /// <returns>The question; null when something is wrong.</returns>
    public static RiskInput? Read(InputDocument document, Problems problems, Journal journal)
    {
        journal.UsesSpreads = true;
        StrainInput? strain = SetupReader.Read(document, problems, journal);
        Section section = new("risk", document, problems, journal);
        Draft draft = ReadSection(section);
        if (strain is null || problems.Any)
            return null;

        // Its checks come before the spreads, which take a sound setup for granted.
        StrainingResult middle = StrainingRun.Simulate(strain.Setup, strain.Options with { SeriesPoints = 0 });
        List<VariedInput> inputs = Inputs(strain.Setup, journal, draft.Defaults ? DefaultSpreads.For(strain.Setup) : []);
        draft = WithCalibration(draft, inputs, journal);

        // Said with its spread.
        foreach (VariedInput input in inputs)
            journal.Withdraw(input.Uncertain.Input.Name);
        if (inputs.Count == 0)
            problems.Add(section.Spot, $"nothing is uncertain here: no key has a spread, and {Keys.Risk.Defaults} is false; write one, as {Keys.Honey.Moisture.Name} = \"17.8 ± 0.2 %\"");
        return new RiskInput(Question(strain.Setup, draft, inputs, journal), inputs, middle, section.Has(Keys.Risk.Tolerance));
    }

    /// <summary>The limit on the opening that a chance sets, for a search that varies temperature and opening itself.</summary>
    /// <param name="tolerance">Chance that is put up with.</param>
    /// <param name="setup">Setup.</param>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Spreads that were read.</param>
    public static Setpoints.OverflowLimit Limit(Ratio tolerance, StrainingSetup setup, InputDocument document, Problems problems, Journal journal)
    {
        journal.UsesSpreads = true;
        Draft draft = ReadSection(new Section("risk", document, problems, journal));
        StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 0 });
        List<VariedInput> inputs = Inputs(setup, journal, draft.Defaults ? DefaultSpreads.For(setup) : []);
        draft = WithCalibration(draft, inputs, journal);
        return Setpoints.OverflowLimit.WithinTolerance(tolerance, Given(inputs, journal, draft), draft.Correlations, seed: draft.Seed ?? new RiskQuestion { Setup = setup }.Seed);
    }

    /// <summary>What is known of the inputs before a fit.</summary>
    /// <param name="setup">Setup, already checked.</param>
    /// <param name="document">Document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="journal">Spreads that were read.</param>
    public static Priors ReadPriors(StrainingSetup setup, InputDocument document, Problems problems, Journal journal)
    {
        Draft draft = ReadSection(new Section("risk", document, problems, journal));
        List<VariedInput> inputs = Inputs(setup, journal, draft.Defaults ? Calibration.CalibrationPriors.For(setup) : []);
        return new Priors(Given(inputs, journal, draft), draft.Correlations, draft.Seed, draft.Tolerance);
    }

    private static RiskQuestion Question(StrainingSetup setup, Draft draft, IReadOnlyList<VariedInput> inputs, Journal journal)
    {
        RiskQuestion question = new() { Setup = setup, Inputs = Given(inputs, journal, draft), Correlations = draft.Correlations, Runs = draft.Runs };
        if (draft.Tolerance is { } tolerance)
            question = question with { Tolerance = Ratio.FromDecimalFractions(tolerance) };
        if (draft.MassThatMatters is { } mass)
            question = question with { MassThatMatters = Mass.FromKilograms(mass) };
        if (draft.LookEvery is { } every)
            question = question with { LookEvery = Duration.FromSeconds(every) };
        return draft.Seed is { } seed ? question with { Seed = seed } : question;
    }

    /// <summary>Null when the common spreads serve alone: then the library says so.</summary>
    private static IReadOnlyList<UncertainInput>? Given(IReadOnlyList<VariedInput> inputs, Journal journal, Draft draft) =>
        draft.Defaults && journal.Spreads.Count == 0 ? null : [.. inputs.Select(input => input.Uncertain)];

    /// <summary>The common spreads, each replaced by what was given; then what else was given.</summary>
    private static List<VariedInput> Inputs(StrainingSetup setup, Journal journal, IReadOnlyList<UncertainInput> commons)
    {
        Dictionary<string, SpreadRead> given = journal.Spreads.ToDictionary(read => read.Key, StringComparer.Ordinal);
        List<VariedInput> inputs = [];
        foreach (UncertainInput common in commons)
        {
            if (!given.Remove(common.Input.Name, out SpreadRead? own))
                inputs.Add(new VariedInput(common, null));
            else if (!own.Spread.IsExact)
                inputs.Add(Own(common.Input, own));
        }

        foreach (StrainingInput input in StrainingInputs.All)
        {
            if (!given.TryGetValue(input.Name, out SpreadRead? own) || own.Spread.IsExact)
                continue;
            if (input.AppliesTo(setup))
                inputs.Add(Own(input, own));
            else
                journal.Echo($"{input.Name} does nothing in this setup; its spread plays no part");
        }

        return inputs;
    }

    private static VariedInput Own(StrainingInput input, SpreadRead own)
    {
        string by = own.Calibrated is { } mark ? $", by the {mark.By}" : string.Empty;
        return new(new UncertainInput(input, own.Spread.ToDistribution(), new Source($"{own.Key} = \"{own.Written}\"{by}", Standing.GivenByUser)), own.Written + by);
    }

    /// <summary>What a calibration says goes together, but for what the file ties itself and what plays no part.</summary>
    private static Draft WithCalibration(Draft draft, IReadOnlyList<VariedInput> inputs, Journal journal)
    {
        if (journal.Calibration is not { } calibration)
            return draft;
        HashSet<string> varied = [.. journal.Spreads.Where(read => read.Calibrated is not null).Select(read => read.Key)];
        varied.IntersectWith(inputs.Select(input => input.Uncertain.Input.Name));
        List<InputCorrelation> added = [];
        foreach (InputCorrelation pair in calibration.Correlations.Where(pair => varied.Contains(pair.One) && varied.Contains(pair.Other)))
        {
            if (draft.Correlations.Any(own => (own.One == pair.One && own.Other == pair.Other) || (own.One == pair.Other && own.Other == pair.One)))
                journal.Echo($"{pair.One}, {pair.Other}: {Keys.Risk.Correlated} takes the place of the calibration");
            else
                added.Add(pair);
        }

        return draft with { Correlations = [.. draft.Correlations, .. added] };
    }

    private static Draft ReadSection(Section section)
    {
        Draft draft = new()
        {
            Tolerance = section.Quantity(Keys.Risk.Tolerance),
            MassThatMatters = section.Quantity(Keys.Risk.MassThatMatters),
            LookEvery = section.Quantity(Keys.Risk.LookEvery),
            Runs = ReadRuns(section),
            Seed = ReadSeed(section),
            Defaults = section.Flag(Keys.Risk.Defaults) ?? true,
            Correlations = [.. (section.List(Keys.Risk.Correlated, "[\"honey.moisture, debris.load, 0.5\"]") ?? []).Select(item => CorrelationGrammar.Read(section, Keys.Risk.Correlated.Name, item, StrainingInputs.All)).OfType<InputCorrelation>()],
        };
        section.RefuseStrangers();
        return draft;
    }

    private static int? ReadRuns(Section section)
    {
        const string Auto = "auto";
        if (section.Entry(Keys.Risk.Runs.Name)?.Value is not { } value || string.Equals(value.Text.Trim(), Auto, StringComparison.OrdinalIgnoreCase))
            return null;
        if (value.Kind is ValueKind.Number or ValueKind.Bare && int.TryParse(value.Text.Trim(), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int runs))
            return runs;
        section.Wrong(Keys.Risk.Runs.Name, value.Spot, $"{Said(value)} is neither \"{Auto}\" nor a whole number of runs, 64 to 10000000");
        return null;
    }

    private static ulong? ReadSeed(Section section)
    {
        if (section.Entry(Keys.Risk.Seed.Name)?.Value is not { } value)
            return null;
        if (value.Kind is ValueKind.Number or ValueKind.Bare && ulong.TryParse(value.Text.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out ulong seed))
            return seed;
        section.Wrong(Keys.Risk.Seed.Name, value.Spot, $"{Said(value)} is not a whole number, 0 or more, without quotes");
        return null;
    }

    private static string Said(InputValue value) => value.Kind == ValueKind.Text ? "\"" + Printable.Of(value.Text) + "\"" : Printable.Of(value.Text);

    /// <summary>What the section says; null where it says nothing.</summary>
    private sealed record Draft
    {
        public double? Tolerance { get; init; }

        public double? MassThatMatters { get; init; }

        public double? LookEvery { get; init; }

        public int? Runs { get; init; }

        public ulong? Seed { get; init; }

        public bool Defaults { get; init; }

        public IReadOnlyList<InputCorrelation> Correlations { get; init; } = [];
    }
}
