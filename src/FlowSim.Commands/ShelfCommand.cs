using FlowSim.Commands.Input;
using FlowSim.Commands.Output;
using FlowSim.ShelfLife;

namespace FlowSim.Commands;

/// <summary>What <c>flowsim shelf</c> was asked for.</summary>
internal sealed record ShelfRequest
{
    public string? File { get; init; }

    public IReadOnlyList<string> Settings { get; init; } = [];

    public bool Json { get; init; }

    public UnitChoice Units { get; init; }

    public bool Quiet { get; init; }

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
        if (request.Json)
        {
            around.Json.Write(ShelfJson.Of(notes, loaded.Journal));
            return ExitCode.Done;
        }

        ShelfText text = new(new Page(around.Output, around.Width, around.Colour), new Display(request.Units));
        if (request.Quiet)
            text.WriteOutcome(notes);
        else
            text.Write(notes, loaded);
        return ExitCode.Done;
    }
}
