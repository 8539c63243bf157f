namespace FlowSim.Commands.Output;

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

    /// <summary>What is typed or piped in.</summary>
    public TextReader Input { get; init; } = TextReader.Null;

    /// <summary>Reads a key without showing it; null when nobody sits at a keyboard.</summary>
    public Func<ConsoleKeyInfo>? Keys { get; init; }

    /// <summary>Whether what was written can be written over, at any place.</summary>
    public bool DrawsOver { get; init; }

    /// <summary>Columns and rows of the window as it is now.</summary>
    public Func<(int Columns, int Rows)> WindowSize { get; init; } = () => (Widest, 24);

    /// <summary>The terminal of this process.</summary>
    /// <param name="output">Standard output.</param>
    /// <param name="error">Standard error.</param>
    public static Terminal OfProcess(TextWriter output, TextWriter error)
    {
        bool piped = Console.IsOutputRedirected;
        bool plain = !string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"))
            || string.Equals(Environment.GetEnvironmentVariable("TERM"), "dumb", StringComparison.Ordinal);
        return new Terminal(output, error)
        {
            Colour = !piped && !plain,
            ShowsProgress = !Console.IsErrorRedirected,
            Width = piped ? Widest : WindowWidth(),
            Input = new ProcessInput(),
            Keys = piped || Console.IsInputRedirected ? null : () => Console.ReadKey(intercept: true),
            DrawsOver = !piped && !string.Equals(Environment.GetEnvironmentVariable("TERM"), "dumb", StringComparison.Ordinal),
            WindowSize = Window,
        };
    }

    private static (int Columns, int Rows) Window()
    {
        try
        {
            (int columns, int rows) = (Console.WindowWidth, Console.WindowHeight);
            return (columns <= 0 ? Widest : columns, rows <= 0 ? 24 : rows);
        }
        catch (Exception unknown) when (unknown is IOException or PlatformNotSupportedException)
        {
            return (Widest, 24);
        }
    }

    private static int WindowWidth()
    {
        try
        {
            int width = Console.WindowWidth;
            return width <= 0 ? Widest : Math.Clamp(width - 1, Narrowest, Widest);
        }
        catch (Exception unknown) when (unknown is IOException or PlatformNotSupportedException)
        {
            return Widest;
        }
    }

    /// <summary>Standard input, opened when the first line is wanted: most commands want none.</summary>
    private sealed class ProcessInput : TextReader
    {
        private readonly Lazy<TextReader> _in = new(() => Console.In);

        public override int Peek() => _in.Value.Peek();

        public override int Read() => _in.Value.Read();

        public override string? ReadLine() => _in.Value.ReadLine();
    }
}
