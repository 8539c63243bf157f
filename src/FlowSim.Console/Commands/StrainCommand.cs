using FlowSim.Console.Input;
using FlowSim.Console.Output;
using FlowSim.OverflowRisk;
using FlowSim.Straining;

namespace FlowSim.Console.Commands;

/// <summary>What <c>flowsim strain</c> was asked for.</summary>
internal sealed record StrainRequest
{
    public string? File { get; init; }

    public IReadOnlyList<string> Settings { get; init; } = [];

    public bool Json { get; init; }

    public string? Csv { get; init; }

    public string? Plot { get; init; }

    public UnitChoice Units { get; init; }

    public bool Force { get; init; }

    public bool Quiet { get; init; }

    public bool FailOnOverflow { get; init; }
}

/// <summary>Runs a tank through a strainer and tells what happens.</summary>
internal static class StrainCommand
{
    public static int Run(StrainRequest request, Terminal terminal, CancellationToken cancellation)
    {
        Loaded loaded = Loader.Load(request.File, request.Settings);
        StrainInput input = Loader.ReadRun(loaded);
        if (request.Csv is { } csvPath)
        {
            OutputFile.RequireOwn("--csv", csvPath, [("the input", request.File)], loaded.Problems);
            OutputFile.RequireFree(csvPath, request.Force);
            if (input.Options.SeriesPoints == 0)
            {
                loaded.Problems.Add(new Spot("--csv", 0, 0), $"needs a series, and {Keys.Run.Points} is 0; give 2 or more");
                throw new BadInputException(loaded.Problems);
            }
        }

        if (request.Plot is { } plotPath)
        {
            OutputFile.RequireOwn("--plot", plotPath, [("the input", request.File), ("what --csv", request.Csv)], loaded.Problems);
            OutputFile.RequireFigure(plotPath, loaded.Problems);
            OutputFile.RequireFree(plotPath, request.Force);
        }

        StrainingResult result = Loader.Guard(loaded, () => StrainingRun.Simulate(input.Setup, input.Options, cancellation));
        if (request.Csv is { } csv)
            OutputFile.WriteText(csv, request.Force, ResultCsv.Of(result.Series));
        if (request.Plot is { } plot)
            OutputFile.Write(plot, request.Force, temporary => Figures.Save(result, temporary, request.Units, loaded.Name));

        StrainingSpread? spread = OrNull(() => StrainingSpread.Of(input.Setup, cancellation));
        if (request.Json)
            terminal.Output.Write(ResultJson.Of(result, spread, loaded.Journal));
        else
            WriteText(new RunStory(result, loaded.Journal, loaded.Name) { Spread = spread }, request, terminal, cancellation);

        bool ranOver = result.Overflows.Count > 0 || result.Masses.SpilledAtReceiver.Kilograms > 0;
        return ranOver && request.FailOnOverflow ? ExitCode.RanOver : ExitCode.Done;
    }

    private static void WriteText(RunStory story, StrainRequest request, Terminal terminal, CancellationToken cancellation)
    {
        Display display = new(request.Units);
        StrainingOptions brief = new() { SeriesPoints = 0 };
        NextSteps next = new(
            setup => OrNull(() => StrainingRun.Simulate(setup, brief, cancellation)),
            () => OrNull(() => new Opening(WidestOpening.Find(story.Result.Setup, cancellation)))?.Share,
            display);
        story = story with { NextSteps = next.For(story.Result) };

        Page page = new(terminal.Output, terminal.Width, terminal.Colour);
        ResultText text = new(page, display);
        if (request.Quiet)
            text.WriteOutcome(story);
        else
            text.Write(story);
        terminal.Output.Flush();
        foreach (string file in new[] { request.Csv, request.Plot }.OfType<string>())
            terminal.Error.Write($"wrote {Printable.Of(file, 200)}\n");
    }

    /// <summary>Advice that the library refuses, at the edge of a range, is advice not given.</summary>
    private static T? OrNull<T>(Func<T> ask)
        where T : class
    {
        try
        {
            return ask();
        }
        catch (Exception refused) when (refused is ArgumentException or SimulationException)
        {
            return null;
        }
    }

    private sealed record Opening(UnitsNet.Ratio Share);
}
