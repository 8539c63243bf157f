using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Setpoints;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim setpoint</c> was asked for.</summary>
internal sealed record SetpointRequest : FilesRequest
{
    public string? Ceiling { get; init; }

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
        AskedFiles files = new(request, around, loaded, seriesPoints: null, Asked.Drawing("--plot", request.Plot));

        SetpointAnswer answer;
        using (ProgressLine progress = new(around, "searching for the setpoint"))
        {
            answer = Loader.Guard(loaded, () => SetpointSearch.Find(input.Question, progress, cancellation));
            files.Draw(request.Plot, () => new Figure.Setpoint(answer));
        }

        SetpointStory story = new(answer, input.Limits, loaded.Journal, loaded.Name);
        files.WriteSheet(name => SetpointSheet.Of(story with { Name = name }, request.Again("setpoint", loaded, ("--ceiling", request.Ceiling)), request.Units, around.Drawing));
        Outputs.Answer(request, around, files.All, () => SetpointJson.Of(story), (page, display) => new SetpointText(page, display), text => text.Write(story), text => text.WriteOutcome(story));
        return answer.Status == SetpointStatus.Found ? ExitCode.Done : ExitCode.NoSetpoint;
    }
}
