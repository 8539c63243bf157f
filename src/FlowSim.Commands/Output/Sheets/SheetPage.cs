using FlowSim.RunSheets;

namespace FlowSim.Commands.Output.Sheets;

/// <summary>A page that becomes a run sheet: it takes what the writers of the terminal say, part by part, and puts the answer first.</summary>
internal sealed class SheetPage : IPage
{
    private const int LongestVerdict = 50;
    private const char NoBreak = '\u00A0';

    private readonly List<Part> _parts = [];
    private Part? _current;
    private SheetOutcome? _outcome;

    public void Blank() => _current = null;

    public void Heading(string text, PagePart part = PagePart.More) => Begin(part, text);

    public void Caption(string name, string value = "", int column = 0) =>
        Add(new PairsBlock(value.Length == 0 ? Kept(name) : $"{Kept(name)}: {Kept(value)}", []));

    public void Outcome(string text, bool bad)
    {
        int colon = text.IndexOf(": ", StringComparison.Ordinal);
        bool verdict = colon is > 0 and <= LongestVerdict && !text[..colon].Any(char.IsLower);
        _outcome = verdict ? new SheetOutcome(Kept(text[..colon]), Kept(Capital(text[(colon + 2)..])), bad) : new SheetOutcome(Kept(text), string.Empty, bad);
    }

    public void Item(string mark, string text)
    {
        if (mark.Length == 0)
            Add(new ParagraphBlock(Kept(text)));
        else if (string.IsNullOrWhiteSpace(mark) && _current is { Blocks: [.., ListBlock list] } part)
            part.Blocks[^1] = list with { Items = [.. list.Items.SkipLast(1), list.Items[^1] + " " + Kept(text)] };
        else
            Add(new ListBlock([Kept(text)]));
    }

    public void Steps(IReadOnlyList<string> steps) => Add(new ListBlock([.. steps.Select(Kept)], Numbered: true));

    public void Pair(string name, string value, int column) => Add(new PairsBlock(string.Empty, [new SheetPair(Kept(name), Kept(value))]));

    public void Table(TextTable table)
    {
        int[] shown = [.. Enumerable.Range(0, table.Columns.Count).Where(column => !table.Columns[column].Pictures)];
        Add(new TableBlock(
            Kept(table.Caption),
            [.. shown.Select(column => new TableColumn(Kept(table.Columns[column].Spoken ?? table.Columns[column].Head), table.Columns[column].Right))],
            [.. table.Rows.Select(row => new TableRow([.. (row.Cells.Count < table.Columns.Count ? row.Cells : shown.Select(column => row.Cells[column])).Select(Kept)], row.Chosen))]));
    }

    public void Agenda(string caption, IReadOnlyList<AgendaLine> lines) => Add(new TableBlock(
        Kept(caption),
        [new TableColumn("from"), new TableColumn("to"), new TableColumn("who"), new TableColumn("what"), new TableColumn("slack")],
        [.. lines.Select(line => new TableRow([.. new[] { line.From, line.To, line.Who, line.What, line.Slack }.Select(Kept)]))]));

    public void Assumed(string text, Standing standing, string key) => Add(new AssumptionsBlock([new SheetAssumption(Kept(text), StandingText.Of(standing), key)]));

    public void Notice(string seen, string mayMean, string helps) => Add(new NoticesBlock([new SheetNotice(Kept(seen), Kept(mayMean), Kept(helps))]));

    public void Caution(string text, Source source) =>
        Add(new CautionsBlock([new SheetCaution(Kept(text), source.Standing == Standing.CommonPractice ? string.Empty : $"({source.Citation}; {StandingText.Of(source.Standing)})")]));

    public void Verbatim(string text) => Add(new VerbatimBlock(string.Empty, text));

    /// <summary>The sheet of what was taken.</summary>
    /// <param name="title">What it is about.</param>
    /// <param name="watch">Numbers to keep in sight.</param>
    /// <param name="figures">Figures.</param>
    /// <param name="made">By what it was made.</param>
    public RunSheet Sheet(string title, IReadOnlyList<WatchNumber> watch, IReadOnlyList<FigureBlock> figures, Provenance made)
    {
        SheetSection[] first =
        [
            .. watch.Count == 0 ? (SheetSection[])[] : [new SheetSection("Keep in sight", [new WatchBlock([.. watch.Select(number => new WatchNumber(number.Label, Kept(number.Value), Kept(number.Note)))])])],
            .. Of(PagePart.Next),
        ];
        return new RunSheet
        {
            Title = title,
            Outcome = _outcome ?? new SheetOutcome(title, string.Empty, IsBad: false),
            First = first,
            Rest =
            [
                .. Of(PagePart.Mind),
                .. Of(PagePart.Setup, "What it is for"),
                .. Of(PagePart.Result, "The result in full"),
                .. Of(PagePart.Notices),
                .. figures.Count == 0 ? (SheetSection[])[] : [new SheetSection(figures.Count == 1 ? "Chart" : "Charts", [.. figures])],
                .. Of(PagePart.More),
                .. Of(PagePart.Assumed),
                new SheetSection("How this sheet was made", made.Blocks),
            ],
            Colophon = made.Colophon,
        };
    }

    /// <summary>Text whose lines may break as on the terminal, where a number keeps its unit, and not after a sign that belongs to a number.</summary>
    private static string Kept(string text) => string.Join(' ', WholeWords.Of(text).Select(word => word.Replace(' ', NoBreak)))
        .Replace("± ", "±" + NoBreak, StringComparison.Ordinal)
        .Replace("÷ ", "÷" + NoBreak, StringComparison.Ordinal);

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private void Begin(PagePart part, string heading)
    {
        _current = new Part(part, heading);
        _parts.Add(_current);
    }

    /// <summary>Adds to the part that is open; what follows the end of one is a figure of the answer.</summary>
    private void Add(SheetBlock block)
    {
        if (_current is null)
            Begin(PagePart.More, string.Empty);
        List<SheetBlock> blocks = _current!.Blocks;
        SheetBlock? joined = blocks.Count == 0 ? null : Joined(blocks[^1], block);
        if (joined is null)
            blocks.Add(block);
        else
            blocks[^1] = joined;
    }

    /// <summary>Two neighbours as one; null where they stay apart.</summary>
    private static SheetBlock? Joined(SheetBlock before, SheetBlock block) => (before, block) switch
    {
        (ListBlock { Numbered: false } one, ListBlock { Numbered: false } other) => one with { Items = [.. one.Items, .. other.Items] },
        (PairsBlock one, PairsBlock { Caption.Length: 0 } other) => one with { Pairs = [.. one.Pairs, .. other.Pairs] },
        (AssumptionsBlock one, AssumptionsBlock other) => new AssumptionsBlock([.. one.Assumptions, .. other.Assumptions]),
        (NoticesBlock one, NoticesBlock other) => new NoticesBlock([.. one.Notices, .. other.Notices]),
        (CautionsBlock one, CautionsBlock other) => new CautionsBlock([.. one.Cautions, .. other.Cautions]),
        _ => null,
    };

    /// <summary>The sections of a part; those that have no heading of their own stand together.</summary>
    private IEnumerable<SheetSection> Of(PagePart part, string? heading = null)
    {
        Part[] ours = [.. _parts.Where(one => one.Kind == part && one.Blocks.Count > 0)];
        SheetBlock[] nameless = [.. ours.Where(one => heading is not null || one.Heading.Length == 0).SelectMany(one => one.Blocks)];
        if (nameless.Length > 0)
            yield return new SheetSection(heading ?? "In numbers", nameless);
        foreach (Part named in ours.Where(one => heading is null && one.Heading.Length > 0))
            yield return new SheetSection(Kept(named.Heading), named.Blocks);
    }

    private sealed record Part(PagePart Kind, string Heading)
    {
        public List<SheetBlock> Blocks { get; } = [];
    }
}
