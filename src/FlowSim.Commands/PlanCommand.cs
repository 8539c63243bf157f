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
}

/// <summary>Plans a day and tells who does what when.</summary>
internal static class PlanCommand
{
    public static int Run(PlanRequest request, Terminal terminal, CancellationToken cancellation)
    {
        Loaded loaded = Loader.LoadDay(request.File);
        Asked[] files =
        [
            new("--csv", request.Csv, IsFigure: false, NeedsSeries: false),
            new("--plot", request.Plot, IsFigure: true, NeedsSeries: false),
            Asked.Report(request.Report),
        ];
        PlanStory story;
        using (ProgressLine progress = new(terminal, "planning"))
        {
            DayInput input = DayReader.Read(loaded, request.File, request.Pace, cancellation);
            Outputs.Require(loaded, request.File, request.Force, seriesPoints: null, files);
            story = new PlanStory(Plan(input.Question, loaded, cancellation), input.Date, loaded.Journal, loaded.Name) { OfBatches = input.Notices };
            if (request.Csv is { } csv)
                OutputFile.WriteText(csv, request.Force, PlanCsv.Of(story));
            if (request.Plot is { } plot)
                OutputFile.Write(plot, request.Force, temporary => Figures.SaveDay(story.Plan, story.Date, temporary, request.Units, loaded.Name));
            if (request.Report is { } report)
                OutputFile.WriteText(report, request.Force, RunSheetHtml.Of(PlanSheet.Of(story with { Name = Provenance.NameOf(request.File) }, Made(request, loaded), request.Units)));
        }

        if (request.Json)
        {
            terminal.Output.Write(PlanJson.Of(story));
        }
        else
        {
            PlanText text = new(new Page(terminal.Output, terminal.Width, terminal.Colour), new Display(request.Units), story);
            if (request.Quiet)
                text.WriteOutcome();
            else
                text.Write();
            Outputs.Tell(terminal, files);
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
