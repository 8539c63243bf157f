using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Commands.Scanning;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim strain</c> was asked for.</summary>
internal sealed record StrainRequest : ScanRequest
{
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
        AskedFiles files = new(request, around, loaded, input.Options.SeriesPoints, Asked.Text("--csv", request.Csv, overTime: true), Asked.Drawing("--plot", request.Plot));
        StrainingResult result = Loader.Guard(loaded, () => StrainingRun.Simulate(input.Setup, input.Options, cancellation));
        files.Write(request.Csv, () => ResultCsv.Of(result.Series));
        files.Draw(request.Plot, () => new Figure.Run(result));

        IReadOnlyList<UncertainInput> known = loaded.Journal.Calibration?.ToInputs()?.Inputs ?? [];
        StrainingSpread? spread = Advice.OrNull(() => StrainingSpread.Of(input.Setup, known, loaded.Journal.Calibration?.Correlations ?? [], cancellation));
        RunStory story = new(result, loaded.Journal, loaded.Name) { Spread = spread };
        if (!request.Json || request.Report is not null)
            story = Advised(story, request, cancellation);
        files.WriteSheet(name => StrainSheet.Of(story with { Name = name }, request.Again("strain", loaded), request.Units, around.Drawing));
        Outputs.Answer(
            request, around, files.All, () => ResultJson.Of(result, spread, loaded.Journal), (page, display) => new ResultText(page, display), text => text.Write(story), text => text.WriteOutcome(story));

        bool ranOver = result.Overflows.Count > 0 || result.Masses.SpilledAtReceiver.Kilograms > 0;
        return ranOver && request.FailOnOverflow ? ExitCode.RanOver : ExitCode.Done;
    }

    private static int Scan(StrainRequest request, Surroundings around, CancellationToken cancellation)
    {
        ScanCommand.RefuseBeside((Asked.ReportOption, request.Report));
        bool ranOver = ScanCommand.Run(request, StrainScan.Columns(new Display(request.Units)), loaded => StrainScan.Run(loaded, cancellation), StrainScan.RunsOver, StrainScan.Verdict, around, cancellation);
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

    private sealed record Opening(UnitsNet.Ratio Share);
}
