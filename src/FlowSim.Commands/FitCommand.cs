using FlowSim.Calibration;
using FlowSim.Commands.Input;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim fit</c> was asked for.</summary>
internal sealed record FitRequest : FilesRequest
{
    public IReadOnlyList<string> Runs { get; init; } = [];

    public IReadOnlyList<string> Viscosities { get; init; } = [];

    public bool Save { get; init; }

    public string? SaveAs { get; init; }

    public string? Seed { get; init; }

    public bool NoSampler { get; init; }

    /// <summary>The day of the fit; null for today.</summary>
    public DateOnly? Today { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static FitRequest Of(CommandOptions options) => new()
    {
        Runs = options.Files("RUN.csv", "Tables of timed readings, one for each run."),
        File = options.Text("--batch", "FILE", "TOML file of the kit and the honey that were run."),
        Viscosities = options.Repeated("--viscosity", "MEASURED", "A viscosity of this honey measured by itself, as \"35 °C, 2.6 Pa.s x/ 1.06\". May be repeated."),
        Settings = options.Settings(),
        Save = options.Flag("--save", "Put what was learnt into the batch, as its [calibration]."),
        SaveAs = options.Output("--save-as", "Write a copy of the batch with what was learnt to FILE."),
        Csv = options.Output("--csv", "Write every reading beside its fit to FILE, SI units."),
        Plot = options.Output("--plot", "Draw the readings beside their fit to FILE, .png or .svg."),
        Seed = options.Setting("--seed", Keys.Risk.Seed, "N", "Number that the draws come from"),
        NoSampler = options.Flag("--no-sampler", "Leave out the sampler that checks the intervals: much faster."),
        Json = options.Json(),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
    };
}

/// <summary>Learns honey and kit from timed runs, tells what was learnt, and keeps it if asked to.</summary>
internal static class FitCommand
{
    /// <summary>Arguments of the library that a run or a measurement fills.</summary>
    private static readonly string[] s_ofRuns =
    [
        nameof(CalibrationQuestion.Runs), nameof(CalibrationQuestion.Viscosities), nameof(TimedRun.Name), nameof(TimedRun.Series), nameof(TimedSeries.Quantity), nameof(TimedSeries.Readings),
        nameof(TimedReading.At), nameof(TimedReading.Value), nameof(ViscositySpot.Temperature), nameof(ViscositySpot.Viscosity), nameof(ViscositySpot.LogStandardDeviation),
    ];

    public static int Run(FitRequest request, Surroundings around, CancellationToken cancellation) =>
        Run(request, around, CalibrationFit.Of, cancellation);

    /// <summary>Runs the command.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="around">Surroundings.</param>
    /// <param name="fit">Finds the fit.</param>
    /// <param name="cancellation">Ends the fit.</param>
    public static int Run(FitRequest request, Surroundings around, Func<CalibrationQuestion, CancellationToken, CalibrationAnswer> fit, CancellationToken cancellation)
    {
        string batch = RequireUsage(request);
        byte[] bytes = around.Files.Read(batch, InputFile.Batch);
        string text = InputFile.Decode(bytes, Printable.Of(batch, 200));
        FitInput input = FitInputReader.Read(around.Files, request, new BatchSource(batch, text.TrimStart('\uFEFF'), request.Settings));
        AskedFiles files = new(
            request,
            around,
            input.Loaded,
            [("the batch", batch), .. request.Runs.Select(run => ("a run", (string?)run))],
            seriesPoints: null,
            Asked.Text("--csv", request.Csv),
            Asked.Drawing("--plot", request.Plot),
            Asked.Text("--save-as", request.SaveAs));
        if (request.Save)
            around.Files.RequireFree(batch, force: true);

        CalibrationAnswer answer;
        using (ProgressLine _ = new(around, "fitting"))
            answer = Loader.Guard(input.Loaded, () => Ask(input.Question, request, fit, cancellation));

        bool found = answer.Status != CalibrationStatus.NotFound;
        DateOnly today = request.Today ?? DateOnly.FromDateTime(around.Clock.GetLocalNow().DateTime);
        string? saved = found && (request.Save || request.SaveAs is not null) ? Keep(request, around.Files, batch, bytes, text, answer, today) : null;
        if (found)
        {
            files.Write(request.Csv, () => ResidualCsv.Of(answer));
            files.Draw(request.Plot, () => new Figure.Fit(answer));
        }

        FitStory story = new(answer, input.Loaded.Journal, input.Echoes, input.Loaded.Name)
        {
            Saved = saved,
            Table = found ? CalibrationToml.Of(answer.Calibrated, today, request.Units) : null,
        };
        if (found)
            files.WriteSheet(name => FitSheet.Of(story with { Name = name }, Made(request, input.Loaded), request.Units, around.Drawing));
        Asked[] written = found ? [.. files.All, Asked.Text("--save", request.Save ? batch : null)] : [];
        Outputs.Answer(request, around, written, () => FitJson.Of(story), (page, display) => new FitText(page, display), text => text.Write(story), text => text.WriteOutcome(story));
        return found ? ExitCode.Done : ExitCode.NoFit;
    }

    /// <summary>Asks the library; what it says of a run or a measurement is laid there. The rest is of the batch.</summary>
    private static CalibrationAnswer Ask(CalibrationQuestion question, FitRequest request, Func<CalibrationQuestion, CancellationToken, CalibrationAnswer> fit, CancellationToken cancellation)
    {
        try
        {
            return fit(question, cancellation);
        }
        catch (ArgumentException refusal) when (s_ofRuns.Contains((refusal.ParamName ?? string.Empty).Split('.')[^1], StringComparer.Ordinal))
        {
            string message = Blame.MessageOf(refusal);
            int run = question.Runs.Select(run => run.Name).ToList().FindIndex(name => message.Contains(name, StringComparison.Ordinal));
            Problems problems = new();
            problems.Add(new Spot(run >= 0 ? request.Runs[run] : request.Viscosities.Count > 0 ? "--viscosity" : request.Runs[0], 0, 0), message);
            throw new BadInputException(problems);
        }
    }

    private static Provenance Made(FitRequest request, Loaded loaded) => Provenance.Of(
        ["fit", .. request.Runs.Select(Provenance.NameOf)],
        (Provenance.NameOf(request.File), loaded),
        [
            ("--batch", Provenance.NameOf(request.File)), .. ShellWords.Repeated("--viscosity", request.Viscosities), .. ShellWords.Repeated("--set", request.Settings),
            ("--seed", request.Seed), ("--no-sampler", request.NoSampler ? string.Empty : null), ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report)),
        ]);

    /// <summary>Writes the batch, or a copy, with what was learnt; nothing is written that would not read back.</summary>
    private static string Keep(FitRequest request, IFiles files, string batch, byte[] bytes, string text, CalibrationAnswer answer, DateOnly today)
    {
        string path = request.SaveAs ?? batch;
        string whole = CalibrationSave.Into(text, answer.Calibrated, today, request.Units);
        Problems problems = new();
        Journal journal = new(new Spot(path, 1, 1));
        CalibrationTable? back = CalibrationReader.Read(TomlReader.Read(whole.TrimStart('\uFEFF'), path, problems), problems, journal);
        if (problems.Any || back is null)
            throw new FileTroubleException($"{Printable.Of(path, 200)} is not written: the calibration would not read back ({(problems.Any ? problems.All[0].What : "it holds nothing")}); take the table that is printed without --save");
        if (request.SaveAs is { } copy)
            files.Write(copy, request.Force, whole);
        else
            files.Replace(batch, bytes, whole);
        return path;
    }

    private static string RequireUsage(FitRequest request)
    {
        Problems problems = new();
        if (request.File is null)
            problems.Add(new Spot("--batch", 0, 0), "is missing: a calibration is of somebody's own kit; give the file that describes it (\"flowsim new FILE\" writes one to start from)");
        if (request.Runs.Count == 0 && request.Viscosities.Count == 0)
            problems.Add(new Spot("RUN.csv", 0, 0), "is missing: give a table of timed readings, or --viscosity");
        if (request.Save && request.SaveAs is not null)
            problems.Add(new Spot("--save-as", 0, 0), "stands beside --save; give one of the two");
        return problems.Any ? throw new BadInputException(problems) : request.File!;
    }
}
