using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.HeatDamage;
using FlowSim.Settling;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim settle</c> was asked for.</summary>
internal sealed record SettleRequest : ScanRequest
{
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
        AskedFiles files = new(request, around, loaded, input.Options.SeriesPoints, Asked.Text("--csv", request.Csv, overTime: true), Asked.Drawing("--plot", request.Plot, overTime: true));
        SettlingResult result = Loader.Guard(loaded, () => SettlingRun.Simulate(input.Setup, input.Options, cancellation));
        HoneyHeatDamage damage = Loader.Guard(loaded, () => HoneyHeatDamage.Of(result.Temperature, input.Response));
        SettlingBand? band = Advice.OrNull(() => SettlingBand.Of(input.Setup, cancellation: cancellation));
        files.Write(request.Csv, () => SettlingCsv.Of(result));
        files.Draw(request.Plot, () => new Figure.Settling(result, band));

        SettleStory story = new(result, damage, loaded.Journal, loaded.Name) { Band = band };
        if (!request.Json || request.Report is not null)
            story = story with { NextSteps = new SettleNextSteps(input, new Display(request.Units), cancellation).For(story) };
        files.WriteSheet(name => SettleSheet.Of(story with { Name = name }, request.Again("settle", loaded), request.Units, around.Drawing));
        Outputs.Answer(request, around, files.All, () => SettlingJson.Of(story), (page, display) => new SettlingText(page, display), text => text.Write(story), text => text.WriteOutcome(story));
        return ExitCode.Done;
    }

    private static int Scan(SettleRequest request, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside((Asked.ReportOption, request.Report));
        ScanCommand.Run(request, SettleScan.Columns(), loaded => SettleScan.Run(loaded, cancellation), SettleScan.IsNotClear, SettleScan.Verdict, around, cancellation);
        return ExitCode.Done;
    }
}
