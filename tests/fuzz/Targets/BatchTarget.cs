using FlowSim.Commands.Input;

namespace FlowSim.Fuzz.Targets;

/// <summary>A batch's file, read for one of the commands that take one; nothing is simulated. The first byte chooses the command, the rest is the file.</summary>
internal static class BatchTarget
{
    private static readonly CancellationToken s_cancelled = new(canceled: true);

    private static readonly Func<Loaded, object?>[] s_readers =
    [
        Loader.ReadRun,
        Loader.ReadRisk,
        Loader.ReadWarming,
        Loader.ReadQuestion,
        Loader.ReadSettling,
        loaded => Loader.ReadFilling(loaded, s_cancelled),
        Loader.ReadShelf,
        loaded => Loader.ReadHoney(loaded).Honey,
    ];

    /// <summary>Reads a file for one command.</summary>
    /// <param name="bytes">The command, and the bytes of the file.</param>
    public static string Read(byte[] bytes) => bytes.Length == 0 || FuzzTarget.TextOf(bytes[1..]) is not { } text ? string.Empty
        : Documented(() => Numbers.Of(s_readers[bytes[0] % s_readers.Length](Loader.Load(text, "fuzzed.toml", [], more: null))));

    /// <summary>What a reader gives, or what it says in place of it.</summary>
    /// <param name="read">Reads.</param>
    public static string Documented(Func<string> read)
    {
        try
        {
            return read();
        }
        catch (BadInputException bad)
        {
            return FuzzTarget.Told(bad.Problems);
        }
        catch (Exception documented) when (documented is RefusedHoneyException or FileTroubleException or OperationCanceledException)
        {
            return documented.Message;
        }
    }
}
