using FlowSim.Commands.Input;

namespace FlowSim.Docs;

/// <summary>Every way in which the program reads a batch, by the command that does.</summary>
internal static class BatchReaders
{
    /// <summary>All of them; together they read every section.</summary>
    public static IReadOnlyList<(string Command, Func<Loaded, object?> Read)> All { get; } =
    [
        ("strain", Loader.ReadSettledRun),
        ("settle", Loader.ReadSettling),
        ("risk", loaded => Loader.ReadRisk(loaded).Question),
        ("warm", Loader.ReadWarming),
        ("setpoint", loaded => Loader.ReadQuestion(loaded).Question),
        ("fill", loaded => Loader.ReadFilling(loaded, CancellationToken.None)),
        ("shelf", Loader.ReadShelf),
        ("fit", ReadFit),
    ];

    private static string? ReadFit(Loaded loaded) => Loader.Guard(loaded, () =>
    {
        FitReader.Read(new Section(Keys.Fit.Clock.Section, loaded.Document, loaded.Problems, loaded.Journal));
        return loaded.Name;
    });
}
