using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.OverflowRisk;
using FlowSim.Settling;
using FlowSim.WholeJob;
using UnitsNet;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim yield</c> was asked for.</summary>
internal sealed record YieldRequest : BatchRequest
{
    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static YieldRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Json = options.Json(),
        Units = options.Units(),
        Quiet = options.Quiet(),
    };
}

/// <summary>Takes a batch through all its steps and tells where the honey is at the end.</summary>
internal static class YieldCommand
{
    /// <summary>Times of standing that are compared, over the one that was asked for.</summary>
    private static readonly double[] s_shares = [0.25, 0.5, 1, 2, 4];

    public static int Run(YieldRequest request, Surroundings around, CancellationToken cancellation)
    {
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings);
        JobSetup setup = JobReader.Read(loaded, cancellation);
        IReadOnlyList<UncertainInput>? learnt = loaded.Journal.Calibration?.ToInputs() is { } inputs ? inputs.SpreadsFor(setup.Straining) : null;
        JobResult result = Loader.Guard(loaded, () => JobRun.Simulate(setup, new JobOptions { StrainingSpreads = learnt }, cancellation));
        JobStory story = new(result, loaded.Journal, loaded.Name) { Standing = Standing(setup, cancellation) };
        Outputs.Answer(request, around, files: [], () => YieldJson.Of(story), (page, display) => new YieldText(page, display), text => text.Write(story), text => text.WriteOutcome(story));
        return ExitCode.Done;
    }

    private static IReadOnlyList<StandingChoice> Standing(JobSetup setup, CancellationToken cancellation)
    {
        if (setup.Settling is not { } settling)
            return [];
        Duration[] times = [.. s_shares.Select(share => Duration.FromSeconds(Math.Max(60, share * settling.StandsFor.Seconds))).Distinct()];
        return Advice.OrNull(() => StandingWorth.Of(setup, times, cancellation)) ?? [];
    }
}
