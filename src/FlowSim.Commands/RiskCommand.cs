using System.Globalization;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.OverflowRisk;
using FlowSim.Straining;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim risk</c> was asked for.</summary>
internal sealed record RiskRequest : ScanRequest
{
    public string? Tolerance { get; init; }

    public string? Runs { get; init; }

    public string? Seed { get; init; }

    public string? Threads { get; init; }

    public string? Map { get; init; }

    public string? Times { get; init; }

    public bool FailAbove { get; init; }

    /// <inheritdoc/>
    public override IReadOnlyList<OptionSetting> More =>
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
        AskedFiles files = new(
            request, around, loaded, seriesPoints: null,
            Asked.Text("--csv", request.Csv),
            Asked.Drawing("--plot", request.Plot),
            Asked.Drawing("--map", request.Map),
            Asked.Drawing("--times", request.Times));

        RiskStory story;
        using (ProgressLine progress = new(around, "running"))
        {
            RiskAnswer answer = Loader.Guard(loaded, () => RiskAnalysis.Of(input.Question, progress, cancellation));
            story = new RiskStory(answer, input, loaded.Journal, loaded.Name);
        }

        WriteFiles(story, request, loaded, files, around, cancellation);
        Outputs.Answer(request, around, files.All, () => RiskJson.Of(story), (page, display) => new RiskText(page, display), text => text.Write(story), text => text.WriteOutcome(story));
        return request.FailAbove && RiskScan.IsAbove(story.Answer) ? ExitCode.AboveTolerance : ExitCode.Done;
    }

    private static int Scan(RiskRequest request, int? threads, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside(("--map", request.Map), ("--times", request.Times), (Asked.ReportOption, request.Report));
        bool above = ScanCommand.Run(
            request, RiskScan.Columns(), loaded => RiskScan.Run(loaded, input => WithThreads(input, threads), cancellation), RiskScan.IsAbove, RiskScan.Verdict, around, cancellation);
        return above && request.FailAbove ? ExitCode.AboveTolerance : ExitCode.Done;
    }

    private static void WriteFiles(RiskStory story, RiskRequest request, Loaded loaded, AskedFiles files, Surroundings around, CancellationToken cancellation)
    {
        files.Write(request.Csv, () => RiskCsv.Of(story.Answer));
        files.Draw(request.Plot, () => new Figure.Risk(story.Answer));
        files.WriteSheet(name => RiskSheet.Of(
            story with { Name = name },
            request.Again("risk", loaded, ("--tolerance", request.Tolerance), ("--runs", request.Runs), ("--seed", request.Seed)),
            request.Units,
            around.Drawing));
        if ((request.Map ?? request.Times) is null)
            return;

        RiskMap map;
        using (ProgressLine progress = new(around, "mapping"))
        {
            (IReadOnlyList<Ratio> openings, IReadOnlyList<Temperature> temperatures) = RiskGrid.About(story.Answer.Question.Setup);
            map = Loader.Guard(loaded, () => RiskAnalysis.Map(story.Answer.Question, openings, temperatures, progress, cancellation));
        }

        files.Draw(request.Map, () => new Figure.ChanceMap(map));
        files.Draw(request.Times, () => new Figure.StrainTimes(map));
    }

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
