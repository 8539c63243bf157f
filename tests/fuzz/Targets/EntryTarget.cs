using System.Text;
using FlowSim.Commands.Input.Timed;
using FlowSim.Commands.Watching;

namespace FlowSim.Fuzz.Targets;

/// <summary>A line that somebody types beside a tank.</summary>
internal static class EntryTarget
{
    private static readonly EntryGrammar s_grammar = new([.. new[] { "time [s]", "tank level [mm]", "pond depth [in]", "receiver mass [kg]", "note" }.Select(Heading)]);

    /// <summary>Reads a line.</summary>
    /// <param name="bytes">The line.</param>
    public static string Read(byte[] bytes)
    {
        string line = Encoding.UTF8.GetString(bytes);
        string? fault = s_grammar.Read(line, out Entry entry);
        if (fault is null)
            return entry.GetType().Name + Numbers.Of(entry);
        if (string.IsNullOrWhiteSpace(fault) || fault.Any(c => char.IsControl(c) || c is '\u202E' or '\u2028'))
            throw new FuzzFindingException($"\"{line}\" is refused without a reason, or with one that steers a terminal: {fault}");
        return fault;
    }

    private static RunHeading Heading(string text) => HeadingGrammar.Read(new CsvCell(text, 1, 1), out RunHeading heading) is { } wrong ? throw new InvalidOperationException(wrong) : heading;
}
