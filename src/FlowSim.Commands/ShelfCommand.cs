using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.ShelfLife;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim shelf</c> was asked for.</summary>
internal sealed record ShelfRequest : BatchRequest
{
    /// <summary>The request of a line, and what the command takes.</summary>
    /// <param name="options">What it takes.</param>
    public static ShelfRequest Of(CommandOptions options) => new()
    {
        File = options.File(),
        Settings = options.Settings(),
        Json = options.Json(),
        Units = options.Units(),
        Quiet = options.Quiet(),
    };
}

/// <summary>Tells what published classes say of a honey on the shelf.</summary>
internal static class ShelfCommand
{
    public static int Run(ShelfRequest request, Surroundings around)
    {
        Loaded loaded = Loader.Load(around.Files, request.File, request.Settings);
        ShelfQuestion question = Loader.ReadShelf(loaded);
        ShelfNotes notes = Loader.Guard(loaded, () => ShelfNotes.Of(question));
        Outputs.Answer(
            request, around, files: [], () => ShelfJson.Of(notes, loaded.Journal), (page, display) => new ShelfText(page, display), text => text.Write(notes, loaded), text => text.WriteOutcome(notes));
        return ExitCode.Done;
    }
}
