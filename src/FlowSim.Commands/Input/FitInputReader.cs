using FlowSim.Calibration;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands.Input;

/// <summary>A fit as it was asked for.</summary>
/// <param name="Question">The question.</param>
/// <param name="Loaded">The batch.</param>
/// <param name="Echoes">How the runs were read where that is not plain.</param>
internal sealed record FitInput(CalibrationQuestion Question, Loaded Loaded, IReadOnlyList<string> Echoes);

/// <summary>Makes a question of a batch, its runs and measurements.</summary>
internal static class FitInputReader
{
    /// <summary>Reads them.</summary>
    /// <param name="files">Files.</param>
    /// <param name="request">What was asked for.</param>
    /// <param name="batch">Batch.</param>
    /// <exception cref="BadInputException">Something is wrong; of all tables together, if it is in them.</exception>
    /// <exception cref="FileTroubleException">A file cannot be read.</exception>
    public static FitInput Read(IFiles files, FitRequest request, BatchSource batch)
    {
        RequireFew(request.Runs.Count, "tables are given");
        RequireFew(request.Viscosities.Count, "viscosities are given with --viscosity");
        OptionSetting[] more = request.Seed is { } seed ? [new("--seed " + seed, $"{Keys.Risk.Seed}={seed}")] : [];
        Loaded loaded = Loader.Load(batch.Text, batch.Path, batch.Settings, more, CalibrationPart.Apart);
        loaded.Journal.UsesSpreads = true;
        StrainingSetup setup = Loader.ReadRun(loaded).Setup;
        Priors priors = Loader.Guard(loaded, () =>
        {
            // Its checks come before the spreads, which take a sound setup for granted.
            StrainingRun.Simulate(setup, new StrainingOptions { SeriesPoints = 0 });
            FitReader.Read(new Section(Keys.Fit.Clock.Section, loaded.Document, loaded.Problems, loaded.Journal));
            return RiskReader.ReadPriors(setup, loaded.Document, loaded.Problems, loaded.Journal);
        });

        Problems problems = new();
        List<string> echoes = [];
        ViscositySpot?[] viscosities = [.. request.Viscosities.Select(text => ViscosityGrammar.Read(text, problems, echoes))];
        List<RunFile?> tables = ReadTables(files, request.Runs, problems);
        if (problems.Any)
            throw new BadInputException(problems);

        List<TimedRun> runs = [.. tables.Select(table => TimedRunReader.Read(table!, batch, setup, echoes))];
        CalibrationTable? earlier = loaded.Journal.Calibration is { Use: not CalibrationUse.None } table ? table : null;
        RequireNew(runs, request.Runs, earlier, batch.Path);
        CalibrationQuestion question = new()
        {
            Setup = setup,
            Runs = runs,
            Viscosities = [.. viscosities.OfType<ViscositySpot>()],
            Priors = priors.Inputs,
            Correlations = AskedOf(priors, earlier),
            Earlier = earlier?.ToInputs(),
            Sample = !request.NoSampler,
        };
        return new FitInput(priors.Seed is { } number ? question with { Seed = number } : question, loaded, echoes);
    }

    /// <summary>Reads the tables one after the other, and no further once they hold too much.</summary>
    private static List<RunFile?> ReadTables(IFiles files, IReadOnlyList<string> paths, Problems problems)
    {
        List<RunFile?> tables = [];
        int readings = 0;
        foreach (string path in paths)
        {
            RunFile? table = RunCsvReader.Read(path, InputFile.Read(files, path, InputFile.Run), problems);
            tables.Add(table);
            readings += table?.Columns.Sum(column => column.Readings.Count) ?? 0;
            if (readings <= RunLimits.AllReadings)
                continue;
            problems.Add(new Spot(path, 1, 1), FormattableString.Invariant($"makes {readings} readings with the tables before it; allowed: at most {RunLimits.AllReadings} in all: leave out every second reading, or more"));
            break;
        }

        return tables;
    }

    private static void RequireFew(int count, string given)
    {
        if (count <= CalibrationQuestion.MostRuns)
            return;
        Problems problems = new();
        problems.Add(new Spot("fit", 0, 0), FormattableString.Invariant($"{count} {given}; allowed: at most {CalibrationQuestion.MostRuns}"));
        throw new BadInputException(problems);
    }

    /// <summary>What the file ties and the calibration that is carried on does not.</summary>
    /// <param name="priors">What is known.</param>
    /// <param name="earlier">Calibration that is carried on; null for none.</param>
    public static IReadOnlyList<InputCorrelation> AskedOf(Priors priors, CalibrationTable? earlier) => [.. priors.Correlations.Where(pair => IsAsked(pair, earlier))];

    /// <summary>Whether two inputs that the file ties play a part: both of honey or kit, and not tied by what was learnt before.</summary>
    private static bool IsAsked(InputCorrelation pair, CalibrationTable? earlier)
    {
        string[] names = [pair.One, pair.Other];
        return names.All(name => CalibrationPriors.IsShared(StrainingInputs.ByName(name))) && !names.All(name => earlier?.Entries.Any(entry => entry.Input.Name == name) ?? false);
    }

    /// <summary>Refuses a run that counts already, or is given twice.</summary>
    private static void RequireNew(List<TimedRun> runs, IReadOnlyList<string> paths, CalibrationTable? earlier, string batch)
    {
        Problems problems = new();
        Dictionary<string, string> seen = new(StringComparer.Ordinal);
        for (int i = 0; i < runs.Count; i++)
        {
            string fingerprint = runs[i].Fingerprint;
            Spot spot = new(paths[i], 0, 0);
            if (earlier?.Runs.FirstOrDefault(run => run.Fingerprint == fingerprint) is { } counted)
                problems.Add(spot, $"is counted already: its readings are those of \"{Printable.Of(counted.Name)}\" in {Keys.Calibration.Runs} of {Printable.Of(batch, 120)}; take the whole [{Keys.Calibration.Runs.Section}] out to fit it anew, or give --set {Keys.Calibration.Use}={Words.Of(CalibrationUse.None)}");
            else if (seen.TryGetValue(fingerprint, out string? twin))
                problems.Add(spot, $"holds the same readings as {Printable.Of(twin, 120)}; give each run once");
            seen.TryAdd(fingerprint, paths[i]);
        }

        if (problems.Any)
            throw new BadInputException(problems);
    }
}
