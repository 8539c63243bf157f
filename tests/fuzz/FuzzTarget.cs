using FlowSim.Commands.Input;
using FlowSim.Fuzz.Targets;

namespace FlowSim.Fuzz;

/// <summary>A reader that is fed with any bytes.</summary>
/// <param name="Name">Name, and that of its corpus.</param>
/// <param name="Read">Reads, throwing what the reader documents and nothing else, and says in a text all that came of it.</param>
internal sealed record FuzzTarget(string Name, Func<byte[], string> Read)
{
    /// <summary>All targets.</summary>
    public static IReadOnlyList<FuzzTarget> All { get; } =
    [
        new("batch", BatchTarget.Read),
        new("table", TableTarget.Read),
        new("quantity", QuantityTarget.Read),
        new("day", DayTarget.Read),
        new("entry", EntryTarget.Read),
        new("request", RequestTarget.Read),
    ];

    /// <summary>Reads some bytes twice.</summary>
    /// <param name="bytes">Bytes.</param>
    /// <exception cref="FuzzFindingException">A property does not hold.</exception>
    public void Run(byte[] bytes)
    {
        string once = Read(bytes);
        string twice = Read(bytes);
        if (once != twice)
            throw new FuzzFindingException($"read twice, it reads differently:\n{once}\n{twice}");
    }

    /// <summary>The text of a file, as the program decodes it; null when that refuses it.</summary>
    /// <param name="bytes">Bytes of the file.</param>
    public static string? TextOf(byte[] bytes)
    {
        try
        {
            return InputFile.Decode(bytes, "fuzzed");
        }
        catch (FileTroubleException)
        {
            return null;
        }
    }

    /// <summary>What is wrong, as text; each problem says where and what.</summary>
    /// <param name="problems">Problems.</param>
    /// <exception cref="FuzzFindingException">One does not.</exception>
    public static string Told(Problems problems)
    {
        foreach (Problem problem in problems.All)
        {
            if (string.IsNullOrWhiteSpace(problem.Spot.Source) || problem.Spot.Line < 0 || (problem.Spot.Line > 0 && problem.Spot.Column < 1) || string.IsNullOrWhiteSpace(problem.What))
                throw new FuzzFindingException($"a problem without place or reason: {problem}");
            if (problem.ToString().Any(c => char.IsControl(c) || c is '\u202E' or '\u2028' or '\u200B'))
                throw new FuzzFindingException($"a message that steers a terminal: {problem}");
        }

        return string.Join('\n', problems.All);
    }
}
