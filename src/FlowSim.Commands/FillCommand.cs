using FlowSim.Bottling;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.RunSheets;
using FlowSim.Straining;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim fill</c> was asked for.</summary>
internal sealed record FillRequest
{
    public string? File { get; init; }

    public IReadOnlyList<string> Settings { get; init; } = [];

    public bool Json { get; init; }

    public string? Csv { get; init; }

    public string? Plot { get; init; }

    public string? Report { get; init; }

    public UnitChoice Units { get; init; }

    public bool Force { get; init; }

    public bool Quiet { get; init; }

    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static FillRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Json = options.Json(),
        Csv = options.Output("--csv", "Write the run jar by jar to FILE, SI units."),
        Plot = options.Output("--plot", "Draw fill times and level over the jars to FILE, .png or .svg."),
        Report = options.Report(),
        Units = options.Units(),
        Force = options.Force(),
        Quiet = options.Quiet(),
    };
}

/// <summary>Empties a bottling tank into jars and tells what comes of it.</summary>
internal static class FillCommand
{
    public static int Run(FillRequest request, Surroundings around, CancellationToken cancellation)
    {
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings);
        FillingSetup setup = Loader.ReadFilling(loaded, cancellation);
        Asked[] files = [new("--csv", request.Csv, IsFigure: false, NeedsSeries: false), new("--plot", request.Plot, IsFigure: true, NeedsSeries: false), Asked.Report(request.Report)];
        Outputs.Require(around, loaded, request.File, request.Force, seriesPoints: null, files);
        FillingBand band = Loader.Guard(loaded, () => FillingBand.Of(setup, LotDeviation(loaded.Journal), cancellation));
        FillingResult result = band.Likely;
        if (request.Csv is { } csv)
            around.Files.Write(csv, request.Force, FillingCsv.Of(result.Series));
        if (request.Plot is { } plot)
            around.Files.Write(plot, request.Force, around.Drawing.Draw(new Figure.Filling(band), request.Units, loaded.Name, plot));

        Display display = new(request.Units);
        FillNextSteps next = new(changed => Advice.OrNull(() => FillingRun.Simulate(changed, cancellation)), display);
        FillingStory story = new(band, loaded.Journal, loaded.Name, request.Json && request.Report is null ? [] : next.For(result));
        if (request.Report is { } report)
            around.Files.Write(report, request.Force, RunSheetHtml.Of(FillSheet.Of(story with { Name = Provenance.NameOf(request.File) }, Made(request, loaded), request.Units, around.Drawing)));
        if (request.Json)
        {
            around.Json.Write(FillingJson.Of(band, loaded.Journal));
            return ExitCode.Done;
        }

        FillingText text = new(new Page(around.Output, around.Width, around.Colour), display);
        if (request.Quiet)
            text.WriteOutcome(story);
        else
            text.Write(story);
        Outputs.Tell(around, files);
        return ExitCode.Done;
    }

    private static Provenance Made(FillRequest request, Loaded loaded) => Provenance.Of(
        "fill", request.File, loaded, [.. ShellWords.Repeated("--set", request.Settings), ("--units", Words.Of(request.Units)), (Asked.ReportOption, Provenance.NameOf(request.Report))]);

    /// <summary>What a calibration leaves open of the lot factor, as a standard deviation of its logarithm; null takes what honeys commonly differ by.</summary>
    private static double? LotDeviation(Journal journal) =>
        journal.Calibration?.ToInputs()?.Inputs.FirstOrDefault(input => input.Input == StrainingInputs.LotFactor)?.Spread is { } known && known.Quantile(0.1) > 0
            ? Math.Min(3, Math.Log(known.Quantile(0.9) / known.Quantile(0.1)) / (2 * NormalAt90))
            : null;

    /// <summary>Quantile of the normal distribution at 90 %.</summary>
    private const double NormalAt90 = 1.2815515655446004;
}
