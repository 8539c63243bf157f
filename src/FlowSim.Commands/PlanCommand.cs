using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Planning;
using FlowSim.RunSheets;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim plan</c> was asked for.</summary>
internal sealed record PlanRequest
{
    public string? File { get; init; }

    public Pace? Pace { get; init; }

    public bool Json { get; init; }

    public string? Csv { get; init; }

    public string? Plot { get; init; }

    public string? Report { get; init; }

    public UnitChoice Units { get; init; }

    public bool Force { get; init; }

    public bool Quiet { get; init; }

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
        Asked[] files =
        [
            new("--csv", request.Csv, IsFigure: false, NeedsSeries: false),
            new("--plot", request.Plot, IsFigure: true, NeedsSeries: false),
            Asked.Report(request.Report),
        ];
        PlanStory story;
        using (ProgressLine progress = new(around, "planning"))
        {
            DayInput input = DayReader.Read(around.Files, loaded, request.File, request.Pace, cancellation);
            Outputs.Require(around, loaded, request.File, request.Force, seriesPoints: null, files);
            story = new PlanStory(Plan(input.Question, loaded, cancellation), input.Date, loaded.Journal, loaded.Name) { OfBatches = input.Notices };
            if (request.Csv is { } csv)
                around.Files.Write(csv, request.Force, PlanCsv.Of(story));
            if (request.Plot is { } plot)
                around.Files.Write(plot, request.Force, around.Drawing.Draw(new Figure.Day(story.Plan, story.Date), request.Units, loaded.Name, plot));
            if (request.Report is { } report)
                around.Files.Write(report, request.Force, RunSheetHtml.Of(PlanSheet.Of(story with { Name = Provenance.NameOf(request.File) }, Made(request, loaded), request.Units, around.Drawing)));
        }

        if (request.Json)
        {
            around.Json.Write(PlanJson.Of(story));
        }
        else
        {
            PlanText text = new(new Page(around.Output, around.Width, around.Colour), new Display(request.Units), story);
            if (request.Quiet)
                text.WriteOutcome();
            else
                text.Write();
            Outputs.Tell(around, files);
        }

        return story.Plan.Conflicts.Count > 0 ? ExitCode.PlanConflicts : ExitCode.Done;
    }

    private static Provenance Made(PlanRequest request, Loaded loaded) => Provenance.Of(
        "plan", request.File, loaded, [("--pace", request.Pace is { } pace ? Words.Of(pace) : null), ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report))]);

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
