using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Planning;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim plan</c> was asked for.</summary>
internal sealed record PlanRequest : FilesRequest
{
    public Pace? Pace { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static PlanRequest Of(CommandOptions options) => new()
    {
        File = options.File("DAY.toml", "TOML file of the day; \"flowsim new --day FILE\" writes one."),
        Pace = options.Word<Pace>("--pace", "quick|likely|slow", "Times that the plan counts with, in place of day.pace."),
        Json = options.Json(),
        Csv = options.Output("--csv", "Write the lines of the plan to FILE."),
        Plot = options.Output("--plot", "Draw who and what is at work when to FILE, .png or .svg."),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
    };
}

/// <summary>Plans a day and tells who does what when.</summary>
internal static class PlanCommand
{
    public static int Run(PlanRequest request, Surroundings around, CancellationToken cancellation)
    {
        Loaded loaded = Loader.LoadDay(around.Files, request.File);
        AskedFiles files;
        PlanStory story;
        using (ProgressLine progress = new(around, "planning"))
        {
            DayInput input = DayReader.Read(around.Files, loaded, request.File, request.Pace, cancellation);
            files = new AskedFiles(request, around, loaded, seriesPoints: null, Asked.Text("--csv", request.Csv), Asked.Drawing("--plot", request.Plot));
            story = new PlanStory(Plan(input.Question, loaded, cancellation), input.Date, loaded.Journal, loaded.Name) { OfBatches = input.Notices };
            files.Write(request.Csv, () => PlanCsv.Of(story));
            files.Draw(request.Plot, () => new Figure.Day(story.Plan, story.Date));
            string? pace = request.Pace is { } asked ? Words.Of(asked) : null;
            files.WriteSheet(name => PlanSheet.Of(story with { Name = name }, request.Again("plan", loaded, ("--pace", pace)), request.Units, around.Drawing));
        }

        Outputs.Answer(request, around, files.All, () => PlanJson.Of(story), (page, display) => new PlanText(page, display, story), text => text.Write(), text => text.WriteOutcome());
        return story.Plan.Conflicts.Count > 0 ? ExitCode.PlanConflicts : ExitCode.Done;
    }

    private static DayPlan Plan(DayQuestion question, Loaded loaded, CancellationToken cancellation)
    {
        try
        {
            return DayPlan.Of(question, cancellation);
        }
        catch (ArgumentException refusal)
        {
            DayBlame.Report(refusal, loaded.Document, loaded.Journal, loaded.Problems);
            throw new BadInputException(loaded.Problems);
        }
    }
}
