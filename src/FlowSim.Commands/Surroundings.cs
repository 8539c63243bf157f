using FlowSim.Commands.Input;
using FlowSim.Commands.Output;

namespace FlowSim.Commands;

/// <summary>All that a command knows of the world around it: where it writes, what is typed, its files, who draws its figures, and the clock. A command touches nothing else.</summary>
/// <param name="output">Results.</param>
/// <param name="error">Messages.</param>
internal sealed class Surroundings(TextWriter output, TextWriter error)
{
    /// <summary>Widest text, columns.</summary>
    public const int Widest = 80;

    /// <summary>Narrowest width that text is folded to.</summary>
    public const int Narrowest = 40;

    public TextWriter Output { get; } = output;

    public TextWriter Error { get; } = error;

    /// <summary>Takes what <c>--json</c> asks for.</summary>
    public TextWriter Json { get; init; } = output;

    /// <summary>Takes each thing that is wrong with usage or input, beside what is written of it; null when nobody asks.</summary>
    public ICollection<Problem>? Wrong { get; init; }

    /// <summary>Files that are read and written.</summary>
    public IFiles Files { get; init; } = new NamedTexts();

    /// <summary>Draws figures; null where none are drawn.</summary>
    public IFigures? Figures { get; init; }

    /// <summary>Tells the time and the day.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

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

    /// <summary>Draws figures.</summary>
    /// <exception cref="FileTroubleException">Nobody draws here; <see cref="Outputs"/> refuses earlier.</exception>
    public IFigures Drawing => Figures ?? throw new FileTroubleException("no figures are drawn here");
}
