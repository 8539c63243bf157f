using FlowSim.Commands;
using FlowSim.Commands.Watching;

namespace FlowSim.Console;

/// <summary>What lies around a process: its terminal, its environment, the disk.</summary>
internal static class ProcessSurroundings
{
    private const int Rows = 24;

    /// <summary>The surroundings of this process.</summary>
    /// <param name="output">Standard output.</param>
    /// <param name="error">Standard error.</param>
    public static Surroundings Of(TextWriter output, TextWriter error)
    {
        bool piped = System.Console.IsOutputRedirected;
        bool isDumb = string.Equals(Environment.GetEnvironmentVariable("TERM"), "dumb", StringComparison.Ordinal);
        bool plain = isDumb || !string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"));
        return new Surroundings(output, error)
        {
            Files = new DiskFiles(),
            Figures = new Figures(),
            Colour = !piped && !plain,
            ShowsProgress = !System.Console.IsErrorRedirected,
            Width = piped ? Surroundings.Widest : WindowWidth(),
            Input = new ProcessInput(),
            Keys = piped || System.Console.IsInputRedirected ? null : () => System.Console.ReadKey(intercept: true),
            DrawsOver = !piped && !isDumb,
            WindowSize = Window,
        };
    }

    private static (int Columns, int Rows) Window()
    {
        try
        {
            (int columns, int rows) = (System.Console.WindowWidth, System.Console.WindowHeight);
            return (columns <= 0 ? Surroundings.Widest : columns, rows <= 0 ? Rows : rows);
        }
        catch (Exception unknown) when (unknown is IOException or PlatformNotSupportedException)
        {
            return (Surroundings.Widest, Rows);
        }
    }

    private static int WindowWidth()
    {
        try
        {
            int width = System.Console.WindowWidth;
            return width <= 0 ? Surroundings.Widest : Math.Clamp(width - 1, Surroundings.Narrowest, Surroundings.Widest);
        }
        catch (Exception unknown) when (unknown is IOException or PlatformNotSupportedException)
        {
            return Surroundings.Widest;
        }
    }

    /// <summary>Standard input, opened when the first line is wanted: most commands want none.</summary>
    private sealed class ProcessInput : TextReader
    {
        private readonly Lazy<TextReader> _in = new(() => System.Console.In);

        public override int Peek() => _in.Value.Peek();

        public override int Read() => _in.Value.Read();

        // A terminal hands over a line at a time and keeps it short itself; character by character it would not say where one ends.
        public override string? ReadLine() => System.Console.IsInputRedirected ? BoundedLines.Read(_in.Value) : _in.Value.ReadLine();
    }
}
