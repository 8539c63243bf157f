using System.Text;

namespace FlowSim.Commands.Watching;

/// <summary>Lines of a pipe, however long: of one that no entry can be, the begin.</summary>
internal static class BoundedLines
{
    /// <summary>Longest line that is kept, characters; the grammar refuses far shorter ones.</summary>
    public const int Longest = 1000;

    /// <summary>Reads a line to its end, and keeps at most <see cref="Longest"/> characters of it.</summary>
    /// <param name="input">What is piped in.</param>
    /// <returns>The line; null when there is none.</returns>
    public static string? Read(TextReader input)
    {
        StringBuilder kept = new();
        int next = input.Read();
        if (next < 0)
            return null;
        while (next is >= 0 and not '\n')
        {
            if (kept.Length < Longest)
                kept.Append((char)next);
            next = input.Read();
        }

        return kept.ToString().TrimEnd('\r');
    }
}
