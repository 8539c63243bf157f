using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.OverflowRisk;
using FlowSim.RunSheets;
using FlowSim.Straining;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim strain</c> was asked for.</summary>
internal sealed record StrainRequest
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

    public bool FailOnOverflow { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static StrainRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Scans = options.Scans(),
        Json = options.Json(),
        Csv = options.Csv(),
        Plot = options.Output("--plot", "Write a figure to FILE, .png or .svg."),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
        FailOnOverflow = options.Flag("--fail-on-overflow", "Return 10 when the strainer or the receiver runs over."),
    };
}

/// <summary>Runs a tank through a strainer and tells what happens.</summary>
internal static class StrainCommand
{
    public static int Run(StrainRequest request, Surroundings around, CancellationToken cancellation)
    {
        if (request.Scans.Count > 0)
            return Scan(request, around, cancellation);
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings);
        StrainInput input = Loader.ReadSettledRun(loaded);
        Asked[] files = [new("--csv", request.Csv, IsFigure: false, NeedsSeries: true), new("--plot", request.Plot, IsFigure: true, NeedsSeries: false), Asked.Report(request.Report)];
        Outputs.Require(around, loaded, request.File, request.Force, input.Options.SeriesPoints, files);
        StrainingResult result = Loader.Guard(loaded, () => StrainingRun.Simulate(input.Setup, input.Options, cancellation));
        if (request.Csv is { } csv)
            around.Files.Write(csv, request.Force, ResultCsv.Of(result.Series));
        if (request.Plot is { } plot)
            around.Files.Write(plot, request.Force, around.Drawing.Draw(new Figure.Run(result), request.Units, loaded.Name, plot));

        IReadOnlyList<UncertainInput> known = loaded.Journal.Calibration?.ToInputs()?.Inputs ?? [];
        StrainingSpread? spread = Advice.OrNull(() => StrainingSpread.Of(input.Setup, known, loaded.Journal.Calibration?.Correlations ?? [], cancellation));
        RunStory story = new(result, loaded.Journal, loaded.Name) { Spread = spread };
        if (!request.Json || request.Report is not null)
            story = Advised(story, request, cancellation);
        if (request.Report is { } report)
            around.Files.Write(report, request.Force, RunSheetHtml.Of(StrainSheet.Of(story with { Name = Provenance.NameOf(request.File) }, Made(request, loaded), request.Units, around.Drawing)));
        if (request.Json)
            around.Json.Write(ResultJson.Of(result, spread, loaded.Journal));
        else
            WriteText(story, request, around);
        if (!request.Json)
            Outputs.Tell(around, files);

        bool ranOver = result.Overflows.Count > 0 || result.Masses.SpilledAtReceiver.Kilograms > 0;
        return ranOver && request.FailOnOverflow ? ExitCode.RanOver : ExitCode.Done;
    }

    private static Provenance Made(StrainRequest request, Loaded loaded) => Provenance.Of(
        "strain", request.File, loaded, [.. ShellWords.Repeated("--set", request.Settings), ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report))]);

    private static int Scan(StrainRequest request, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside((Asked.ReportOption, request.Report));
        ScanRequest scan = new() { File = request.File, Settings = request.Settings, Scans = request.Scans, Json = request.Json, Csv = request.Csv, Plot = request.Plot, Units = request.Units, Force = request.Force, Quiet = request.Quiet };
        bool ranOver = ScanCommand.Run(scan, StrainScan.Columns(new Display(request.Units)), loaded => StrainScan.Run(loaded, cancellation), StrainScan.RunsOver, StrainScan.Verdict, around, cancellation);
        return ranOver && request.FailOnOverflow ? ExitCode.RanOver : ExitCode.Done;
    }

    private static RunStory Advised(RunStory story, StrainRequest request, CancellationToken cancellation)
    {
        StrainingOptions brief = new() { SeriesPoints = 0 };
        NextSteps next = new(
            setup => Advice.OrNull(() => StrainingRun.Simulate(setup, brief, cancellation)),
            () => Advice.OrNull(() => new Opening(WidestOpening.Find(story.Result.Setup, cancellation)))?.Share,
            new Display(request.Units));
        StrainAdvice advice = next.For(story.Result);
        return story with { NextSteps = advice.Steps, Watch = advice.Watch };
    }

    private static void WriteText(RunStory story, StrainRequest request, Surroundings around)
    {
        ResultText text = new(new Page(around.Output, around.Width, around.Colour), new Display(request.Units));
        if (request.Quiet)
            text.WriteOutcome(story);
        else
            text.Write(story);
    }

    private sealed record Opening(UnitsNet.Ratio Share);
}
