using FlowSim.Commands.Output;
using FlowSim.Commands.Quantities;

namespace FlowSim.Commands.Input.Timed;

/// <summary>Reads what was noted of a run: <c>scrape</c>, <c>gate 40 %</c>, <c>open 40 %</c>, <c>shut</c>. Other remarks are for people.</summary>
internal static class NoteGrammar
{
    /// <summary>Edits by which a word alone may differ from one that is read and still be taken for a slip: two letters changed places in a word of five or more. Engineering choice.</summary>
    private static double Slips(string word) => word.Length < 5 ? 1 : 2;

    private static readonly string[] s_scrapes = ["scrape", "scraped", "scraping"];
    private static readonly string[] s_shut = ["shut", "gate shut", "closed", "gate closed", "close"];
    private static readonly string[] s_opens = ["gate", "open", "opened", "opening"];

    /// <summary>Reads a note; several are parted by semicolons.</summary>
    /// <param name="cell">Note.</param>
    /// <param name="timeS">When, s.</param>
    /// <param name="spot">Where it stands.</param>
    /// <param name="notes">Takes what was done.</param>
    /// <returns>Null, or what is wrong with it.</returns>
    public static string? Read(CsvCell cell, double timeS, Spot spot, List<RunNote> notes)
    {
        foreach (string part in cell.Text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            string text = part.TrimEnd('.', '!').ToLowerInvariant();
            if (s_scrapes.Contains(text, StringComparer.Ordinal))
                notes.Add(new RunNote(timeS, null, spot));
            else if (s_shut.Contains(text, StringComparer.Ordinal))
                notes.Add(new RunNote(timeS, 0, spot));
            else if (OpeningOf(part) is { } written)
            {
                if (QuantityGrammar.Read(written, Dimension.Share, out Quantity share) is { } fault)
                    return $"\"{Printable.Of(part)}\": \"{Printable.Of(written)}\" {fault.What}; an opening is noted as \"gate 40 %\"";
                if (share.Si > 1)
                    return $"\"{Printable.Of(part)}\" opens the gate further than it goes; allowed: 0 to 100 %";
                notes.Add(new RunNote(timeS, share.Si, spot));
            }
            else if (SlipOf(text) is { } meant)
            {
                return $"\"{Printable.Of(part)}\" is not a note that is read; nearest: \"{meant}\"; a remark for people is written in more than one word";
            }
        }

        return null;
    }

    /// <summary>The opening as written behind "gate" or "open"; null where no number follows.</summary>
    private static string? OpeningOf(string part)
    {
        string[] words = part.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        int at = 0;
        while (at < words.Length && (s_opens.Contains(words[at].ToLowerInvariant(), StringComparer.Ordinal) || (at > 0 && words[at] is "to" or "at" or "=")))
            at++;
        return at > 0 && at < words.Length && (char.IsAsciiDigit(words[at][0]) || words[at][0] is '.' or '-' or '+') ? string.Join(' ', words[at..]) : null;
    }

    private static string? SlipOf(string text)
    {
        if (text.Contains(' ', StringComparison.Ordinal) || text.Length < 3)
            return s_opens.Contains(text, StringComparer.Ordinal) ? "gate 40 %" : null;
        if (s_opens.Contains(text, StringComparer.Ordinal))
            return "gate 40 %";
        string nearest = Spelling.Nearest(text, [.. s_scrapes, .. s_shut])!;
        return Spelling.Distance(text, nearest) <= Slips(text) ? nearest : null;
    }
}
