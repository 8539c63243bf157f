using System.Text;

namespace FlowSim.Console;

/// <summary>A writer for messages: when nobody can be told, that does not change what the program does or returns.</summary>
/// <param name="inner">Where messages go.</param>
internal sealed class ForgivingWriter(TextWriter inner) : TextWriter
{
    public override Encoding Encoding => inner.Encoding;

    public override void Write(char value) => Try(() => inner.Write(value));

    public override void Write(string? value) => Try(() => inner.Write(value));

    public override void Flush() => Try(inner.Flush);

    /// <summary>Whether an exception says that a stream is closed, full or not to be written.</summary>
    /// <param name="exception">Exception.</param>
    public static bool IsStreamTrouble(Exception exception) =>
        exception is IOException or UnauthorizedAccessException or ObjectDisposedException;

    private static void Try(Action write)
    {
        try
        {
            write();
        }
        catch (Exception trouble) when (IsStreamTrouble(trouble))
        {
            // Closed or full.
        }
    }
}
