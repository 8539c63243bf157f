namespace FlowSim.Docs;

/// <summary>A line of an example file that gives a key.</summary>
/// <param name="Section">Section it stands in.</param>
/// <param name="Key">Key.</param>
/// <param name="Value">Value as TOML.</param>
/// <param name="Remark">What stands behind it; may be empty.</param>
/// <param name="IsActive">Whether it is read, and not commented out.</param>
/// <param name="Number">Number of the line from 0.</param>
internal sealed record DemoLine(string Section, string Key, string Value, string Remark, bool IsActive, int Number)
{
    /// <summary>Every such line of a file, in order.</summary>
    /// <param name="toml">The example.</param>
    public static IReadOnlyList<DemoLine> Of(string toml)
    {
        List<DemoLine> lines = [];
        string section = string.Empty;
        foreach ((int number, string raw) in toml.Split('\n').Index())
        {
            if (raw.StartsWith('['))
                section = raw.Trim('[', ']', ' ');
            bool active = !raw.StartsWith('#');
            string line = active ? raw : raw[1..].TrimStart();
            int equals = line.IndexOf(" = ", StringComparison.Ordinal);
            string key = equals < 0 ? string.Empty : line[..equals].Trim('"');
            if (key.Length == 0 || !key.All(c => char.IsAsciiLetterLower(c) || c is '_' or '.'))
                continue;
            string rest = line[(equals + 3)..];
            int end = EndOf(rest);
            lines.Add(new DemoLine(section, key, rest[..end], rest[end..].Trim().TrimStart('#').Trim(), active, number));
        }

        return lines;
    }

    /// <summary>Where the value at the begin of a text ends.</summary>
    private static int EndOf(string text)
    {
        int depth = 0;
        bool quoted = false;
        for (int i = 0; i < text.Length; i++)
        {
            quoted ^= text[i] == '"';
            depth += quoted ? 0 : text[i] switch { '[' => 1, ']' => -1, _ => 0 };
            if (!quoted && depth == 0 && (text[i] is '"' or ']' || i + 1 == text.Length || text[i + 1] == ' '))
                return i + 1;
        }

        return text.Length;
    }
}
