using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.HeatDamage;
using FlowSim.RunSheets;
using FlowSim.Settling;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim settle</c> was asked for.</summary>
internal sealed record SettleRequest
{
    public string? File { get; init; }

    public IReadOnlyList<string> Settings { get; init; } = [];

    public IReadOnlyList<string> Scans { get; init; } = [];

    public bool Json { get; init; }

    public string? Csv { get; init; }

    public string? Plot { get; init; }

    public string? Report { get; init; }

    public UnitChoice Units { get; init; }

    public bool Force { get; init; }

    public bool Quiet { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static SettleRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Scans = options.Scans(),
        Json = options.Json(),
        Csv = options.Csv(),
        Plot = options.Output("--plot", "Draw what is left over time and depth to FILE, .png or .svg."),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
    };
}

/// <summary>Lets honey stand and tells what rises out of it, and when it is clear.</summary>
internal static class SettleCommand
{
    public static int Run(SettleRequest request, Surroundings around, CancellationToken cancellation)
    {
        if (request.Scans.Count > 0)
            return Scan(request, around, cancellation);
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings);
        SettleInput input = Loader.ReadSettling(loaded);
        Asked[] files = [new("--csv", request.Csv, IsFigure: false, NeedsSeries: true), new("--plot", request.Plot, IsFigure: true, NeedsSeries: true), Asked.Report(request.Report)];
        Outputs.Require(around, loaded, request.File, request.Force, input.Options.SeriesPoints, files);
        SettlingResult result = Loader.Guard(loaded, () => SettlingRun.Simulate(input.Setup, input.Options, cancellation));
        HoneyHeatDamage damage = Loader.Guard(loaded, () => HoneyHeatDamage.Of(result.Temperature, input.Response));
        SettlingBand? band = Advice.OrNull(() => SettlingBand.Of(input.Setup, cancellation: cancellation));
        if (request.Csv is { } csv)
            around.Files.Write(csv, request.Force, SettlingCsv.Of(result));
        if (request.Plot is { } plot)
            around.Files.Write(plot, request.Force, around.Drawing.Draw(new Figure.Settling(result, band), request.Units, loaded.Name, plot));

        SettleStory story = new(result, damage, loaded.Journal, loaded.Name) { Band = band };
        Display display = new(request.Units);
        if (!request.Json || request.Report is not null)
            story = story with { NextSteps = new SettleNextSteps(input, display, cancellation).For(story) };
        if (request.Report is { } report)
            around.Files.Write(report, request.Force, RunSheetHtml.Of(SettleSheet.Of(story with { Name = Provenance.NameOf(request.File) }, Made(request, loaded), request.Units, around.Drawing)));
        if (request.Json)
        {
            around.Json.Write(SettlingJson.Of(story));
            return ExitCode.Done;
        }

        SettlingText text = new(new Page(around.Output, around.Width, around.Colour), display);
        if (request.Quiet)
            text.WriteOutcome(story);
        else
            text.Write(story);
        Outputs.Tell(around, files);
        return ExitCode.Done;
    }

    private static Provenance Made(SettleRequest request, Loaded loaded) => Provenance.Of(
        "settle", request.File, loaded, [.. ShellWords.Repeated("--set", request.Settings), ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report))]);

    private static int Scan(SettleRequest request, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside((Asked.ReportOption, request.Report));
        ScanRequest scan = new() { File = request.File, Settings = request.Settings, Scans = request.Scans, Json = request.Json, Csv = request.Csv, Plot = request.Plot, Units = request.Units, Force = request.Force, Quiet = request.Quiet };
        ScanCommand.Run(scan, SettleScan.Columns(), loaded => SettleScan.Run(loaded, cancellation), SettleScan.IsNotClear, SettleScan.Verdict, around, cancellation);
        return ExitCode.Done;
    }
}
