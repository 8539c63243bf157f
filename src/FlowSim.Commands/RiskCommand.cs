using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.OverflowRisk;
using FlowSim.RunSheets;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim risk</c> was asked for.</summary>
internal sealed record RiskRequest
{
    public string? File { get; init; }

    public IReadOnlyList<string> Settings { get; init; } = [];

    public IReadOnlyList<string> Scans { get; init; } = [];

    public string? Tolerance { get; init; }

    public string? Runs { get; init; }

    public string? Seed { get; init; }

    public string? Threads { get; init; }

    public bool Json { get; init; }

    public string? Csv { get; init; }

    public string? Plot { get; init; }

    public string? Map { get; init; }

    public string? Times { get; init; }

    public string? Report { get; init; }

    public UnitChoice Units { get; init; }

    public bool Force { get; init; }

    public bool Quiet { get; init; }

    public bool FailAbove { get; init; }

    /// <summary>Options of their own that set a key each.</summary>
    public IReadOnlyList<OptionSetting> More =>
    [
        .. new[] { ("--tolerance", Keys.Risk.Tolerance, Tolerance), ("--runs", Keys.Risk.Runs, Runs), ("--seed", Keys.Risk.Seed, Seed) }
            .Where(option => option.Item3 is not null)
            .Select(option => new OptionSetting($"{option.Item1} {option.Item3}", $"{option.Item2}={option.Item3}")),
    ];

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static RiskRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Scans = options.Scans(),
        Tolerance = options.Setting("--tolerance", Keys.Risk.Tolerance, "SHARE", "Chance of an overflow that is put up with"),
        Runs = options.Setting("--runs", Keys.Risk.Runs, "auto|N", "Runs for the chances"),
        Seed = options.Setting("--seed", Keys.Risk.Seed, "N", "Number that the draws come from"),
        Threads = options.Text("--threads", "N", "Threads at work; the answer does not depend on it."),
        Json = options.Json(),
        Csv = options.Output("--csv", "Write chance and pond over time to FILE, SI units."),
        Plot = options.Output("--plot", "Draw pond, chance over time and drivers to FILE, .png or .svg."),
        Map = options.Output("--map", "Draw the chance over openings and temperatures to FILE."),
        Times = options.Output("--times", "Draw the time to strain over temperatures to FILE."),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
        FailAbove = options.Flag("--fail-above", "Return 13 when the chance is above the tolerance."),
    };
}

/// <summary>Finds how likely an overflow is and what keeps it within the tolerance.</summary>
internal static class RiskCommand
{
    private const int MostThreads = 1024;

    public static int Run(RiskRequest request, Surroundings around, CancellationToken cancellation)
    {
        int? threads = ThreadsOf(request.Threads);
        if (request.Scans.Count > 0)
            return Scan(request, threads, around, cancellation);
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings, request.More);
        RiskInput input = WithThreads(Loader.ReadRisk(loaded), threads);
        Asked[] files =
        [
            new("--csv", request.Csv, IsFigure: false, NeedsSeries: false),
            new("--plot", request.Plot, IsFigure: true, NeedsSeries: false),
            new("--map", request.Map, IsFigure: true, NeedsSeries: false),
            new("--times", request.Times, IsFigure: true, NeedsSeries: false),
            Asked.Report(request.Report),
        ];
        Outputs.Require(around, loaded, request.File, request.Force, seriesPoints: null, files);

        RiskStory story;
        using (ProgressLine progress = new(around, "running"))
        {
            RiskAnswer answer = Loader.Guard(loaded, () => RiskAnalysis.Of(input.Question, progress, cancellation));
            story = new RiskStory(answer, input, loaded.Journal, loaded.Name);
        }

        WriteFiles(story, request, loaded, around, cancellation);
        if (request.Json)
        {
            around.Json.Write(RiskJson.Of(story));
        }
        else
        {
            RiskText text = new(new Page(around.Output, around.Width, around.Colour), new Display(request.Units));
            if (request.Quiet)
                text.WriteOutcome(story);
            else
                text.Write(story);
            Outputs.Tell(around, files);
        }

        return request.FailAbove && RiskScan.IsAbove(story.Answer) ? ExitCode.AboveTolerance : ExitCode.Done;
    }

    private static int Scan(RiskRequest request, int? threads, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside(("--map", request.Map), ("--times", request.Times), (Asked.ReportOption, request.Report));
        ScanRequest scan = new() { File = request.File, Settings = request.Settings, More = request.More, Scans = request.Scans, Json = request.Json, Csv = request.Csv, Plot = request.Plot, Units = request.Units, Force = request.Force, Quiet = request.Quiet };
        bool above = ScanCommand.Run(
            scan, RiskScan.Columns(), loaded => RiskScan.Run(loaded, input => WithThreads(input, threads), cancellation), RiskScan.IsAbove, RiskScan.Verdict, around, cancellation);
        return above && request.FailAbove ? ExitCode.AboveTolerance : ExitCode.Done;
    }

    private static void WriteFiles(RiskStory story, RiskRequest request, Loaded loaded, Surroundings around, CancellationToken cancellation)
    {
        if (request.Csv is { } csv)
            around.Files.Write(csv, request.Force, RiskCsv.Of(story.Answer));
        if (request.Plot is { } plot)
            around.Files.Write(plot, request.Force, around.Drawing.Draw(new Figure.Risk(story.Answer), request.Units, loaded.Name, plot));
        if (request.Report is { } report)
            around.Files.Write(report, request.Force, RunSheetHtml.Of(RiskSheet.Of(story with { Name = Provenance.NameOf(request.File) }, Made(request, loaded), request.Units, around.Drawing)));
        if ((request.Map ?? request.Times) is null)
            return;

        RiskMap map;
        using (ProgressLine progress = new(around, "mapping"))
        {
            (IReadOnlyList<Ratio> openings, IReadOnlyList<Temperature> temperatures) = RiskGrid.About(story.Answer.Question.Setup);
            map = Loader.Guard(loaded, () => RiskAnalysis.Map(story.Answer.Question, openings, temperatures, progress, cancellation));
        }

        if (request.Map is { } path)
            around.Files.Write(path, request.Force, around.Drawing.Draw(new Figure.ChanceMap(map), request.Units, loaded.Name, path));
        if (request.Times is { } times)
            around.Files.Write(times, request.Force, around.Drawing.Draw(new Figure.StrainTimes(map), request.Units, loaded.Name, times));
    }

    private static Provenance Made(RiskRequest request, Loaded loaded) => Provenance.Of(
        "risk",
        request.File,
        loaded,
        [
            .. ShellWords.Repeated("--set", request.Settings), ("--tolerance", request.Tolerance), ("--runs", request.Runs), ("--seed", request.Seed),
            ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report)),
        ]);

    private static RiskInput WithThreads(RiskInput input, int? threads) => input with { Question = input.Question with { Threads = threads } };

    private static int? ThreadsOf(string? written)
    {
        if (written is null)
            return null;
        if (int.TryParse(written.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int threads) && threads is >= 1 and <= MostThreads)
            return threads;
        Problems problems = new();
        problems.Add(new Spot("--threads " + written, 0, 0), FormattableString.Invariant($"is not a number of threads; allowed: a whole number, 1 to {MostThreads}"));
        throw new BadInputException(problems);
    }
}
