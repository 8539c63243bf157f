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
}

/// <summary>Tells what published classes say of a honey on the shelf.</summary>
internal static class ShelfCommand
{
    public static int Run(ShelfRequest request, Terminal terminal)
    {
        Loaded loaded = Loader.Load(request.File, request.Settings);
        ShelfQuestion question = Loader.ReadShelf(loaded);
        ShelfNotes notes = Loader.Guard(loaded, () => ShelfNotes.Of(question));
        if (request.Json)
        {
            terminal.Output.Write(ShelfJson.Of(notes, loaded.Journal));
            return ExitCode.Done;
        }

        ShelfText text = new(new Page(terminal.Output, terminal.Width, terminal.Colour), new Display(request.Units));
        if (request.Quiet)
            text.WriteOutcome(notes);
        else
            text.Write(notes, loaded);
        return ExitCode.Done;
    }
}
