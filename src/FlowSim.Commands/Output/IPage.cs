namespace FlowSim.Commands.Output;

/// <summary>Takes what is told of an answer. Writers say what a thing is; how it looks is the page's.</summary>
internal interface IPage
{
    /// <summary>Ends what belongs together.</summary>
    void Blank();

    /// <summary>Begins a part.</summary>
    /// <param name="text">Heading.</param>
    /// <param name="part">Part of the answer.</param>
    void Heading(string text, PagePart part = PagePart.More);

    /// <summary>A line over the pairs that follow.</summary>
    /// <param name="name">What stands on their left.</param>
    /// <param name="value">What stands on their right; empty for nothing.</param>
    /// <param name="column">Column of the value.</param>
    void Caption(string name, string value = "", int column = 0);

    /// <summary>The outcome, coloured by how bad it is; the words say it too.</summary>
    /// <param name="text">Text; capitals up to a colon are its verdict.</param>
    /// <param name="bad">Whether something ran over or stopped.</param>
    void Outcome(string text, bool bad);

    /// <summary>A paragraph with a mark in front: none, a sign of a list, or two spaces for what goes on with the item before.</summary>
    /// <param name="mark">Mark, such as "- ".</param>
    /// <param name="text">Text.</param>
    void Item(string mark, string text);

    /// <summary>What to do, one thing after the other.</summary>
    /// <param name="steps">Steps.</param>
    void Steps(IReadOnlyList<string> steps);

    /// <summary>A name and a value.</summary>
    /// <param name="name">Name.</param>
    /// <param name="value">Value.</param>
    /// <param name="column">Column of the value.</param>
    void Pair(string name, string value, int column);

    /// <summary>A table.</summary>
    /// <param name="table">Table.</param>
    void Table(TextTable table);

    /// <summary>What is done when, and by whom.</summary>
    /// <param name="caption">What it shows, where there is room to say it.</param>
    /// <param name="lines">Lines, in order.</param>
    void Agenda(string caption, IReadOnlyList<AgendaLine> lines);

    /// <summary>What was taken in the place of something that nobody gave.</summary>
    /// <param name="text">What was taken.</param>
    /// <param name="standing">How far it can be trusted.</param>
    /// <param name="key">What replaces it; empty for nothing.</param>
    void Assumed(string text, Standing standing, string key);

    /// <summary>A notice.</summary>
    /// <param name="seen">What was seen.</param>
    /// <param name="mayMean">What it may mean.</param>
    /// <param name="helps">What helps.</param>
    void Notice(string seen, string mayMean, string helps);

    /// <summary>A reminder for those at work.</summary>
    /// <param name="text">What to mind.</param>
    /// <param name="source">Where the limit comes from.</param>
    void Caution(string text, Source source);

    /// <summary>Lines of a file, as they are to stand there.</summary>
    /// <param name="text">Lines.</param>
    void Verbatim(string text);
}

/// <summary>Parts of an answer.</summary>
internal enum PagePart
{
    /// <summary>The result.</summary>
    Result,

    /// <summary>What to do next.</summary>
    Next,

    /// <summary>What the answer is for.</summary>
    Setup,

    /// <summary>What to mind at work.</summary>
    Mind,

    /// <summary>Figures of the answer.</summary>
    More,

    /// <summary>Notices.</summary>
    Notices,

    /// <summary>What was assumed.</summary>
    Assumed,
}
