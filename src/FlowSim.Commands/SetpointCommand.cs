using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.RunSheets;
using FlowSim.Setpoints;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim setpoint</c> was asked for.</summary>
internal sealed record SetpointRequest
{
    public string? File { get; init; }

    public IReadOnlyList<string> Settings { get; init; } = [];

    public string? Ceiling { get; init; }

    public bool Json { get; init; }

    public string? Plot { get; init; }

    public string? Report { get; init; }

    public UnitChoice Units { get; init; }

    public bool Force { get; init; }

    public bool Quiet { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static SetpointRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Ceiling = options.Setting("--ceiling", Keys.Limits.Ceiling, "TEMPERATURE", "Highest setpoint and hottest honey"),
        Json = options.Json(),
        Plot = options.Output("--plot", "Draw damage against time over the setpoints to FILE, .png or .svg."),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
    };
}

/// <summary>Finds how warm to set the heat so that warming and straining are done soonest within the limits.</summary>
internal static class SetpointCommand
{
    public static int Run(SetpointRequest request, Surroundings around, CancellationToken cancellation)
    {
        OptionSetting[] more = request.Ceiling is { } ceiling ? [new("--ceiling " + ceiling, $"{Keys.Limits.Ceiling}={ceiling}")] : [];
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings, more);
        SetpointInput input = Loader.ReadQuestion(loaded);
        Asked[] files = [new("--plot", request.Plot, IsFigure: true, NeedsSeries: false), Asked.Report(request.Report)];
        Outputs.Require(around, loaded, request.File, request.Force, seriesPoints: null, files);

        SetpointAnswer answer;
        using (ProgressLine progress = new(around, "searching for the setpoint"))
        {
            answer = Loader.Guard(loaded, () => SetpointSearch.Find(input.Question, progress, cancellation));
            if (request.Plot is { } plot)
                around.Files.Write(plot, request.Force, around.Drawing.Draw(new Figure.Setpoint(answer), request.Units, loaded.Name, plot));
        }

        SetpointStory story = new(answer, input.Limits, loaded.Journal, loaded.Name);
        if (request.Report is { } report)
            around.Files.Write(report, request.Force, RunSheetHtml.Of(SetpointSheet.Of(story with { Name = Provenance.NameOf(request.File) }, Made(request, loaded), request.Units, around.Drawing)));
        if (request.Json)
        {
            around.Json.Write(SetpointJson.Of(story));
        }
        else
        {
            SetpointText text = new(new Page(around.Output, around.Width, around.Colour), new Display(request.Units));
            if (request.Quiet)
                text.WriteOutcome(story);
            else
                text.Write(story);
            Outputs.Tell(around, files);
        }

        return answer.Status == SetpointStatus.Found ? ExitCode.Done : ExitCode.NoSetpoint;
    }

    private static Provenance Made(SetpointRequest request, Loaded loaded) => Provenance.Of(
        "setpoint", request.File, loaded, [.. ShellWords.Repeated("--set", request.Settings), ("--ceiling", request.Ceiling), ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report))]);
}
