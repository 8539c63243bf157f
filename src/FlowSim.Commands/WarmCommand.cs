using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.RunSheets;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim warm</c> was asked for.</summary>
internal sealed record WarmRequest
{
    public string? File { get; init; }

    public IReadOnlyList<string> Settings { get; init; } = [];

    public IReadOnlyList<string> Scans { get; init; } = [];

    public bool Json { get; init; }

    public string? Csv { get; init; }

    public string? Plot { get; init; }

    public string? Map { get; init; }

    public string? Damage { get; init; }

    public string? Report { get; init; }

    public UnitChoice Units { get; init; }

    public bool Force { get; init; }

    public bool Quiet { get; init; }

    public bool FailOnMiss { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static WarmRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Scans = options.Scans(),
        Json = options.Json(),
        Csv = options.Csv(),
        Plot = options.Output("--plot", "Draw temperatures and heater over time to FILE, .png or .svg."),
        Map = options.Output("--map", "Draw maps of the vessel to FILE."),
        Damage = options.Output("--damage", "Draw what the heat costs, against the limit, to FILE."),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
        FailOnMiss = options.Flag("--fail-on-miss", "Return 11 when the targets are not reached."),
    };
}

/// <summary>Warms, holds or cools a vessel of honey and tells what happens.</summary>
internal static class WarmCommand
{
    /// <summary>Shares of the run at which the vessel is mapped when no times are given.</summary>
    private static readonly double[] s_mapShares = [0.1, 0.3, 0.6, 1];

    public static int Run(WarmRequest request, Surroundings around, CancellationToken cancellation)
    {
        if (request.Scans.Count > 0)
            return Scan(request, around, cancellation);
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings);
        WarmInput input = Loader.ReadWarming(loaded);
        Asked[] files =
        [
            new("--csv", request.Csv, IsFigure: false, NeedsSeries: true),
            new("--plot", request.Plot, IsFigure: true, NeedsSeries: true),
            new("--map", request.Map, IsFigure: true, NeedsSeries: false),
            new("--damage", request.Damage, IsFigure: true, NeedsSeries: true),
            Asked.Report(request.Report),
        ];
        Outputs.Require(around, loaded, request.File, request.Force, input.Options.SeriesPoints, files);

        WarmStory story;
        using (ProgressLine progress = new(around, "warming"))
        {
            WarmingBounds bounds = Loader.Guard(loaded, () => WarmingBounds.Of(input.Setup, input.Options, cancellation));
            story = new WarmStory(bounds, input.Limits, loaded.Journal, loaded.Name) { Spread = Advice.OrNull(() => WarmingSpread.Of(input.Setup, input.Options, cancellation)) };
            if (!request.Json || request.Report is not null)
                story = story with { NextSteps = NextStepsOf(story, input, request, cancellation) };
            WriteFiles(story, input, request, loaded, around, cancellation);
        }

        if (request.Json)
        {
            around.Json.Write(WarmingJson.Of(story));
        }
        else
        {
            WarmingText text = new(new Page(around.Output, around.Width, around.Colour), new Display(request.Units));
            if (request.Quiet)
                text.WriteOutcome(story);
            else
                text.Write(story);
            Outputs.Tell(around, files);
        }

        return request.FailOnMiss && story.Result.TimeToTarget is null ? ExitCode.TargetMissed : ExitCode.Done;
    }

    private static int Scan(WarmRequest request, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside(("--map", request.Map), ("--damage", request.Damage), (Asked.ReportOption, request.Report));
        ScanRequest scan = new() { File = request.File, Settings = request.Settings, Scans = request.Scans, Json = request.Json, Csv = request.Csv, Plot = request.Plot, Units = request.Units, Force = request.Force, Quiet = request.Quiet };
        bool missed = ScanCommand.Run(scan, WarmScan.Columns(new Display(request.Units)), loaded => WarmScan.Run(loaded, cancellation), WarmScan.Misses, WarmScan.Verdict, around, cancellation);
        return missed && request.FailOnMiss ? ExitCode.TargetMissed : ExitCode.Done;
    }

    private static IReadOnlyList<string> NextStepsOf(WarmStory story, WarmInput input, WarmRequest request, CancellationToken cancellation)
    {
        WarmingOptions brief = input.Options with { SeriesPoints = 0, MapTimes = [] };
        return new WarmNextSteps(setup => Advice.OrNull(() => WarmingRun.Simulate(setup, brief, cancellation)), new Display(request.Units)).For(story);
    }

    private static void WriteFiles(WarmStory story, WarmInput input, WarmRequest request, Loaded loaded, Surroundings around, CancellationToken cancellation)
    {
        string name = loaded.Name;
        if (request.Csv is { } csv)
            around.Files.Write(csv, request.Force, WarmingCsv.Of(story.Result.Series));
        if (request.Plot is { } plot)
            around.Files.Write(plot, request.Force, around.Drawing.Draw(new Figure.Warming(story.Bounds), request.Units, name, plot));
        WarmingResult mapped = (request.Map ?? request.Report) is null || story.Result.Maps.Count > 0 ? story.Result : Mapped(story.Result, input, cancellation);
        if (request.Map is { } map)
            around.Files.Write(map, request.Force, around.Drawing.Draw(new Figure.VesselMap(mapped), request.Units, name, map));
        if (request.Damage is { } damage)
            around.Files.Write(damage, request.Force, around.Drawing.Draw(new Figure.Damage(story.Result, input.Limits.Limits.Heat), request.Units, name, damage));
        if (request.Report is { } report)
            around.Files.Write(report, request.Force, RunSheetHtml.Of(WarmSheet.Of(story with { Name = Provenance.NameOf(request.File) }, mapped, Made(request, loaded), request.Units, around.Drawing)));
    }

    private static Provenance Made(WarmRequest request, Loaded loaded) => Provenance.Of(
        "warm", request.File, loaded, [.. ShellWords.Repeated("--set", request.Settings), ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report))]);

    /// <summary>The run once more, with maps over its whole length, which is only known now.</summary>
    private static WarmingResult Mapped(WarmingResult result, WarmInput input, CancellationToken cancellation)
    {
        double endS = result.Elapsed.Seconds;
        WarmingOptions options = input.Options with { SeriesPoints = 0, MapTimes = [.. s_mapShares.Select(share => Duration.FromSeconds(share * endS))] };
        return WarmingRun.Simulate(input.Setup, options, cancellation);
    }
}
