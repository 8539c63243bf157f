using FlowSim.Commands;
using FlowSim.Commands.Input;

namespace FlowSim.Fuzz.Targets;

/// <summary>A day's file. Files of batches do not exist, and models are not run.</summary>
internal static class DayTarget
{
    private const string Name = "fuzzed.toml";

    private static readonly CancellationToken s_cancelled = new(canceled: true);

    /// <summary>Reads a day.</summary>
    /// <param name="bytes">Bytes of the file.</param>
    public static string Read(byte[] bytes) => FuzzTarget.TextOf(bytes) is not { } text ? string.Empty
        : BatchTarget.Documented(() => Numbers.Of(DayReader.Read(new NamedTexts(), Loader.LoadDay(text, Name), Name, pace: null, s_cancelled)));
}
