using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.Warming;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim warm</c> was asked for.</summary>
internal sealed record WarmRequest : ScanRequest
{
    public string? Map { get; init; }

    public string? Damage { get; init; }

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
        AskedFiles files = new(
            request, around, loaded, input.Options.SeriesPoints,
            Asked.Text("--csv", request.Csv, overTime: true),
            Asked.Drawing("--plot", request.Plot, overTime: true),
            Asked.Drawing("--map", request.Map),
            Asked.Drawing("--damage", request.Damage, overTime: true));

        WarmStory story;
        using (ProgressLine progress = new(around, "warming"))
        {
            WarmingBounds bounds = Loader.Guard(loaded, () => WarmingBounds.Of(input.Setup, input.Options, cancellation));
            story = new WarmStory(bounds, input.Limits, loaded.Journal, loaded.Name) { Spread = Advice.OrNull(() => WarmingSpread.Of(input.Setup, input.Options, cancellation)) };
            if (!request.Json || request.Report is not null)
                story = story with { NextSteps = NextStepsOf(story, input, request, cancellation) };
            WriteFiles(story, input, request, loaded, files, around, cancellation);
        }

        Outputs.Answer(request, around, files.All, () => WarmingJson.Of(story), (page, display) => new WarmingText(page, display), text => text.Write(story), text => text.WriteOutcome(story));
        return request.FailOnMiss && story.Result.TimeToTarget is null ? ExitCode.TargetMissed : ExitCode.Done;
    }

    private static int Scan(WarmRequest request, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside(("--map", request.Map), ("--damage", request.Damage), (Asked.ReportOption, request.Report));
        bool missed = ScanCommand.Run(request, WarmScan.Columns(new Display(request.Units)), loaded => WarmScan.Run(loaded, cancellation), WarmScan.Misses, WarmScan.Verdict, around, cancellation);
        return missed && request.FailOnMiss ? ExitCode.TargetMissed : ExitCode.Done;
    }

    private static IReadOnlyList<string> NextStepsOf(WarmStory story, WarmInput input, WarmRequest request, CancellationToken cancellation)
    {
        WarmingOptions brief = input.Options with { SeriesPoints = 0, MapTimes = [] };
        return new WarmNextSteps(setup => Advice.OrNull(() => WarmingRun.Simulate(setup, brief, cancellation)), new Display(request.Units)).For(story);
    }

    private static void WriteFiles(WarmStory story, WarmInput input, WarmRequest request, Loaded loaded, AskedFiles files, Surroundings around, CancellationToken cancellation)
    {
        files.Write(request.Csv, () => WarmingCsv.Of(story.Result.Series));
        files.Draw(request.Plot, () => new Figure.Warming(story.Bounds));
        WarmingResult mapped = (request.Map ?? request.Report) is null || story.Result.Maps.Count > 0 ? story.Result : Mapped(story.Result, input, cancellation);
        files.Draw(request.Map, () => new Figure.VesselMap(mapped));
        files.Draw(request.Damage, () => new Figure.Damage(story.Result, input.Limits.Limits.Heat));
        files.WriteSheet(name => WarmSheet.Of(story with { Name = name }, mapped, request.Again("warm", loaded), request.Units, around.Drawing));
    }

    /// <summary>The run once more, with maps over its whole length, which is only known now.</summary>
    private static WarmingResult Mapped(WarmingResult result, WarmInput input, CancellationToken cancellation)
    {
        double endS = result.Elapsed.Seconds;
        WarmingOptions options = input.Options with { SeriesPoints = 0, MapTimes = [.. s_mapShares.Select(share => Duration.FromSeconds(share * endS))] };
        return WarmingRun.Simulate(input.Setup, options, cancellation);
    }
}
