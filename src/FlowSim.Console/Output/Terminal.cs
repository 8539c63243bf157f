namespace FlowSim.Console.Output;

/// <summary>Where a command writes.</summary>
/// <param name="output">Results.</param>
/// <param name="error">Messages.</param>
internal sealed class Terminal(TextWriter output, TextWriter error)
{
    /// <summary>Widest text, columns.</summary>
    public const int Widest = 80;

    /// <summary>Narrowest width that text is folded to.</summary>
    public const int Narrowest = 40;

    public TextWriter Output { get; } = output;

    public TextWriter Error { get; } = error;

    /// <summary>Whether colour may be used. It never carries meaning alone.</summary>
    public bool Colour { get; init; }

    /// <summary>Whether messages go to a terminal, where a line may be written over. Nothing is written of progress otherwise.</summary>
    public bool ShowsProgress { get; init; }

    /// <summary>Columns that text is folded to.</summary>
    public int Width { get; init; } = Widest;

    /// <summary>The terminal of this process.</summary>
    /// <param name="output">Standard output.</param>
    /// <param name="error">Standard error.</param>
    public static Terminal OfProcess(TextWriter output, TextWriter error)
    {
        bool piped = global::System.Console.IsOutputRedirected;
        bool plain = !string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"))
            || string.Equals(Environment.GetEnvironmentVariable("TERM"), "dumb", StringComparison.Ordinal);
        return new Terminal(output, error)
        {
            Colour = !piped && !plain,
            ShowsProgress = !global::System.Console.IsErrorRedirected,
            Width = piped ? Widest : WindowWidth(),
        };
    }

    private static int WindowWidth()
    {
        try
        {
            int width = global::System.Console.WindowWidth;
            return width <= 0 ? Widest : Math.Clamp(width - 1, Narrowest, Widest);
        }
        catch (Exception unknown) when (unknown is IOException or PlatformNotSupportedException)
        {
            return Widest;
        }
    }
}
