using FlowSim.Commands.Input;

namespace FlowSim.Fuzz.Targets;

/// <summary>A day's file. The files of its batches lie in no folder, and their models are not run.</summary>
internal static class DayTarget
{
    private const string Nowhere = "/nowhere/fuzzed.toml";

    private static readonly CancellationToken s_cancelled = new(canceled: true);

    /// <summary>Reads a day.</summary>
    /// <param name="bytes">Bytes of the file.</param>
    public static string Read(byte[] bytes) => FuzzTarget.TextOf(bytes) is not { } text ? string.Empty
        : BatchTarget.Documented(() => Numbers.Of(DayReader.Read(Loader.LoadDay(text, Nowhere), Nowhere, pace: null, s_cancelled)));
}
