using FlowSim.Bottling;
using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.Commands.Output.Sheets;
using FlowSim.Straining;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim fill</c> was asked for.</summary>
internal sealed record FillRequest : FilesRequest
{
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
        AskedFiles files = new(request, around, loaded, seriesPoints: null, Asked.Text("--csv", request.Csv), Asked.Drawing("--plot", request.Plot));
        FillingBand band = Loader.Guard(loaded, () => FillingBand.Of(setup, LotDeviation(loaded.Journal), cancellation));
        FillingResult result = band.Likely;
        files.Write(request.Csv, () => FillingCsv.Of(result.Series));
        files.Draw(request.Plot, () => new Figure.Filling(band));

        FillNextSteps next = new(changed => Advice.OrNull(() => FillingRun.Simulate(changed, cancellation)), new Display(request.Units));
        FillingStory story = new(band, loaded.Journal, loaded.Name, request.Json && request.Report is null ? [] : next.For(result));
        files.WriteSheet(name => FillSheet.Of(story with { Name = name }, request.Again("fill", loaded), request.Units, around.Drawing));
        Outputs.Answer(
            request, around, files.All, () => FillingJson.Of(band, loaded.Journal), (page, display) => new FillingText(page, display), text => text.Write(story), text => text.WriteOutcome(story));
        return ExitCode.Done;
    }

    /// <summary>What a calibration leaves open of the lot factor, as a standard deviation of its logarithm; null takes what honeys commonly differ by.</summary>
    private static double? LotDeviation(Journal journal) =>
        journal.Calibration?.ToInputs()?.Inputs.FirstOrDefault(input => input.Input == StrainingInputs.LotFactor)?.Spread is { } known && known.Quantile(0.1) > 0
            ? Math.Min(3, Math.Log(known.Quantile(0.9) / known.Quantile(0.1)) / (2 * NormalAt90))
            : null;

    /// <summary>Quantile of the normal distribution at 90 %.</summary>
    private const double NormalAt90 = 1.2815515655446004;
}
