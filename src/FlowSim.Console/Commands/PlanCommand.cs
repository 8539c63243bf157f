using FlowSim.Console.Input;
using FlowSim.Console.Output;
using FlowSim.Planning;

namespace FlowSim.Console.Commands;

/// <summary>What <c>flowsim plan</c> was asked for.</summary>
internal sealed record PlanRequest
{
    public string? File { get; init; }

    public Pace? Pace { get; init; }

    public bool Json { get; init; }

    public string? Csv { get; init; }

    public string? Plot { get; init; }

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
